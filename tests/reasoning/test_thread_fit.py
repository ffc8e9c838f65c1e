"""Thread fits against hand computation and against what is known of the hard pairs.

Every expected figure is worked out in the test from basic profiles, or is *common practice*.
"""

from dataclasses import replace
from math import inf, radians, tan

import pytest

from identify.model.thread import Band, Limits, Thread
from identify.reasoning.thread_fit import (
    START_TURNS,
    Stop,
    ThreadFit,
    ThreadVerdict,
    engagement_turns,
    fit,
)
from tests.reasoning.tables import thread

PIPE_SIZES = ("1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/4", "1 1/2", "2")


def pair(male: str, female: str) -> ThreadFit:
    return fit(thread(male), thread(female))


def pipe(size: str) -> str:
    tpi = {"1/8": "27", "1/4": "18", "3/8": "18", "1/2": "14", "3/4": "14"}.get(size, "11.5")
    return f"{size}-{tpi}"


def exact(name: str, pitch: float, flank: float, diameters: tuple[float, float, float]) -> Thread:
    """A thread without tolerance: male and female exactly at the given diameters."""
    major, middle, minor = diameters
    male = Limits(Band(major, major), Band(middle, middle))
    female = Limits(Band(minor, minor), Band(middle, middle))
    base = thread("M14x1.5")
    return replace(
        base,
        designation=name,
        pitch_mm=pitch,
        flank_angle_deg=flank,
        major_mm=major,
        pitch_diameter_mm=middle,
        minor_mm=minor,
        external=male,
        internal=female,
    )


def test_equal_pitches_with_clearance_run_for_ever() -> None:
    male = exact("male", 1.5, 60, (13.7, 12.7, 11.9))
    female = exact("female", 1.5, 60, (14.0, 13.0, 12.2))
    found = fit(male, female)
    assert found.clearance_mm.mean == pytest.approx(0.3)
    assert found.turns.mean == inf


def test_turns_are_play_over_the_difference_of_pitch() -> None:
    """By hand: play 0.3 tan 30 + (1.4 - 1.5) / 2 = 0.1232 mm, 0.1 mm a turn: 1.232 turns."""
    male = exact("male", 1.5, 60, (13.7, 12.7, 11.9))
    female = exact("female", 1.4, 60, (14.0, 13.0, 12.2))
    found = fit(male, female)
    assert found.turns.mean == pytest.approx((0.3 * tan(radians(30)) - 0.05) / 0.1)
    assert found.stop is Stop.PITCH


def test_55_on_60_deg_flanks_costs_clearance() -> None:
    """By hand: a 55 deg ridge of 1.4 mm has straight flank 0.4925 / 2 pitch above its line.

    A groove of 1.3 mm takes 0.05 mm of the play at the mouth and 0.1 mm with each turn.
    """
    male = exact("male", 1.4, 55, (13.5, 12.6, 11.7))
    female = exact("female", 1.3, 60, (14.2, 13.0, 12.1))
    found = fit(male, female)
    mean = (tan(radians(30)) + tan(radians(27.5))) / 2
    rounding = 2 * 0.137329 * 1.4 * (1 - 0.461749)  # sin 27.5 deg
    loss = (tan(radians(30)) - tan(radians(27.5))) * (0.9 - rounding)
    assert found.turns.mean == pytest.approx((0.4 * mean - loss - 0.05) / 0.1, abs=1e-5)


def test_a_straight_male_jams_in_a_taper_after_its_clearance() -> None:
    """0.1 mm of clearance on a 1:16 taper lasts 1.6 mm: 1.067 turns of 1.5 mm."""
    male = exact("male", 1.5, 60, (13.0, 12.9, 11.0))
    female = replace(exact("female", 1.5, 60, (15.0, 13.0, 12.2)), taper=1 / 16)
    assert fit(male, female).turns.mean == pytest.approx(0.1 * 16 / 1.5, rel=1e-6)


