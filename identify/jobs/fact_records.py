"""Lines of a job file <-> steps: facts here, answers and claims by `records`."""

from __future__ import annotations

from identify.errors import ReadingError, RecordError, quoted
from identify.frozen import TYPE_CHECKING
from identify.jobs.facts import (
    FIRST,
    LONGEST_TEXT,
    Back,
    Concluded,
    Corrected,
    Discarded,
    Fate,
    Field,
    Finished,
    Named,
    Noted,
    Place,
    Reopened,
    Settled,
    Step,
    place_said,
    possible_fact,
)
from identify.jobs.job import Entry
from identify.jobs.records import event_of, record_of
from identify.model.verdict import VerdictKind

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

LONGEST_SENTENCE = 2000  # of a verdict
MOST_ENDS = 200  # that one verdict names
_MARKS: dict[str, Step] = {
    "back": Back(),
    "finished": Finished(),
    "reopened": Reopened(),
    "discarded": Discarded(),
}
_MARK_NAMES = {type(mark): name for name, mark in _MARKS.items()}


def line_of(place: Place, step: Step) -> dict[str, Any]:
    """Return an entry as a JSON object; the first end of the first hose is not named in it."""
    if isinstance(step, Noted | Concluded | Settled | Corrected):
        from dataclasses import asdict  # slow to import, and answers need none

        record = {"event": _FACT_NAMES[type(step)], **asdict(step)}
    elif isinstance(step, Back | Finished | Reopened | Discarded):
        record = {"event": _MARK_NAMES[type(step)]}
    else:
        record = record_of(step)
    return record if place == FIRST else {"end": str(place), **record}


def entry_of(record: dict[str, Any]) -> Entry:
    """Return the entry that a JSON object holds.

    Raises:
        RecordError: It holds none that this version knows.
    """
    place = _place(record.get("end", str(FIRST)))
    name = record.get("event")
    if not isinstance(name, str):
        raise RecordError("a line does not say what happened.")
    if name in _MARKS:
        return place, _MARKS[name]
    if name not in _FACTS:
        return place, event_of(record)
    try:
        return place, _FACTS[name][1](record)
    except (KeyError, TypeError, ValueError, OverflowError) as error:
        raise RecordError(f"a fact cannot be read ({quoted(str(error))}).") from None


def _place(said: object) -> Place:
    try:
        if isinstance(said, str) and (place := place_said(said)) and str(place) == said:
            return place
    except ReadingError:
        pass
    raise RecordError(f"a line is of no end of a hose, {quoted(str(said))}.")


def _text(record: dict[str, Any], name: str, longest: int = LONGEST_TEXT) -> str:
    text = record[name]
    if not isinstance(text, str) or len(text) > longest:
        raise ValueError(f"{name} is no text of at most {longest} characters")
    return text


def _texts(record: dict[str, Any], *names: str) -> tuple[str, ...]:
    return tuple(_text(record, name) for name in names)


def _list(record: dict[str, Any], name: str) -> list[Any]:
    found = record[name]
    if not isinstance(found, list) or len(found) > MOST_ENDS:
        raise ValueError(f"{name} is no list of at most {MOST_ENDS}")
    return found


def _noted(record: dict[str, Any]) -> Noted:
    field, value = Field(record["field"]), _text(record, "value")
    if not possible_fact(field, value):
        raise ValueError(f"{field} cannot be {value}")
    return Noted(field, value)


def _concluded(record: dict[str, Any]) -> Concluded:
    sentence = _text(record, "sentence", LONGEST_SENTENCE)
    ends = tuple(_named(dict(each)) for each in _list(record, "ends"))
    versions = _texts(record, "tables", "rules", "program", "at")
    return Concluded(VerdictKind(record["kind"]), sentence, ends, *versions)


def _named(record: dict[str, Any]) -> Named:
    probability = record["probability"]
    if type(probability) not in (int, float) or not 0 <= probability <= 1:
        raise ValueError("probability is none")
    id, title, thread = _texts(record, "id", "title", "thread")
    return Named(id, title, thread, float(probability))


def _settled(record: dict[str, Any]) -> Settled:
    return Settled(Fate(record["fate"]), *_texts(record, "why", "at"))


def _corrected(record: dict[str, Any]) -> Corrected:
    return Corrected(*_texts(record, "what", "before", "after", "why", "by", "at"))


_FACTS: dict[str, tuple[type[Any], Callable[[dict[str, Any]], Step]]] = {
    "noted": (Noted, _noted),
    "concluded": (Concluded, _concluded),
    "settled": (Settled, _settled),
    "corrected": (Corrected, _corrected),
}
_FACT_NAMES = {kind: name for name, (kind, _) in _FACTS.items()}
