"""Steps and jobs as hypothesis draws them."""

import string

from hypothesis import strategies as st

from identify.interview.session import (
    Again,
    Claimed,
    Enough,
    GivenUp,
    Observed,
    Reached,
    Unclaimed,
    Withdrawn,
)
from identify.jobs.facts import (
    LONGEST_TEXT,
    SHAPES,
    Back,
    Concluded,
    Corrected,
    Discarded,
    Fate,
    Field,
    Finished,
    Named,
    Noted,
    Place,
    Reopened,
    Settled,
)
from identify.model.feature import Feature
from identify.model.rule import Access
from identify.model.verdict import VerdictKind
from identify.reading.parse import parse_reading

TYPED = (
    "gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "pitch=6 gaps over 9.05 mm",
    "seat_angle=37 deg half", "taper=0.5 mm over 8 mm", "hex=27 mm by rule", "marking=12L",
    "trial_fit=G 1/2 female: loose",
)  # fmt: skip
readings = st.sampled_from(TYPED).map(parse_reading)
features = st.sampled_from(sorted(Feature))
moments = st.just("2026-11-26T08:30:00Z")
words = st.text(string.ascii_letters + string.digits + " /.-", max_size=20)
said = st.text("abJIC08é /.=", max_size=40).map(lambda text: " ".join(text.split()))
claims = st.builds(
    Claimed, said.filter(bool), said, moments, st.lists(words, max_size=3).map(tuple), said
)
answers = st.one_of(
    claims,
    said.filter(bool).map(Unclaimed),
    readings.map(Observed),
    readings.map(Again),
    features.map(GivenUp),
    features.map(Enough),
    features.map(Withdrawn),
    st.sampled_from(sorted(Access)).map(Reached),
)
texts = st.text(max_size=40) | st.sampled_from(
    ("", "Hill Farm", "Müller", "=1+1", "\x1b[2J", "a\nb", "\u202e", "\x00", "x" * LONGEST_TEXT)
)  # fmt: skip
named = st.builds(Named, words, texts, words, st.floats(0, 1))
free = sorted(set(Field) - {Field.QUANTITY, Field.SHAPE})
facts = st.one_of(
    st.builds(Noted, st.sampled_from(free), texts),
    st.sampled_from(("", *SHAPES)).map(lambda shape: Noted(Field.SHAPE, shape)),
    st.integers(1, 9999).map(lambda count: Noted(Field.QUANTITY, str(count))),
    st.builds(
        Concluded, st.sampled_from(sorted(VerdictKind)), texts,
        st.lists(named, max_size=3).map(tuple), words, words, words, moments,
    ),
    st.builds(Settled, st.sampled_from(sorted(Fate)), texts, moments),
    st.builds(Corrected, words, texts, texts, texts, texts, moments),
    st.sampled_from((Back(), Finished(), Reopened(), Discarded())),
)  # fmt: skip
places = st.builds(Place, st.integers(1, 3), st.sampled_from("AB"))
entries = st.lists(st.tuples(places, answers | facts), max_size=12).map(tuple)
