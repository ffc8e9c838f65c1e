"""Readings as they are typed: names, values, how taken, gender implied, messages."""

import contextlib
import time
import timeit

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.errors import ReadingError
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Slope,
    Trial,
)
from identify.reading.consistency import gathered, implied_gender, with_gender
from identify.reading.manner import HOW_WORDS, how_of, how_words
from identify.reading.parse import (
    parse_reading,
    parse_readings,
    reading_from,
)

LENGTHS = [feature for feature in Feature if FEATURES[feature].kind is Kind.LENGTH]
CHOICES = [feature for feature in Feature if FEATURES[feature].kind is Kind.CHOICE]


# --- values and how they were taken --------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "value", "how"),
    [
        ("thread_od=20.9 mm", Length(20.9), How.CALIPER),
        ("thread-od: 20.9 mm", Length(20.9), How.CALIPER),
        (" Thread OD = 20.9 mm ", Length(20.9), How.CALIPER),
        ("thread_od=20.9 mm by rule", Length(20.9), How.RULE),
        ("thread_od=20.9 mm, by the ruler", Length(20.9), How.RULE),
        ("thread_od=20.9 mm by a Calliper", Length(20.9), How.CALIPER),
        ("thread_od=between 20 and 22 mm by eye", Length(21, 1), How.EYE),
        ('thread_od=13/16"', Length(20.6375), How.CALIPER),
        ('thread_od="20.9 mm"', Length(20.9), How.CALIPER),
        ('thread_od="13/16""', Length(20.6375), How.CALIPER),
        ("thread_od=20.9 mm by comb page", Length(20.9), How.COMBS),
        ("pitch=1.5 mm", Pitch(1.5), How.GAUGE),
        ("pitch=12.7 tpi by gauge", Pitch(2, inch=True), How.GAUGE),
        ("pitch=10 pitches = 13.4 mm", Pitch(1.34, pitches=10), How.COUNTED),
        ("pitch=10 pitches = 13.4 mm by rule", Pitch(1.34, pitches=10), How.RULE),
        ("pitch=12.7 tpi counted", Pitch(2, inch=True, pitches=12.7), How.COUNTED),
        ("seat_angle=37 deg half", Angle(37, Basis.HALF), How.GAUGE),
        ("seat_angle=74 included by protractor", Angle(74, Basis.INCLUDED), How.PROTRACTOR),
        ("seat_angle=10 and 16 mm, 3 mm apart", Angle(45, Basis.HALF, 3), How.CALIPER),
        ("seat_angle=16 and 10 mm, 3 mm apart by caliper", Angle(45, Basis.HALF, 3), How.CALIPER),
        ("taper=parallel", Choice("parallel"), How.EYE),
        ("taper=tapered by gauge", Choice("tapered"), How.GAUGE),
        ("taper=0.5 mm over 8 mm", Slope(0.5, 8), How.CALIPER),
        ("taper=0.5 mm over 8 mm by rule", Slope(0.5, 8), How.RULE),
        ("gender=male", Choice("male"), How.EYE),
        ("gender=f", Choice("female"), How.EYE),
        ("gender=banjo", Choice("eye"), How.EYE),
        ("gender=sealing ring", Choice("washer"), How.EYE),
        ("gender=Spigot", Choice("plug"), How.EYE),
        ("gender=plain socket", Choice("socket"), How.EYE),
        ("flank_angle=60 deg by gauge", Choice("60"), How.GAUGE),
        ("flank_angle=55°", Choice("55"), How.EYE),
        ("hand=LH", Choice("left"), How.EYE),
        ("seat_shape=internal cone", Choice("concave"), How.EYE),
        ("o_ring=no", Choice("none"), How.EYE),
        ("o-ring=face", Choice("face"), How.EYE),
        ("origin=north america", Choice("north-america"), How.EYE),
        ("origin=north_america", Choice("north-america"), How.EYE),
        ("material=stainless steel", Choice("stainless"), How.EYE),
        ("marking=as stamped: 12 = B by rule", Marking("as stamped: 12 = B by rule"), How.EYE),
        (
            "trial_fit=G 1/4 female: 3 turns then tight",
            Trial("G 1/4 female", Outcome.BINDS, 3),
            How.GAUGE,
        ),
        (
            "trial_fit: fam:G1/4:female: binds after 2½ turns",
            Trial("fam:G1/4:female", Outcome.BINDS, 2.5),
            How.GAUGE,
        ),
        (
            "trial_fit=M14x1.5 female: tight",
            Trial("M14x1.5 female", Outcome.BINDS),
            How.GAUGE,
        ),
        (
            "trial_fit=G 1/4 female: Runs fully by hand",
            Trial("G 1/4 female", Outcome.FULL),
            How.GAUGE,
        ),
        ("trial_fit=G 1/4 female: loose", Trial("G 1/4 female", Outcome.LOOSE), How.GAUGE),
        (
            "trial_fit=G 1/4 female: does not start",
            Trial("G 1/4 female", Outcome.NO_START),
            How.GAUGE,
        ),
    ],
)
def test_readings(text: str, value: object, how: How) -> None:
    reading = parse_reading(text)
    assert (reading.value, reading.how) == (value, how)


