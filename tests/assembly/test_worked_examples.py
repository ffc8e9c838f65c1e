"""Worked examples, each with where its answer comes from. A published figure is never ours."""

import math

import pytest

from identify.assembly.bends import bend_length, impulse_sample, routed_length, with_shortening
from identify.assembly.flow import Flow, pressure_drop, reynolds, velocity
from identify.assembly.lengths import (
    CutOff,
    allowed,
    cut_length,
    error_budget,
    fits,
    under_pressure,
)
from identify.assembly.orientation import Convention, angle_of, from_clock, from_other_end
from identify.assembly.rating import RatedPart, assembly_rating, proof_and_burst
from identify.errors import AssemblyError
from identify.knowledge.assembly_tables import build_assembly_rules
from identify.knowledge.hose_loading import build_hoses
from identify.model.source import Support
from identify.reading.quantities import parse_bar, parse_flow

RULES = build_assembly_rules()
HOSES = {hose.id: hose for hose in build_hoses().hoses}

# ---- length


def test_cut_length_of_a_published_example() -> None:
    """24 in, two straight swivels of 1.86 in: 20.28 in (TM 1-1500-204-23-2, table 4-22)."""
    end = CutOff(1.86 * 25.4, "TM 1-1500-204-23-2, table 4-22")
    assert cut_length(24 * 25.4, end, end) / 25.4 == pytest.approx(20.28, abs=0.005)


def test_cut_length_and_its_refusals() -> None:
    """Arithmetic composed here: 1000 less 38.2 and 61.0 is 900.8; 90 less the same is refused."""
    one, two = CutOff(38.2, "data of the end"), CutOff(61.0, "data of the end")
    assert cut_length(1000, one, two) == pytest.approx(900.8)
    with pytest.raises(AssemblyError, match="no hose is left to cut"):
        cut_length(90, one, two)
    deep = CutOff(38.2, "data of the end", insertion_mm=40)
    with pytest.raises(AssemblyError, match="the ferrules would meet"):
        cut_length(140, deep, deep)


# DIN 20066, as a machine manual that quotes its table gives it; 12 in: SAE J517.
@pytest.mark.parametrize(
    ("standard", "length_mm", "dn", "plus", "minus"),
    [
        ("DIN 20066", 630, 12, 7, 3),
        ("DIN 20066", 631, 12, 12, 4),
        ("DIN 20066", 1250, 25, 12, 4),
        ("DIN 20066", 1250, 31, 20, 6),
        ("DIN 20066", 2500, 19, 20, 6),
        ("DIN 20066", 2501, 19, 37.515, 12.505),
        ("DIN 20066", 8000, 51, 120, 40),
        ("DIN 20066", 8001, 51, 240.03, 80.01),
        ("DIN 20066", 600, 76, 25, 6),
        ("SAE J517", 304.8, 12, 3.2, 3.2),
    ],
)
def test_length_tolerances(
    standard: str, length_mm: float, dn: int, plus: float, minus: float
) -> None:
    band = allowed(RULES, standard, length_mm, dn)
    assert band.plus_mm == pytest.approx(plus)
    assert band.minus_mm == pytest.approx(minus)


def test_a_size_of_which_a_table_does_not_speak_is_refused() -> None:
    with pytest.raises(AssemblyError, match="does not speak of DN 28"):
        allowed(RULES, "DIN 20066", 1000, 28)
    with pytest.raises(AssemblyError, match="has no table of lengths; known: DIN 20066"):
        allowed(RULES, "DIN 1", 1000, 12)


def test_length_under_pressure() -> None:
    """EN 853 and SAE J517, R1 and R2: +2 and -4 percent of the free hose."""
    kind = HOSES["2SN:12"].kind.service
    assert under_pressure(1000, kind.longer_percent, kind.shorter_percent) == (960, 1020)
    assert kind.length_basis is Support.PRINTED


def test_length_of_a_spiral_hose_under_pressure() -> None:
    """SAE J517, R12: +2 and -2 percent; from memory, and said to be."""
    kind = HOSES["R12:12"].kind.service
    assert under_pressure(1000, kind.longer_percent, kind.shorter_percent) == (980, 1020)
    assert kind.length_basis is Support.FROM_MEMORY


