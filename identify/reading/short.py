"""A reading -> the token of a line in short that says it; the other way is `quick`."""

from collections.abc import Iterable
from contextlib import suppress

from identify.errors import ReadingError
from identify.frozen import replace
from identify.light import re
from identify.model.feature import FEATURES, Feature, Kind, answers_named
from identify.model.reading import Choice, Reading
from identify.reading.manner import split_how, split_person
from identify.reading.quick import CREST, ELSE, read_line
from identify.reading.tokens import LENGTH


def short_line(readings: Iterable[Reading]) -> str:
    """Return readings in short; `read_line` reads them back equal but for the words typed."""
    given = list(readings)
    gender = next((each for each in given if each.feature is Feature.GENDER), None)
    word = gender.value.word if gender and isinstance(gender.value, Choice) else None
    out: list[str] = []
    bare = word in CREST
    for each in given:
        token = _short(each, word if bare else None)
        bare = bare and not LENGTH.fullmatch(token.partition(":")[0])
        if token.startswith("in") and out and out[-1][-1:].isdigit():
            token = f"{FEATURES[each.feature].short}{token}"  # behind a number it would be inches
        out.append(token)
    return " ".join(out)


def _short(reading: Reading, gender: str | None) -> str:
    """Return the shortest token that is read as the same value, taken in the same way."""
    for marks in ("", f":{reading.how}"):
        for base in sorted(_candidates(reading, gender), key=len):
            token = f"{base}{marks}{f':{ELSE}' * reading.other_person}"
            if _same(token, reading, gender):
                return token
    doubled = reading.entered.replace('"', '""')
    return f'{FEATURES[reading.feature].short}"{doubled}"'


def _same(token: str, reading: Reading, gender: str | None) -> bool:
    try:
        (taken,) = read_line(token, {}, gender)
    except (ReadingError, ValueError):
        return False
    return replace(taken.reading, entered=reading.entered) == reading


def _candidates(reading: Reading, gender: str | None) -> Iterable[str]:
    """Yield tokens that may say a reading."""
    info = FEATURES[reading.feature]
    if isinstance(reading.value, Choice):
        for word, answer in answers_named(reading.feature).items():
            if answer == reading.value.word:
                yield from (word, f"{info.short}{word}")
        return
    tight = re.sub(r"\s", "", _value_of(reading.entered).lower())
    for long, letter in _TIGHT:
        tight = re.sub(long, letter, tight)
    for text in (tight, tight.removesuffix("mm")):
        yield f"{info.short}{text}"
        if gender and reading.feature is CREST.get(gender):
            yield text
        if info.kind in (Kind.PITCH, Kind.ANGLE):
            yield text
            yield f"{text}p"


def _value_of(entered: str) -> str:
    """Return what was typed of a value, without how and by whom it was taken."""
    alone = split_person(entered)[0]
    with suppress(ReadingError):
        alone = split_how(alone)[0]
    return alone


_TIGHT = (
    ("(?:tpi|threads?perinch)(?:counted)?$", "t"),
    ("(?:gaps|pitches)(?:over|=)", "g"),
    ("(?:deg|°)(?:half|perside)$", "h"),
    ("(?:deg|°)(?:included|incl)$", "i"),
    ("(?:deg|°)$", "d"),
    ("(?:mm)?over([0-9.,]+)(?:mm)?$", r"/\1"),
    ("inch$", "in"),
    (r"\+/?-", "±"),
)