@pytest.mark.parametrize(
    ("value", "entered"),
    [
        ("20.9 mm, by somebody else", "20.9 mm, by somebody else"),
        ("20.9 mm BY SOMEONE ELSE", "20.9 mm, by somebody else"),
        ("20.9 mm by rule by somebody else", "20.9 mm by rule, by somebody else"),
        ({"value": 20.9, "by": "somebody else"}, None),
        (
            {"value": "20.9 mm", "how": "rule", "by": "somebody else"},
            "20.9 mm by rule, by somebody else",
        ),
    ],
)
def test_who_took_it_can_be_said(value: object, entered: str | None) -> None:
    if entered is None:  # who took it needs no unit, a length does
        with pytest.raises(ReadingError, match="no unit"):
            reading_from("thread_od", value)
        return
    reading = reading_from("thread_od", value)
    assert (reading.entered, reading.other_person) == (entered, True)
    assert parse_reading(f"thread_od={entered}") == reading
    assert reading.how is (How.RULE if "rule" in entered else How.CALIPER)


def test_who_took_it_is_somebody_else_or_nobody_is_named() -> None:
    with pytest.raises(ReadingError, match='"me" does not say who took it'):
        reading_from("thread_od", {"value": "20.9 mm", "by": "me"})


@pytest.mark.parametrize("feature", LENGTHS)
def test_every_length_feature_takes_its_own_span_and_no_more(feature: Feature) -> None:
    low, high = FEATURES[feature].low, FEATURES[feature].high
    for mm in (low, high):
        assert parse_reading(f"{feature}={mm:g} mm").value == Length(mm)
    for mm in (low * 0.999, high * 1.001):
        with pytest.raises(ReadingError, match=f"^{feature}: .* is outside {low:g} to {high:g} mm"):
            parse_reading(f"{feature}={mm:.6g} mm")


@pytest.mark.parametrize("feature", CHOICES)
def test_every_choice_is_read_however_it_is_spaced(feature: Feature) -> None:
    for word in FEATURES[feature].choices:
        for typed in (word, word.upper(), word.replace("-", " "), word.replace("-", "_")):
            assert parse_reading(f"{feature}={typed}").value == Choice(word)


def test_every_way_of_measuring_can_be_said_and_is_said_back() -> None:
    assert set(HOW_WORDS.values()) | {How.COUNTED} == set(How)
    for how in How:
        assert how_of(how_words(how)) is how
        assert how_of(how) is how


# --- records -------------------------------------------------------------------------------------


