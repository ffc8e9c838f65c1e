"""What a person types -> a seat angle or a taper."""

import math

from identify.errors import ReadingError, quoted
from identify.light import re
from identify.model.feature import Feature, answers_named
from identify.model.reading import Angle, Basis, Choice, Slope
from identify.ratio import Ratio
from identify.reading.numbers import clean, exact_number, quantity, share
from identify.reading.units import millimetres

NARROWEST_DEG, WIDEST_DEG = 3.0, 85.0  # half angles of a cone that two diameters may give
STEEPEST_TAPER = Ratio(1, 4)  # growth per length; the project's bound on a slip of the keyboard

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
_APART = r"(.+?) and (.+), (.+) apart"
_BASIS = rf"(.*[^a-z ,]|.*[a-z](?=[ ,])) ?,? ?({'|'.join(_BASES)})\.?"
_ANGLE_FORMS = (
    "write it as 37 deg half, 74 deg included, or 74 deg; or two diameters of the cone and how far "
    "apart they are: 10.2 and 14.7 mm, 3 mm apart"
)
_TAPER_FORMS = (
    "write parallel, tapered, 0.5 mm over 8 mm, or two crest diameters and how far apart they are: "
    "20.45 and 20.95 mm, 8 mm apart"
)


def parse_angle(text: str) -> Angle:
    """Read a seat angle: "37 deg half", "74° included", "74 deg", "10.2 and 14.7 mm, 3 mm apart".

    A number without a unit is taken as degrees: the trade names seats in nothing else.

    Returns:
        The angle [deg]; `basis` None where neither half nor included was said.

    Raises:
        ReadingError: No angle, or one that no cone can have.
    """
    rest, basis = clean(text).lower(), None
    if apart := re.fullmatch(_APART, rest):
        return _cone(text, *_two_diameters(apart, text, f"a seat angle; {_ANGLE_FORMS}"))
    if found := re.fullmatch(_BASIS, rest):
        rest, basis = found[1], _BASES[found[2]]
    found = re.fullmatch(rf"([0-9.,]+)(?: ?{_DEGREES})?", rest) or re.fullmatch(
        rf"([0-9]+) ?{_DEGREES} ?([0-5]?[0-9]) ?'", rest
    )
    number = exact_number(found[1]) if found else None
    if not found or number is None:
        raise ReadingError(f"{quoted(text)} is not a seat angle; {_ANGLE_FORMS}.")
    degrees = number + (Ratio(int(found[2]), 60) if found.lastindex == 2 else 0)
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
    if answer := answers_named(Feature.TAPER).get(plain):
        return Choice(answer)
    grown = re.fullmatch(r"(.+?) (?:over|per) (.+)", plain)
    what = f"a taper; {_TAPER_FORMS}"
    if grown:
        rise, over = _single(grown[1], text, what), _single(grown[2], text, what)
    elif apart := re.fullmatch(_APART, plain):
        rise, over = _two_diameters(apart, text, what)
    elif re.fullmatch(r"1 ?(?::|/|in) ?[0-9]+", plain):
        raise ReadingError(
            f"{quoted(text)} is what a standard prints, not what a caliper reads; {_TAPER_FORMS}."
        )
    else:
        raise ReadingError(f"{quoted(text)} is not {what}.")
    if not over or rise / over > STEEPEST_TAPER:
        raise ReadingError(
            f"{quoted(text)} is steeper than 1 in 4, which is taken as a slip: the growth in "
            "diameter comes first, then the distance along the thread, such as 0.5 mm over 8 mm."
        )
    return Slope(float(rise), float(over))


def _cone(text: str, rise: Ratio, over: Ratio) -> Angle:
    """Return the half angle of a cone whose diameter grows by `rise` over `over` [mm]."""
    half = math.degrees(math.atan2(rise / 2, over))
    if not NARROWEST_DEG <= half <= WIDEST_DEG:
        raise ReadingError(
            f"{quoted(text)} would be a cone of {half:.0f} deg from its middle line, taken as a "
            "slip: two diameters of the cone come first, then how far apart they are along "
            "the middle line, such as 10.2 and 14.7 mm, 3 mm apart."
        )
    return Angle(half, Basis.HALF, float(over))


def _two_diameters(apart: re.Match[str], text: str, what: str) -> tuple[Ratio, Ratio]:
    """Return by how much two diameters differ and how far apart they are [mm]."""
    sides = share(quantity(apart[1]), quantity(apart[2]))
    if not sides:
        raise ReadingError(f"{quoted(text)} is not {what}.")
    ends = [millimetres(side, text) for side in sides]
    return abs(ends[1] - ends[0]), _single(apart[3], text, what)


def _single(words: str, text: str, what: str) -> Ratio:
    """Return the millimetres of one part of `text`, which should be `what`."""
    side = quantity(words)
    if side is None:
        raise ReadingError(f"{quoted(text)} is not {what}.")
    return millimetres(side, text)
