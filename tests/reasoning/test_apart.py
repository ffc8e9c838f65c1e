"""Which ends can be told apart, and by what: by the error of the tools, and by the trade's word."""

from dataclasses import replace
from functools import partial

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.reasoning.apart import (
    alike,
    between_sizes,
    nears_of,
    overlap,
    resolves,
    rivals_of,
    separated,
)
from identify.reasoning.differences import differences
from identify.reasoning.likelihood import answers
from identify.reasoning.traits import (
    ABSENT,
    UNKNOWN,
    Cone,
    Interval,
    ThreadPitch,
    ThreadTaper,
    Trait,
    Word,
)
from tests.reasoning.tables import shipped
from tests.shipped import knowledge, shipped_engine

ENDS = knowledge().catalogue.ends
MODEL = knowledge().book.observation
ROW = {end.id: row for row, end in enumerate(ENDS)}

# Each pair with why. PT has the dimensions of R (JIS B 0203, ISO 7-1); the rest is practice.
ONE = [
    ("r_taper:R3/8:male", "jis_pt:R3/8:male"),  # one thread by the tables of both standards
    ("cone24_L:12L:male", "fr24_mm:tube-12:male"),  # M18x1.5, 24 degrees, tube 12 in both
    ("flare37:-8:male", "aerospace_inch:-8:male-flare"),  # only class and approval differ
    ("orb_metric:M14x1.5:female", "diagnostic_port:M14x1.5:female"),  # ISO 8925 is that port
    ("inverted45:-4:male", "brake_tube:7/16-24:male-double-flare"),  # one nut, one flare
]
TWO = [
    ("cone24_L:12L:male", "cone24_S:10S:male"),  # tube 12 and tube 10
    ("flare37:-8:male", "flare45:-8:male"),  # 37 and 45 degrees
    ("npt:1/2-NPT:male", "r_taper:R1/2:male"),  # 60 and 55 degree flanks
    ("npsm60:1/2-NPSM:female", "bspp60:G1/2:female"),  # 60 and 55 degree flanks
    ("bspp60:G1/2:male", "jis30_g:G1/2:male"),  # cone in and cone out
    ("r_taper:R1/2:male", "bspp60:G1/2:male"),  # taper and parallel
    ("flare37:-12:male", "flare37_metric:M27x1.5:male"),  # pitch 2.117 and 1.5 mm
    ("flange62:1-in:flange", "flange62_thick:1-in:flange"),  # heads 9.5 and 14.2 mm thick
    ("flange61:1-in:flange", "flange62:1-in:flange"),  # bolts 52.4 and 57.2 mm
    ("orfs:-8:male", "orb_un:-8:male"),  # 13/16-16 and 3/4-16
    ("bspp60:G1/2:male", "bspp60:G1/2:female"),  # anybody sees it
]


@pytest.mark.parametrize(("one", "other"), ONE)
def test_what_no_instrument_tells_apart_is_one(one: str, other: str) -> None:
    assert shipped_engine().twins.same(ROW[one], ROW[other])


@pytest.mark.parametrize(("one", "other"), TWO)
def test_what_a_measurement_tells_apart_is_two(one: str, other: str) -> None:
    assert not shipped_engine().twins.same(ROW[one], ROW[other])


@settings(max_examples=300, deadline=None, derandomize=True)
@given(st.sampled_from(range(len(ENDS))), st.sampled_from(range(len(ENDS))))
def test_telling_apart_has_no_direction(one: int, other: int) -> None:
    twins = shipped_engine().twins
    assert twins.same(one, other) is twins.same(other, one)
    if ENDS[one].gender != ENDS[other].gender:
        assert not twins.same(one, other)


def test_every_end_is_one_with_itself() -> None:
    twins = shipped_engine().twins
    assert [end.id for row, end in enumerate(ENDS) if not twins.same(row, row)] == []


def test_overlap_is_judged_by_the_narrower_span() -> None:
    wide, inside, beside = Interval(10, 20), Interval(11, 12), Interval(19.6, 20.4)
    assert overlap(wide, inside)
    assert overlap(inside, wide)
    assert overlap(wide, beside)  # exactly half of the narrower
    assert not overlap(wide, Interval(19.7, 20.4))
    assert overlap(wide, UNKNOWN)
    assert not overlap(wide, ABSENT)


def test_a_group_stands_under_its_most_probable_end_with_the_sum() -> None:
    engine = shipped_engine()
    state = engine.posterior([])
    seen: set[int] = set()
    for head, total, joined in engine.groups(state, 40):
        assert seen.isdisjoint({head, *joined})
        seen |= {head, *joined}
        assert state.rows[head] == max(state.rows[row] for row in (head, *joined))
        assert total == pytest.approx(sum(state.rows[row] for row in (head, *joined)))
        assert all(engine.twins.same(head, row) for row in joined)


