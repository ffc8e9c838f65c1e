"""One file an interview, one JSON line an answer, on the disk before `add` returns.

A file that only grows needs no database: a line is written whole or, after a power cut, torn at
the end of the file, where it is found and dropped. Unlike a write-ahead log it is also safe on a
network drive, and a person can read it. An fsync costs well under the time of a key press.
"""

import json
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from identify.errors import RecordError
from identify.interview.records import event_of, record_of
from identify.interview.session import Event, GivenUp, Observed

try:
    import fcntl
except ImportError:  # Windows has no such lock; there two windows may offer the same interview
    fcntl = None  # type: ignore[assignment]

FORMAT = "whichend-interview/1"
_BACK, _FINISHED = "back", "finished"


@dataclass(frozen=True, slots=True)
class Saved:
    """An interview found on the disk: its file, when it began, and the events that stand."""

    path: Path
    begun: str
    events: tuple[Event, ...]


class Journal:
    """Appends to the file of one interview.

    Raises:
        RecordError: The file cannot be opened or written; says which and why.
    """

    def __init__(self, path: Path, begun: str) -> None:
        self.path = path
        fresh = not path.exists()
        try:
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._file = os.open(path, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)
        except OSError as error:
            raise RecordError(f"{path} cannot be opened ({error.strerror}).") from None
        self._lock()
        if fresh:
            self._append({"format": FORMAT, "begun": begun})
        else:
            self._drop_torn_line()

    def add(self, event: Event) -> None:
        """Keep an answer."""
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

    def _append(self, record: dict[str, Any]) -> None:
        line = json.dumps(record, ensure_ascii=False, separators=(",", ":")) + "\n"
        left = line.encode()
        try:
            while left:
                left = left[os.write(self._file, left) :]
            os.fsync(self._file)
        except OSError as error:
            raise RecordError(f"{self.path} cannot be written ({error.strerror}).") from None

    def _lock(self) -> None:
        if fcntl:
            with suppress(OSError):
                fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)

    def _drop_torn_line(self) -> None:
        text = self.path.read_bytes()
        if text and not text.endswith(b"\n"):
            os.ftruncate(self._file, text.rfind(b"\n") + 1)


def unfinished(folder: Path) -> tuple[Saved, ...]:
    """Return interviews that were broken off, latest first; those open elsewhere are left out."""
    try:
        paths = sorted(folder.glob("interview-*.jsonl"), key=lambda path: path.stem, reverse=True)
    except OSError:
        return ()
    return tuple(saved for path in paths if not _in_use(path) and (saved := _read(path)))


def _in_use(path: Path) -> bool:
    if not fcntl:
        return False
    try:
        with path.open("rb") as file:
            fcntl.flock(file, fcntl.LOCK_SH | fcntl.LOCK_NB)
    except OSError:
        return True
    return False


def _read(path: Path) -> Saved | None:
    """Return what stands in a file; None if it is finished, without answers or none of ours."""
    events: list[Event] = []
    begun = ""
    for record in _records(path):
        if record.get("format"):
            begun = str(record.get("begun", ""))
        elif record.get("event") == _FINISHED:
            return None
        elif record.get("event") == _BACK:
            del events[-1:]
        else:
            try:
                events.append(event_of(record))
            except RecordError:  # a later version wrote it: what stands before it still counts
                break
    answered = any(isinstance(event, Observed | GivenUp) for event in events)
    return Saved(path, begun, tuple(events)) if begun and answered else None


def _records(path: Path) -> Iterator[dict[str, Any]]:
    try:
        lines = path.read_bytes().splitlines()
    except OSError:
        return
    for line in lines:
        try:
            record = json.loads(line)
        except ValueError:  # torn by a power cut
            return
        if isinstance(record, dict):
            yield record


def state_folder() -> Path:
    """Return the folder for what must outlive a run, by the custom of the system."""
    from platformdirs import user_state_path  # comes with the screen library; slow to import

    return user_state_path("whichend", appauthor=False)


def interviews_folder() -> Path:
    """Return the folder of saved interviews."""
    return state_folder() / "interviews"


def interview_path(folder: Path, begun: str, process: int) -> Path:
    """Return a file name for a new interview.

    Args:
        folder: Where interviews are kept.
        begun: When it began, as "2025-03-01T08:30:00".
        process: Number of this process, so that two begun in one second do not meet.
    """
    return folder / f"interview-{begun.replace(':', '').replace('-', '')}-{process}.jsonl"
