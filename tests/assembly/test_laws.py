"""Arithmetic of a made-up hose over random figures: signs, round trips, bounds."""

import math
import sys

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from identify.assembly import flow as flow_module
from identify.assembly.bends import bend_length, check_bend, least_straight, moving_allowance
from identify.assembly.cleanliness import code_of, is_clean_enough, iso_of_nas, parse_class
from identify.assembly.flow import Flow, pressure_drop, usual_velocity, velocity
from identify.assembly.lengths import (
    CutOff,
    allowed,
    best_aim,
    cut_length,
    error_budget,
    fits,
    free_length,
    measured_from,
    square_limit,
    under_pressure,
)
from identify.assembly.orientation import (
    NAMES,
    Convention,
    angle_of,
    angle_tolerance,
    converted,
    from_clock,
    from_other_end,
    in_words,
    to_clock,
)
from identify.assembly.rating import RatedPart, assembly_rating, proof_and_burst
from identify.assembly.squeezing import RULE, Squeezed, Target, die_setting, judge_diameters
from identify.errors import AssemblyError, TableError
from identify.knowledge.assembly_tables import build_assembly_rules, read_assembly_rules
from identify.knowledge.fields import Faults
from identify.knowledge.hose_loading import build_hoses
from identify.knowledge.table_files import data_dir
from identify.model.assembly import EndKind
from identify.model.hose import SUPPORTED
from identify.model.source import Support

RULES = build_assembly_rules()
HOSES = {hose.id: hose for hose in build_hoses().hoses}
degrees = st.integers(0, 359).map(float)
mm = st.floats(1, 5000)


# ---- length


@given(mm, st.floats(0, 300), st.floats(0, 300))
def test_cut_and_ends_make_up_the_length(overall: float, a: float, b: float) -> None:
    assume(overall - a - b > 0.001)
    one, two = CutOff(a, "data"), CutOff(b, "data")
    cut = cut_length(overall, one, two)
    assert math.isclose(cut + a + b, overall, rel_tol=1e-9)
    assert cut_length(overall, two, one) == pytest.approx(cut)
    assert free_length(cut, one, two) is None


@given(st.lists(st.floats(0, 50), max_size=8))
def test_likely_error_never_exceeds_the_worst(limits: list[float]) -> None:
    found = error_budget(limits)
    assert 0 <= found.likely_mm <= found.worst_mm + 1e-9
    assert error_budget([-each for each in limits]) == found


@given(st.floats(1, 20_000), st.sampled_from([5, 12, 25, 31, 51, 63, 102]))
def test_every_length_has_one_tolerance(length: float, dn: int) -> None:
    band = allowed(RULES, "DIN 20066", length, dn)
    assert band.minus_mm < band.plus_mm
    assert best_aim(length, band) > length
    assert fits(error_budget([0]), band) == (True, True)
    assert fits(error_budget([band.minus_mm + 1]), band) == (False, False)


@given(mm, st.floats(0, 10), st.floats(0, 10))
def test_pressure_makes_longer_and_shorter(free: float, more: float, less: float) -> None:
    short, long = under_pressure(free, more, less)
    assert short <= free <= long


def test_free_hose_lies_between_the_ferrules() -> None:
    end = CutOff(30, "data", insertion_mm=40)
    assert free_length(200, end, end) == 120


@pytest.mark.parametrize("kind", EndKind)
def test_every_kind_of_end_has_a_measuring_point(kind: EndKind) -> None:
    found = measured_from(RULES, kind)
    assert found.points
    assert (len(found.points) > 1) == bool(found.ask)


def test_two_ways_to_measure_are_asked_for() -> None:
    assert (
        "to the seat, or to the end of the nut"
        in measured_from(RULES, EndKind.STRAIGHT_FEMALE_INCH).ask
    )


