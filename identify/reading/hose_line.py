"""The line printed on a hose -> its pressures and dates, and the text that is left.

Nothing here knows a hose: types and sizes are looked for in `text` by whoever has the tables.
"""

from collections.abc import Callable, Iterator
from typing import TypeVar

from identify.errors import ReadingError, quoted
from identify.light import re
from identify.model.hose_line import HoseLine, PressureKind, PrintedDate, PrintedPressure
from identify.reading.quantities import BAR_IN

MOST_CHARS = 400  # two repeats of a long line
T = TypeVar("T")

LOST = "?"
BLANK = "|"
_AS_LOST = dict.fromkeys("\ufffd_#\u25a1\u00bf", LOST)
_SAME = {
    "\u2026": "...", "\u2012": "-", "\u2013": "-", "\u2014": "-", "\u2212": "-", "\u2033": '"',
    "\u201c": '"', "\u201d": '"', "\u00bd": " 1/2", "\u00bc": " 1/4", "\u00be": " 3/4",
    "\u00d7": "X", "\t": " ", "\u00a0": " ",
}  # fmt: skip
_DIGITS = str.maketrans("OQDILZSBG", "001112586")  # what a digit is taken for, beside a unit
_NUMBER = r"(?<![0-9OQDILZSBG?.,])([0-9OQDILZSBG]{1,6}(?:[.,][0-9OQDILZSBG]{1,3})?)"
_UNIT = r"[ ]?(PSIG?|BAR|MPA|KPA|LBS?/IN2?)(?![A-Z])"
_WORD = (
    r"(?:MAX(?:IMUM)?[ .]*)?(?:W[. ]?P|WORKING PRESSURE|OPER(?:ATING)?[. ]*PRESSURE|CLASS)[. :]*"
)
_PLAIN = r"([0-9]{2,5}(?:[.,][0-9]{1,2})?)(?![\w?.,/]*[0-9])"
_TURN_OF_CENTURY = 60  # a year of two digits from here on is of the last century


def read_hose_line(typed: str) -> HoseLine:
    """Read a line as it was copied from a hose.

    Args:
        typed: The line; "?" (or "_", "#") stands for a character that cannot be read, "..." at
            either end for what is cut off or worn away.

    Raises:
        ReadingError: Empty, or longer than two repeats of any line.
    """
    if len(typed) > MOST_CHARS:
        raise ReadingError(
            f"{quoted(typed)} is {len(typed)} characters long; copy one repeat of the line, which "
            f"has at most {MOST_CHARS}."
        )
    text = "".join(_AS_LOST.get(c, _SAME.get(c, c)) for c in typed.upper()).strip()
    text = "".join(c if c.isprintable() and c.isascii() else LOST for c in text)
    if not text:
        raise ReadingError('The line is empty; copy what is legible, with "?" for a lost letter.')
    cut_left, cut_right = text.startswith(".."), text.endswith("..")
    text = text.strip(". ") if cut_left or cut_right else text
    dates: list[PrintedDate] = []
    pressures: list[PrintedPressure] = []
    for pattern, pressure_of in _PRESSURES:  # before the dates: "16/28,0 MPa" is none
        text = _taken(pattern, text, pressure_of, pressures)
    for pattern, date_of in _DATES:
        text = _taken(pattern, text, date_of, dates)
    pressures += _bare(text, [bar for each in pressures for bar in each.bars])
    return HoseLine(typed.strip(), text, tuple(pressures), tuple(dates), cut_left, cut_right)


def is_separator(character: str) -> bool:
    """Tell whether a character parts words; "?" is a lost one and parts nothing."""
    return not character.isalnum() and character != LOST


# ---- dates


def _year(digits: str) -> int:
    if len(digits) == 4:
        return int(digits)
    return (1900 if int(digits) >= _TURN_OF_CENTURY else 2000) + int(digits)


_QUARTER_OF = str.maketrans("IZLB", "1218")


def _quarter(found: re.Match[str]) -> PrintedDate:
    quarter, year = found["q"].translate(_QUARTER_OF), found["y"].translate(_DIGITS)
    if not year.isdecimal() or len(year) == 1 or len(year) == 3:
        return PrintedDate(found[0], (), "the year cannot be read")
    if quarter == LOST:
        return PrintedDate(found[0], (f"{_year(year)}",), "the quarter cannot be read")
    if quarter not in "1234":
        text = "the quarter is wrong: there are four"
        return PrintedDate(found[0], (f"{_year(year)}",), text)
    return PrintedDate(found[0], (f"{_year(year)} Q{quarter}",))


def _month_year(found: re.Match[str]) -> PrintedDate | None:
    first, second = found["a"], found["b"]
    if int(second) in (16, 32) and int(first) % 2 and int(first) < int(second):
        return None  # a fraction of an inch
    ways = [(first, second), (second, first)]
    readings = {f"{_year(y)}-{int(m):02d}" for m, y in ways if 1 <= int(m) <= 12 and len(y) == 2}
    if not readings:
        return None
    two = "two readings; take the older for an age limit" if len(readings) > 1 else ""
    return PrintedDate(found[0], tuple(sorted(readings)), two)


