"""How each answer on a sheet is read: text -> value, or `ReadingError` with the remedy."""

import re
from collections.abc import Callable

from identify.assembly import parse_class
from identify.errors import ReadingError, quoted
from identify.model.connection import EndConnection
from identify.model.hose import Hose, Measured
from identify.model.hose_line import HoseLine
from identify.model.sheet import EndShape, Span
from identify.reading.hose_line import read_hose_line
from identify.reading.hose_measures import parse_layers, parse_measures
from identify.reading.names import one_end
from identify.reading.numbers import clean, exact_number
from identify.reading.units import parse_length
from identify.sheets.known import SheetKnowledge

LONGEST_TEXT = 400  # characters of one entry
_MOST_PIECES = 9999
_TEMPERATURE = re.compile(
    r"([-+]?[0-9.,]+) ?(?:\.\.|to) ?([-+]?[0-9.,]+) ?(?:deg)? ?(?:°)? ?([cf])?"
)
_TYPE_AND_DN = re.compile(r"(.+?)[ :,]+(?:DN ?)?([0-9]{1,3})")
_CLOCK = re.compile(r"(\d{1,2})(?::(00|30))?(?: ?(?:o'?clock|h))?")


def words(text: str, _: SheetKnowledge) -> str:
    """Read any words."""
    if len(text) > LONGEST_TEXT:
        raise ReadingError(f"{quoted(text)} is too long; write at most {LONGEST_TEXT} letters.")
    return " ".join(text.split())


def length(text: str, _: SheetKnowledge) -> float:
    """Read one length [mm]."""
    found = parse_length(text)
    if found.spread_mm:
        raise ReadingError(f"{quoted(text)} is a span; write one length.")
    return found.mm


def lengths(text: str, known: SheetKnowledge) -> tuple[float, ...]:
    """Read several lengths [mm], parted by a semicolon."""
    return tuple(length(part, known) for part in re.split(r";|,\s+", text) if part.strip())


def one_of(*words: str) -> Callable[[str, SheetKnowledge], str]:
    """Return a reader of one of some words."""

    def read(text: str, _: SheetKnowledge) -> str:
        plain = " ".join(text.lower().split())
        if plain not in words:
            raise ReadingError(f"{quoted(text)} is not understood; write {either_word(words)}.")
        return plain

    return read


def either_word(words: tuple[str, ...]) -> str:
    """Return words as a choice: "a, b or c"."""
    return f"{', '.join(words[:-1])} or {words[-1]}"


def shape(text: str, known: SheetKnowledge) -> EndShape:
    """Read how an end leaves the hose."""
    plain = re.sub(r" ?(deg(rees?)?|°)? ?(elbow)?$", "", clean(text).lower())
    return EndShape(one_of(*EndShape)(plain, known))


def named_end(text: str, known: SheetKnowledge) -> EndConnection:
    """Read which end of the tables it is."""
    return one_end(known.catalogue, text)


def count(text: str, _: SheetKnowledge) -> int:
    """Read a number of pieces."""
    plain = text.strip()
    if not (plain.isascii() and plain.isdecimal() and 0 < int(plain[:5]) <= _MOST_PIECES):
        raise ReadingError(f"{quoted(text)} is no number of pieces; write 1 to {_MOST_PIECES}.")
    return int(plain)


def _number(text: str, what: str, remedy: str) -> float:
    found = exact_number(text.lstrip("-+"))
    if found is None:
        raise ReadingError(f"{quoted(text)} is no {what}; write {remedy}.")
    return -float(found) if text.startswith("-") else float(found)


def degrees(text: str, _: SheetKnowledge) -> float:
    """Read an angle [deg]."""
    remedy = "0 to 360, such as 90 deg"
    plain = re.sub(r" ?(deg(rees?)?|°)$", "", clean(text).lower())
    found = _number(plain, "angle", remedy)
    if not 0 <= found <= 360:
        raise ReadingError(f"{quoted(text)} is no angle here; write {remedy}.")
    return found


def clock(text: str, _: SheetKnowledge) -> float:
    """Read a position on a clock face [deg], counter-clockwise from 12."""
    found = _CLOCK.fullmatch(clean(text).lower())
    hours = float(found[1]) + (0.5 if found[2] == "30" else 0.0) if found else 13.0
    if not 0 < hours < 13 or hours == 12.5:
        raise ReadingError(f"{quoted(text)} is no position; write it as 6 o'clock or 4:30.")
    return -30.0 * hours % 360


def celsius(text: str, _: SheetKnowledge) -> Span:
    """Read a range of temperatures [deg C]."""
    found = _TEMPERATURE.fullmatch(clean(text).lower())
    remedy = "lowest and highest, such as -10..80 C"
    if not found:
        raise ReadingError(f"{quoted(text)} is no range of temperatures; write {remedy}.")
    low, high = (_number(each, "temperature", remedy) for each in found.groups()[:2])
    if not found[3]:
        raise ReadingError(f"{quoted(text)} has no unit; write {remedy}, or F.")
    if found[3] == "f":
        low, high = ((each - 32) / 1.8 for each in (low, high))
    if not -100 <= low <= high <= 400:
        raise ReadingError(f"{quoted(text)} is no range of temperatures; write {remedy}.")
    return Span(low, high)


def clean_class(text: str, _: SheetKnowledge) -> tuple[int, ...]:
    """Read a class of ISO 4406."""
    return parse_class(text)


def tolerance(text: str, known: SheetKnowledge) -> str:
    """Read which standard's tolerance of the length holds."""
    rows = known.rules.length_tolerances
    standards = dict.fromkeys(row.standard for row in rows if row.of == "assembly")
    by_plain = {each.lower(): each for each in standards}
    return by_plain[one_of(*by_plain)(text, known)]


def named_hose(text: str, known: SheetKnowledge) -> Hose:
    """Read which hose of the tables it is."""
    parts = _TYPE_AND_DN.fullmatch(clean(text).upper())
    kind, dn = parts.groups() if parts else (clean(text).upper(), "")
    hoses = known.hoses.tables.hoses
    of_kind = [hose for hose in hoses if hose.kind.key.upper() == kind]
    found = [hose for hose in of_kind if f"{hose.dn}" == dn]
    if not found:
        sizes = ", ".join(hose.id for hose in of_kind)
        names = sizes or ", ".join(dict.fromkeys(hose.kind.key for hose in hoses))
        raise ReadingError(
            f"{quoted(text)} is no hose of the tables; write type and DN, such as 2SN:12. "
            f"Known: {names}."
        )
    return found[0]


def quantity_by(parse: Callable[[str], float]) -> Callable[[str, SheetKnowledge], float]:
    """Return a reader that needs no tables."""
    return lambda text, _: parse(text)


def measured_bore(text: str, _: SheetKnowledge) -> Measured | None:
    """Read the bore of a hose."""
    return parse_measures(bore=text).bore


def measured_outside(text: str, _: SheetKnowledge) -> Measured | None:
    """Read the outside of a hose."""
    return parse_measures(outside=text).outside


def layer_words(text: str, _: SheetKnowledge) -> str:
    """Read number and kind of layers; kept as typed."""
    parse_layers(text)
    return text


def printed_line(text: str, _: SheetKnowledge) -> HoseLine:
    """Read the line on a hose."""
    return read_hose_line(text)
