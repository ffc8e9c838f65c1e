"""A second reading of what is typed, written apart from `identify.reading`, to find its slips.

It works by tokens and tries every way to read them; a text has a meaning only if exactly one of
those ways is sensible. Rules, from how sizes are printed in workshops: no needless zero in front;
fractions below 1, of an inch's binary parts; a comma before three digits may be either thing; a
span is not wider than a third of its middle; feet only before inches. It knows lengths, pitches,
angles and tapers, and nothing of names, ways of measuring or bounds.
"""

import re
from collections.abc import Iterator
from fractions import Fraction

Meaning = tuple[str, tuple[Fraction, ...]]
"""Kind ("length", "tpi", "count", "angle" with its basis, "slope") and the exact numbers."""

_GLYPHS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_MM = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), "1"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), "10"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "1000"),
    **dict.fromkeys(("um", "µm", "μm", "micron", "microns", "micrometre", "micrometer"), "0.001"),
    **dict.fromkeys(("in", "inch", "inches", '"'), "25.4"),
    **dict.fromkeys(("thou", "mil", "mils"), "0.0254"),
    **dict.fromkeys(("ft", "foot", "feet"), "304.8"),
    **dict.fromkeys(("yd", "yard", "yards"), "914.4"),
    **dict.fromkeys(("dm", "decimetre", "decimeter"), "100"),
    **dict.fromkeys(("nm", "nanometre"), "0.000001"),
}
_TOKEN = re.compile(
    r"(?P<num>[0-9]+[.,][0-9]+|(?<![0-9])[.,][0-9]+|[0-9]+)|(?P<dots>\.{2,3}(?!\.)|…)"
    r"|(?P<pm>±|\+/-|\+-)|(?P<inch>\"|″|”|''|′′)|(?P<mark>['′’°º=:/⁄,.]|[-‐‑‒–—−])"
    r"|(?P<glyph>[½¼¾⅛⅜⅝⅞])|(?P<word>[a-zµμ]+)"
)
_DASH = re.compile(r"[-‐‑‒–—−]")


def tokens(text: str) -> list[tuple[str, bool]] | None:
    """Return tokens with whether a space stands before each; None if a character is none."""
    found, place, text = [], 0, re.sub(r"\s+", " ", text.strip().lower())
    while place < len(text):
        space = text[place] == " "
        place += space
        match = _TOKEN.match(text, place)
        if not match:
            return None
        kind, word = match.lastgroup, match.group()
        if kind == "word" and found and found[-1][0][0].isalpha() and not space:
            return None
        plain = {"dots": "..", "pm": "±", "inch": '"'}.get(str(kind), word)
        plain = _DASH.sub("-", plain).replace("⁄", "/").replace("′", "'").replace("’", "'")
        found.append((plain.replace("º", "°"), space))
        place = match.end()
    return found


def _plain(word: str) -> Fraction | None:
    if not re.fullmatch(r"(0|[1-9]\d*|)([.,]\d+)?", word) or not word:
        return None
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", word):
        return None
    return Fraction(word.replace(",", "."))


def _proper(top: str, bottom: str) -> Fraction | None:
    if not (re.fullmatch(r"[1-9]\d*", top) and bottom in ["2", "4", "8", "16", "32", "64", "128"]):
        return None
    value = Fraction(int(top), int(bottom))
    return value if value < 1 else None


def numbers(at: list[tuple[str, bool]]) -> Iterator[tuple[Fraction, int]]:
    """Yield every number that tokens may begin with, and how many tokens it takes."""
    words = [word for word, _ in at]
    if not words:
        return
    if words[0] in _GLYPHS:
        yield Fraction(_GLYPHS[words[0]]), 1
        return
    if not words[0][-1].isdigit():
        return
    if (one := _plain(words[0])) is not None:
        yield one, 1
    if words[1:2] == ["/"] and len(words) > 2 and (part := _proper(words[0], words[2])):
        yield part, 3
    whole = _plain(words[0]) if words[0].isdigit() and words[0] != "0" else None
    if whole is None or len(words) < 2:
        return
    if words[1] in _GLYPHS:
        yield whole + Fraction(_GLYPHS[words[1]]), 2
    dash = words[1] == "-"
    rest = words[1 + dash :]
    if dash and at[1][1]:
        return  # "1 - 1/16": a dash apart joins no number
    if dash and rest and rest[0] in _GLYPHS:
        yield whole + Fraction(_GLYPHS[rest[0]]), 3
    if (
        (dash or at[1][1])
        and len(rest) > 2
        and rest[1] == "/"
        and (part := _proper(rest[0], rest[2]))
    ):
        yield whole + part, 4 + dash