def test_squareness_by_bore() -> None:
    assert [square_limit(bore) for bore in (12.5, 25, 60)] == [1.6, 3.2, 6.4]


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: CutOff(30, " "), "without its source"),
        (lambda: CutOff(-1, "data"), "is no cut-off"),
        (lambda: CutOff(1, "data", 2000), "is no cut-off or insertion depth"),
        (lambda: Target(20, 0.1, 0.1, ""), "without its source"),
        (lambda: Target(0, 0.1, 0.1, "data"), "is no target"),
        (lambda: RatedPart("end", 100, ""), "without its source"),
        (lambda: RatedPart("end", -1, "data"), "is no working pressure"),
        (lambda: assembly_rating(()), "No part was named"),
        (lambda: proof_and_burst(0, RULES), "is no rating"),
        (lambda: Flow(0, 10, 1, 46, 870), "A flow of 0 is none"),
        (lambda: Flow(10, 10, 1, 46, 870, 2), "does not fit the bore"),
        (lambda: velocity(10, 0), "both are above 0"),
        (lambda: usual_velocity(RULES, "drain", 1), '"drain" is no line; write one of suction'),
        (lambda: bend_length(400, 100, 20), "No bend turns 400 degrees"),
        (lambda: from_clock(13), "is no hour"),
        (lambda: converted(361, Convention.NEAR, Convention.FAR), "is no angle"),
        (lambda: iso_of_nas(13), "is no class of NAS"),
        (lambda: parse_class("18/16/14/13"), "is no class of ISO 4406"),
        (lambda: parse_class("13/16/18"), "rises"),
        (lambda: is_clean_enough((18, 16), (18, 16, 13)), "cannot be held against each other"),
        (lambda: code_of(-1, RULES), "is no count"),
        (lambda: die_setting(Target(18, 0.1, 0.1, "d"), [19.0]), "No die is at or below"),
        (lambda: die_setting(Target(18, 0.1, 0.1, "d"), [17.0], 0), "A division of the dial"),
        (lambda: judge_diameters([18, 18], Target(18, 0.1, 0.1, "d")), "2 diameters do not show"),
    ],
)
def test_what_cannot_be_is_refused_in_words(make, said: str) -> None:
    with pytest.raises(AssemblyError, match=said):
        make()


# ---- orientation


@given(degrees, degrees, st.sampled_from(list(Convention)))
def test_the_angle_is_the_same_from_either_end(
    near: float, far: float, convention: Convention
) -> None:
    assert angle_of(near, far, convention) == angle_of(*from_other_end(near, far), convention)
    assert from_other_end(*from_other_end(near, far)) == (near, far)


@given(degrees, degrees, degrees)
def test_turning_the_whole_hose_changes_nothing(near: float, far: float, turn: float) -> None:
    assert angle_of(near, far) == angle_of((near + turn) % 360, (far + turn) % 360)


@given(degrees, st.sampled_from(list(Convention)), st.sampled_from(list(Convention)))
def test_conventions_convert_back(angle: float, one: Convention, other: Convention) -> None:
    there = converted(angle, one, other)
    assert 0 <= there < 360
    assert converted(there, other, one) == angle
    assert there in (angle, (360 - angle) % 360)


@given(degrees, degrees)
def test_the_mirror_image_is_another_hose_unless_it_lies_in_one_plane(
    near: float, far: float
) -> None:
    mirrored = angle_of(-near % 360, -far % 360)
    assert (mirrored == angle_of(near, far)) == (angle_of(near, far) in (0, 180))


@given(st.integers(1, 12))
def test_clock_and_degrees(hour: int) -> None:
    assert to_clock(from_clock(hour)) == hour


def test_the_words_name_reference_view_and_direction() -> None:
    for convention in Convention:
        words = " ".join(in_words(90, convention))
        assert NAMES[convention] in words
        for part in ("90 degrees", "Reference:", "Look along the hose", "clockwise"):
            assert part in words


def test_the_angle_of_a_long_hose_may_be_off_by_more() -> None:
    """MIL-DTL-83796/5: 3 degrees to 61 cm, 5 above."""
    assert angle_tolerance(RULES, 610).plus_minus_deg == 3
    assert angle_tolerance(RULES, 611).plus_minus_deg == 5


# ---- rating

parts = st.lists(
    st.builds(
        lambda bar, basis: RatedPart("part", bar, "data", basis),
        st.none() | st.floats(1, 1000),
        st.none() | st.sampled_from(list(Support)),
    ),
    min_size=1,
    max_size=6,
)


