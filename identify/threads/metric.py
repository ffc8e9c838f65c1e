"""ISO metric threads, tolerance classes 6g (male) and 6H (female).

Source: ISO 965-1, formulas of the clause on tolerances, as two public code transcriptions give
them; the text itself was not read. Tolerances are rounded to the R40 preferred numbers, deviations
to whole micrometres. Where the printed table departs from its own formula the table wins.
"""

import itertools
import math

from identify.model.source import Provenance
from identify.model.thread import Band, Limits, Thread
from identify.threads.profile import parallel_60

# The R40 series of preferred numbers (ISO 3), one decade, 10^(k/40) rounded.
_R40 = (
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280,
    300, 315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850,
    900, 950,
)  # fmt: skip

# Printed values that the formula misses, by pitch [mm] [um].
_PRINTED_DEVIATION = {0.75: 22, 1.25: 28, 2.0: 38, 2.5: 42, 3.5: 53, 4.0: 60, 4.5: 63, 5.0: 71}
_PRINTED_MAJOR = {4.0: 475}
_PRINTED_MINOR = {0.5: 140, 1.0: 236}  # 0.5 from memory: M3 6H minor 2.459 to 2.599 mm

# Steps of nominal diameter within which the standard gives one pitch diameter tolerance [mm].
_DIAMETER_STEPS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)


def preferred(micrometres: float) -> float:
    """Return the R40 preferred number nearest by ratio."""
    decade, step = divmod(round(40 * math.log10(micrometres)), 40)
    return _R40[step] * 10.0 ** (decade - 2)


def deviation_g(pitch_mm: float) -> float:
    """Return how far a 6g male lies below the basic profile [um]."""
    return _PRINTED_DEVIATION.get(pitch_mm) or round(15 + 11 * pitch_mm)


def major_tolerance(pitch_mm: float) -> float:
    """Return the major diameter tolerance of a male, grade 6 [um]."""
    formula = 180 * pitch_mm ** (2 / 3) - 3.15 / math.sqrt(pitch_mm)
    return _PRINTED_MAJOR.get(pitch_mm) or preferred(formula)


def minor_tolerance(pitch_mm: float) -> float:
    """Return the minor diameter tolerance of a female, grade 6 [um]."""
    fine = pitch_mm < 1
    formula = 433 * pitch_mm - 190 * pitch_mm**1.22 if fine else 230 * pitch_mm**0.7
    return _PRINTED_MINOR.get(pitch_mm) or preferred(formula)


def pitch_tolerance(major_mm: float, pitch_mm: float, *, female: bool) -> float:
    """Return the pitch diameter tolerance, grade 6 [um].

    Raises:
        ValueError: The diameter is outside the table of the standard.
    """
    for low, high in itertools.pairwise(_DIAMETER_STEPS):
        if low < major_mm <= high:
            male = preferred(90 * pitch_mm**0.4 * math.sqrt(low * high) ** 0.1)
            return preferred(1.32 * male) if female else male
    raise ValueError(f"{major_mm:g} mm is outside ISO 965-1 (1 mm to 355 mm)")


def limits_6g(major_mm: float, pitch_mm: float) -> Limits:
    """Return the limits of size of a male, before plating."""
    pitch_diameter, _ = parallel_60(major_mm, pitch_mm)
    below = deviation_g(pitch_mm) / 1000
    crest = major_mm - below
    flank = pitch_diameter - below
    return Limits(
        crest=Band(crest - major_tolerance(pitch_mm) / 1000, crest),
        pitch=Band(flank - pitch_tolerance(major_mm, pitch_mm, female=False) / 1000, flank),
    )


def limits_6h(major_mm: float, pitch_mm: float) -> Limits:
    """Return the limits of size of a female, before plating (class 6H)."""
    pitch_diameter, minor = parallel_60(major_mm, pitch_mm)
    above = pitch_tolerance(major_mm, pitch_mm, female=True) / 1000
    return Limits(
        crest=Band(minor, minor + minor_tolerance(pitch_mm) / 1000),
        pitch=Band(pitch_diameter, pitch_diameter + above),
    )


def thread(designation: str, major_mm: float, pitch_mm: float, provenance: Provenance) -> Thread:
    """Return a metric thread with its limits of size."""
    pitch_diameter, minor = parallel_60(major_mm, pitch_mm)
    return Thread(
        designation=designation,
        system="M",
        pitch_mm=pitch_mm,
        tpi=None,
        flank_angle_deg=60.0,
        taper=0.0,
        major_mm=major_mm,
        pitch_diameter_mm=pitch_diameter,
        minor_mm=minor,
        external=limits_6g(major_mm, pitch_mm),
        internal=limits_6h(major_mm, pitch_mm),
        provenance=provenance,
    )
