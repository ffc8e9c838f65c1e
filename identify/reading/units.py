"""What a person types -> a length or a thread pitch.

Numbers stay exact fractions until the last step, so that every way of typing one length gives the
same millimetres. The units of the trade are held here, exact; a test proves them equal to pint's.
Any other unit of length is left to pint, which is imported only then: it takes longer to load than
the whole answer.
"""

from __future__ import annotations

from identify.errors import ReadingError, quoted
from identify.frozen import TYPE_CHECKING
from identify.light import cache, re
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Length, Pitch
from identify.ratio import Ratio
from identify.reading.numbers import Side, clean, exact_number, parse_number, span

if TYPE_CHECKING:
    from typing import Any


INCH_MM = Ratio(254, 10)
WIDEST_SPAN = Ratio(1, 3)  # of the value; what is wider says two things, not one

_UNITS = {
    "mm millimetre millimetres millimeter millimeters": Ratio(1),
    "cm centimetre centimetres centimeter centimeters": Ratio(10),
    "m metre metres meter meters": Ratio(1000),
    "um micron microns micrometre micrometres micrometer micrometers": Ratio(1, 1000),
    'in inch inches "': INCH_MM,
    "thou mil mils": INCH_MM / 1000,  # a workshop mil; pint's is an angle
    "ft foot feet": INCH_MM * 12,
}
UNIT_MM = {name: factor for names, factor in _UNITS.items() for name in names.split()}
"""Millimetres in one of each unit, exact: international inch of 25.4 mm."""

_PINTS = frozenset(("yard", "decimeter"))  # all else it knows is a slip here: "din", "fm", "px"
_PER_INCH = r" ?(?:(?:threads? )?(?:per|to the) in(?:ch)?|threads?/in(?:ch)?|t\.p\.i)\.?$"
_COUNT = r"(?P<n>[0-9., /]+?) ?(?P<what>pitch(?:es)?|gaps?|threads?|crests?)"
_MAKES = r"(?: ?[=:] ?| (?:in|over|per|are|is) )"
_TRADE_WORDS = frozenset(
    ("bsp", "bspp", "bspt", "npt", "nptf", "g", "r", "rc", "rp", "un", "unc", "unf", "jic", "dn")
)
_LENGTH_FORMS = "write it as 20.9 mm, 20,9 mm, 0.823 in, 13/16 in or 20.8..21.0 mm"
_PITCH_FORMS = "write it as 1.5 mm, 14 tpi, 18..20 tpi or 10 pitches = 13.4 mm"


def parse_length(text: str) -> Length:
    """Read a length: "20.9 mm", "20,9 mm", "13/16 in", "20.8..21.0 mm", "20.9 ± 0.1 mm".

    Returns:
        The length [mm]; of a span its middle, with half its width as spread.

    Raises:
        ReadingError: No length, no unit, not above 0, or a number that can be read in two ways.
    """
    sides = span(clean(text).lower())
    if not sides:
        raise ReadingError(
            f"{quoted(text)} is not a length{_remedy(text, _LENGTH_FORMS, '20.5..21.0 mm')}."
        )
    return Length(*_middle([millimetres(side, text) for side in sides], text))


def parse_pitch(text: str) -> Pitch:
    """Read a thread pitch: "1.5 mm", "14 tpi", "18..20 tpi", "10 pitches = 13.4 mm".

    Returns:
        The pitch [mm]; `inch` where it was said in threads per inch, `pitches` where it was
        measured over several. Of a span the middle of its millimetres, with half its width.

    Raises:
        ReadingError: No pitch, no unit, not above 0, or a count of crests instead of pitches.
    """
    plain = re.sub(_PER_INCH, " tpi", clean(text).lower())
    counted = re.fullmatch(rf"{_COUNT}{_MAKES}(?P<length>.*[0-9].*)", plain) or re.fullmatch(
        rf"(?P<length>.+?) (?:over|for|across) {_COUNT}", plain
    )
    if counted:
        return _counted_pitch(text, **counted.groupdict())
    sides = span(plain)
    if not sides:
        raise ReadingError(
            f"{quoted(text)} is not a pitch{_remedy(text, _PITCH_FORMS, '18..20 tpi')}."
        )
    if not sides[0][1]:
        raise ReadingError(_bare_pitch(text, sides[0][0]))
    inch = all(unit == "tpi" for _, unit in sides)
    mm, spread_mm = _middle([_pitch_mm(side, text) for side in sides], text)
    return Pitch(mm, inch, spread_mm)


def millimetres(side: Side, text: str) -> Ratio:
    """Return a side in millimetres; `text` is what was typed, for the message."""
    number, unit = side
    if not unit:
        raise ReadingError(f"{quoted(text)} has no unit; write {_with_units(text, number)}.")
    return number * (UNIT_MM.get(unit) or _other_unit(unit, text))


