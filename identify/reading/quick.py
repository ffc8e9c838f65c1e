"""Readings written in short, on one line: "m 20.9 14t in 60i".

A token is a word that is an answer (`m`, `in`, `swivel`), a number that says by its last letter
what it is (`14t`, `60i`), the diameter over the crests alone (`20.9`), or letters of a feature with
its value (`hx27`, `oface`, `mk"12 L"`). The letters stand in `FEATURES`, beside the words. Nothing
is guessed: what can be read in two ways is refused.
"""

from collections.abc import Iterable
from itertools import pairwise

from identify.errors import ReadingError, near_misses, quoted
from identify.frozen import dataclass
from identify.light import re
from identify.model.feature import FEATURES, Feature, answers_named
from identify.model.reading import Choice, How, Reading
from identify.reading.consistency import gathered
from identify.reading.manner import SOMEBODY_ELSE, how_words
from identify.reading.numbers import clean
from identify.reading.parse import Threads, reading_from
from identify.reading.thread_names import thread_name
from identify.reading.tokens import LENGTH, QUOTED, answers, length, meanings

LONGEST_LINE = 400  # characters
FORMS = (
    ("m, f", "male, female"),
    ("20.9", 'mm over the crests of a male, across those of a female; 0.823in, 13/16" for inches'),
    ("14t", "threads per inch; 18..20t for a span"),
    ("1.5p", "pitch in mm"),
    ("6g9.05", "6 gaps over 9.05 mm"),
    ("37h, 74i, 74d", "angle of the seat in degrees: half, included, not known which"),
    ("out, in, flat, ball", "shape of the seat: a cone out, a cone in, flat, a ball"),
    ("hx27", "letters of a size, then its value; answers of a feature likewise: oface"),
    (':rule', 'after a value: how it was taken, as 20.9:rule; :else that somebody else took it'),
)  # fmt: skip
"""Every form of a token with what it means, for help."""

_TOKEN = re.compile(r'[A-Za-z_]+=?"(?:[^"]|"")*"(?=[\s:]|$)\S*|\S+')
ELSE = "else"  # somebody else took it
CREST = {"male": Feature.THREAD_OD, "female": Feature.THREAD_ID}
_LONELY = ("mm", "tpi", "deg", "t", "inch", '"')  # a unit with a blank before it


@dataclass(frozen=True, slots=True)
class Taken:
    """A token, and the reading that it was taken for."""

    token: str
    reading: Reading


def read_line(line: str, threads: Threads, gender: str | None = None) -> tuple[Taken, ...]:
    """Read a line of readings in short.

    Args:
        line: What was typed.
        threads: Of the tables, as for `parse_reading`.
        gender: Of the end, where it is known already; else the line says it.

    Returns:
        Each token with its reading, in the order typed.

    Raises:
        ReadingError: A token is none, or can be read in two ways; or the readings cannot stand
            beside each other.
    """
    if len(line) > LONGEST_LINE:
        raise ReadingError(f"{quoted(line)} is longer than {LONGEST_LINE} characters.")
    tokens = [found[0] for found in _TOKEN.finditer(line)]
    tokens = [cut for each in tokens if (cut := each if each.endswith('"') else each.rstrip(",;"))]
    if not tokens:
        raise ReadingError("Nothing was typed; write readings in short, such as m 20.9 14t.")
    _refuse_blank_units(tokens)
    found = [_taken(each, threads) for each in tokens]
    said = (each.reading.value for each in found if each and each.reading.feature is Feature.GENDER)
    gender = next((each.word for each in said if isinstance(each, Choice)), gender)
    bare = [token for token, taken in zip(tokens, found, strict=True) if taken is None]
    if len(bare) > 1:
        raise ReadingError(
            f"{bare[1]} stands without a letter, and so does {bare[0]}; say what it is: "
            f"{bare[1]}t threads per inch, {bare[1]}p pitch in mm, {bare[1]}i degrees included."
        )
    out = tuple(
        taken or _crest(token, gender, threads) for token, taken in zip(tokens, found, strict=True)
    )
    gathered(each.reading for each in out)
    return out