def test_parts_of_a_record() -> None:
    by_rule = parse_reading("thread_od=20.9 mm by rule")
    assert reading_from("thread_od", "20.9 mm", "rule") == by_rule
    assert reading_from("thread_od", {"value": "20.9 mm", "how": "rule"}) == by_rule
    assert reading_from("thread_od", {"value": "20.9 mm by rule", "how": "by rule"}) == by_rule
    assert reading_from("flank_angle", 55).value == Choice("55")
    assert reading_from("flank_angle", 60.0).value == Choice("60")
    assert reading_from("seat_angle", 37.5).value == Angle(37.5)


# --- messages ------------------------------------------------------------------------------------

NAMES = ", ".join(FEATURES)
BAD_VALUE = 'is not understood; a reading is text, or {"value": "20.9 mm", "how": "rule"}.'
TRIAL_FORMS = (
    "write the known end, a colon and what happened: "
    '"G 1/4 female: 3 turns then tight", "…: runs fully by hand", "…: does not start" or '
    '"…: loose".'
)
CREST = "all that the outside diameter over the thread crests of a male can be"

REFUSALS = {
    "thread_od 20.9 mm": '"thread_od 20.9 mm" is not a reading; write a name, = and a value, such '
    'as thread_od="20.9 mm".',
    "=20 mm": 'No name stands before the value; write thread_od="20.9 mm".',
    "thread_od=": 'thread_od: "" is empty; write a value, such as 20.9 mm.',
    "thred_od=20 mm": '"thred_od" is not the name of a reading; did you mean "thread_od"?',
    "zzz=20 mm": f'"zzz" is not the name of a reading; the names are {NAMES}.',
    "diameter=20 mm": '"diameter" does not say which size is meant: write thread_od (over the '
    "crests of a male), thread_id (the bore of a female thread), tube_od, plug_od, flange_head_od, "
    "ring_od or hex.",
    "OD=20 mm": '"OD" does not say which outside diameter is meant: write thread_od (over the '
    "crests of a male), tube_od, plug_od, flange_head_od or ring_od.",
    "id=20 mm": '"id" does not say which bore is meant: write thread_id (the bore of a female '
    "thread), tube_bore, socket_bore, eye_bore, ring_id or hose_bore.",
    "angle=37": '"angle" does not say which angle is meant: write seat_angle, or flank_angle for '
    "that of the thread form.",
    "tpi=14": '"tpi" does not say which feature is meant: write pitch="14 tpi".',
    "thread_od=20.9": 'thread_od: "20.9" has no unit; write 20.9 mm (0.823 in) or 20.9 in '
    "(530.9 mm), whichever was read.",
    "thread_od=209 mm": f'thread_od: "209 mm" is outside 3 to 180 mm, {CREST}; did you mean '
    "20.9 mm?",
    "thread_od=20.9 in": f'thread_od: "20.9 in" is outside 3 to 180 mm, {CREST}; did you mean '
    "20.9 mm or 2.09 in?",
    "thread_od=0.823 mm": f'thread_od: "0.823 mm" is outside 3 to 180 mm, {CREST}; did you mean '
    "0.823 in or 8.23 mm?",
    "thread_od=99999 mm": f'thread_od: "99999 mm" is outside 3 to 180 mm, {CREST}.',
    "pitch=14 mm": 'pitch: "14 mm" is outside 0.4 to 4.5 mm, all that the thread pitch can be; '
    "did you mean 14 tpi or 1.4 mm?",
    "pitch=1.5 tpi": 'pitch: "1.5 tpi" is outside 0.4 to 4.5 mm, all that the thread pitch can '
    "be; did you mean 1.5 mm or 15 tpi?",
    "pitch=1.5 mm counted": 'pitch: "1.5 mm" does not say over how many pitches it was counted; '
    "write 10 pitches = 15 mm.",
    "seat_angle=2 deg": 'seat_angle: "2 deg" is outside 5 to 180 deg, all that the angle of the '
    "seat can be.",
    "thread_od=20 mm (rule)": 'thread_od: "20 mm (rule)": say how it was measured as "by rule" at '
    "the end of the value.",
    "pitch=14 tpi with a gauge": 'pitch: "14 tpi with a gauge": say how it was measured as "by '
    'gauge" at the end of the value.',
    "thread_od=20 mm by guess": 'thread_od: "guess" is no way of measuring; write caliper, rule, '
    "gauge, protractor, comb page, eye or counted.",
    "thread_od=20 mm counted": 'thread_od: it cannot be taken "counted"; write it by caliper, by '
    "rule, by gauge, by comb page or by eye.",
    "seat_angle=37 by caliper": "seat_angle: a caliper reads no degrees; write two diameters "
    "of the cone and how far apart they are: 10.2 and 14.7 mm, 3 mm apart.",
    "seat_angle=10.2 and 14.7 mm, 3 mm apart by eye": "seat_angle: two diameters of the cone "
    'are not taken "by eye"; leave that out.',
    "seat_angle=10.2 and 10.3 mm, 3 mm apart": 'seat_angle: "10.2 and 10.3 mm, 3 mm apart" would '
    "be a cone of 1 deg from its middle line, taken as a slip: two diameters of the cone come "
    "first, then how far apart they are along the middle line, such as 10.2 and 14.7 mm, 3 mm "
    "apart.",
    "seat_angle=37 by rule": 'seat_angle: it cannot be taken "by rule"; write it by caliper, by '
    "gauge, by protractor, by comb page or by eye.",
    "gender=mail": 'gender: "mail" is none of male, female, flange, eye, washer, plug, socket, '
    'none; did you mean "male"?',
    "gender=ring": 'gender: "ring" may be a ring eye (write eye) or a sealing ring (write washer).',
    "o_ring=yes": 'o_ring: "yes" does not say where the ring or its groove sits: on the face, the '
    "nose, loose behind the thread, sunk in the shoulder or in the flange: write face, nose, boss, "
    "captive or flange.",
    "seat_shape=cone": 'seat_shape: "cone" may be a cone that sticks out (write convex) or one '
    "that goes in (write concave).",
    "origin=mars": 'origin: "mars" is none of uk, europe, france, north-america, japan, china, '
    "other, unknown.",
    "trial_fit=loose": f'trial_fit: "loose" is not a trial fit; {TRIAL_FORMS}',
    "trial_fit=: loose": f'trial_fit: ": loose" is not a trial fit; {TRIAL_FORMS}',
    "trial_fit=G 1/4 female: wobbles": 'trial_fit: "G 1/4 female: wobbles" is not a trial fit; '
    f"{TRIAL_FORMS}",
    "trial_fit=x: 0 turns then tight": 'trial_fit: "x: 0 turns then tight" has no turns; write '
    '"x: does not start".',
    "trial_fit=x: 99 turns then tight": 'trial_fit: "x: 99 turns then tight" tells of more than '
    "40 turns, which is taken as a slip; count the turns again.",
    "marking=a\x00b": 'marking: "a\\x00b" holds a character that cannot be printed; type it again '
    "without it.",
    "marking=\udcff": 'marking: "\\udcff" holds a character that cannot be printed; type it again '
    "without it.",
    "\udcff=1": f'"\\udcff" is not the name of a reading; the names are {NAMES}.',
    "thread_od=" + "9" * 1_000_000: f'"thread_od={"9" * 50}…" is 1000010 characters long; a '
    "reading has at most 200.",
    "marking=" + "x" * 201: f'marking: "{"x" * 60}…" is 201 characters long; a reading has at '
    "most 200.",
}


