"""One file a job, one JSON line a step, on the disk before `add` returns.

A file that only grows needs no database: a line is written whole or, after a power cut, torn at
the end of the file, where it is found and dropped. Unlike a write-ahead log it is also safe on a
network drive, and a person can read it. An fsync costs well under the time of a key press.

Nothing is ever written behind what cannot be read: `Journal.go_on` refuses such a file, and the
interview goes on in a new one. Files of `whichend-interview/1` hold one interview, which is the
first end of the first hose; they are read and written on as they are.
"""

from __future__ import annotations

import os
import zlib

from identify.errors import ReadingError, RecordError
from identify.files import read_regular, reason
from identify.frozen import TYPE_CHECKING, dataclass
from identify.interview.session import Event
from identify.jobs.fact_records import entry_of, line_of
from identify.jobs.facts import FIRST, Place, Step
from identify.jobs.job import Entry, Job, job_of
from identify.jobs.lines import (
    append_records,
    drop_torn_line,
    keep_name,
    open_lines,
    record_in,
)
from identify.jobs.locks import InUseError, Lock
from identify.jobs.reference import reference_of, reference_said
from identify.light import suppress

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path
    from typing import Any, Self

FORMAT = "whichend-job/1"
FORMATS = (FORMAT, "whichend-interview/1")


@dataclass(frozen=True, slots=True)
class Kept:
    """A job found on the disk: its file, when it began, and what its lines add up to.

    `begun` is local time, to be shown, `when` the same in seconds, for the order; `entries` are
    the steps in the order of the file; `unread` counts lines within it that this version cannot
    read.
    """

    path: Path
    begun: str
    job: Job
    entries: tuple[Entry, ...]
    unread: int = 0
    when: float = 0.0


@dataclass(frozen=True, slots=True)
class Saved:
    """An interview found on the disk: its file, when it began, and the events that stand.

    `begun`, `when` and `unread` are as in `Kept`; `place` is the end of the job it is about,
    `finished` tells that it came to its close.
    """

    path: Path
    begun: str
    events: tuple[Event, ...]
    unread: int = 0
    when: float = 0.0
    place: Place = FIRST
    reference: str = ""
    finished: bool = False


class Journal:
    """Appends to the file of one job; made by `begin` or `go_on`."""

    def __init__(self, path: Path, file: int, lock: Lock | None) -> None:
        self.path, self._file, self._lock = path, file, lock

    @classmethod
    def begin(
        cls,
        path: Path,
        begun: str,
        entries: tuple[Entry, ...] = (),
        reference: str = "",
        *,
        later: bool = False,
    ) -> Self:
        """Make the file of a new job, with the steps it begins with.

        Args:
            path: Where; there must be nothing yet.
            begun: UTC, as "2025-03-01T08:30:00Z".
            entries: What is known already.
            reference: Of the job; without one it follows from the name of the file.
            later: Lock the file with the next step, since nothing is answered yet: what locks takes
                as long to import as a ranking takes.

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
        journal = cls(path, file, None if later else Lock(path))
        head = {"format": FORMAT, "begun": begun} | ({"reference": reference} if reference else {})
        try:
            journal._append(head, *(line_of(*entry) for entry in entries))
        except RecordError:
            journal.close()
            with suppress(OSError):
                path.unlink()  # nothing in it was ever called saved
            raise
        keep_name(path.parent)
        return journal

    @classmethod
    def go_on(cls, kept: Kept | Saved) -> Self:
        """Open the file of a job to write on.

        Raises:
            InUseError: Another window has it open.
            RecordError: It cannot be opened, or not be read to its end as it was when found.
        """
        lock = Lock(kept.path)
        try:
            now = read_job(kept.path)
            unread = max(kept.unread, now.unread if now else 0)
            if now is None or unread or not _same(kept, now):
                why = _why_not(unread, gone=now is None)
                raise RecordError(f"{kept.path.name} cannot be written on: {why}.")
            file = open_lines(kept.path, 0)
            drop_torn_line(file, kept.path)
        except OSError as error:
            lock.release()
            raise RecordError(f"{kept.path} cannot be opened ({reason(error)}).") from None
        except RecordError:
            lock.release()
            raise
        return cls(kept.path, file, lock)

    @property
    def unlocked(self) -> str:
        """Why the file could not be locked, empty if it is."""
        return self._lock.trouble if self._lock else ""

    def add(self, *steps: Step, place: Place = FIRST) -> None:
        """Keep steps of one end, in one write.

        Raises:
            RecordError: They cannot be written, or another window has opened the file since.
        """
        if self._lock is None:
            try:
                self._lock = Lock(self.path)
            except InUseError:
                raise RecordError(f"{self.path} is open in another window.") from None
        self._append(*(line_of(place, step) for step in steps))

    def close(self) -> None:
        """Let go of the file."""
        with suppress(OSError):
            os.close(self._file)
        if self._lock:
            self._lock.release()

    def _append(self, *records: dict[str, Any]) -> None:
        append_records(self._file, self.path, *records)


def read_job(path: Path) -> Kept | None:
    """Return what stands in a file; None if it is none of ours."""
    try:
        data, _ = read_regular(path)
    except OSError:
        return None
    first, *lines = data.split(b"\n")[:-1] or [b""]  # what no newline ends was torn
    header = record_in(first)
    when = moment(header.get("begun"))
    if header.get("format") not in FORMATS or when is None:
        return None
    entries: list[Entry] = []
    unread = 0
    for line in lines:
        try:
            entries.append(entry_of(record_in(line)))
        except RecordError:  # damaged, or of a later version: what stands round it still counts
            unread += 1
    job = job_of(_reference(header, path), str(header["begun"]), entries)
    begun = when.astimezone().strftime("%Y-%m-%dT%H:%M:%S")
    return Kept(path, begun, job, tuple(entries), unread, when.timestamp())


def interview_of(kept: Kept, place: Place) -> Saved:
    """Return the interview of one end of a job, finished or not."""
    end = kept.job.end(place)
    reference = kept.job.reference
    return Saved(
        kept.path, kept.begun, end.events, kept.unread, kept.when, place, reference, end.finished
    )


def interviews_of(kept: Kept) -> tuple[Saved, ...]:
    """Return the interviews of a job in which something was answered, finished or not."""
    return tuple(interview_of(kept, place) for place, end in kept.job.ends if end.answered)


def _same(kept: Kept | Saved, now: Kept) -> bool:
    """Tell whether what was found before still stands."""
    if isinstance(kept, Kept):
        return kept.entries == now.entries
    end = now.job.end(kept.place)
    return (end.events, end.finished) == (kept.events, kept.finished)


def _reference(header: dict[str, Any], path: Path) -> str:
    """Return the reference in the head of a file, else one that follows from its name."""
    try:
        return reference_said(str(header["reference"]))
    except (KeyError, ReadingError):
        return reference_of(zlib.crc32(path.stem.encode("utf-8", "replace")))


def moment(begun: object) -> datetime | None:
    """Return when an interview began; files of old say it in local time, without a zone."""
    from datetime import datetime  # a new interview has no need of it

    try:
        when = datetime.fromisoformat(begun) if isinstance(begun, str) else None
        return when.astimezone() if when else None
    except (ValueError, OverflowError, OSError):
        return None


def _why_not(unread: int, *, gone: bool) -> str:
    if gone:
        return "it is gone"
    if unread:
        lines = "1 line" if unread == 1 else f"{unread} lines"
        return f"{lines} in it cannot be read, by this version or with these tables"
    return "it was changed or finished meanwhile"