# ---- one token -> a reading


def _taken(token: str, threads: Threads) -> Taken | None:
    """Return the reading of a token, None for a diameter over the crests."""
    base, marks = _parted(token)
    if LENGTH.fullmatch(base):
        return None
    meant = meanings(base)
    if len(meant) > 1:
        ways = " or ".join(f"{FEATURES[feature].short}{text}" for feature, text in meant)
        raise ReadingError(f"{quoted(token)} can be read in {len(meant)} ways; write {ways}.")
    if not meant:
        raise ReadingError(_unknown(token, base))
    return Taken(token, _reading(token, *meant[0], marks, threads))


def _parted(token: str) -> tuple[str, list[str]]:
    """Return a token without what was said of how it was taken, and that."""
    if found := QUOTED.fullmatch(token):
        return token[: len(token) - len(found[4])], found[4].split(":")[1:]
    base, *marks = clean(token).lower().split(":")
    return base, marks


def _reading(
    token: str, feature: Feature, text: str, marks: Iterable[str], threads: Threads
) -> Reading:
    how, other = "", ""
    for mark in marks:
        if mark == ELSE:
            other = f", {SOMEBODY_ELSE}"
        else:
            how = f" {how_words(_how(token, mark))}"
    try:
        return reading_from(feature, f"{text}{how}{other}", threads=threads)
    except ReadingError as error:
        said = "" if error.problem.startswith(quoted(token)) else f"{quoted(token)}: "
        raise ReadingError(f"{said}{error.problem}", feature) from None


def _how(token: str, mark: str) -> How:
    found = [how for how in How if mark and how.startswith(mark)]
    if len(found) != 1:
        named = found or list(How)
        raise ReadingError(
            f"{quoted(token)} does not say how it was taken; after the colon write "
            f"{', '.join(f':{how}' for how in named)} or :{ELSE} (somebody else)."
        )
    return found[0]


def _crest(token: str, gender: str | None, threads: Threads) -> Taken:
    base, marks = _parted(token)
    feature = CREST.get(gender or "")
    if feature is None:
        none = f"{gender} has no thread to measure" if gender else "male or female was not said"
        raise ReadingError(
            f"{quoted(token)} is a diameter over thread crests, but {none}; write m {base}, "
            f"f {base}, or the letters of the size before it, such as hx{base}."
        )
    return Taken(token, _reading(token, feature, length(base) or base, marks, threads))


# ---- refusals


def _refuse_blank_units(tokens: list[str]) -> None:
    """Refuse a unit that stands alone behind a number: "in" would also be a cone in."""
    for before, token in pairwise(tokens):
        number = LENGTH.search(before)
        if not number or number[0] != number[1] or not before.endswith(number[0]):
            continue
        if token.lower() == "in":
            raise ReadingError(
                f'"{before} in" can be read in two ways; write {before}in for inches, or concave '
                "for a cone in."
            )
        if token.lower() in _LONELY:
            unit = {"tpi": "t", "deg": "d", "inch": "in"}.get(token.lower(), token)
            raise ReadingError(f'"{before} {token}" is one value; write it as {before}{unit}.')


def _unknown(token: str, base: str) -> str:
    if re.match('[a-z_]+=?"', base):
        return f'{quoted(token)} has a quotation mark that is not closed; write mk"12 L".'
    if thread_name(base) is not None:
        return f"{quoted(token)} is the name of a thread, not a measurement: measure it."
    spelt = [
        f"{info.short}{base}"
        for feature, info in FEATURES.items()
        if info.spelt and base in answers_named(feature)
    ]
    if spelt:
        return f"{quoted(token)} needs letters before it; write {' or '.join(spelt)}."
    near = near_misses(base, answers(), 2)
    hint = f"; did you mean {' or '.join(near)}?" if near else "."
    return f"{quoted(token)} is no reading in short, such as m, 20.9, 14t, in or 60i{hint}"
