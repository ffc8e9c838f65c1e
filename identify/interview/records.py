"""Interview events <-> plain JSON values that name every field, so that old files stay readable."""

import dataclasses
from typing import Any

from identify.errors import RecordError
from identify.interview.session import Equipped, Event, GivenUp, Observed, Reached, Withdrawn
from identify.model.feature import Feature
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


def record_of(event: Event) -> dict[str, Any]:
    """Return an event as a JSON object."""
    if isinstance(event, Observed):
        reading = event.reading
        value = {"kind": _NAMES[type(reading.value)], **dataclasses.asdict(reading.value)}
        return {
            "event": "observed",
            "feature": reading.feature,
            "entered": reading.entered,
            "how": reading.how,
            "value": value,
        }
    if isinstance(event, Equipped):
        return {"event": "equipped", "tools": sorted(event.tools)}
    if isinstance(event, Reached):
        return {"event": "reached", "access": event.access}
    name = "given_up" if isinstance(event, GivenUp) else "withdrawn"
    return {"event": name, "feature": event.feature}


def event_of(record: dict[str, Any]) -> Event:
    """Return the event that a JSON object holds.

    Raises:
        RecordError: It holds none that this version knows.
    """
    try:
        name = record["event"]
        if name == "observed":
            return Observed(
                Reading(
                    Feature(record["feature"]),
                    _value(dict(record["value"])),
                    How(record["how"]),
                    str(record["entered"]),
                )
            )
        if name == "equipped":
            return Equipped(frozenset(Tool(tool) for tool in record["tools"]))
        if name == "reached":
            return Reached(Access(record["access"]))
        if name == "given_up":
            return GivenUp(Feature(record["feature"]))
        if name == "withdrawn":
            return Withdrawn(Feature(record["feature"]))
    except (KeyError, TypeError, ValueError) as error:
        raise RecordError(f"a saved answer cannot be read ({error}).") from None
    raise RecordError(f'a saved answer is of an unknown kind, "{name}".')


def _value(fields: dict[str, Any]) -> Value:
    kind = _VALUES[fields.pop("kind")]
    if kind is Angle and fields.get("basis"):
        fields["basis"] = Basis(fields["basis"])
    if kind is Trial:
        fields["outcome"] = Outcome(fields["outcome"])
    value: Value = kind(**fields)
    return value
