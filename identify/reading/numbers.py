"""What a person types -> exact numbers with the unit as typed; no unit is understood here.

A number that can be read in two ways is refused with a question, never guessed.
"""

from identify.errors import ReadingError, quoted
from identify.light import re
from identify.ratio import Ratio

MAX_CHARS = 200
MOST_HYPHENS = 3  # "1-1/16-1-1/8 in"
INCH_PARTS = (2, 4, 8, 16, 32, 64, 128)  # what rules, drills and tables divide an inch into

Side = tuple[Ratio, str]  # a number and its unit as typed, "" for none


_SAME = {  # one meaning, one character
    **dict.fromkeys("\t\u00a0\u2007\u2009\u202f", " "),
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
    **dict.fromkeys("\u2033\u201c\u201d", '"'),
    **dict.fromkeys("\u2032\u2018\u2019", "'"),
    **dict.fromkeys("\u00b5\u03bc", "u"),
    "\u00ba": "°",
    "\u2044": "/",
    "\u2026": "..",
    **{
        sign: f" {top}/{bottom}"
        for signs, bottom, tops in (
            ("½", 2, (1,)),
            ("⅓⅔", 3, (1, 2)),
            ("¼¾", 4, (1, 3)),
            ("⅕⅖⅗⅘", 5, (1, 2, 3, 4)),
            ("⅙⅚", 6, (1, 5)),
            ("⅛⅜⅝⅞", 8, (1, 3, 5, 7)),
        )
        for sign, top in zip(signs, tops, strict=True)
    },
}
_TRANSLATE = str.maketrans(_SAME)
_SIGNS = "".join(sign for sign, plain in _SAME.items() if plain.startswith(" ") and "/" in plain)
_THREE_DOTS = r"(?<![.…])\.\.\.(?![.…])"
_AFTER_SIGN = f"[{_SIGNS}] ?[0-9{_SIGNS}/]"


def clean(text: str) -> str:
    """Return typed text in one spelling: one dash, one inch mark, single spaces, plain fractions.

    Raises:
        ReadingError: The text is empty, overlong, or holds a character that cannot be printed.
    """
    if len(text) > MAX_CHARS:
        raise ReadingError(
            f"{quoted(text)} is {len(text)} characters long; a reading has at most {MAX_CHARS}."
        )
    if not text.isascii() and (found := re.search(_AFTER_SIGN, text)):
        raise ReadingError(
            f"{quoted(text)} has something after {found[0][0]} that belongs to another number; "
            "write it as 2 1/2 or 2.5."
        )
    plain = text.strip()
    if "..." in plain:
        plain = re.sub(_THREE_DOTS, "..", plain)
    plain = plain.translate(_TRANSLATE)
    if not plain.isprintable():
        raise ReadingError(
            f"{quoted(text)} holds a character that cannot be printed; type it again without it."
        )
    if not plain.strip():
        raise ReadingError(f"{quoted(text)} is empty; write a value, such as 20.9 mm.")
    return " ".join(plain.split()).replace("''", '"').replace("- ", "-")


def parse_number(text: str) -> Ratio:
    """Read a plain number above 0: "3", "2.5", "2,5", "2 1/2", "½".

    Raises:
        ReadingError: Not a number, or not above 0.
    """
    number = exact_number(clean(text))
    if not number:
        raise ReadingError(f"{quoted(text)} is not a number above 0; write it as 3, 2.5 or 2 1/2.")
    return number


def exact_number(text: str) -> Ratio | None:
    """Return the number that the whole of `text` is, None if it is none.

    A number is written as people print it: no needless 0 in front, a fraction below 1.

    Raises:
        ReadingError: It is a fraction written in another way, or can be read in two ways.
    """
    parts = "/" in text and re.fullmatch(
        r"(?:([1-9][0-9]*)[ -])?([1-9][0-9]*)/(0|[1-9][0-9]*)", text
    )
    if parts:
        whole, top, bottom = int(parts[1] or 0), int(parts[2]), int(parts[3])
        if top >= bottom:
            raise ReadingError(_no_fraction(text, top, bottom, mixed=bool(whole)))
        return whole + Ratio(top, bottom)
    found = re.fullmatch(r"(0|[1-9][0-9]*|)([.,])([0-9]+)|(0|[1-9][0-9]*)", text)
    if not found:
        return None
    if found[4]:
        return Ratio(int(found[4]))
    whole_text, mark, tail = found[1], found[2], found[3]
    if mark == "," and len(tail) == 3 and re.fullmatch(r"[1-9][0-9]{0,2}", whole_text):
        raise ReadingError(
            f"{quoted(text)} can be read in two ways: write {whole_text}.{tail} or "
            f"{whole_text}{tail}, whichever is meant."
        )
    return Ratio(int(whole_text + tail), 10 ** len(tail))


