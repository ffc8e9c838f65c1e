"""Which ends no instrument tells apart, against what the trade says of them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.reasoning.apart import overlap
from identify.reasoning.traits import ABSENT, UNKNOWN, Interval
from tests.shipped import knowledge, shipped_engine

ENDS = knowledge().catalogue.ends
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
