"""Figures read in published tables, each with the table it comes from."""

import pytest

from identify.threads import american_pipe, metric, unified, whitworth_pipe
from identify.threads.profile import half_up, sharp_height
from tests.threads.printed import JIS_B_0203, NPT
from tests.threads.shipped import NOBODY, inch, limit, shipped


@pytest.mark.parametrize(
    ("flanks", "taper", "height"),
    [
        (60, 0.0, 0.866025),  # ISO 68-1, ASME B1.1
        (55, 0.0, 0.960491),  # ISO 228-1, BS 21
        (55, 1 / 16, 0.960237),  # ISO 7-1
    ],
)
def test_sharp_triangle(flanks: float, taper: float, height: float):
    assert sharp_height(1.0, flanks, taper) == pytest.approx(height, abs=1e-6)


@pytest.mark.parametrize(
    ("pitch", "deviation", "major", "minor"),
    [  # ISO 965-1 printed tables [um], as two open datasets of 6g and 6H give them
        (1.0, 26, 180, 236),
        (1.25, 28, 212, 265),
        (1.5, 32, 236, 300),
        (1.75, 34, 265, 335),
        (2.0, 38, 280, 375),
        (2.5, 42, 335, 450),
        (0.75, 22, 140, 190),
        (4.0, 60, 475, 600),
        (0.5, 20, 106, 140),  # this row and the next from memory
        (3.0, 48, 375, 500),
    ],
)
def test_metric_tolerances_by_pitch(pitch: float, deviation: int, major: int, minor: int):
    assert metric.deviation_g(pitch) == deviation
    assert metric.major_tolerance(pitch) == pytest.approx(major)
    assert metric.minor_tolerance(pitch) == pytest.approx(minor)


R20 = (
    100, 112, 125, 140, 160, 180, 200, 224, 250, 280, 315, 355, 400, 450, 500, 560, 630, 710, 800,
    900,
)  # fmt: skip


@pytest.mark.parametrize("number", [*R20, 106, 236, 335, 475, 950, 1000, 1060])
def test_preferred_numbers_stay_themselves(number: int):
    """ISO 3: a number of the R20 or R40 series is its own rounding."""
    assert metric.preferred(number) == pytest.approx(number)


@pytest.mark.parametrize("major", [0.5, 400.0])
def test_metric_pitch_tolerance_ends_where_the_standard_does(major: float):
    with pytest.raises(ValueError, match="outside ISO 965-1"):
        metric.pitch_tolerance(major, 1.5, female=True)


@pytest.mark.parametrize(
    ("designation", "name", "printed"),
    [  # ASME B1.1, reprinted tables [in]
        ("7/8-14 UNF", "internal_crest_max", 0.814),  # table; the formula gives .8135
        ("1-14 UNS", "internal_crest_min", 0.923),  # B1.1-2019
        ("1-14 UNS", "internal_crest_max", 0.938),
        ("1-14 UNS", "external_crest_max", 0.9984),
        ("1-14 UNS", "external_crest_min", 0.9881),
        ("1-14 UNS", "external_pitch_max", 0.9520),
        ("5/8-18 UNF", "external_crest_max", 0.6236),
        ("5/8-18 UNF", "external_crest_min", 0.6149),
    ],
)
def test_unified_limits(designation: str, name: str, printed: float):
    assert inch(limit(shipped()[designation], name)) == pytest.approx(printed, abs=1e-9)


@pytest.mark.parametrize(("size", "tpi", "pipe_od", "e0", "e1", "l1", "l2"), NPT)
def test_npt(size: str, tpi: float, pipe_od: float, e0: float, e1: float, l1: float, l2: float):
    assert american_pipe.small_end_pitch_diameter(pipe_od, tpi) == pytest.approx(e0, abs=6e-6)
    assert american_pipe.gauge_pitch_diameter(pipe_od, tpi, l1) == pytest.approx(e1, abs=6e-6)
    assert american_pipe.effective_length(pipe_od, tpi) == pytest.approx(l2, abs=6e-5)


@pytest.mark.parametrize(
    ("tpi", "male", "female"),
    [(28, 0.91, 1.13), (19, 1.34, 1.67), (14, 1.81, 2.27), (11, 2.31, 2.89)],
)
def test_axial_tolerance_of_taper_pipe_threads(tpi: float, male: float, female: float):
    """JIS B 0203 table, columns b and c [mm]."""
    assert whitworth_pipe.axial_tolerances(tpi) == pytest.approx((male, female), abs=1e-9)


@pytest.mark.parametrize("size", JIS_B_0203)
def test_small_end_of_taper_pipe(size: str):
    gauge, major, _, _ = JIS_B_0203[size]
    assert shipped()[f"R {size}"].small_end_mm == pytest.approx(major - gauge / 16, abs=1e-9)


