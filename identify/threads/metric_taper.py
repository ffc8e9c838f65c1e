"""Metric taper males for parallel metric females ("keg", DIN 158), taper 1:16.

The standard's text was not read. A reprint of its limits places the size at the gauge plane a
little above the nominal (by 1 mm of axial length at pitch 1, 3 mm at pitch 1.5); another printed
summary places the nominal itself there. The bands hold both, so they are wide.
"""

from identify.model.source import Provenance
from identify.model.thread import Band, Limits, Thread
from identify.threads.profile import parallel_60

TAPER = 1 / 16

# Printed limits at the gauge plane, lower and upper, above the nominal [mm], by pitch [mm].
_ABOVE_NOMINAL = {1.0: (0.018, 0.108), 1.5: (0.125, 0.251)}


def thread(
    designation: str,
    major_mm: float,
    pitch_mm: float,
    gauge_length_mm: float,
    useful_length_mm: float,
    provenance: Provenance,
) -> Thread:
    """Return a metric taper male.

    Args:
        designation: As the standard writes it, "M12x1.5 keg".
        major_mm: Nominal diameter [mm], taken at the gauge plane.
        pitch_mm: Pitch [mm], 1 or 1.5.
        gauge_length_mm: Small end to gauge plane [mm].
        useful_length_mm: Length of useful thread [mm].
        provenance: Who says so.

    Raises:
        ValueError: No limits are known for this pitch.
    """
    if pitch_mm not in _ABOVE_NOMINAL:
        raise ValueError(f"no DIN 158 limits are known for pitch {pitch_mm:g} mm, only 1 and 1.5")
    low, high = _ABOVE_NOMINAL[pitch_mm]
    half_tolerance = (high - low) / 2
    pitch_diameter, minor = parallel_60(major_mm, pitch_mm)
    small_end = major_mm - gauge_length_mm * TAPER
    large_end = small_end + useful_length_mm * TAPER
    return Thread(
        designation=designation,
        system="M-TAPER",
        pitch_mm=pitch_mm,
        tpi=None,
        flank_angle_deg=60.0,
        taper=TAPER,
        major_mm=major_mm,
        pitch_diameter_mm=pitch_diameter,
        minor_mm=minor,
        external=Limits(
            crest=Band(small_end - half_tolerance, large_end + high),
            pitch=Band(pitch_diameter - half_tolerance, pitch_diameter + high),
        ),
        internal=None,
        provenance=provenance,
        small_end_mm=small_end,
        large_end_mm=large_end,
        gauge_length_mm=gauge_length_mm,
        useful_length_mm=useful_length_mm,
    )