def test_what_a_tool_resolves_is_twice_its_error() -> None:
    """By hand from the instrument file, so that it and the distances are held together."""
    assert resolves(Feature.THREAD_OD, How.CALIPER, MODEL) == pytest.approx(2 * 0.06)
    assert resolves(Feature.BOLT_SPACING_LONG, How.RULE, MODEL) == pytest.approx(2 * 0.4)
    assert resolves(Feature.SEAT_ANGLE, How.GAUGE, MODEL) == pytest.approx(2 * 1.5)
    # 0.16 mm over ten pitches; leaves of 1, 1.25, 1.5, 1.75 and 2 mm are a quarter apart.
    assert resolves(Feature.PITCH, How.COUNTED, MODEL) == pytest.approx(0.032)
    assert resolves(Feature.PITCH, How.GAUGE, MODEL) == pytest.approx(0.125)
    # Tubes are made to 0.1 mm above and below.
    assert between_sizes(Feature.TUBE_OD, How.CALIPER, MODEL) == pytest.approx(0.32)


def test_a_sharper_tool_resolves_more() -> None:
    blunt = replace(MODEL, resolves=2 * MODEL.resolves)
    for feature in (Feature.THREAD_OD, Feature.SEAT_ANGLE):
        bare = resolves(feature, How.EYE, MODEL)
        assert resolves(feature, How.GAUGE, MODEL) < bare
        assert resolves(feature, How.EYE, blunt) == pytest.approx(2 * bare)
    counted, called = (resolves(Feature.PITCH, how, MODEL) for how in (How.COUNTED, How.GAUGE))
    assert counted < called


PAIRS = st.tuples(st.sampled_from(range(len(ENDS))), st.sampled_from(range(len(ENDS))))


@settings(max_examples=400, deadline=None, derandomize=True)
@given(PAIRS)
def test_being_alike_has_no_direction(pair: tuple[int, int]) -> None:
    catalogue, nears = knowledge().catalogue, nears_of(MODEL)
    one, other = (ENDS[row] for row in pair)
    if one.gender == other.gender:
        assert alike(catalogue, one, other, nears) == alike(catalogue, other, one, nears)


def test_no_size_tells_twins_apart_plainly() -> None:
    """What is one answer differs in no length or pitch by twice what its best tool resolves."""
    engine = shipped_engine()
    told = []
    for one in range(len(ENDS)):
        for other in range(one):
            if ENDS[one].gender != ENDS[other].gender or not engine.twins.same(one, other):
                continue
            found = differences(knowledge().catalogue, ENDS[one], ENDS[other], MODEL)
            told += [
                f"{ENDS[one].id}, {ENDS[other].id}: {each.feature}"
                for each in found
                if FEATURES[each.feature].kind in (Kind.LENGTH, Kind.PITCH) and each.times >= 2
            ]
    assert told == []


FAR = {
    Feature.THREAD_OD: (Interval(20.0, 20.2), Interval(20.33, 20.5), Interval(20.31, 20.5)),
    Feature.PITCH: (ThreadPitch(1.5), ThreadPitch(1.626), ThreadPitch(1.62)),
    Feature.SEAT_ANGLE: (Cone(37.0, "convex"), Cone(40.0, "convex"), Cone(39.5, "convex")),
    Feature.SEAT_SHAPE: (Word("concave"), Word("convex"), Word("concave")),
    Feature.TAPER: (ThreadTaper(0.0), ThreadTaper(1 / 16), ThreadTaper(0.0)),
}


@pytest.mark.parametrize("feature", FAR)
def test_a_measurement_separates_from_what_it_resolves_on(feature: Feature) -> None:
    how = How.CALIPER if feature in (Feature.THREAD_OD, Feature.TAPER) else How.GAUGE
    here, far, near = FAR[feature]

    def apart(one: Trait, other: Trait) -> bool:
        told = partial(answers, feature, how=how, model=MODEL)
        return separated(feature, how, one, other, MODEL, told)

    assert apart(here, far)
    assert apart(far, here)
    assert not apart(here, near)
    assert not apart(here, UNKNOWN)


@pytest.mark.parametrize("end", shipped().ends[::29], ids=lambda end: end.id)
def test_rivals_on_one_thread_are_those_found_one_by_one(end: EndConnection) -> None:
    nears = nears_of(knowledge().book.observation)
    plain = [
        (rival.id, same)
        for rival in shipped().ends
        if rival.gender == end.gender
        and rival.id != end.id
        and (same := alike(shipped(), end, rival, nears))
    ]
    assert [(rival.id, same) for rival, same in rivals_of(shipped(), end, nears)] == plain


@pytest.mark.parametrize("row", range(0, len(ENDS), 9))
def test_rows_that_are_one_answer_are_found_among_all_that_stand(row: int) -> None:
    one_answer = shipped_engine().one_answer
    rest = {other for other in range(len(ENDS)) if other != row}
    alone = {other for other in rest if one_answer.same(row, other)}
    half = set(sorted(rest)[::2])
    assert one_answer.joined(row, half) == alone & half
    assert one_answer.joined(row, rest) == alone  # and again, with half of them remembered
