"""Interview events <-> plain JSON values that name every field, so that old files stay readable."""

from __future__ import annotations

from math import isfinite

from identify.errors import ReadingError, RecordError, quoted
from identify.frozen import TYPE_CHECKING
from identify.interview.session import (
    Again,
    Claimed,
    Enough,
    Equipped,
    Event,
    GivenUp,
    Observed,
    Reached,
    Unclaimed,
    Withdrawn,
)
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observer import CARES
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Slope,
    Trial,
    Value,
)
from identify.model.rule import Access, Tool
from identify.reading.angles import STEEPEST_TAPER
from identify.reading.choices import MOST_TURNS
from identify.reading.manner import check_how
from identify.reading.numbers import MAX_CHARS, clean

if TYPE_CHECKING:
    from typing import Any

MOST_NAMED = 5000  # ends that one claim names
LONGEST_CONE_MM = 1000.0
LONGEST_ENTERED = 2 * MAX_CHARS  # what was typed, and the way that was added to it
ROUNDING = 1e-9  # of a bound, for figures that went through text
_VALUES: dict[str, type[Any]] = {
    "length": Length,
    "pitch": Pitch,
    "angle": Angle,
    "choice": Choice,
    "slope": Slope,
    "marking": Marking,
    "trial": Trial,
}
_NAMES = {kind: name for name, kind in _VALUES.items()}
_KINDS: dict[Kind, tuple[type[Any], ...]] = {
    Kind.LENGTH: (Length,),
    Kind.PITCH: (Pitch,),
    Kind.ANGLE: (Angle,),
    Kind.TAPER: (Choice, Slope),
    Kind.CHOICE: (Choice,),
    Kind.TEXT: (Marking,),
    Kind.TRIAL: (Trial,),
}
_PLAIN: dict[str, type[Enough | GivenUp | Withdrawn]] = {
    "enough": Enough,
    "given_up": GivenUp,
    "withdrawn": Withdrawn,
}
_PLAIN_NAMES = {kind: name for name, kind in _PLAIN.items()}


def record_of(event: Event) -> dict[str, Any]:
    """Return an event as a JSON object."""
    if isinstance(event, Observed | Again):
        reading = event.reading
        value = {"kind": _NAMES[type(reading.value)], **_fields(reading.value)}
        return {
            "event": "observed" if isinstance(event, Observed) else "again",
            "feature": reading.feature,
            "entered": reading.entered,
            "how": reading.how,
            "value": value,
            **({"other_person": True} if reading.other_person else {}),
        }
    if isinstance(event, Equipped):
        who = {"care": event.care} if event.care else {}
        return {"event": "equipped", "tools": sorted(event.tools), **who}
    if isinstance(event, Reached):
        return {"event": "reached", "access": event.access}
    if isinstance(event, Claimed):
        return {"event": "claimed", **_fields(event), "ends": list(event.ends)}
    if isinstance(event, Unclaimed):
        return {"event": "unclaimed", "words": event.words}
    return {"event": _PLAIN_NAMES[type(event)], "feature": event.feature}


def _fields(value: Value | Claimed) -> dict[str, Any]:
    names: tuple[str, ...] = value.__match_args__
    return {each: getattr(value, each) for each in names}


def event_of(record: dict[str, Any]) -> Event:
    """Return the event that a JSON object holds.

    Raises:
        RecordError: It holds none that this version knows.
    """
    try:
        name = record["event"]
        if name in ("observed", "again"):
            reading = _reading(record)
            return Observed(reading) if name == "observed" else Again(reading)
        if name == "equipped":
            return Equipped(frozenset(Tool(tool) for tool in record["tools"]), _care(record))
        if name == "reached":
            return Reached(Access(record["access"]))
        if name == "claimed":
            return _claimed(record)
        if name == "unclaimed":
            return Unclaimed(_text(record, "words"))
        if name in _PLAIN:
            return _PLAIN[name](Feature(record["feature"]))
    except (KeyError, TypeError, ValueError, OverflowError, ReadingError) as error:
        raise RecordError(f"a saved answer cannot be read ({quoted(str(error))}).") from None
    raise RecordError(f"a saved answer is of an unknown kind, {quoted(str(name))}.")