@pytest.mark.parametrize("text", REFUSALS, ids=lambda text: ascii(text[:40]))
def test_messages(text: str) -> None:
    with pytest.raises(ReadingError) as caught:
        parse_reading(text)
    assert str(caught.value) == REFUSALS[text]


@pytest.mark.parametrize(
    ("name", "value", "how", "message"),
    [
        ("thread_od", True, "", '"bool" is no kind of value; write text, such as "20.9 mm".'),
        ("thread_od", None, "", '"NoneType" is no kind of value; write text, such as "20.9 mm".'),
        ("thread_od", [1], "", '"list" is no kind of value; write text, such as "20.9 mm".'),
        (
            "thread_od",
            float("nan"),
            "",
            '"float" is no kind of value; write text, such as "20.9 mm".',
        ),
        ("thread_od", 10**5000, "", '"int" is no kind of value; write text, such as "20.9 mm".'),
        ("thread_od", {"value": "3 mm", "size": 1}, "", f'"size" {BAD_VALUE}'),
        (
            "thread_od",
            {"value": {"value": "3 mm"}},
            "",
            f"\"{{'value': {{'value': '3 mm'}}}}\" {BAD_VALUE}",
        ),
        (
            "thread_od",
            {"value": "3 mm", "how": 1},
            "",
            f"\"{{'value': '3 mm', 'how': 1}}\" {BAD_VALUE}",
        ),
        (
            "thread_od",
            "20.9 mm by eye",
            "rule",
            '"20.9 mm by eye" and how="rule" contradict each other; keep the true one.',
        ),
        ("marking", "12", "rule", 'it cannot be taken "by rule"; leave that out.'),
    ],
    ids=lambda part: ascii(part)[:30] if isinstance(part, str) else type(part).__name__,
)
def test_messages_of_records(name: str, value: object, how: str, message: str) -> None:
    with pytest.raises(ReadingError) as caught:
        reading_from(name, value, how)
    assert str(caught.value) == f"{name}: {message}"