# Open tables of EN 853 and EN 856 figures; 4SH of DN 31 stands there at 325 and at 345 bar.
@pytest.mark.parametrize(
    ("hose", "bar"),
    [("1SN:6", 225), ("1SN:12", 160), ("2SN:6", 400), ("2SN:12", 275), ("2SN:25", 165),
     ("4SP:12", 415), ("4SP:25", 280), ("4SH:19", 420), ("4SH:25", 380), ("4SH:31", 325),
     ("R13:25", 350)],
)  # fmt: skip
def test_hose_pressures_of_open_tables(hose: str, bar: float) -> None:
    assert HOSES[hose].supported_bar == bar
    assert HOSES[hose].rating_basis is Support.OPEN_DATASET


def test_error_budget() -> None:
    """Own calculation: 2, twice 0.5, 3 and twice 1 mm."""
    found = error_budget((2, 0.5, 0.5, 3, 1, 1))
    assert found.worst_mm == pytest.approx(8.0)
    assert found.likely_mm == pytest.approx(3.9, abs=0.05)
    assert fits(found, allowed(RULES, "DIN 20066", 1000, 12)) == (True, False)


# ---- bends


@pytest.mark.parametrize(
    ("radius", "outside", "length"),
    [(130, 19.0, 489.1), (180, 20.5, 648.5), (300, 37.3, 575.1), (340, 39.5, 644.1)],
)
def test_impulse_samples(radius: float, outside: float, length: float) -> None:
    """SAE J343, formula in the rationale of its 2016 edition."""
    assert impulse_sample(radius, outside) == pytest.approx(length, abs=0.1)


@pytest.mark.parametrize(
    ("angle", "radius", "outside", "straight", "length"),
    [(90, 180, 22, 33, 366.0), (180, 180, 22, 33, 666.0), (45, 300, 37.3, 56, 362.3),
     (0, 180, 22, 0, 0.0)],
)  # fmt: skip
def test_routed_bends(
    angle: float, radius: float, outside: float, straight: float, length: float
) -> None:
    """Geometry, worked out by hand."""
    found = routed_length(bend_length(angle, radius, outside), straight)
    assert found == pytest.approx(length, abs=0.1)


def test_a_hose_that_shortens_by_four_percent() -> None:
    """Geometry, worked out by hand: 366.0 / 0.96."""
    length = routed_length(bend_length(90, 180, 22), 33)
    assert with_shortening(length, RULES) == pytest.approx(381.3, abs=0.1)


# ---- orientation: own geometry; the convention as MIL-DTL-83796/5 cites SAE J517


@pytest.mark.parametrize(
    ("near", "far", "angle"),
    [(0, 0, 0), (0, 90, 90), (0, 180, 180), (0, 270, 270), (180, 225, 45), (200, 20, 180),
     (350, 10, 20), (90, 45, 315)],
)  # fmt: skip
def test_angles_of_two_elbows(near: float, far: float, angle: float) -> None:
    assert angle_of(near, far) == angle
    assert angle_of(near, far, Convention.FAR) == angle
    assert angle_of(near, far, Convention.MIRRORED) == -angle % 360
    assert angle_of(*from_other_end(near, far)) == angle


@pytest.mark.parametrize(("far_hour", "angle"), [(3, 90), (9, 270)])
def test_near_elbow_at_six(far_hour: float, angle: float) -> None:
    """From 6 to 3 o'clock the counter-clockwise way is a quarter turn; 9 is its mirror."""
    assert angle_of(from_clock(6), from_clock(far_hour)) == angle


# ---- rating, proof


def test_the_lowest_part_rates_the_whole() -> None:
    """ISO 18752:2014 and SAE J517 JUL2020, scopes."""
    parts = (
        RatedPart("hose 2SN", 275, "en-853", Support.OPEN_DATASET),
        RatedPart("end A", 350, "data of the end"),
        RatedPart("end B", 210, "data of the end"),
        RatedPart("port", 250, "machine manual"),
    )
    found = assembly_rating(parts)
    assert (found.bar, found.lowest) == (210, ("end B",))
    assert found.sentence == "210 bar, by end B."