def _unit(words: list[str]) -> Iterator[tuple[str, int]]:
    yield "", 0
    if words and (words[0] in _MM or words[0] == "tpi"):
        yield words[0], 1
        if words[1:2] == ["."]:
            yield words[0], 2
    for form in (
        "t . p . i", "per in", "per inch", "threads per in", "threads per inch", "thread per inch",
        "threads to the inch", "threads to the in", "to the inch", "to the in", "threads / in",
        "threads / inch", "thread / inch", "thread / in", "thread per in", "thread to the inch",
        "thread to the in",
    ):  # fmt: skip
        parts = form.split()
        if words[: len(parts)] == parts:
            yield "tpi", len(parts)
            if words[len(parts) : len(parts) + 1] == ["."]:
                yield "tpi", len(parts) + 1


def quantities(at: list[tuple[str, bool]]) -> Iterator[tuple[Fraction, str, int]]:
    """Yield every quantity that tokens may begin with: number, unit, tokens taken."""
    for number, used in numbers(at):
        for unit, more in _unit([word for word, _ in at[used:]]):
            yield number, unit, used + more
        words = [word for word, _ in at[used:]]
        if number.denominator == 1 and words and words[0] in ("'", "ft", "foot", "feet"):
            skip = (
                used
                + 1
                + (
                    words[1:2]
                    == [
                        ".",
                    ]
                )
                + 0
            )
            skip += at[skip : skip + 1] != [] and at[skip][0] == "-"
            for inches, taken in numbers(at[skip:]):
                end = skip + taken
                if (
                    at[end : end + 1]
                    and at[end][0] in ("in", "inch", "inches", '"')
                    and inches < 12
                ):
                    yield number * 12 + inches, "in", end + 1


def _sides(at: list[tuple[str, bool]]) -> Iterator[list[tuple[Fraction, str]]]:
    """Yield every reading of all tokens as one quantity, or as the ends of a span."""
    words = [word for word, _ in at]
    for number, unit, used in quantities(at):
        if used == len(at):
            yield [(number, unit)]
    start = 1 if words[:1] in (["from"], ["between"]) else 0
    for number, unit, used in quantities(at[start:]):
        joint = start + used
        if joint >= len(at):
            continue
        between = words[0] == "between"
        good = words[joint] == "and" if between else words[joint] in ("to", "..", "-", "±")
        if not good or (start and not between and words[joint] != "to"):
            continue
        for other, second, more in quantities(at[joint + 1 :]):
            if joint + 1 + more != len(at):
                continue
            left, right = unit or second, second or unit
            if words[joint] == "±":
                if left == right:
                    yield [(number - other, left), (number + other, left)]
            elif words[joint] != "-" or left != right or number < other:
                yield [(number, left), (other, right)]


def _mm(side: tuple[Fraction, str]) -> Fraction | None:
    number, unit = side
    if unit == "tpi":
        return Fraction("25.4") / number if number > 0 else None
    return number * Fraction(_MM[unit]) if unit else None


def _span(at: list[tuple[str, bool]], *, pitch: bool) -> set[Meaning]:
    found: set[Meaning] = set()
    for sides in _sides(at):
        if any(unit == "tpi" for _, unit in sides) and not pitch:
            continue
        ends = [_mm(side) for side in sides]
        if any(end is None or end <= 0 for end in ends):
            continue
        low, high = min(ends), max(ends)  # type: ignore[type-var]
        if (high - low) * 3 <= (low + high) / 2:  # type: ignore[operator]
            tpi = all(unit == "tpi" for _, unit in sides)
            found.add(("tpi" if tpi else "length", (low, high)))  # type: ignore[arg-type]
    return found