def _day(found: re.Match[str]) -> PrintedDate | None:
    month, day, year = int(found["m"]), int(found["d"]), _year(found["y"])
    if not (1 <= month <= 12 and 1 <= day <= 31):
        return None
    return PrintedDate(found[0], (f"{year}-{month:02d}-{day:02d}",))


_Date = Callable[[re.Match[str]], PrintedDate | None]
_TWO_OR_FOUR = "20[0-9]{2}|19[0-9]{2}"
_DATES: tuple[tuple[str, _Date], ...] = (
    (r"(?<![0-9?/])(?P<m>1?[0-9])/(?P<d>[0-9]{1,2})/(?P<y>[0-9]{2}|[12][0-9]{3})(?![0-9?/])", _day),
    (rf"(?P<q>[0-9IZL?])Q(?P<y>{_TWO_OR_FOUR}|[0-9IZSOBGL]{{2}}|[0-9?]{{0,2}})(?![0-9])", _quarter),
    (rf"(?<![0-9?A-Z])Q(?P<q>[0-9])[/ -]?(?P<y>{_TWO_OR_FOUR}|[0-9]{{2}})(?![0-9?])", _quarter),
    (r"(?<![0-9?])(?P<y>[0-9]{2})Q(?P<q>[1-4])(?![0-9?])", _quarter),
    (r"(?<![\w?/.,-])(?P<a>[0-9]{1,2})/(?P<b>[0-9]{2})(?![0-9?/\"])(?! ?IN)", _month_year),
)


# ---- pressures


def _with_unit(found: re.Match[str]) -> PrintedPressure | None:
    number = found[1]
    if not re.search("[0-9]", number):
        return None
    plain = number.translate(_DIGITS)
    thousands = re.fullmatch(r"([0-9]{1,2}),([0-9]{3})", plain)
    value = float("".join(thousands.groups()) if thousands else plain.replace(",", "."))
    unit = found[2].lower()
    bar = value * BAR_IN[unit if unit in BAR_IN else "psi"]
    return PrintedPressure(found[0].strip(), (bar,), PressureKind.WORKING) if bar else None


def _burst(found: re.Match[str]) -> PrintedPressure | None:
    return PrintedPressure(found[0].strip(), ways_of(found[1]), PressureKind.BURST)


def _named(found: re.Match[str]) -> PrintedPressure | None:
    bars = (float(found[1]),) if found[0].startswith("CLASS") else ways_of(found[1])
    return PrintedPressure(found[0].strip(), bars, PressureKind.WORKING) if bars else None


_PRESSURES: tuple[tuple[str, Callable[[re.Match[str]], PrintedPressure | None]], ...] = (
    (rf"BURST[A-Z .:]*{_PLAIN}(?:{_UNIT})?", _burst),
    (_NUMBER + _UNIT, _with_unit),
    (_WORD + _PLAIN, _named),
    (rf"(?<![\w?.,/-]){_PLAIN}[ ]?(?:W[. ]?P\b|MAX)", _named),
)


def ways_of(number: str) -> tuple[float, ...]:
    """Return what a pressure without a unit may be [bar], the likeliest first.

    2000 and up is psi, 100 to 999 bar, 1.4 to 60 with a decimal MPa; all else may be more than one.

    Source: common practice.
    """
    value = float(number.replace(",", "."))
    if value >= 2000:
        return (value * BAR_IN["psi"],)
    if re.search("[.,]", number):
        return (value * BAR_IN["mpa"],) if 1.4 <= value <= 60 else (value,)
    if 100 <= value < 1000:
        return (value,)
    return (value, value * BAR_IN["psi"]) if value >= 1000 else (value, value * BAR_IN["mpa"])


def _bare(text: str, known: list[float]) -> Iterator[PrintedPressure]:
    """Yield the numbers that may be pressures though nothing says so."""
    for found in re.finditer(rf"(?<![\w?.,/-])(?<!EN )(?<!ISO )(?<!SAE ){_PLAIN}", text):
        value = float(found[1].replace(",", "."))
        if value >= 100 or (re.search("[.,]", found[1]) and 14 <= value <= 60):
            yield PrintedPressure(found[1], ways_of(found[1]), PressureKind.BARE)


# ---- taking out


def _taken(
    pattern: str, text: str, take: Callable[[re.Match[str]], T | None], into: list[T]
) -> str:
    """Return the text with what `take` understands blanked out and noted in `into`."""

    def blank(found: re.Match[str]) -> str:
        understood = take(found)
        if understood is None:
            return found[0]
        into.append(understood)
        return BLANK * len(found[0])

    return re.sub(pattern, blank, text)
