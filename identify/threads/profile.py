"""The thread triangle and what all thread systems compute from it."""

import math
from fractions import Fraction

from identify.model.thread import Band

MM_PER_INCH = 25.4


def sharp_height(pitch: float, flank_angle_deg: float, taper: float = 0.0) -> float:
    """Return the height H of the sharp thread triangle, in the unit of `pitch`.

    Args:
        pitch: Distance between crests along the axis.
        flank_angle_deg: Included angle of the flanks; the flanks lean equally to both sides of a
            line square to the axis, on taper threads too.
        taper: Growth of diameter per length along the axis, 0 for a parallel thread.

    Source:
        Geometry. Gives 0.866025 P (60 deg), 0.960491 P (55 deg) and 0.960237 P (55 deg, 1:16).
    """
    half = math.tan(math.radians(flank_angle_deg / 2))
    return pitch * (1 / half - (taper / 2) ** 2 * half) / 2


def parallel_60(major: float, pitch: float) -> tuple[float, float]:
    """Return basic pitch diameter and minor diameter of the ISO and Unified profile.

    The profile stands 3/8 H above and 1/4 H below the pitch line (ISO 68-1, ASME B1.1).
    """
    height = sharp_height(pitch, 60)
    return major - 0.75 * height, major - 1.25 * height


def half_up(value: float, places: int) -> float:
    """Round to decimals with halves upwards, as printed tables are."""
    scale = 10.0**places
    return math.floor(value * scale + 0.5 + 1e-7) / scale


def inches(low: float, high: float) -> Band:
    """Return a band in millimetres from limits in inches."""
    return Band(low * MM_PER_INCH, high * MM_PER_INCH)


def around(middle: float, deviation: float) -> Band:
    """Return the band `deviation` to both sides of `middle`."""
    return Band(middle - deviation, middle + deviation)


def mixed_number(text: str) -> Fraction:
    """Return a size as the trade writes it ("1 1/16", "5/8", "12.5") as an exact fraction.

    Raises:
        ValueError: Not such a number.
    """
    parts = text.split()
    if not 1 <= len(parts) <= 2 or (len(parts) == 2 and not parts[0].isdecimal()):
        raise ValueError(f'"{text}" is not a number like 1 1/16, 5/8 or 12.5')
    try:
        return sum((Fraction(part) for part in parts), Fraction(0))
    except (ValueError, ZeroDivisionError):
        raise ValueError(f'"{text}" is not a number like 1 1/16, 5/8 or 12.5') from None