@given(parts)
def test_a_rating_is_never_above_any_part_and_never_from_memory(some: list[RatedPart]) -> None:
    found = assembly_rating(some)
    for part in some:
        if part.supported_bar is not None:
            assert found.at_most_bar <= part.supported_bar
        else:
            assert found.bar is None
            assert "look up: ____" in found.sentence
        assert part.basis is None or part.basis in SUPPORTED or part.supported_bar is None


@given(st.floats(1, 1000))
def test_proof_lies_between_rating_and_burst(bar: float) -> None:
    found = proof_and_burst(bar, RULES)
    assert bar < found.proof_bar < found.burst_bar
    assert found.burst_bar == pytest.approx(4 * bar)


# ---- bends


@given(st.floats(0, 180), st.floats(0, 180), st.floats(10, 900), st.floats(5, 80))
def test_bends_add_up(one: float, two: float, radius: float, outside: float) -> None:
    whole = bend_length(one + two, radius, outside)
    parts_ = bend_length(one, radius, outside) + bend_length(two, radius, outside)
    assert whole == pytest.approx(parts_)


def test_a_bend_against_the_least_radius() -> None:
    hose = HOSES["2SN:12"]
    assert check_bend(180, hose).enough is True
    assert check_bend(179, hose).enough is False
    unknown = check_bend(100, HOSES["R18:12"])
    assert (unknown.enough, unknown.least_mm) == (None, None)
    assert least_straight(22, RULES) == 33
    assert moving_allowance(100) == 50


# ---- flow


@settings(deadline=None)  # the library is imported by the first
@given(st.floats(1, 500), st.floats(4, 60), st.floats(0.5, 50), st.floats(5, 800))
def test_more_flow_and_more_length_cost_more(
    l_min: float, bore: float, length: float, cst: float
) -> None:
    found = pressure_drop(Flow(l_min, bore, length, cst, 870))
    assert all(bar > 0 for bar in found.bars)
    assert (len(found.bars) == 2) == (2000 <= found.reynolds <= 4000)
    double = pressure_drop(Flow(l_min, bore, 2 * length, cst, 870))
    assert double.bars == pytest.approx([2 * bar for bar in found.bars])
    more = pressure_drop(Flow(2 * l_min, bore, length, cst, 870))
    assert max(more.bars) > max(found.bars) * (1.9 if found.laminar else 1)
    if len(found.bars) == 2:
        assert found.bars[0] < found.bars[1]


@pytest.mark.parametrize(("speed", "side"), [(0.1, -1), (1.0, 0), (9.0, 1)])
def test_a_velocity_against_what_is_usual(speed: float, side: int) -> None:
    usual, lies = usual_velocity(RULES, "suction", speed)
    assert lies == side
    assert usual.says.source == "flow-pages"


def test_without_the_library_the_remedy_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    flow_module._library.cache_clear()
    monkeypatch.setitem(sys.modules, "fluids", None)
    with pytest.raises(AssemblyError, match=r'install it with pip install "whichend\[flow\]"'):
        pressure_drop(Flow(30, 12.7, 5, 46, 870))
    flow_module._library.cache_clear()


# ---- squeezing


@given(st.floats(10, 60), st.lists(st.floats(8, 62), min_size=1, max_size=20))
def test_die_and_dial_make_up_the_target(target: float, dies: list[float]) -> None:
    wanted = Target(target, 0.1, 0.1, "data of the end")
    if min(dies) > target:
        with pytest.raises(AssemblyError):
            die_setting(wanted, dies)
        return
    found = die_setting(wanted, dies, 0.1)
    assert found.die_mm in dies
    assert not [die for die in dies if found.die_mm < die <= target]
    assert found.over_mm >= 0
    assert found.die_mm + found.divisions * 0.1 == pytest.approx(target)


def test_the_rule_of_the_die_is_explained() -> None:
    assert "largest die that is not above the target" in RULE


