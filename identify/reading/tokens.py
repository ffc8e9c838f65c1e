"""What one token of a line in short can mean: a feature and the text of its value, or several."""

from collections.abc import Iterable
from functools import cache

from identify.light import re
from identify.model.feature import FEATURES, Feature, Kind, answers_named

LEAST_CUT = 3  # letters to which a word may be cut
QUOTED = re.compile(r'([A-Za-z_]+)(=?)"((?:[^"]|"")*)"((?::[a-z]+)*)')
_NUMBER = r"[0-9][0-9.,/±-]*|[.,][0-9][0-9.,/±-]*"
_UNIT = r'mm|in|"'
LENGTH = re.compile(rf"({_NUMBER})({_UNIT})?")
_SLOPE = re.compile(r"([0-9.,]+)/([0-9.,]+)")
_MARKED = re.compile(rf"({_NUMBER})([tphid°])")
_GAPS = re.compile(rf"([0-9]+(?:[.,]5)?)g({_NUMBER})({_UNIT})?")
_MARKS = {
    "t": (Feature.PITCH, "{} tpi"),
    "p": (Feature.PITCH, "{} mm"),
    "h": (Feature.SEAT_ANGLE, "{} deg half"),
    "i": (Feature.SEAT_ANGLE, "{} deg included"),
    "d": (Feature.SEAT_ANGLE, "{} deg"),
    "°": (Feature.SEAT_ANGLE, "{} deg"),
}
_WORDS = (Kind.CHOICE, Kind.TAPER)
Meaning = tuple[Feature, str]  # a feature and the text of its value


def meanings(base: str) -> list[Meaning]:
    """Return all that a token can mean, words as they are answered and values with their units."""
    if quotes := QUOTED.fullmatch(base):
        name, equals, text = quotes[1].lower(), quotes[2], quotes[3].replace('""', '"')
        return [
            (each, text) for each in Feature if name == (each if equals else FEATURES[each].short)
        ]
    name, equals, value = base.partition("=")
    if equals:
        return [(each, value) for each in Feature if each == name]
    found = [*_bare(base)]
    for feature, info in FEATURES.items():
        if base.startswith(info.short) and (text := _value(feature, base[len(info.short) :])):
            found.append((feature, text))
    return list(dict.fromkeys(found)) or _cut(base)


def _bare(base: str) -> Iterable[Meaning]:
    """Yield what a token means without letters before it: a word, or a number with its letter."""
    yield from ((feature, answer) for feature, answer in answers().get(base, ()))
    if found := _MARKED.fullmatch(base):
        feature, form = _MARKS[found[2]]
        yield feature, form.format(found[1])
    elif found := _GAPS.fullmatch(base):
        yield Feature.PITCH, f"{found[1]} gaps over {length(found[2] + (found[3] or ''))}"


@cache
def answers() -> dict[str, tuple[Meaning, ...]]:
    """Return the words that need no letters before them, each with what it answers."""
    out: dict[str, tuple[Meaning, ...]] = {}
    for feature, info in FEATURES.items():
        if info.kind in _WORDS and not info.spelt:
            for word, answer in answers_named(feature).items():
                if word[0].isalpha():
                    out[word] = (*out.get(word, ()), (feature, answer))
    return out


def _cut(base: str) -> list[Meaning]:
    """Return the answers that begin with a cut word."""
    if len(base) < LEAST_CUT or not base.isalpha():
        return []
    begun = (meant for word, meant in answers().items() if word.startswith(base))
    return list(dict.fromkeys(each for meant in begun for each in meant))


def _value(feature: Feature, text: str) -> str:
    """Return the value that stands behind the letters of a feature, empty if it is none."""
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return length(text)
    if kind in _WORDS and (answer := answers_named(feature).get(text)):
        return answer
    if kind is Kind.TAPER and (found := _SLOPE.fullmatch(text)):
        return f"{found[1]} mm over {found[2]} mm"
    if kind in (Kind.PITCH, Kind.ANGLE):
        return next((words for each, words in _bare(text) if each is feature), "")
    return ""


def length(text: str) -> str:
    """Return a number with its unit, millimetres where none is said and it is no fraction."""
    found = LENGTH.fullmatch(text)
    if not found:
        return ""
    unit = found[2] or ("" if "/" in found[1] else "mm")
    return f"{found[1]} {'in' if unit == chr(34) else unit}".rstrip()
