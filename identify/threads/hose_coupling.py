"""Hose coupling threads NH (ASME B1.20.7), 60 deg.

From memory, not read. The remembered table obeys a simple rule which is used here: an allowance
of 0.010 in between male and female, 0.0085 in tolerance on the pitch diameter, twice that on the
crests, the profile 0.649519 p high.
"""

from identify.model.source import Provenance
from identify.model.thread import Limits, Thread
from identify.threads.profile import MM_PER_INCH, half_up, inches, sharp_height

_ALLOWANCE_IN = 0.0100
_PITCH_TOLERANCE_IN = 0.0085


def thread(designation: str, male_major_in: float, tpi: float, provenance: Provenance) -> Thread:
    """Return an NH thread, male and female.

    Args:
        designation: "3/4-11.5 NH".
        male_major_in: Greatest major diameter of the male [in].
        tpi: Threads per inch.
        provenance: Who says so.
    """
    height = 0.75 * sharp_height(1 / tpi, 60)
    male_pitch = half_up(male_major_in - height, 4)
    female_major = male_major_in + _ALLOWANCE_IN
    female_pitch = half_up(female_major - height, 4)
    female_minor = half_up(female_major - 2 * height, 4)
    return Thread(
        designation=designation,
        system="NH",
        pitch_mm=MM_PER_INCH / tpi,
        tpi=tpi,
        flank_angle_deg=60.0,
        taper=0.0,
        major_mm=female_major * MM_PER_INCH,
        pitch_diameter_mm=female_pitch * MM_PER_INCH,
        minor_mm=female_minor * MM_PER_INCH,
        external=Limits(
            crest=inches(male_major_in - 2 * _PITCH_TOLERANCE_IN, male_major_in),
            pitch=inches(male_pitch - _PITCH_TOLERANCE_IN, male_pitch),
        ),
        internal=Limits(
            crest=inches(female_minor, female_minor + 2 * _PITCH_TOLERANCE_IN),
            pitch=inches(female_pitch, female_pitch + _PITCH_TOLERANCE_IN),
        ),
        provenance=provenance,
    )