def _claimed(record: dict[str, Any]) -> Claimed:
    """Return a claim, its words as they can be typed."""
    words, by, at, anyway = (_text(record, name) for name in ("words", "by", "at", "anyway"))
    ends = record["ends"]
    named = isinstance(ends, list) and all(isinstance(end, str) for end in ends)
    if not words or not named or len(ends) > MOST_NAMED:
        raise ValueError("the claim does not say what it names")
    return Claimed(words, by, at, tuple(ends), anyway)


def _text(record: dict[str, Any], name: str) -> str:
    text = record[name]
    if not isinstance(text, str) or len(text) > MAX_CHARS:
        raise ValueError(f"{name} is no text of a claim")
    if text:
        clean(text)  # refuses what moves a cursor
    return text


def _care(record: dict[str, Any]) -> str:
    """Return who measures; files of old do not say."""
    care = record.get("care", "")
    if care not in ("", *CARES):
        raise ValueError(f"nobody measures as {care}")
    return str(care)


def _reading(record: dict[str, Any]) -> Reading:
    """Return a reading, checked as one that was typed is."""
    feature, how = Feature(record["feature"]), How(record["how"])
    value, entered = _value(dict(record["value"])), record["entered"]
    if not possible(feature, value):
        raise ValueError(f"{feature} cannot be {value}")
    if not isinstance(entered, str) or len(entered) > LONGEST_ENTERED:
        raise ValueError(f"{feature} does not say what was typed")
    if FEATURES[feature].kind not in (Kind.TEXT, Kind.TRIAL):
        check_how(feature, how, value)
    return Reading(feature, value, how, entered, record.get("other_person") is True)


def _value(fields: dict[str, Any]) -> Value:
    kind = _VALUES[fields.pop("kind")]
    if kind is Angle and fields.get("basis"):
        fields["basis"] = Basis(fields["basis"])
    if kind is Trial:
        fields["outcome"] = Outcome(fields["outcome"])
    value: Value = kind(**fields)
    return value


def possible(feature: Feature, value: Value) -> bool:
    """Tell whether a feature can have a value: kind, words, bounds, every figure finite.

    Values made by the readers always are; those from a file of another hand need not be.
    """
    if not isinstance(value, _KINDS[FEATURES[feature].kind]):
        return False
    match value:
        case Length(mm, spread) | Pitch(mm, _, spread):
            counted = value.pitches if isinstance(value, Pitch) else 0.0
            return (
                _number(mm, spread, counted) and _within(feature, mm) and spread <= mm
            ) and counted <= 1000
        case Angle(deg, _, over):
            return _number(deg, over) and _within(feature, deg) and 0 <= over <= LONGEST_CONE_MM
        case Choice(word):
            return word in FEATURES[feature].choices
        case Slope(rise, over):
            return _number(rise, over) and 0 <= rise <= over * float(STEEPEST_TAPER) * (
                1 + ROUNDING
            )
        case Marking(text):
            return isinstance(text, str) and len(text) <= MAX_CHARS
        case Trial(known, _, turns):
            named = isinstance(known, str) and 0 < len(known) <= MAX_CHARS
            return named and (turns is None or (_number(turns) and 0 < turns <= MOST_TURNS))
    return False


def _number(*values: object) -> bool:
    return all(type(each) in (int, float) and isfinite(each) for each in values)  # type: ignore[arg-type]


def _within(feature: Feature, size: float) -> bool:
    info = FEATURES[feature]
    return info.low * (1 - ROUNDING) <= size <= info.high * (1 + ROUNDING)