@pytest.mark.parametrize(
    "end",
    [RatedPart("end A", None, ""), RatedPart("end A", 275, "sae-j514", Support.FROM_MEMORY)],
)
def test_what_is_unknown_or_from_memory_leaves_a_blank(end: RatedPart) -> None:
    hose = RatedPart("hose", 275, "en-853", Support.OPEN_DATASET)
    found = assembly_rating((hose, end))
    assert (found.bar, found.at_most_bar, found.look_up) == (None, 275, ("end A",))
    assert found.sentence == "At most 275 bar, rating not known: end A, look up: ____."


def test_a_flange_on_2sn_of_dn_25() -> None:
    """2SN DN 25 carries 165 bar by an open table of EN 853 figures."""
    hose = HOSES["2SN:25"]
    parts = (
        RatedPart("hose", hose.supported_bar, hose.provenance.source, hose.rating_basis),
        RatedPart("flange", 350, "data of the flange"),
    )
    assert assembly_rating(parts).bar == 165


@pytest.mark.parametrize(
    ("rating", "proof", "burst"),
    [("275 bar", 550, 1100), ("420 bar", 840, 1680), ("210 bar", 420, 840)],
)
def test_proof_and_burst(rating: str, proof: float, burst: float) -> None:
    """ISO 6605:2017, 5.2.1: twice the rating; ISO 7751: four times for burst."""
    found = proof_and_burst(parse_bar(rating), RULES)
    assert (found.proof_bar, found.burst_bar) == pytest.approx((proof, burst))
    assert (found.low_s, found.high_s) == (30, 60)


def test_proof_of_3000_psi() -> None:
    found = proof_and_burst(parse_bar("3000 psi"), RULES)
    assert found.proof_bar == pytest.approx(parse_bar("6000 psi"))
    assert found.burst_bar == pytest.approx(parse_bar("12000 psi"))


# ---- units (ISO 80000)


@pytest.mark.parametrize(
    ("text", "bar"), [("4000 psi", 275.8), ("3625 psi", 249.9), ("27.5 MPa", 275.0)]
)
def test_pressures(text: str, bar: float) -> None:
    assert parse_bar(text) == pytest.approx(bar, abs=0.1)


def test_megapascal_in_psi() -> None:
    assert parse_bar("21.0 MPa") / parse_bar("1 psi") == pytest.approx(3045.8, abs=0.1)


# ---- flow


@pytest.mark.parametrize(
    ("flow", "bore", "speed"),
    [(60, 12.7, 7.894), (100, 19.0, 5.878), (40, 9.5, 9.405), (100, 50.8, 0.822)],
)
def test_velocities(flow: float, bore: float, speed: float) -> None:
    """v = 21.22 Q / d2, as public pages of formulas have it."""
    assert velocity(flow, bore) == pytest.approx(speed, abs=0.005)


def test_velocity_in_feet() -> None:
    """12 US gpm through 0.5 in: 19.61 ft/s, v = 0.3208 Q / A of public pages of formulas."""
    speed = velocity(parse_flow("12 US gpm"), 12.7)
    assert speed / 0.3048 == pytest.approx(19.61, abs=0.01)


def _flow(
    rho: float, nu_m2_s: float, m3_s: float, bore_m: float, length_m: float, eps_m: float = 0.0
) -> Flow:
    """Return a flow from SI units."""
    return Flow(m3_s * 60_000, bore_m * 1000, length_m, nu_m2_s * 1e6, rho, eps_m * 1000)


