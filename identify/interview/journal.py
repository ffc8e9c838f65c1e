"""One file an interview, one JSON line an answer, on the disk before `add` returns.

A file that only grows needs no database: a line is written whole or, after a power cut, torn at
the end of the file, where it is found and dropped. Unlike a write-ahead log it is also safe on a
network drive, and a person can read it. An fsync costs well under the time of a key press.

Nothing is ever written behind what cannot be read: `Journal.go_on` refuses such a file, and the
interview goes on in a new one.
"""

import os
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any, Self

from identify.errors import RecordError
from identify.files import read_regular, reason
from identify.frozen import dataclass
from identify.interview.lines import (
    append_records,
    drop_torn_line,
    keep_name,
    open_lines,
    record_in,
)
from identify.interview.locks import Lock, in_use
from identify.interview.records import event_of, record_of
from identify.interview.session import Event, GivenUp, Observed

FORMAT = "whichend-interview/1"
_BACK, _FINISHED = "back", "finished"


@dataclass(frozen=True, slots=True)
class Saved:
    """An interview found on the disk: its file, when it began, and the events that stand.

    `begun` is local time, to be shown; `unread` counts lines within the file that this version
    cannot read, `when` is the beginning in seconds, for the order.
    """

    path: Path
    begun: str
    events: tuple[Event, ...]
    unread: int = 0
    when: float = 0.0


class Journal:
    """Appends to the file of one interview; made by `begin` or `go_on`."""

    def __init__(self, path: Path, file: int, lock: Lock) -> None:
        self.path, self._file, self._lock = path, file, lock

    @classmethod
    def begin(cls, path: Path, begun: str, events: tuple[Event, ...] = ()) -> Self:
        """Make the file of a new interview, with the events it begins with.

        Args:
            path: Where; there must be nothing yet.
            begun: UTC, as "2025-03-01T08:30:00Z".
            events: What is known already.

        Raises:
            FileExistsError: Something of that name is there.
            RecordError: The file cannot be made or written; says which and why.
        """
        try:
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            file = open_lines(path, os.O_CREAT | os.O_EXCL)
        except FileExistsError:
            raise
        except OSError as error:
            raise RecordError(f"{path} cannot be opened ({reason(error)}).") from None
        journal = cls(path, file, Lock(path))
        journal._append({"format": FORMAT, "begun": begun}, *map(record_of, events))
        keep_name(path.parent)
        return journal

    @classmethod
    def go_on(cls, saved: Saved) -> Self:
        """Open the file of a saved interview to write on.

        Raises:
            InUseError: Another window has it open.
            RecordError: It cannot be opened, or not be read to its end as it was when found.
        """
        lock = Lock(saved.path)
        try:
            now = read(saved.path)
            unread = max(saved.unread, now.unread if now else 0)
            if now is None or unread or now.events != saved.events:
                why = _why_not(unread, gone=now is None)
                raise RecordError(f"{saved.path.name} cannot be written on: {why}.")
            file = open_lines(saved.path, 0)
            drop_torn_line(file, saved.path)
        except OSError as error:
            lock.release()
            raise RecordError(f"{saved.path} cannot be opened ({reason(error)}).") from None
        except RecordError:
            lock.release()
            raise
        return cls(saved.path, file, lock)

    @property
    def unlocked(self) -> str:
        """Why the file could not be locked, empty if it is."""
        return self._lock.trouble

    def add(self, event: Event) -> None:
        """Keep an answer.

        Raises:
            RecordError: It cannot be written, here as in the two below.
        """
        self._append(record_of(event))

    def back(self) -> None:
        """Keep that the last event was taken back."""
        self._append({"event": _BACK})

    def finish(self) -> None:
        """Keep that the interview came to its end and need not be offered again."""
        self._append({"event": _FINISHED})

    def close(self) -> None:
        """Let go of the file."""
        with suppress(OSError):
            os.close(self._file)
        self._lock.release()

    def _append(self, *records: dict[str, Any]) -> None:
        append_records(self._file, self.path, *records)


def unfinished(folder: Path | None) -> tuple[Saved, ...]:
    """Return interviews that were broken off, latest first; those open elsewhere are left out."""
    try:
        paths = list(folder.glob("interview-*.jsonl")) if folder else []
    except OSError:
        return ()
    found = [saved for path in paths if not in_use(path) and (saved := read(path))]
    return tuple(sorted(found, key=lambda saved: (saved.when, saved.path.stem), reverse=True))


def read(path: Path) -> Saved | None:
    """Return what stands in a file; None if it is finished, without answers or none of ours."""
    try:
        data, _ = read_regular(path)
    except OSError:
        return None
    first, *lines = data.split(b"\n")[:-1] or [b""]  # what no newline ends was torn
    header = record_in(first)
    when = _moment(header.get("begun"))
    if header.get("format") != FORMAT or when is None:
        return None
    events: list[Event] = []
    unread = 0
    for line in lines:
        record = record_in(line)
        name = record.get("event")
        if name == _FINISHED:
            return None
        if name == _BACK:
            del events[-1:]
            continue
        try:
            events.append(event_of(record))
        except RecordError:  # damaged, or of a later version: what stands round it still counts
            unread += 1
    if not any(isinstance(event, Observed | GivenUp) for event in events):
        return None
    begun = when.astimezone().strftime("%Y-%m-%dT%H:%M:%S")
    return Saved(path, begun, tuple(events), unread, when.timestamp())


def _moment(begun: object) -> datetime | None:
    """Return when an interview began; files of old say it in local time, without a zone."""
    try:
        when = datetime.fromisoformat(begun) if isinstance(begun, str) else None
        return when.astimezone() if when else None
    except (ValueError, OverflowError, OSError):
        return None


def _why_not(unread: int, *, gone: bool) -> str:
    if gone:
        return "it is finished, or gone"
    if unread:
        lines = "1 line" if unread == 1 else f"{unread} lines"
        return f"{lines} in it cannot be read, by this version or with these tables"
    return "it was changed meanwhile"
