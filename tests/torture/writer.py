"""A process that resumes the latest interview of a folder and answers until it is killed.

Every answer is told through a pipe once it was called saved; the process that kills reads them. It
is forked from the one that tries, so that a kill costs milliseconds and not a start.
"""

import itertools
import os
import resource
import signal
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.facts import Field, Noted
from identify.jobs.saving import SAVED, Autosave
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.reading import How, Length, Reading

FIRST = datetime(2026, 1, 1, tzinfo=UTC)
NOTED_EACH = 5  # answers, after which a fact of the job is written


@dataclass(frozen=True)
class Writer:
    """A running writer: its number, and the end of the pipe that it tells its answers through."""

    process: int
    told: int

    def heard(self, answers: int) -> list[str]:
        """Return lines once there are so many; fewer where it ended."""
        text = b""
        while text.count(b"\n") < answers and (more := os.read(self.told, 65536)):
            text += more
        return text.decode().splitlines()

    def killed(self) -> list[str]:
        """Kill it; return the lines that were not heard yet."""
        os.kill(self.process, signal.SIGKILL)
        os.waitpid(self.process, 0)
        text = b"".join(iter(lambda: os.read(self.told, 65536), b""))
        os.close(self.told)
        return text.decode().splitlines()


def started(folder: Path, second: int = 0, most: int | None = None) -> Writer:
    """Start a writer.

    Args:
        folder: Of all jobs.
        second: When: of two jobs begun in one second nobody can say which is the later one, and
            trials follow each other faster than people do.
        most: No file can grow beyond so many bytes, as on a disk that runs full: the write before
            the last may be torn.
    """
    told, tell = os.pipe()
    if process := os.fork():
        os.close(tell)
        return Writer(process, told)
    try:
        if most is not None:
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, resource.RLIM_INFINITY))
        for line in _saved(folder, FIRST + timedelta(seconds=second)):
            os.write(tell, f"{line}\n".encode())
    finally:
        os._exit(0)  # nothing of the process that was forked is run


def _saved(folder: Path, now: datetime) -> Iterator[str]:
    """Answer without end; yield each answer that was called saved, until one is not."""
    autosave = Autosave(folder, now=lambda: now)
    found = unfinished(folder)
    start = len(found[0].events) if found else 0
    if found and autosave.take_up(found[0]) != SAVED:
        return
    for number in itertools.count(start):
        mm = 10 + number % 100_000 / 1000
        reading = Reading(Feature.HEX, Length(mm), How.CALIPER, f"{mm:.3f} mm")
        if autosave.keep(Observed(reading)) != SAVED:
            return
        yield f"{number} {reading.entered}"
        if number % NOTED_EACH == 0 and autosave.keep(Noted(Field.BAG, str(number))) != SAVED:
            return