def read_length(text: str) -> set[Meaning]:
    """Return every sensible meaning of a length: lowest and highest [mm]."""
    at = tokens(text)
    return _span(at, pitch=False) if at else set()


def read_pitch(text: str) -> set[Meaning]:
    """Return every sensible meaning of a pitch: lowest and highest [mm], and pitches counted."""
    at = tokens(text)
    if not at:
        return set()
    found, words = _span(at, pitch=True), [word for word, _ in at]
    what = ("pitch", "pitches", "thread", "threads")
    for count, used in numbers(at):
        makes = used + 1
        joint = words[makes] if words[used : used + 1] and makes < len(words) else ""
        if joint in ("=", ":", "in", "over", "per", "are", "is") and words[used] in what:
            found |= _counted(at[makes + 1 :], count)
    for place in range(1, len(words) - 2):
        if words[place] in ("over", "for", "across") and words[-1] in what:
            for count, used in numbers(at[place + 1 : -1]):
                if used == len(words) - place - 2:
                    found |= _counted(at[:place], count)
    return found


def _counted(at: list[tuple[str, bool]], count: Fraction) -> set[Meaning]:
    if count < 1 or count.denominator > 2:
        return set()
    return {
        ("count", (low / count, high / count, count))
        for kind, (low, high) in _span(at, pitch=False)
        if kind == "length"
    }


def read_angle(text: str) -> set[Meaning]:
    """Return the meaning of an angle: "half", "included" or "angle", and degrees."""
    at = tokens(text.strip().removesuffix("."))
    if not at or (value := _plain(at[0][0])) is None:
        return set()
    words = [word for word, _ in at[1:]]
    degree = bool(words) and words[0] in ("°", "deg", "degs", "degree", "degrees")
    words = words[degree:]
    if degree and words[:1] == ["."]:
        words = words[1:]
    if degree and len(words) > 1 and words[1] == "'" and re.fullmatch("[0-5]?[0-9]", words[0]):
        if value.denominator > 1:
            return set()
        value, words = value + Fraction(int(words[0]), 60), words[2:]
    if words[:1] == [","]:
        words = words[1:]
    bases = {"": "angle", "half": "half", "half angle": "half", "per side": "half",
             "from the axis": "half", "included": "included", "included angle": "included",
             "incl": "included", "full": "included", "total": "included"}  # fmt: skip
    basis = bases.get(" ".join(words))
    most = 90 if basis == "half" else 180
    return {(basis, (value,))} if basis and 0 < value <= most else set()


def read_taper(text: str) -> set[Meaning]:
    """Return the meaning of a slope: rise and distance [mm]."""
    at = tokens(text)
    words = [word for word, _ in at or ()]
    found: set[Meaning] = set()
    for place, word in enumerate(words):
        if at and word in ("over", "per"):
            for rise in _single(at[:place]):
                found |= {("slope", (rise, over)) for over in _single(at[place + 1 :])}
    if at and words[-1:] == ["apart"] and "," in words and "and" in words:
        joint, comma = words.index("and"), len(words) - 1 - words[::-1].index(",")
        for one, left, used in quantities(at[:joint]):
            for two, right, more in quantities(at[joint + 1 : comma]):
                if used != joint or joint + 1 + more != comma:
                    continue
                ends = _mm((one, left or right)), _mm((two, right or left))
                if None not in ends:
                    rise = abs(ends[0] - ends[1])  # type: ignore[operator]
                    found |= {("slope", (rise, over)) for over in _single(at[comma + 1 : -1])}
    return {each for each in found if each[1][1] > 0 and each[1][0] * 4 <= each[1][1]}


def _single(at: list[tuple[str, bool]]) -> set[Fraction]:
    ends = (
        _mm((number, unit))
        for number, unit, used in quantities(at)
        if used == len(at) and unit not in ("", "tpi")
    )
    return {end for end in ends if end is not None}