@pytest.mark.parametrize(
    ("measured", "result", "ovality"),
    [
        ((18.0, 18.1, 17.9), Squeezed.WITHIN, 0.2),
        ((18.4, 18.3, 18.5), Squeezed.TOO_LARGE, 0.2),
        ((17.5, 17.6, 17.4), Squeezed.TOO_SMALL, 0.2),
        ((18.4, 17.6, 18.0), Squeezed.UNEVEN, 0.8),
    ],
)
def test_squeezed_diameters_are_judged(
    measured: tuple[float, ...], result: Squeezed, ovality: float
) -> None:
    found = judge_diameters(measured, Target(18.0, 0.2, 0.2, "data of the end"))
    assert found.result is result
    assert found.ovality_mm == pytest.approx(ovality)


@pytest.mark.parametrize(
    ("mm", "result"),
    [(18.25, Squeezed.WITHIN), (17.75, Squeezed.WITHIN), (18.375, Squeezed.TOO_LARGE),
     (17.625, Squeezed.TOO_SMALL)],
)  # fmt: skip
def test_a_limit_belongs_to_what_is_within(mm: float, result: Squeezed) -> None:
    target = Target(18.0, 0.25, 0.25, "data of the end")
    assert judge_diameters((mm, mm, mm), target).result is result


@given(st.integers(100, 600), st.integers(1, 9))
def test_a_limit_is_within_however_its_sum_is_rounded(target: int, plus: int) -> None:
    found = judge_diameters(
        [(target + plus) / 10] * 3, Target(target / 10, plus / 10, plus / 10, "data of the end")
    )
    assert found.result is Squeezed.WITHIN


# ---- cleanliness: ISO 4406:2021, Table 1


@pytest.mark.parametrize(
    ("count", "code"),
    [(0, 0), (0.01, 0), (0.011, 1), (1.3, 7), (1.31, 8), (2500, 18), (2501, 19), (3e6, 29)],
)
def test_codes(count: float, code: int) -> None:
    assert code_of(count, RULES) == code


def test_classes() -> None:
    assert parse_class("18/16/13") == (18, 16, 13)
    assert is_clean_enough((17, 16, 13), (18, 16, 13))
    assert not is_clean_enough((18, 17, 13), (18, 16, 13))
    assert [iso_of_nas(each) for each in (6, 9)] == [(17, 15, 12), (20, 18, 15)]
    assert [parse_class(target.code) for target in RULES.targets]


# ---- the file

TEXT = data_dir("rules").joinpath("assembly.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (
            'over: "630 mm", to: "1250 mm"',
            'over: "640 mm", to: "1250 mm"',
            "leave a gap or overlap",
        ),
        ('to: "630 mm"', 'to: "0.5 mm"', "leave a gap or overlap"),
        ("dn: [5, 25]", "dn: [25, 5]", "must be two nominal sizes"),
        ("end: banjo", "end: eye", 'end is "eye", not one of straight-male'),
        ('["the sealing face"]', "[]", "must be one, or several and what to ask"),
        ("line: suction, low: 0.5", "line: suction, low: 5", "low is not below high"),
        ("times: 2,", "times: 0.5,", "times is 0.5, outside 1..100"),
        ("0.01, 0.02, 0.04", "0.01, 0.04, 0.02", "holds codes that do not rise"),
        ('code: "16/14/11"', 'code: "16-14-11"', 'write it as "18/16/13"'),
        ("plus_minus_deg: 5,", 'to: "9 m", plus_minus_deg: 5,', "must end with a tolerance"),
        ("assembly_rules/1", "assembly_rules/2", 'schema must be "assembly_rules/1"'),
        ("percent: 4,", "percent: 4, at: 3,", "at is not a known field"),
        ('step: "Cut"', 'step: "Date"', "making is missing, or names a step twice"),
        ('{step: "Cut", do:', '{step: "Cut", done:', "step 3: do is missing"),
    ],
)
def test_a_fault_of_the_file_is_noted_with_its_line(old: str, new: str, said: str) -> None:
    faults = Faults()
    assert old in TEXT
    read_assembly_rules(TEXT.replace(old, new, 1), faults)
    assert any(said in fault and fault.startswith("rules/assembly.yaml:") for fault in faults.found)


def test_the_shipped_file_has_no_fault() -> None:
    faults = Faults()
    read_assembly_rules(TEXT, faults)
    assert faults.found == []
    try:
        build_assembly_rules()
    except TableError as error:
        pytest.fail(str(error))
