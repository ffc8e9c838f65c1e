"""What a person types -> a seat angle or a taper."""

import re
from fractions import Fraction

from identify.errors import ReadingError
from identify.model.reading import Angle, Basis, Choice, Slope
from identify.reading.numbers import clean, exact_number, quantity, quoted, share
from identify.reading.units import millimetres

STEEPEST_TAPER = Fraction(1, 4)  # growth per length; the project's bound on a slip of the keyboard

_DEGREES = r"(?:°|degrees?|degs?\.?)"
_BASES = {
    "half angle": Basis.HALF,
    "half": Basis.HALF,
    "per side": Basis.HALF,
    "from the axis": Basis.HALF,
    "included angle": Basis.INCLUDED,
    "included": Basis.INCLUDED,
    "incl": Basis.INCLUDED,
    "full": Basis.INCLUDED,
    "total": Basis.INCLUDED,
}
_BASIS = re.compile(rf"(.*[^a-z ,]|.*[a-z](?=[ ,])) ?,? ?({'|'.join(_BASES)})\.?")
_TAPERS = {
    "parallel": "parallel",
    "straight": "parallel",
    "tapered": "tapered",
    "taper": "tapered",
}
_ANGLE_FORMS = "write it as 37 deg half, 74 deg included, or 74 deg"
_TAPER_FORMS = (
    "write parallel, tapered, 0.5 mm over 8 mm, or two crest diameters and how far apart they are: "
    "20.45 and 20.95 mm, 8 mm apart"
)


def parse_angle(text: str) -> Angle:
    """Read a seat angle: "37 deg half", "74° included", "30° per side", "74 deg".

    A number without a unit is taken as degrees: the trade names seats in nothing else.

    Returns:
        The angle [deg]; `basis` None where neither half nor included was said.

    Raises:
        ReadingError: No angle, or one that no cone can have.
    """
    rest, basis = clean(text).lower(), None
    if found := _BASIS.fullmatch(rest):
        rest, basis = found[1], _BASES[found[2]]
    found = re.fullmatch(rf"([0-9.,]+)(?: ?{_DEGREES})?", rest) or re.fullmatch(
        rf"([0-9]+) ?{_DEGREES} ?([0-5]?[0-9]) ?'", rest
    )
    number = exact_number(found[1]) if found else None
    if not found or number is None:
        raise ReadingError(f"{quoted(text)} is not a seat angle; {_ANGLE_FORMS}.")
    degrees = number + (Fraction(int(found[2]), 60) if found.lastindex == 2 else 0)
    most = 90 if basis is Basis.HALF else 180
    if not 0 < degrees <= most:
        raise ReadingError(
            f"{quoted(text)} is not a seat angle: it must be above 0 and at most {most} deg"
            f"{' from the axis' if basis is Basis.HALF else ''}; {_ANGLE_FORMS}."
        )
    return Angle(float(degrees), basis)


def parse_taper(text: str) -> Choice | Slope:
    """Read a taper: "parallel", "tapered", "0.5 mm over 8 mm", "20.4 and 20.9 mm, 8 mm apart".

    Returns:
        The word, or the growth of the crest diameter [mm] over a length along the thread [mm].

    Raises:
        ReadingError: Neither; or a slope steeper than any thread's.
    """
    plain = clean(text).lower()
    if plain in _TAPERS:
        return Choice(_TAPERS[plain])
    grown = re.fullmatch(r"(.+?) (?:over|per) (.+)", plain)
    apart = re.fullmatch(r"(.+?) and (.+), (.+) apart", plain)
    if grown:
        rise, over = _single(grown[1], text), _single(grown[2], text)
    elif apart:
        sides = share(quantity(apart[1]), quantity(apart[2]))
        if not sides:
            raise ReadingError(f"{quoted(text)} is not a taper; {_TAPER_FORMS}.")
        ends = [millimetres(side, text) for side in sides]
        rise, over = abs(ends[1] - ends[0]), _single(apart[3], text)
    elif re.fullmatch(r"1 ?(?::|/|in) ?[0-9]+", plain):
        raise ReadingError(
            f"{quoted(text)} is what a standard prints, not what a caliper reads; {_TAPER_FORMS}."
        )
    else:
        raise ReadingError(f"{quoted(text)} is not a taper; {_TAPER_FORMS}.")
    if not over or rise / over > STEEPEST_TAPER:
        raise ReadingError(
            f"{quoted(text)} is steeper than 1 in 4, which is taken as a slip: the growth in "
            "diameter comes first, then the distance along the thread, such as 0.5 mm over 8 mm."
        )
    return Slope(float(rise), float(over))


def _single(words: str, text: str) -> Fraction:
    """Return the millimetres of one part of `text`."""
    side = quantity(words)
    if side is None:
        raise ReadingError(f"{quoted(text)} is not a taper; {_TAPER_FORMS}.")
    return millimetres(side, text)
