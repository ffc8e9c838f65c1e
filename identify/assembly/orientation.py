"""The angle between two elbows: from which end, seen from where, counted which way.

Positions are degrees on the clock face that somebody sees who looks along the hose, counted
counter-clockwise from 12 o'clock: 9 o'clock is 90, 6 o'clock 180, 3 o'clock 270.
"""

from identify.errors import AssemblyError
from identify.frozen import StrEnum
from identify.model.assembly import AngleTolerance, AssemblyRules


class Convention(StrEnum):
    """Ways in which the trade states the angle; the first two give the same number."""

    NEAR = "near"  # SAE J517 as MIL-DTL-83796/5 cites it
    FAR = "far"
    MIRRORED = "mirrored"  # near as reference but clockwise, or far but counter-clockwise


_WORDS = {
    Convention.NEAR: (
        "Reference: the near elbow, at 6 o'clock.",
        "Look along the hose from the near end to the far end.",
        "Count counter-clockwise from the near elbow to the far one.",
    ),
    Convention.FAR: (
        "Reference: the far elbow, at 12 o'clock.",
        "Look along the hose from the near end to the far end.",
        "Count clockwise from the far elbow to the near one.",
    ),
    Convention.MIRRORED: (
        "Reference: the near elbow.",
        "Look along the hose from the near end to the far end.",
        "Count clockwise from the near elbow to the far one: the other way round than SAE J517.",
    ),
}
NAMES = {
    Convention.NEAR: "SAE J517, as MIL-DTL-83796/5 cites it",
    Convention.FAR: "far elbow as reference, as public pages of the trade have it",
    Convention.MIRRORED: "counted the other way round",
}


def angle_of(near_deg: float, far_deg: float, convention: Convention = Convention.NEAR) -> float:
    """Return the angle of two elbows [deg], 0 to below 360.

    Args:
        near_deg: Where the near elbow points [deg], seen from the near end.
        far_deg: Where the far elbow points [deg], seen from the same end.
        convention: How it is stated.

    Source:
        Geometry. It does not depend on which end is called near: left and right change with them.
    """
    angle = (far_deg - near_deg) % 360
    return converted(angle, Convention.NEAR, convention)


def converted(angle_deg: float, given: Convention, wanted: Convention) -> float:
    """Return an angle in another convention [deg]: the same, or what is left of the full turn.

    Raises:
        AssemblyError: No angle from 0 to 360.
    """
    if not 0 <= angle_deg <= 360:
        raise AssemblyError(f"{angle_deg:g} is no angle of two elbows; write 0 to 360 degrees.")
    turned = (given is Convention.MIRRORED) != (wanted is Convention.MIRRORED)
    return (-angle_deg if turned else angle_deg) % 360


def from_other_end(near_deg: float, far_deg: float) -> tuple[float, float]:
    """Return the positions of near and far elbow as they are seen from the other end [deg].

    Near and far change, and so do left and right.
    """
    return -far_deg % 360, -near_deg % 360


def from_clock(hours: float) -> float:
    """Return a position from a clock face [deg]: 9 gives 90.

    Raises:
        AssemblyError: No hour from 0 to 12.
    """
    if not 0 <= hours <= 12:
        raise AssemblyError(f"{hours:g} is no hour on a clock face; write 0 to 12.")
    return -30.0 * hours % 360


def to_clock(position_deg: float) -> float:
    """Return the hour at which a position stands, above 0 to 12: 90 gives 9."""
    return (-position_deg / 30) % 12 or 12.0


def in_words(angle_deg: float, convention: Convention) -> tuple[str, ...]:
    """Return what must stand beside the number: convention, reference end, view, direction."""
    return (f"{angle_deg:g} degrees by {NAMES[convention]}.", *_WORDS[convention])


def angle_tolerance(rules: AssemblyRules, length_mm: float) -> AngleTolerance:
    """Return how far the angle may be off for a hose of some length."""
    return next(each for each in rules.angles if each.to_mm is None or length_mm <= each.to_mm)