# --- several readings ----------------------------------------------------------------------------


def test_a_name_given_twice_is_a_second_reading_and_what_can_be_told_once_is_not() -> None:
    typed = ["thread_od=20.9 mm", "pitch=14 tpi", "thread-od: 21 mm by rule", "pitch=14 tpi"]
    read = parse_readings(typed)
    features = [reading.feature for reading in read]
    assert features == [Feature.THREAD_OD, Feature.THREAD_OD, Feature.PITCH, Feature.PITCH]
    assert len(parse_readings(["gender=male", "gender=male"])) == 1
    with pytest.raises(ReadingError, match="gender is given twice"):
        parse_readings(["gender=male", "gender=female"])
    with pytest.raises(ReadingError, match="6 times; keep the 5 readings"):
        parse_readings(["thread_od=20.9 mm"] * 6)


@pytest.mark.parametrize(
    ("texts", "gender"),
    [
        (["thread_od=20.9 mm"], "male"),
        (["thread_id=19 mm"], "female"),
        (["bolt_spacing_long=52.4 mm"], "flange"),
        (["flange_head_od=38 mm", "bolt_spacing_short=26.2 mm"], "flange"),
        (["ring_id=14 mm", "ring_od=20 mm"], "washer"),
        (["eye_bore=14 mm"], "eye"),
        (["gender=none", "eye_bore=14 mm", "tube_od=8 mm"], "eye"),
        (["ring_od=20 mm", "gender=none"], "washer"),
        (["gender=none", "plug_od=20.5 mm"], "none"),
        (["gender=plug", "plug_od=20.5 mm", "o_ring=nose"], "plug"),
        (["gender=male", "plug_od=20.5 mm"], "male"),
        (["gender=socket", "socket_bore=20.7 mm"], "socket"),
        (["gender=washer", "hex=17 mm", "seat_shape=flat"], "washer"),
        (["plug_od=20.5 mm"], None),
        (["gender=female"], "female"),
        (["gender=male", "thread_od=20.9 mm"], "male"),
        (["hex=27 mm", "tube_od=12 mm"], None),
        ([], None),
    ],
)
def test_implied_gender(texts: list[str], gender: str | None) -> None:
    assert implied_gender(parse_readings(texts)) == gender


