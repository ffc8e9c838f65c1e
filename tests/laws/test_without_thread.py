"""Laws of the ends without a thread: flange, ring eye, washer, plug, socket are told apart."""

import pytest

from identify.interview.session import Observed, replay
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, SEEN, SIZES, VAGUE, Feature, agrees, applies
from identify.model.reading import Choice, How, Reading
from identify.model.rule import Access
from identify.reading.consistency import implied_gender, with_gender
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import alone
from identify.reasoning.suspects import contradicting, suspects
from tests.ideal import ideal_readings
from tests.shipped import knowledge, shipped_engine

ENDS = knowledge().catalogue.ends
BARE = [end for end in ENDS if end.seen_as not in ("male", "female")]
"""Rows to which nothing is screwed that could be measured on them."""


@pytest.fixture(scope="module")
def engine() -> Engine:
    return shipped_engine()


def answer(word: str) -> Reading:
    return Reading(Feature.GENDER, Choice(word), How.EYE, word)


def told_of(end: EndConnection, word: str) -> tuple[Reading, ...]:
    """Return the ideal readings of an end that an interview takes after an answer of gender."""
    thread = knowledge().catalogue.thread_of(end, end.seats[0].thread)
    sizes = (
        each
        for each in ideal_readings(end, end.seats[0], thread)
        if each.feature is not Feature.GENDER and applies(each.feature, word)
    )
    return (answer(word), *sizes)


def test_the_tables_hold_every_kind_that_can_be_answered() -> None:
    assert {end.seen_as for end in ENDS} == set(SEEN) - {VAGUE}
    assert all(SEEN[end.seen_as].gender == end.gender for end in ENDS)
    assert len(BARE) > 150
    for end in BARE:
        assert end.thread is None or end.seen_as in ("eye", "washer"), end.id


@pytest.mark.parametrize("end", BARE, ids=lambda end: end.id)
def test_the_right_answer_and_its_sizes_lead_to_the_row(end: EndConnection, engine: Engine) -> None:
    row = ENDS.index(end)
    readings = told_of(end, end.seen_as)
    assert len(readings) > 1
    assert with_gender(readings) == readings
    state = engine.posterior(readings)
    head, _, joined = engine.groups(state, 1)[0]
    assert row in (head, *joined), ENDS[head].id


@pytest.mark.parametrize("end", BARE, ids=lambda end: end.id)
def test_no_true_answer_is_called_a_mistake(end: EndConnection, engine: Engine) -> None:
    row, limit = ENDS.index(end), engine.book.limits.suspect
    true = [word for word in SEEN if agrees(word, end.seen_as)]
    assert len(true) == (1 if end.seen_as == "flange" else 2 + (end.gender != VAGUE))
    for word in true:
        readings = told_of(end, word)
        state = engine.posterior(readings)
        assert Feature.GENDER not in contradicting(state, row, limit), word
        found = suspects(state, limit, engine.weigh)
        assert Feature.GENDER not in {each.reading.feature for each in found}, word
        row_words = next(
            each.sentence for each in engine.ranked(state, [(row, 1.0, ())])[0].evidence
            if each.feature is Feature.GENDER
        )  # fmt: skip
        assert row_words == f"{word} is what it shows"


@pytest.mark.parametrize("word", sorted(set(SEEN) - {VAGUE, "male", "female"}))
def test_a_false_answer_is_called_one(word: str, engine: Engine) -> None:
    """With every size of another end it is the answer that does not agree."""
    other = next(end for end in BARE if not agrees(word, end.seen_as) and end.sizes)
    readings = (answer(word), *told_of(other, other.seen_as)[1:])
    found = suspects(engine.posterior(readings), 0.5, engine.weigh)
    assert Feature.GENDER in {each.reading.feature for each in found}


@pytest.mark.parametrize("word", sorted(set(SEEN) - {VAGUE}))
def test_nothing_is_asked_that_such_an_end_has_not(word: str, engine: Engine) -> None:
    """Whatever is given up, in an interview and in a ranking, to the end of the questions."""
    asked: set[Feature] = set()
    while True:
        situation = Situation(frozenset(engine.chooser.questions[Feature.PITCH].tools), given_up=(
            frozenset(asked)))  # fmt: skip
        verdict = engine.conclude((answer(word),), situation)
        beyond = verdict.beyond.question if verdict.beyond else None
        for question in filter(None, (verdict.question, beyond)):
            assert applies(question.feature, word), question.feature
        if verdict.question is None:
            break
        asked.add(verdict.question.feature)
    own = {size for size in SIZES if FEATURES[size].genders and word in FEATURES[size].genders}
    assert not asked & (set(SIZES) - own)
    assert len(asked) > 1


@pytest.mark.parametrize(
    ("word", "other"),
    [("eye", Feature.RING_ID), ("washer", Feature.EYE_BORE), ("plug", Feature.SOCKET_BORE),
     ("socket", Feature.PLUG_OD), ("plug", Feature.THREAD_OD), ("eye", Feature.SEAT_ANGLE)],
)  # fmt: skip
def test_what_it_has_not_is_set_aside_in_an_interview(word: str, other: Feature) -> None:
    size = next(
        each
        for end in ENDS
        for each in ideal_readings(end, end.seats[0], knowledge().catalogue.thread_of(end))
        if each.feature is other
    )
    state = replay((Observed(size), Observed(answer(word))))
    assert state.set_aside == (size,)
    vague = replay((Observed(size), Observed(answer(VAGUE))))
    assert (vague.set_aside == ()) is applies(other, VAGUE)


def test_no_thread_stays_an_answer_after_which_all_of_them_are_asked(engine: Engine) -> None:
    state = engine.posterior((answer(VAGUE),))
    tools, access = frozenset(engine.chooser.questions[Feature.RING_ID].tools), Access.END_OFF
    openings = engine.chooser.openings(state, (), tools, access)
    offered = {each.text.feature for each in alone(openings.all(), engine.chooser.gains)}
    assert {
        Feature.EYE_BORE,
        Feature.RING_ID,
        Feature.PLUG_OD,
        Feature.SOCKET_BORE,
    } <= offered
    assert implied_gender((answer(VAGUE),)) == VAGUE
