"""All ways in which a reading may be typed: name and value in any form, how taken, by whom."""

from collections.abc import Callable, Mapping

from identify.errors import ReadingError, near_miss, quoted
from identify.light import re
from identify.model.feature import FEATURES, Feature, FeatureInfo, Kind
from identify.model.reading import USUAL, Angle, How, Length, Marking, Pitch, Reading, Slope, Value
from identify.model.thread import Thread
from identify.reading.angles import parse_angle, parse_taper
from identify.reading.choices import parse_choice, parse_trial
from identify.reading.manner import (
    SOMEBODY_ELSE,
    check_how,
    how_of,
    how_words,
    split_how,
    split_person,
    with_person,
)
from identify.reading.numbers import MAX_CHARS, clean
from identify.reading.thread_names import refuse_name
from identify.reading.units import parse_length, parse_pitch

Threads = Mapping[str, Thread]
_CRESTS = {
    Feature.THREAD_OD: "thread_od (over the crests of a male)",
    Feature.THREAD_ID: "thread_id (the bore of a female thread)",
}


def _names(like: str) -> str:
    """Return the names of readings that are like a pattern, as a person is asked to choose."""
    found = [_CRESTS.get(name, name) for name in FEATURES if re.search(like, name)]
    return f"{', '.join(found[:-1])} or {found[-1]}"


_ASK = {
    **dict.fromkeys(
        ("diameter", "dia", "d", "size"),
        f"which size is meant: write {_names('_od$|^thread_|^hex$')}",
    ),
    **dict.fromkeys(
        ("od", "outside_diameter"), f"which outside diameter is meant: write {_names('_od$')}"
    ),
    **dict.fromkeys(
        ("id", "bore", "inside_diameter"), f"which bore is meant: write {_names('_(id|bore)$')}"
    ),
    "angle": "which angle is meant: write seat_angle, or flank_angle for that of the thread form",
    "seat": "what of the seat is meant: write seat_shape or seat_angle",
    "thread": "what of the thread is meant: write thread_od, thread_id or pitch",
    "tpi": 'which feature is meant: write pitch="14 tpi"',
    "thickness": "which thickness is meant: write " + _names("_thickness$"),
    "bolt_spacing": "which spacing is meant: write " + _names("^bolt_spacing"),
}
_PARSERS: dict[Kind, Callable[[str], Value]] = {
    Kind.LENGTH: parse_length,
    Kind.PITCH: parse_pitch,
    Kind.ANGLE: parse_angle,
    Kind.TAPER: parse_taper,
    Kind.TRIAL: parse_trial,
}


def typed_reading(text: str, threads: Threads) -> Reading:
    """Read what `parse.parse_reading` reads.

    Raises:
        ReadingError: Unknown or vague name, or a value that the feature cannot have.
    """
    if len(text) > 2 * MAX_CHARS:
        raise ReadingError(
            f"{quoted(text)} is {len(text)} characters long; a reading has at most {MAX_CHARS}."
        )
    end = min((at for at in (text.find("="), text.find(":")) if at >= 0), default=-1)
    if end < 0:
        raise ReadingError(
            f"{quoted(text)} is not a reading; write a name, = and a value, such as "
            'thread_od="20.9 mm".'
        )
    return made_reading(text[:end], text[end + 1 :], "", threads)


def made_reading(name: str, value: object, how: str, threads: Threads) -> Reading:
    """Make what `parse.reading_from` makes.

    Raises:
        ReadingError: Unknown or vague name, or a value that the feature cannot have.
    """
    feature = _feature(name)
    try:
        words, how, other_person = _parts(value, how)
        return _reading(feature, words, how, threads, other_person=other_person)
    except ReadingError as error:
        raise ReadingError(error.problem, feature) from None


def _feature(name: str) -> Feature:
    plain = name.strip().lower().replace(" ", "_").replace("-", "_")
    if plain in FEATURES:
        return Feature(plain)
    if plain in _ASK:
        raise ReadingError(f"{quoted(name.strip())} does not say {_ASK[plain]}.")
    names = tuple(FEATURES)
    if not plain:
        raise ReadingError('No name stands before the value; write thread_od="20.9 mm".')
    near = near_miss(plain, names) or f"; the names are {', '.join(names)}."
    raise ReadingError(f"{quoted(name.strip())} is not the name of a reading{near}")