@pytest.mark.parametrize("size", PIPE_SIZES)
@pytest.mark.parametrize("system", ["NPT", "R"])
def test_taper_on_its_own_taper_wedges_at_the_gauge_plane(system: str, size: str) -> None:
    """ASME B1.20.1 and ISO 7-1: hand-tight engagement is the gauge length (L1, a)."""
    male, female = (
        (f"{pipe(size)} NPT", f"{pipe(size)} NPT")
        if system == "NPT"
        else (f"R {size}", f"Rc {size}")
    )
    found = pair(male, female)
    assert found.verdict is ThreadVerdict.WEDGES
    assert found.turns.mean == pytest.approx(engagement_turns(thread(male)), abs=0.02)


@pytest.mark.parametrize("size", PIPE_SIZES)
def test_r_goes_by_hand_into_rp_and_g(size: str) -> None:
    """ISO 7-1 joins R with Rp; G has the same basic diameters."""
    for female in (f"Rp {size}", f"G {size}"):
        assert pair(f"R {size}", female).verdict is ThreadVerdict.WEDGES


@pytest.mark.parametrize("size", ["1/4", "3/8"])
def test_g_and_npt_bind_by_pitch_within_three_turns_at_quarter_and_three_eighths(size: str) -> None:
    """18 against 19 tpi; calculated, and common practice that the wrong one goes a few turns."""
    npt, npsm = f"{pipe(size)} NPT", f"{pipe(size)} NPSM"
    for male, female in ((f"G {size}", npt), (npt, f"G {size}"), (f"R {size}", npt)):
        found = pair(male, female)
        assert found.turns.mean < 3
        assert found.turns.loosest < 4
        assert found.verdict in (ThreadVerdict.BINDS, ThreadVerdict.NO_START)
    assert pair(f"G {size}", npsm).stop is Stop.PITCH
    assert pair(f"G {size}", npsm).verdict is ThreadVerdict.BINDS


@pytest.mark.parametrize("size", ["1/2", "3/4"])
def test_g_and_npt_never_bind_by_pitch_at_half_and_three_quarters(size: str) -> None:
    """All are 14 tpi. A parallel G male runs the whole way into the parallel NPSM swivel.

    At 3/4 it does so at the loosest fit only: G is 0.16 mm larger on the pitch diameter there.
    """
    npt, npsm = f"{pipe(size)} NPT", f"{pipe(size)} NPSM"
    assert pair(f"G {size}", npsm).turns.loosest == inf
    assert (pair(f"G {size}", npsm).verdict is ThreadVerdict.RUNS) == (size == "1/2")
    for male, female in ((npt, f"G {size}"), (f"R {size}", npt), (npt, f"Rc {size}")):
        assert pair(male, female).verdict is ThreadVerdict.WEDGES
    for male, female in ((npt, f"G {size}"), (f"G {size}", npt), (f"R {size}", npt)):
        assert pair(male, female).stop is not Stop.PITCH


@pytest.mark.parametrize("size", ["1", "1 1/4", "1 1/2", "2"])
def test_large_npt_males_bind_by_pitch_in_g(size: str) -> None:
    """11.5 against 11 tpi: 0.1 mm a turn."""
    found = pair(f"{pipe(size)} NPT", f"G {size}")
    assert found.verdict is ThreadVerdict.BINDS
    assert found.stop is Stop.PITCH
    assert 2 < found.turns.mean < 4.5


def test_eighth_pipe_threads_hardly_differ_in_pitch() -> None:
    """27 and 28 tpi: 0.034 mm a turn, so R 1/8 reaches its hand-tight place in 1/8 NPT."""
    assert pair("R 1/8", "1/8-27 NPT").verdict is ThreadVerdict.WEDGES
    assert pair("1/8-27 NPT", "G 1/8").verdict is ThreadVerdict.NO_START


