"""Whitworth pipe threads, 55 deg: G (ISO 228-1) and R, Rc, Rp (ISO 7-1).

Source: ISO 228-1 and JIS B 0202 tables, ISO 7-1 and JIS B 0203 tables, as open datasets give them;
the ISO texts were not read. Basic diameters follow from major diameter and pitch; tolerances are
printed by pitch. Axial tolerances are one pitch (male) and 1.25 pitches (female), which rounds to
every printed value. JIS puts the female gauge plane at the end face, ISO half a pitch behind it:
at most 0.07 mm on the diameter; JIS is used here.
"""

from identify.frozen import dataclass
from identify.model.source import Provenance
from identify.model.thread import Band, Limits, Thread
from identify.threads.profile import MM_PER_INCH, around, half_up, sharp_height

TAPER = 1 / 16


@dataclass(frozen=True, slots=True)
class PipeTolerance:
    """Printed tolerances of G threads [mm]: on the pitch diameter and on the female's minor."""

    pitch: float
    minor: float


# By threads per inch. The tolerance of the male's major is twice that of the pitch diameter.
_TOLERANCES = {
    28: PipeTolerance(0.107, 0.282),
    19: PipeTolerance(0.125, 0.445),
    14: PipeTolerance(0.142, 0.541),
    11: PipeTolerance(0.180, 0.640),
}
_LARGE = PipeTolerance(0.217, 0.640)  # above size 2
_LARGE_FROM_MM = 60.0


def basic(major_mm: float, tpi: float) -> tuple[float, float]:
    """Return basic pitch diameter and minor diameter [mm].

    The height of the rounded profile is two thirds of the sharp triangle, 0.640327 P. The standard
    rounds the height first, which decides the last digit of the minor diameter.
    """
    height = half_up(2 / 3 * sharp_height(MM_PER_INCH / tpi, 55), 3)
    return major_mm - height, major_mm - 2 * height


def tolerance(major_mm: float, tpi: float) -> PipeTolerance:
    """Return the printed tolerances of a G thread.

    Raises:
        ValueError: ISO 228-1 has no such pitch.
    """
    if tpi not in _TOLERANCES:
        raise ValueError(f"{tpi:g} tpi is not a pipe thread; ISO 228-1 has 28, 19, 14 and 11")
    return _LARGE if major_mm > _LARGE_FROM_MM else _TOLERANCES[int(tpi)]


def limits_g(major_mm: float, tpi: float, male_class: str = "B") -> tuple[Limits, Limits]:
    """Return the limits of a G male and a G female.

    Class A and B males have the same major diameter; B has twice the tolerance on the pitch
    diameter. Nobody sees the class on a part, so the wider B is the default.
    """
    pitch_diameter, minor = basic(major_mm, tpi)
    allowed = tolerance(major_mm, tpi)
    below = allowed.pitch * (2 if male_class == "B" else 1)
    male = Limits(
        crest=Band(major_mm - 2 * allowed.pitch, major_mm),
        pitch=Band(pitch_diameter - below, pitch_diameter),
    )
    female = Limits(
        crest=Band(minor, minor + allowed.minor),
        pitch=Band(pitch_diameter, pitch_diameter + allowed.pitch),
    )
    return male, female


def axial_tolerances(tpi: float) -> tuple[float, float]:
    """Return how far the gauge plane may lie to each side, male and female [mm] (ISO 7-1)."""
    pitch = MM_PER_INCH / tpi
    return half_up(pitch, 2), half_up(1.25 * pitch, 2)


def parallel(designation: str, major_mm: float, tpi: float, provenance: Provenance) -> Thread:
    """Return a G thread, male and female."""
    male, female = limits_g(major_mm, tpi)
    return _thread(designation, "G", 0.0, major_mm, tpi, (male, female), provenance)


def taper_male(
    designation: str,
    major_mm: float,
    tpi: float,
    gauge_length_mm: float,
    beyond_gauge_mm: float,
    provenance: Provenance,
) -> Thread:
    """Return an R thread.

    Args:
        designation: "R 1/4".
        major_mm: Major diameter at the gauge plane [mm].
        tpi: Threads per inch.
        gauge_length_mm: Small end to gauge plane [mm].
        beyond_gauge_mm: Useful thread beyond the gauge plane [mm].
        provenance: Who says so.
    """
    pitch_diameter, _ = basic(major_mm, tpi)
    deviation = axial_tolerances(tpi)[0] * TAPER
    small_end = major_mm - gauge_length_mm * TAPER
    large_end = major_mm + beyond_gauge_mm * TAPER
    male = Limits(
        crest=Band(small_end - deviation, large_end + deviation),
        pitch=around(pitch_diameter, deviation),
    )
    lengths = (small_end, large_end, gauge_length_mm, gauge_length_mm + beyond_gauge_mm)
    return _thread(designation, "ISO7", TAPER, major_mm, tpi, (male, None), provenance, lengths)


def female_7_1(
    designation: str, major_mm: float, tpi: float, taper: float, provenance: Provenance
) -> Thread:
    """Return an Rc (`taper` 1/16) or Rp (0) thread; both have the same size at the mouth."""
    pitch_diameter, minor = basic(major_mm, tpi)
    deviation = axial_tolerances(tpi)[1] * TAPER
    female = Limits(crest=around(minor, deviation), pitch=around(pitch_diameter, deviation))
    return _thread(designation, "ISO7", taper, major_mm, tpi, (None, female), provenance)


def _thread(
    designation: str,
    system: str,
    taper: float,
    major_mm: float,
    tpi: float,
    limits: tuple[Limits | None, Limits | None],
    provenance: Provenance,
    lengths: tuple[float | None, ...] = (None, None, None, None),
) -> Thread:
    pitch_diameter, minor = basic(major_mm, tpi)
    return Thread(
        designation=designation,
        system=system,
        pitch_mm=MM_PER_INCH / tpi,
        tpi=tpi,
        flank_angle_deg=55.0,
        taper=taper,
        major_mm=major_mm,
        pitch_diameter_mm=pitch_diameter,
        minor_mm=minor,
        external=limits[0],
        internal=limits[1],
        provenance=provenance,
        small_end_mm=lengths[0],
        large_end_mm=lengths[1],
        gauge_length_mm=lengths[2],
        useful_length_mm=lengths[3],
    )
