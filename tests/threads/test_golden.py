"""Figures read in published tables, each with the table it comes from."""

import pytest

from identify.threads import american_pipe, metric, whitworth_pipe
from identify.threads.profile import half_up, sharp_height
from tests.threads.shipped import inch, limit, shipped


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
    ],
)
def test_metric_tolerances_by_pitch(pitch: float, deviation: int, major: int, minor: int):
    assert metric.deviation_g(pitch) == deviation
    assert metric.major_tolerance(pitch) == pytest.approx(major)
    assert metric.minor_tolerance(pitch) == pytest.approx(minor)


@pytest.mark.parametrize("number", [100, 106, 236, 335, 475, 950, 1000, 1060])
def test_preferred_numbers_stay_themselves(number: int):
    """ISO 3: a number of the R40 series is its own rounding."""
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


# ASME B1.20.1 table 2, two reprints: size, tpi, pipe OD, E0, E1, L1, L2 [in].
NPT = [
    ("1/16", 27, 0.3125, 0.27118, 0.28118, 0.160, 0.2611),
    ("1/8", 27, 0.405, 0.36351, 0.37360, 0.1615, 0.2639),
    ("1/4", 18, 0.540, 0.47739, 0.49163, 0.2278, 0.4018),
    ("3/8", 18, 0.675, 0.61201, 0.62701, 0.240, 0.4078),
    ("1/2", 14, 0.840, 0.75843, 0.77843, 0.320, 0.5337),
    ("3/4", 14, 1.050, 0.96768, 0.98887, 0.339, 0.5457),
    ("1", 11.5, 1.315, 1.21363, 1.23863, 0.400, 0.6828),
    ("1 1/4", 11.5, 1.660, 1.55713, 1.58338, 0.420, 0.7068),
    ("1 1/2", 11.5, 1.900, 1.79609, 1.82234, 0.420, 0.7235),
    ("2", 11.5, 2.375, 2.26902, 2.29627, 0.436, 0.7565),
]


@pytest.mark.parametrize(("size", "tpi", "pipe_od", "e0", "e1", "l1", "l2"), NPT)
def test_npt(size: str, tpi: float, pipe_od: float, e0: float, e1: float, l1: float, l2: float):
    assert american_pipe.small_end_pitch_diameter(pipe_od, tpi) == pytest.approx(e0, abs=6e-6)
    assert american_pipe.gauge_pitch_diameter(pipe_od, tpi, l1) == pytest.approx(e1, abs=6e-6)
    assert american_pipe.effective_length(pipe_od, tpi) == pytest.approx(l2, abs=6e-5)
    thread = shipped()[f"{size}-{tpi:g} NPT"]
    assert inch(thread.pitch_diameter_mm) == pytest.approx(e1, abs=6e-6)
    assert inch(thread.gauge_length_mm or 0) == pytest.approx(l1, abs=1e-9)


@pytest.mark.parametrize(
    ("tpi", "male", "female"),
    [(28, 0.91, 1.13), (19, 1.34, 1.67), (14, 1.81, 2.27), (11, 2.31, 2.89)],
)
def test_axial_tolerance_of_taper_pipe_threads(tpi: float, male: float, female: float):
    """JIS B 0203 table, columns b and c [mm]."""
    assert whitworth_pipe.axial_tolerances(tpi) == pytest.approx((male, female), abs=1e-9)


@pytest.mark.parametrize(
    ("size", "gauge", "major", "pitch", "minor"),
    [  # JIS B 0203 table [mm]; the gauge lengths agree with an encyclopaedia's to 0.05 mm
        ("1/8", 3.97, 9.728, 9.147, 8.566),
        ("1/4", 6.01, 13.157, 12.301, 11.445),
        ("3/8", 6.35, 16.662, 15.806, 14.950),
        ("1/2", 8.16, 20.955, 19.793, 18.631),
        ("3/4", 9.53, 26.441, 25.279, 24.117),
        ("1", 10.39, 33.249, 31.770, 30.291),
        ("1 1/4", 12.70, 41.910, 40.431, 38.952),
        ("1 1/2", 12.70, 47.803, 46.324, 44.845),
        ("2", 15.88, 59.614, 58.135, 56.656),
    ],
)
def test_taper_pipe(size: str, gauge: float, major: float, pitch: float, minor: float):
    male = shipped()[f"R {size}"]
    assert male.gauge_length_mm == pytest.approx(gauge, abs=1e-9)
    basic = (male.major_mm, male.pitch_diameter_mm, male.minor_mm)
    assert basic == pytest.approx((major, pitch, minor), abs=0.0006)
    assert male.small_end_mm == pytest.approx(major - gauge / 16, abs=1e-9)


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
    ("designation", "allowance"),
    [  # ASME B1.20.1 straight mechanical threads, column "allowance" of an online reprint [in]
        ("1/8-27 NPSM", 0.0011),
        ("1/4-18 NPSM", 0.0013),
        ("3/8-18 NPSM", 0.0014),
        ("1/2-14 NPSM", 0.0015),
        ("3/4-14 NPSM", 0.0016),
        ("1-11.5 NPSM", 0.0017),
        ("1 1/4-11.5 NPSM", 0.0018),
        ("1 1/2-11.5 NPSM", 0.0018),
        ("2-11.5 NPSM", 0.0019),
    ],
)
def test_npsm_pitch_diameters_keep_the_printed_allowance(designation: str, allowance: float):
    thread = shipped()[designation]
    gap = limit(thread, "internal_pitch_min") - limit(thread, "external_pitch_max")
    assert inch(gap) == pytest.approx(allowance, abs=1e-9)


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


def test_hose_coupling_male_and_female_keep_their_allowance():
    """From memory of ASME B1.20.7, so only the rule is tested: .010 in between the two."""
    thread = shipped()["3/4-11.5 NH"]
    gap = limit(thread, "internal_pitch_min") - limit(thread, "external_pitch_max")
    assert inch(gap) == pytest.approx(0.0100, abs=1e-9)
    assert inch(thread.major_mm) == pytest.approx(1.0725, abs=1e-9)