def test_m14_enters_nine_sixteenths_about_three_turns_and_not_the_other_way() -> None:
    """By hand from mean sizes: clearance 0.53 mm, play 0.26 mm, 0.089 mm a turn."""
    found = pair("M14x1.5", "9/16-18 UNF")
    assert found.verdict is ThreadVerdict.BINDS
    assert found.turns.mean == pytest.approx(3, abs=0.3)
    assert found.turns.tightest == pytest.approx(2, abs=0.2)
    assert found.turns.loosest == pytest.approx(4, abs=0.3)
    back = pair("9/16-18 UNF", "M14x1.5")
    assert back.verdict is ThreadVerdict.NO_START
    assert back.stop is Stop.DIAMETER
    assert back.turns.loosest < START_TURNS


# Verdict and turns at the mean fit. Calculated; the pairs are those the trade names.
HARD_PAIRS = [
    ("M16x1.5", "5/8-18 UNF", ThreadVerdict.NO_START, None),
    ("5/8-18 UNF", "M16x1.5", ThreadVerdict.BINDS, 2.2),
    ("M16x1.5", "G 3/8", ThreadVerdict.BINDS, 2.5),
    ("G 3/8", "M16x1.5", ThreadVerdict.NO_START, None),
    ("5/8-18 UNF", "G 3/8", ThreadVerdict.BINDS, 6.5),
    ("G 3/8", "5/8-18 UNF", ThreadVerdict.NO_START, None),
    ("M22x1.5", "7/8-14 UNF", ThreadVerdict.BINDS, 0.9),
    ("7/8-14 UNF", "M22x1.5", ThreadVerdict.NO_START, None),
    ("M22x1.5", "G 1/2", ThreadVerdict.NO_START, None),
    ("G 1/2", "M22x1.5", ThreadVerdict.BINDS, 1.9),
    ("M22x1.5", "G 5/8", ThreadVerdict.BINDS, 1.9),
    ("G 5/8", "M22x1.5", ThreadVerdict.NO_START, None),
    ("G 1/2", "7/8-14 UNF", ThreadVerdict.LOOSE, None),
    ("7/8-14 UNF", "G 5/8", ThreadVerdict.RUNS, None),
    ("G 5/8", "7/8-14 UNF", ThreadVerdict.NO_START, None),
    ("G 1/2", "G 5/8", ThreadVerdict.NO_CATCH, None),
    ("G 5/8", "G 1/2", ThreadVerdict.NO_START, None),
    ("M27x2", "1 1/16-12 UN", ThreadVerdict.BINDS, 1.1),
    ("1 1/16-12 UN", "M27x2", ThreadVerdict.BINDS, 1.1),
    ("M30x2", "1 3/16-12 UN", ThreadVerdict.BINDS, 2.0),
    ("1 3/16-12 UN", "M30x2", ThreadVerdict.NO_START, None),
    ("M33x2", "1 5/16-12 UN", ThreadVerdict.BINDS, 2.9),
    ("1 5/16-12 UN", "M33x2", ThreadVerdict.NO_START, None),
    ("M33x2", "G 1", ThreadVerdict.BINDS, 0.8),
    ("G 1", "M33x2", ThreadVerdict.NO_START, None),
]


@pytest.mark.parametrize(("male", "female", "verdict", "turns"), HARD_PAIRS)
def test_hard_pairs(male: str, female: str, verdict: ThreadVerdict, turns: float | None) -> None:
    found = pair(male, female)
    assert found.verdict is verdict
    if turns is not None:
        assert found.turns.mean == pytest.approx(turns, abs=0.15)


def test_opposite_hands_do_not_start() -> None:
    left = replace(thread("G 3/8"), left_hand=True)
    assert fit(left, thread("G 3/8")).stop is Stop.HAND
    assert fit(left, left).verdict is ThreadVerdict.RUNS


def test_a_female_only_thread_is_no_male() -> None:
    with pytest.raises(ValueError, match="Rc 1/4 has no male limits"):
        pair("Rc 1/4", "G 1/4")


def test_length_of_engagement_lies_in_the_normal_group() -> None:
    """ISO 965-1, from memory: 2.24 to 6.7 times P d^0.2."""
    for name in ("M10x1", "M22x1.5", "M52x2"):
        one = thread(name)
        low, high = (factor * one.major_mm**0.2 for factor in (2.24, 6.7))
        assert low < engagement_turns(one) < high
