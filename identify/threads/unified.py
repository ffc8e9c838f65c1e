"""Unified inch threads, classes 2A (male) and 2B (female).

Source: ASME B1.1, formulas for allowance and tolerances, as three public code transcriptions give
them; the text itself was not read. Limits are rounded as the standard prints them: ten thousandths
of an inch, the minor diameter of the female to thousandths.
"""

import math

from identify.model.source import Provenance
from identify.model.thread import Limits, Thread
from identify.threads.profile import MM_PER_INCH, half_up, inches, parallel_60

# Series whose length of engagement is one diameter; all others count nine pitches.
_ENGAGED_ONE_DIAMETER = ("UNC", "UNF")


def pitch_tolerance_2a(major_in: float, tpi: float, series: str) -> float:
    """Return the pitch diameter tolerance of class 2A [in], not rounded.

    Args:
        major_in: Basic major diameter [in].
        tpi: Threads per inch.
        series: "UNC", "UNF", "UNEF", "UN" or "UNS"; it decides the length of engagement.
    """
    pitch = 1 / tpi
    one_diameter = series in _ENGAGED_ONE_DIAMETER or (series == "UN" and tpi in (4, 6, 8))
    engaged = major_in if one_diameter else 9 * pitch
    return 0.0015 * (math.cbrt(major_in) + math.sqrt(engaged) + 10 * math.cbrt(pitch) ** 2)


def limits_2a(major_in: float, tpi: float, series: str) -> Limits:
    """Return the limits of size of a male, before plating."""
    pitch = 1 / tpi
    pitch_diameter, _ = parallel_60(major_in, pitch)
    tolerance = pitch_tolerance_2a(major_in, tpi, series)
    allowance = half_up(0.3 * tolerance, 4)
    crest = half_up(major_in - allowance, 4)
    flank = half_up(half_up(pitch_diameter, 4) - allowance, 4)
    return Limits(
        crest=inches(half_up(crest - half_up(0.060 * math.cbrt(pitch) ** 2, 4), 4), crest),
        pitch=inches(half_up(flank - half_up(tolerance, 4), 4), flank),
    )


def limits_2b(major_in: float, tpi: float, series: str) -> Limits:
    """Return the limits of size of a female, before plating; for diameters from 1/4 in."""
    pitch = 1 / tpi
    pitch_diameter, minor = parallel_60(major_in, pitch)
    flank = half_up(pitch_diameter, 4)
    tolerance = half_up(1.30 * pitch_tolerance_2a(major_in, tpi, series), 4)
    widest = minor + 0.25 * pitch - 0.4 * pitch**2
    return Limits(
        crest=inches(half_up(minor, 3), half_up(widest, 3)),
        pitch=inches(flank, half_up(flank + tolerance, 4)),
    )


def thread(
    designation: str, major_in: float, tpi: float, series: str, provenance: Provenance
) -> Thread:
    """Return a Unified thread with its limits of size.

    Raises:
        ValueError: The formulas used here hold from 1/4 in and 4 threads per inch.
    """
    if major_in < 0.25 or tpi < 4:
        raise ValueError(f"{designation}: the formulas hold from 1/4 in and 4 tpi only")
    pitch_diameter, minor = parallel_60(major_in, 1 / tpi)
    return Thread(
        designation=designation,
        system="UN",
        pitch_mm=MM_PER_INCH / tpi,
        tpi=tpi,
        flank_angle_deg=60.0,
        taper=0.0,
        major_mm=major_in * MM_PER_INCH,
        pitch_diameter_mm=pitch_diameter * MM_PER_INCH,
        minor_mm=minor * MM_PER_INCH,
        external=limits_2a(major_in, tpi, series),
        internal=limits_2b(major_in, tpi, series),
        provenance=provenance,
    )