@pytest.mark.parametrize(
    ("texts", "message"),
    [
        (
            ["thread_od=20.9 mm", "thread_id=19 mm"],
            "thread_od speaks of a male end, thread_id of a female end; keep the one that is true "
            "of this end.",
        ),
        (
            ["thread_od=20.9 mm", "gender=female"],
            "thread_od speaks of a male end, gender=female of a female end; keep the one that is "
            "true of this end.",
        ),
        (
            ["gender=flange", "eye_bore=14 mm"],
            "gender=flange speaks of a flange, eye_bore of a ring eye; keep the one that is true "
            "of this end.",
        ),
        (
            ["eye_bore=14 mm", "ring_id=14 mm"],
            "eye_bore speaks of a ring eye, ring_id of a sealing washer; keep the one that is true "
            "of this end.",
        ),
        (
            ["gender=none", "eye_bore=14 mm", "ring_id=14 mm"],
            "eye_bore speaks of a ring eye, ring_id of a sealing washer; keep the one that is true "
            "of this end.",
        ),
        (
            ["thread_od=20.9 mm", "gender=plug"],
            "thread_od speaks of a male end, gender=plug of a plain plug or spigot; keep the one "
            "that is true of this end.",
        ),
        (
            ["gender=none", "thread_id=19 mm"],
            "gender=none speaks of an end without a thread, thread_id of a female end; keep the "
            "one that is true of this end.",
        ),
        (
            ["pitch=14 tpi", "gender=plug"],
            "gender=plug speaks of a plain plug or spigot, on which no pitch is measured; leave "
            "out pitch, or correct gender=plug.",
        ),
        (
            ["gender=plug", "socket_bore=20.7 mm"],
            "gender=plug speaks of a plain plug or spigot, on which no socket_bore is measured; "
            "leave out socket_bore, or correct gender=plug.",
        ),
        (
            ["ring_id=14 mm", "tube_od=8 mm"],
            "ring_id speaks of a sealing washer, on which no tube_od is measured; leave out "
            "tube_od, or correct ring_id.",
        ),
    ],
)
def test_genders_that_contradict(texts: list[str], message: str) -> None:
    with pytest.raises(ReadingError) as caught:
        with_gender(parse_readings(texts))
    assert str(caught.value) == message


def test_gender_is_added_where_implied_and_asked_for_where_not() -> None:
    given = parse_readings(["thread_id=19 mm", "pitch=14 tpi"])
    assert with_gender(given) == (parse_reading("gender=female"), *given)
    assert with_gender(with_gender(given)) == with_gender(given)
    with pytest.raises(ReadingError) as caught:
        with_gender(parse_readings(["pitch=14 tpi"]))
    assert str(caught.value) == (
        "The gender was not said, and no reading tells; add what the end is: gender=male, "
        "gender=female, gender=flange, gender=eye, gender=washer, gender=plug or gender=socket."
    )


# --- properties ----------------------------------------------------------------------------------


@st.composite
def typed_readings(draw: st.DrawFn) -> str:
    """Return one reading as a person types it."""
    feature = draw(st.sampled_from(tuple(Feature)))
    info = FEATURES[feature]
    if info.kind is Kind.CHOICE:
        return f"{feature}={draw(st.sampled_from(info.choices))}"
    if info.kind is Kind.TEXT:
        return f"{feature}={draw(st.text(min_size=1, max_size=30))}"
    if info.kind is Kind.TRIAL:
        what = draw(st.sampled_from(["loose", "tight after 3 turns", "does not start"]))
        return f"{feature}={draw(st.text('abc 1/:', min_size=1))}: {what}"
    values = {
        Kind.LENGTH: st.floats(info.low, info.high).map(lambda mm: f"{mm:.2f} mm"),
        Kind.PITCH: st.sampled_from(["14 tpi", "1.5 mm", "10 pitches = 13.4 mm", "18..20 tpi"]),
        Kind.ANGLE: st.integers(5, 90).map(lambda deg: f"{deg} deg half"),
        Kind.TAPER: st.sampled_from(["parallel", "0.5 mm over 8 mm"]),
    }
    how = draw(st.sampled_from(["", " by gauge", " by eye", " by comb page"]))
    return f"{feature}={draw(values[info.kind])}{how}"