def _with_units(text: str, number: Ratio) -> str:
    typed = text.strip()
    if len(typed) > 15 or number <= 0 or exact_number(clean(typed)) != number:
        return "mm or in after the number"
    inches = f"{typed} in ({_short(number * INCH_MM, 1)} mm)"
    if "/" in typed:
        return inches
    return f"{typed} mm ({_short(number / INCH_MM, 3)} in) or {inches}, whichever was read"


def _short(number: Ratio, decimals: int) -> str:
    return f"{float(number):.{decimals}f}".rstrip("0").rstrip(".")


def _pitch_mm(side: Side, text: str) -> Ratio:
    number, unit = side
    if unit != "tpi":
        return millimetres(side, text)
    if number <= 0:
        raise ReadingError(f"{quoted(text)} is not a pitch: it must be above 0; {_PITCH_FORMS}.")
    return INCH_MM / number


def _middle(ends_mm: list[Ratio], text: str) -> tuple[float, float]:
    """Return middle and half width [mm] of one or two ends."""
    low, high = min(ends_mm), max(ends_mm)
    if low <= 0:
        raise ReadingError(f"{quoted(text)} reaches 0 mm or less; a size is above 0.")
    if high - low > WIDEST_SPAN * (low + high) / 2:
        raise ReadingError(
            f"{quoted(text)} reaches from {float(low):.4g} to {float(high):.4g} mm, more than a "
            "third of its value: that is two sizes, not one. Measure again, and write one value "
            "or a narrower span."
        )
    return float((low + high) / 2), float((high - low) / 2)


def _counted_pitch(text: str, n: str, what: str, length: str) -> Pitch:
    if what.startswith("crest"):
        raise ReadingError(
            f"{quoted(text)} counts crests, and from the first crest to the eleventh are ten "
            "pitches; write 10 pitches = 13.4 mm."
        )
    pitches = parse_number(n)
    if pitches < 1 or pitches.denominator > 2:
        raise ReadingError(
            f"{quoted(n)} is no count of pitches, which is whole or ends in a half; {_PITCH_FORMS}."
        )
    over = parse_length(length)
    count = float(pitches)
    return Pitch(over.mm / count, False, over.spread_mm / count, count)


def _bare_pitch(text: str, number: Ratio) -> str:
    low, high = FEATURES[Feature.PITCH].low, FEATURES[Feature.PITCH].high
    ways = [
        way
        for way, mm in (("mm", number), ("tpi", INCH_MM / number if number else 0))
        if low <= mm <= high and len(text.strip()) <= 20
    ]
    could_be = " or ".join(f"{text.strip()} {way}" for way in ways) or "mm or tpi after it"
    return f"{quoted(text)} has no unit; write {could_be}."


def _remedy(text: str, forms: str, span_form: str) -> str:
    """Return why a text is no quantity, where that can be told, and the remedy."""
    plain = clean(text).lower()
    if re.match(r"about|approx|around|roughly|nearly|circa|ca |~|≈", plain):
        return f": nobody can tell how near that is; write the span you are sure of, {span_form}"
    if re.search(r"[0-9][.,][0-9]+/", plain):
        return f": it mixes a decimal point with a fraction; {forms}"
    if re.search(r"[0-9] ?[ -] ?[0-9]", plain):
        return f": its numbers can be read in more than one way; {forms}"
    return f"; {forms}"


def _other_unit(unit: str, text: str) -> Ratio:
    """Return the millimetres in a unit only pint knows."""
    if unit in _TRADE_WORDS:
        raise ReadingError(
            f"{quoted(text)} is a trade size, not a measured length; write what the caliper or "
            "rule reads, such as 20.9 mm or 0.823 in."
        )
    if unit == "'":
        raise ReadingError(
            f"{quoted(text)} has one mark, which stands for feet; an inch has two. Write in "
            "after the number."
        )
    factor = _pint_mm(unit) if re.fullmatch(r"[a-z]{1,20}", unit) else None
    if factor is None:
        raise ReadingError(
            f"{quoted(text)} is not a length: {quoted(unit)} is no unit of length; {_LENGTH_FORMS}."
        )
    return factor


@cache
def _pint_mm(unit: str) -> Ratio | None:
    """Return the millimetres in a unit in which somebody may measure a hose end."""
    units = unit_library()
    try:
        one = units(unit)
        if str(one.units) not in _PINTS:
            return None
        exact = one.to("mm").magnitude
        return Ratio(exact.numerator, exact.denominator)
    except (AttributeError, TypeError, ValueError):  # all that pint raises of a word
        return None


@cache
def unit_library() -> Any:
    """Return the registry of all other units; its factors are exact `Fraction`s."""
    from fractions import Fraction

    import pint  # a quarter of a second, spent only on units hardly anybody types

    return pint.UnitRegistry(non_int_type=Fraction)