def test_gauge_length_as_iso_rounds_it():
    """ISO 7-1 prints 4.0, 6.0, 6.4, 8.2 … for the lengths of JIS B 0203."""
    iso = {"1/8": 4.0, "1/4": 6.0, "3/8": 6.4, "1/2": 8.2, "3/4": 9.5, "1": 10.4, "2": 15.9}
    for size, length in iso.items():
        assert half_up(shipped()[f"R {size}"].gauge_length_mm or 0, 1) == length


def test_npsm_as_printed():
    """ASME B1.20.1 straight mechanical threads, two reprints [in]."""
    thread = shipped()["1/2-14 NPSM"]
    names = ("external_crest_max", "external_crest_min", "internal_crest_min", "internal_crest_max")
    read = [inch(limit(thread, name)) for name in names]
    assert read == pytest.approx([0.823, 0.813, 0.747, 0.759], abs=1e-9)


@pytest.mark.parametrize(
    ("designation", "low", "high"),
    [  # reprint of DIN 158 limits at the gauge plane [mm]
        ("M8x1 keg", 8.018, 8.108),
        ("M12x1.5 keg", 12.125, 12.251),
        ("M22x1.5 keg", 22.125, 22.251),
    ],
)
def test_metric_taper_band_holds_the_reprint(designation: str, low: float, high: float):
    thread = shipped()[designation]
    assert limit(thread, "external_crest_min") < low
    assert high < limit(thread, "external_crest_max")
    assert limit(thread, "external_pitch_max") == pytest.approx(
        thread.pitch_diameter_mm + high - thread.major_mm
    )
    assert limit(thread, "external_pitch_min") == pytest.approx(
        thread.pitch_diameter_mm - (high - low) / 2
    )


def test_greatest_major_of_the_hose_coupling():
    assert inch(shipped()["3/4-11.5 NH"].major_mm) == pytest.approx(1.0725, abs=1e-9)


def test_hose_coupling_as_recalled():
    """ASME B1.20.7 table of 3/4-11.5 NH, from memory [in]."""
    thread = shipped()["3/4-11.5 NH"]
    recalled = {
        "external_crest_min": 1.0455,
        "external_pitch_min": 0.9975,
        "external_pitch_max": 1.0060,
        "internal_pitch_min": 1.0160,
        "internal_pitch_max": 1.0245,
        "internal_crest_min": 0.9595,
        "internal_crest_max": 0.9765,
    }
    read = {name: inch(limit(thread, name)) for name in recalled}
    assert read == pytest.approx(recalled, abs=1e-9)


def test_unified_limits_are_rounded_as_printed():
    """ASME B1.1 prints ten thousandths of an inch, thousandths for the female's minor."""
    for thread in (thread for thread in shipped().values() if thread.system == "UN"):
        assert thread.external
        assert thread.internal
        for band, places in (
            (thread.external.crest, 4),
            (thread.external.pitch, 4),
            (thread.internal.pitch, 4),
            (thread.internal.crest, 3),
        ):
            for limit_mm in (band.low_mm, band.high_mm):
                units = inch(limit_mm) * 10**places
                assert units == pytest.approx(round(units), abs=1e-6), thread.designation


@pytest.mark.parametrize(("major", "tpi"), [(0.19, 32), (0.2499, 20), (1.0, 3.5)])
def test_unified_formulas_end_where_they_end(major: float, tpi: float):
    with pytest.raises(ValueError, match="hold from 1/4 in and 4 tpi"):
        unified.thread("out of range", major, tpi, "UN", NOBODY)


@pytest.mark.parametrize("tpi", [4, 20])
def test_unified_formulas_hold_at_their_edge(tpi: float):
    assert unified.thread("edge", 0.25 if tpi > 4 else 2.0, tpi, "UN", NOBODY).tpi == tpi


def test_npt_male_band_is_wider_than_the_female_by_its_taper():
    """Truncation and turns are the same for both; only the male is read along its whole length."""
    for thread in (thread for thread in shipped().values() if thread.system == "NPT"):
        male, female = (
            limit(thread, f"{gender}_crest_max") - limit(thread, f"{gender}_crest_min")
            for gender in ("external", "internal")
        )
        grown = (thread.large_end_mm or 0) - (thread.small_end_mm or 0)
        assert male - female == pytest.approx(grown, abs=1e-9), thread.designation


@pytest.mark.parametrize(
    ("size", "axial"), [("1/8", 0.91), ("1/4", 1.34), ("1/2", 1.81), ("1", 2.31)]
)
def test_taper_male_may_be_off_by_its_own_axial_tolerance(size: str, axial: float):
    """JIS B 0203 column b, the male's, along the axis [mm]; a sixteenth of it on the diameter."""
    thread = shipped()[f"R {size}"]
    above = limit(thread, "external_crest_max") - (thread.large_end_mm or 0)
    below = (thread.small_end_mm or 0) - limit(thread, "external_crest_min")
    assert (above, below) == pytest.approx((axial / 16, axial / 16), abs=1e-9)