def _no_fraction(text: str, top: int, bottom: int, *, mixed: bool) -> str:
    if mixed or not bottom:
        return (
            f"{quoted(text)} is not a fraction; write it as 13/16 or 1 1/16, the part after "
            "the whole number below 1."
        )
    whole, rest = divmod(top, bottom)
    better = f"{whole} {rest}/{bottom}" if rest else f"{whole}"
    return (
        f"{quoted(text)} is not how a fraction above 1 is written; write {better} if it is meant."
    )


def quantity(text: str) -> Side | None:
    """Return number and unit of `text`, None if it is no single quantity.

    Raises:
        ReadingError: Its fraction is none of an inch.
    """
    feet = ("'" in text or "f" in text) and re.fullmatch(
        r"""(0|[1-9][0-9]*) ?(?:'|ft\.?|foot|feet)[ -]?"""
        r"""([0-9][0-9 ./-]*?) ?(?:"|in\.?|inch|inches)""",
        text,
    )
    if feet:
        inches = exact_number(feet[2])
        return None if inches is None or inches >= 12 else (int(feet[1]) * 12 + inches, "in")
    found = re.fullmatch(r"([0-9.,/ -]*[0-9]) ?([^0-9.,/ -][^0-9]*)?", text)
    if not found or (number := exact_number(found[1])) is None:
        return None
    if "/" in found[1] and int(found[1].rpartition("/")[2]) not in INCH_PARTS:
        raise ReadingError(
            f"{quoted(found[1])} is no fraction of an inch: those end in 2, 4, 8, 16, 32, 64 or "
            "128; read it again."
        )
    return number, (found[2] or "").removesuffix(".")


def share(left: Side | None, right: Side | None) -> list[Side]:
    """Return both sides, a side without a unit taking the other's; nothing if one is missing."""
    if left is None or right is None:
        return []
    return [(left[0], left[1] or right[1]), (right[0], right[1] or left[1])]


_SPANS = (
    (" and ", r"between (.+) and (.+)"),
    (" to ", r"(?:from )?(.+?) to (.+)"),
    ("..", r"(.+?) ?\.\. ?(.+)"),
)
"""Words that stand in every span written so, and how it is written."""


def span(text: str) -> list[Side]:
    """Return the one quantity of `text`, the two ends of a span, or nothing."""
    either = "±" in text or "+" in text
    if either and (found := re.fullmatch(r"(.+?) ?(?:±|\+/-|\+-) ?(.+)", text)):
        sides = share(quantity(found[1]), quantity(found[2]))
        if not sides or sides[0][1] != sides[1][1]:
            return []
        (value, unit), (margin, _) = sides
        return [(value - margin, unit), (value + margin, unit)]
    for word, pattern in _SPANS:
        if word in text and (found := re.fullmatch(pattern, text)):
            return share(quantity(found[1]), quantity(found[2]))
    if one := quantity(text):
        return [one]
    return _hyphen_span(text)


def _hyphen_span(text: str) -> list[Side]:
    """Return the ends of "20.8-21.0 mm"; a hyphen never joins a larger number to a smaller one."""
    for place, character in enumerate(text if text.count("-") <= MOST_HYPHENS else ""):
        if character == "-":
            left, right = text[:place].rstrip(), text[place + 1 :].lstrip()
            sides = share(quantity(left), quantity(right))
            if sides:
                rising = sides[0][1] != sides[1][1] or sides[0][0] < sides[1][0]
                return sides if rising else []
    return []