def test_turbulent_oil_of_a_textbook() -> None:
    """Fluid Mechanics (McGraw-Hill), example 6.7: V 6.4 m/s, Re 128 000, head 117 m."""
    flow = _flow(900, 1e-5, 0.2, 0.2, 500, 0.26e-3)
    found = pressure_drop(flow)
    assert found.velocity_m_s == pytest.approx(6.4, abs=0.05)
    assert found.reynolds == pytest.approx(128_000, rel=0.01)
    head = found.bars[0] * 1e5 / (900 * 9.81)
    assert head == pytest.approx(117, rel=0.01)
    friction = head / (500 / 0.2 * found.velocity_m_s**2 / (2 * 9.81))
    assert friction == pytest.approx(0.0225, rel=0.015)
    assert found.laminar is False


def test_laminar_oil_of_a_textbook() -> None:
    """Fluid Mechanics: Fundamentals and Applications, the horizontal oil pipe: 1.62e-5 m3/s."""
    flow = _flow(876, 0.24 / 876, 1.62e-5, 0.015, 15)
    assert pressure_drop(flow).bars[0] * 1e5 == pytest.approx(135_000 - 88_000, rel=0.005)


def test_laminar_oil_up_a_slope() -> None:
    """Fluid Mechanics (McGraw-Hill), example 6.4: friction head 4.9 m, Re 810."""
    flow = _flow(900, 2e-4, 0.0076, 0.06, 10)
    found = pressure_drop(flow)
    assert found.reynolds == pytest.approx(810, rel=0.01)
    assert found.bars[0] * 1e5 / (900 * 9.81) == pytest.approx(4.9, rel=0.01)
    assert found.laminar is True


def test_laminar_oil_with_a_valve() -> None:
    """Technical Paper 410, example 7.8: 60 m of 8 in pipe and a globe valve, 130 cP: 6382 Pa."""
    bore_m, rho, cp = 0.20274, 869.2, 0.130
    flow = _flow(rho, cp / rho, 600 * 0.158987 / 3600, bore_m, 60)  # barrels of oil an hour
    found = pressure_drop(flow)
    assert found.laminar is True
    valve = 340 * 0.014 * rho * found.velocity_m_s**2 / 2
    assert found.bars[0] * 1e5 + valve == pytest.approx(6382, rel=0.002)


def test_a_long_pipe_line() -> None:
    """Technical Paper 410, example 7.17: 50 miles of 12 in pipe, 2000 ft up: 3406.5 ft."""
    bore_m, rho = 12.09 * 0.0254, 54.64 * 16.018463
    flow = _flow(rho, 0.0125 / rho, 1900 * 0.158987 / 3600, bore_m, 50 * 1609.344, 0.0022 * 0.0254)
    head_ft = pressure_drop(flow).bars[0] * 1e5 / (rho * 9.80665) / 0.3048
    assert head_ft + 2000 == pytest.approx(3406.5, rel=0.003)


@pytest.mark.parametrize(
    ("l_min", "bore", "length", "cst", "re", "bars"),
    [
        (30, 12.7, 5, 46, 1090, (1.57,)),
        (60, 12.7, 5, 500, 201, (34.06,)),
        (60, 12.7, 5, 46, 2179, (3.13, 5.13)),
        (100, 19.0, 3, 46, 2428, (0.63, 1.10)),
    ],
)
def test_hoses(
    l_min: float, bore: float, length: float, cst: float, re: float, bars: tuple[float, ...]
) -> None:
    """Worked out with fluids 1.3.1, one_phase_dP; near the turn both values stand."""
    flow = Flow(l_min, bore, length, cst, 870)
    found = pressure_drop(flow)
    assert reynolds(flow) == pytest.approx(re, abs=1)
    assert found.bars == pytest.approx(bars, abs=0.01)
    assert (found.laminar is None) == (len(bars) == 2)


def test_the_drop_is_that_of_the_library() -> None:
    from fluids import one_phase_dP

    for l_min, cst in ((20, 46.0), (150, 46.0), (300, 10.0)):
        found = pressure_drop(Flow(l_min, 12.7, 4, cst, 870, 0.01))
        mass = l_min / 60_000 * 870
        theirs = one_phase_dP(mass, 870, cst * 1e-6 * 870, 12.7e-3, 1e-5, L=4)
        assert math.isclose(found.bars[-1] * 1e5, theirs, rel_tol=0.002)