@settings(deadline=None)
@given(typed_readings())
def test_what_is_kept_of_the_words_gives_the_reading_again(text: str) -> None:
    with contextlib.suppress(ReadingError):
        reading = parse_reading(text)
        assert parse_reading(f"{reading.feature}={reading.entered}") == reading
        assert reading.entered.isprintable()


@settings(deadline=None)
@given(st.sampled_from(LENGTHS), st.floats(0, 1), st.sampled_from(["caliper", "rule", "eye"]))
def test_how_said_apart_is_how_said_in_the_text(feature: Feature, part: float, how: str) -> None:
    info = FEATURES[feature]
    typed = f"{info.low + part * (info.high - info.low):.3f} mm"
    assert reading_from(feature, typed, how) == parse_reading(f"{feature}={typed} by {how}")


NAME = st.one_of(st.sampled_from([*Feature, "diameter", "od"]), st.text(max_size=20))
MARKS = st.sampled_from(
    [*"0123456789 .,/-'\"°=:()", "mm", " in", " tpi", " by rule", " turns then "]
)
TAIL = st.one_of(st.text(max_size=220), st.lists(MARKS, max_size=30).map("".join))


@settings(deadline=None, max_examples=400)
@given(NAME, st.sampled_from(["=", ":", ""]), TAIL)
def test_garbage_is_refused_in_one_printable_sentence_or_read(
    name: str, mark: str, tail: str
) -> None:
    try:
        reading = parse_reading(f"{name}{mark}{tail}")
    except ReadingError as error:
        message = str(error)
        assert message.isprintable()
        assert message[-1] in ".?"
    else:
        assert isinstance(reading, Reading)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner) | st.dictionaries(st.sampled_from(["value", "how", "x"]), inner),
)


@settings(deadline=None)
@given(NAME, JSON)
def test_any_record_is_refused_or_read(name: str, value: object) -> None:
    with contextlib.suppress(ReadingError):
        assert isinstance(reading_from(name, value), Reading)


@given(st.permutations(["thread_od=20.9 mm", "pitch=14 tpi", "hex=27 mm", "gender=male"]))
def test_order_changes_nothing_but_the_order(texts: list[str]) -> None:
    readings = with_gender(parse_readings(texts))
    assert sorted(r.feature for r in readings) == ["gender", "hex", "pitch", "thread_od"]
    assert gathered(readings) == readings


@pytest.mark.parametrize("name", ["thread_od=", "marking=", "", "trial_fit=", "x"])
def test_a_megabyte_is_refused_at_once(name: str) -> None:
    """Relative to reading one reading, so that a slow machine does not matter."""

    def seconds(text: str) -> float:
        def attempt() -> None:
            with contextlib.suppress(ReadingError):
                parse_reading(text)

        return min(timeit.repeat(attempt, timer=time.process_time, number=20, repeat=7))

    usual = seconds("thread_od=between 20.8 and 21.0 mm")
    assert (
        seconds(name + "9: " * 400_000) < 100 * usual
    )  # measured: below 1, and up to 30 where others fill the memory bus


def test_bolt_spacings_the_wrong_way_round_are_refused():
    texts = ["bolt_spacing_long=27.8 mm", "bolt_spacing_short=57.2 mm"]
    with pytest.raises(ReadingError, match="exchange the two"):
        with_gender(parse_readings(texts))


def test_a_trial_on_a_part_of_the_same_gender_is_refused():
    trial = "trial_fit=G 1/4 female: runs fully"
    with pytest.raises(ReadingError, match="two females do not screw together"):
        with_gender(parse_readings(["thread_id=11.6 mm", trial]))
    with pytest.raises(ReadingError, match="two males"):
        with_gender(parse_readings(["gender=male", "trial_fit=bspp60:G1/4:male: runs fully"]))
    assert len(with_gender(parse_readings(["gender=male", trial]))) == 2
