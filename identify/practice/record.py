"""What a trainee did: one file a trainee that only grows, and what stands in it."""

import os
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from identify.errors import RecordError
from identify.files import read_regular, reason
from identify.frozen import dataclass, replace
from identify.jobs.lines import (
    append_records,
    drop_torn_line,
    keep_name,
    open_lines,
    record_in,
)
from identify.jobs.locks import InUseError, Lock
from identify.model.feature import Feature
from identify.practice.judging import Mark

FORMAT = "whichend-practice/1"
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Put:
    """An exercise that was put: its pair, seed and level make it again."""

    pair: str
    seed: str
    level: int


@dataclass(frozen=True, slots=True)
class Done:
    """An exercise that was answered.

    `truth` and `taken` are ids of rows: what lay there, and what it was taken for. `seconds` is
    the time of the trainee, `minutes` what the readings cost, `when` the moment of the answer.
    """

    put: Put
    said: str
    mark: Mark
    truth: str
    taken: str
    seconds: float
    hints: int
    minutes: float
    when: datetime


@dataclass(frozen=True, slots=True)
class History:
    """All that a trainee did, first to last; `put` is still open, with readings and hints.

    `real` are guesses of real jobs, which stand in the files of those and not in this one.
    """

    name: str
    done: tuple[Done, ...] = ()
    put: Put | None = None
    taken: tuple[Feature, ...] = ()
    hints: int = 0
    unread: int = 0
    real: tuple[Done, ...] = ()

    @property
    def answers(self) -> tuple[Done, ...]:
        """Exercises and real jobs, first to last."""
        return tuple(sorted((*self.done, *self.real), key=lambda done: done.when))


Event = Put | Done | Feature | None
"""Put, answered, a reading taken, or a hint (None)."""


def after(history: History, event: Event) -> History:
    """Return a history with one event more."""
    if isinstance(event, Put):
        return replace(history, put=event, taken=(), hints=0)
    if isinstance(event, Done):
        return replace(history, done=(*history.done, event), put=None, taken=(), hints=0)
    if event is None:
        return replace(history, hints=history.hints + 1)
    return replace(history, taken=(*history.taken, event))


class Logbook:
    """The file of one trainee, and the history as it stands.

    Where nothing can be kept practice goes on; `trouble` then says why.
    """

    def __init__(self, folder: Path | None, name: str) -> None:
        self.history, self.trouble = History(name), ""
        self._file: int | None = None
        self._lock: Lock | None = None
        try:
            if folder is None:
                raise RecordError("no home folder is known; set HOME, or XDG_STATE_HOME.")
            self._path = folder / f"{_file_name(name)}.jsonl"
            self._open()
        except (RecordError, OSError) as error:
            why = reason(error) if isinstance(error, OSError) else error
            self.trouble = f"What you do is not kept: {why}"
        except InUseError:
            self.trouble = f"What you do is not kept: {name} practises in another window."

    def _open(self) -> None:
        self._path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        self._lock = Lock(self._path)
        new = not self._path.exists()
        self._file = open_lines(self._path, os.O_CREAT)
        if new:
            append_records(self._file, self._path, {"format": FORMAT, "name": self.history.name})
            keep_name(self._path.parent)
            return
        drop_torn_line(self._file, self._path)
        found = read_history(self._path)
        if found is None:
            raise RecordError(f"{self._path} is no file of a trainee; move it away.")
        self.history = found

    def add(self, event: Event) -> None:
        """Keep an event, on the disk if it can be."""
        self.history = after(self.history, event)
        if self._file is None or self.trouble:
            return
        try:
            append_records(self._file, self._path, _record_of(event))
        except RecordError as error:
            self.trouble = f"What you do is not kept: {error}"

    def close(self) -> None:
        """Let go of the file."""
        if self._file is not None:
            with suppress(OSError):
                os.close(self._file)
            self._file = None
        if self._lock is not None:
            self._lock.release()


def histories(folder: Path | None) -> tuple[History, ...]:
    """Return all trainees of a machine, by name."""
    try:
        paths = sorted(folder.glob("*.jsonl")) if folder else []
    except OSError:
        return ()
    return tuple(found for path in paths if (found := read_history(path)))


def read_history(path: Path) -> History | None:
    """Return what stands in the file of a trainee, None if it is none."""
    try:
        data, _ = read_regular(path)
    except OSError:
        return None
    first, *lines = data.split(b"\n")[:-1] or [b""]
    header = record_in(first)
    name = header.get("name")
    if header.get("format") != FORMAT or not isinstance(name, str):
        return None
    history = History(name[:LONGEST_NAME])
    for line in lines:
        try:
            history = after(history, _event_of(record_in(line)))
        except (KeyError, ValueError, TypeError):  # damaged, or of a later version
            history = replace(history, unread=history.unread + 1)
    return history


def _record_of(event: Event) -> dict[str, Any]:
    if event is None:
        return {"event": "hint"}
    if isinstance(event, Put):
        return {"event": "put", "pair": event.pair, "seed": event.seed, "level": event.level}
    if isinstance(event, Feature):
        return {"event": "read", "feature": str(event)}
    return {
        "event": "answer",
        **{key: each for key, each in _record_of(event.put).items() if key != "event"},
        "said": event.said,
        "mark": str(event.mark),
        "truth": event.truth,
        "taken": event.taken,
        "seconds": round(event.seconds, 1),
        "hints": event.hints,
        "minutes": round(event.minutes, 2),
        "when": event.when.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ"),
    }


def _event_of(record: dict[str, Any]) -> Event:
    what = record["event"]
    if what == "hint":
        return None
    if what == "read":
        return Feature(record["feature"])
    put = Put(_text(record["pair"]), _text(record["seed"]), int(record["level"]))
    if what == "put":
        return put
    if what != "answer":
        raise ValueError(what)
    return Done(
        put,
        said=_text(record["said"]),
        mark=Mark(record["mark"]),
        truth=_text(record["truth"]),
        taken=_text(record["taken"]),
        seconds=float(record["seconds"]),
        hints=int(record["hints"]),
        minutes=float(record["minutes"]),
        when=datetime.fromisoformat(_text(record["when"])).astimezone(UTC),
    )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _file_name(name: str) -> str:
    """Return a name as a file may bear it; what no file may bear stands by its number."""
    return "".join(c if c.isalnum() else f"-{ord(c):x}-" for c in name.casefold())[:120]


def clean_name(name: str) -> str:
    """Return a name of a trainee without what cannot be shown.

    Raises:
        RecordError: Nothing is left of it.
    """
    found = " ".join("".join(c if c.isprintable() else " " for c in name).split())[:LONGEST_NAME]
    if not found:
        raise RecordError("A trainee needs a name; write one after --name.")
    return found