def _parts(value: object, how: str) -> tuple[str, str, bool]:
    """Return the text of a value, the way it was taken, and whether somebody else took it."""
    if isinstance(value, Mapping):
        extra = [str(key) for key in value if key not in ("value", "how", "by")]
        said = value.get("how", how)
        inner = value.get("value")
        by = value.get("by")
        if extra or inner is None or isinstance(inner, Mapping) or not isinstance(said, str):
            raise ReadingError(
                f"{quoted(str(extra[0]) if extra else str(dict(value)))} is not understood; a "
                'reading is text, or {"value": "20.9 mm", "how": "rule"}.'
            )
        if by is not None and f"by {by}" != SOMEBODY_ELSE:
            raise ReadingError(
                f'{quoted(str(by))} does not say who took it; write "by": "somebody else", or '
                "leave it out where you did."
            )
        return (*_parts(inner, said)[:2], by is not None)
    if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1e9:
        return f"{value:.12g}", how, False
    if not isinstance(value, str):
        raise ReadingError(
            f'{quoted(type(value).__name__)} is no kind of value; write text, such as "20.9 mm".'
        )
    return value, how, False


def _reading(
    feature: Feature, text: str, how_word: str, threads: Threads, *, other_person: bool
) -> Reading:
    info = FEATURES[feature]
    clean(text)  # refuses what must not be repeated in `entered`
    entered, elsewhere = split_person(_unquote(" ".join(text.split())))
    other_person = other_person or elsewhere
    said = how_of(how_word) if how_word else None
    if info.kind in (Kind.TEXT, Kind.TRIAL):
        words = entered
    else:
        words, in_text = split_how(entered)
        if said and in_text and said is not in_text:
            raise ReadingError(
                f'{quoted(text)} and how="{how_word}" contradict each other; keep the true one.'
            )
        if said and not in_text:
            entered = f"{entered} {how_words(said)}"
        said = said or in_text
    if info.kind in (Kind.LENGTH, Kind.PITCH):
        refuse_name(words, feature, threads)
    value = _value(feature, info, words)
    if said:
        check_how(feature, said, value)
    entered = with_person(entered, other_person=other_person)
    how = said or _usual(info.kind, value)
    return Reading(feature, _counted(value, words, said), how, entered, other_person)


def _unquote(text: str) -> str:
    """Return text without the quotes a shell would have removed."""
    inner = text[1:-1]
    if inner.strip() and text[0] == text[-1] and text[0] in "\"'" and text[0] not in inner[:-1]:
        return inner.strip()
    return text


def _value(feature: Feature, info: FeatureInfo, text: str) -> Value:
    if info.kind is Kind.CHOICE:
        return parse_choice(feature, text)
    if info.kind is Kind.TEXT:
        return Marking(text)
    value = _PARSERS[info.kind](text)
    if isinstance(value, Length | Pitch | Angle):
        size = value.deg if isinstance(value, Angle) else value.mm
        if not info.low <= size <= info.high:
            unit = "deg" if isinstance(value, Angle) else "mm"
            raise ReadingError(
                f"{quoted(text)} is outside {info.low:g} to {info.high:g} {unit}, all that the "
                f"{info.words} can be{_slip(info, value, text)}"
            )
    return value


def _slip(info: FeatureInfo, value: Length | Pitch | Angle, text: str) -> str:
    """Return '; did you mean 20.9 mm?' where a usual slip of point or unit explains a value."""
    if isinstance(value, Angle) or value.spread_mm:
        return "."
    number, own, other = value.mm, "mm", "tpi" if isinstance(value, Pitch) else "in"
    if isinstance(value, Pitch) and value.inch:
        number, own, other = 25.4 / value.mm, "tpi", "mm"
    elif isinstance(value, Length) and "mm" not in text.lower():
        number, own, other = value.mm / 25.4, "in", "mm"
    guesses = [
        f"{guess:.4g} {unit}"
        for guess, unit in ((number, other), (number / 10, own), (number * 10, own))
        if 1e-3 < guess < 9999  # so that .4g never writes an exponent
    ]
    parse = parse_pitch if isinstance(value, Pitch) else parse_length
    likely = [guess for guess in guesses if info.low <= parse(guess).mm <= info.high]
    return f"; did you mean {' or '.join(likely)}?" if likely else "."


def _counted(value: Value, text: str, said: How | None) -> Value:
    """Return a pitch that was counted with the number it was counted over."""
    if said is not How.COUNTED or not isinstance(value, Pitch) or value.pitches:
        return value
    if not value.inch:
        raise ReadingError(
            f"{quoted(text)} does not say over how many pitches it was counted; "
            f"write 10 pitches = {10 * value.mm:.4g} mm."
        )
    return Pitch(value.mm, True, value.spread_mm, 25.4 / value.mm)  # counted over one inch


def _usual(kind: Kind, value: Value) -> How:
    if isinstance(value, Pitch) and value.pitches:
        return How.COUNTED
    by_caliper = isinstance(value, Slope) or (isinstance(value, Angle) and value.over_mm)
    return How.CALIPER if by_caliper else USUAL[kind]
