"""How far a batch has come, on standard error, where somebody looks at it."""

import os
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from stat import S_ISREG
from typing import IO, TypeVar

from identify.commands.output import Edge
from identify.errors import OutputError
from identify.files import reason

EVERY_S = 0.5  # between two counts
BAR = 20  # characters
_T = TypeVar("_T")


class Passed:
    """The lines of a batch, and how much of it they were.

    Args:
        lines: A file or stream.
    """

    def __init__(self, lines: IO[bytes]) -> None:
        self._lines, self._read, self._size = lines, 0, _size(lines)

    def __iter__(self) -> Iterator[bytes]:
        """Yield the lines.

        Raises:
            OutputError: They cannot be read to the end.
        """
        try:
            for line in self._lines:
                self._read += len(line)
                yield line
        except OSError as error:
            raise OutputError(f"the batch cannot be read ({reason(error)}).") from None

    def share(self) -> float | None:
        """Return how much of it was read [0..1], None where nobody knows its length."""
        return min(self._read / self._size, 1.0) if self._size else None


def counted(answers: Iterable[_T], share: Callable[[], float | None]) -> Iterator[_T]:
    """Yield answers; where standard error is a terminal, say how many there were and how fast.

    Where the answers go to that terminal themselves, they show it well enough.

    Args:
        answers: Of a batch, in order.
        share: How much of it was read [0..1]; None draws no bar.
    """
    if not sys.stderr.isatty() or sys.stdout.isatty():
        yield from answers
        return
    start = due = time.monotonic()
    number = 0
    for number, answer in enumerate(answers, 1):
        yield answer
        if (now := time.monotonic()) >= due + EVERY_S:
            due = now
            _say(progress_words(number, now - start, share()))
    if number and due > start:
        _say(progress_words(number, time.monotonic() - start, share()), "\n")


def progress_words(number: int, seconds: float, share: float | None) -> str:
    """Return how far a batch has come: a bar where its length is known, a count, the pace."""
    count = f"{number} samples, {number / seconds:.0f} a second"
    if share is None:
        return count
    full = int(share * BAR)
    return f"[{'#' * full}{'.' * (BAR - full)}] {int(share * 100)} %, {count}"


def _say(text: str, end: str = "") -> None:
    if isinstance(sys.stderr, Edge):  # as it always is but in a test
        sys.stderr.over(f"{text:<70}", end)
        sys.stderr.flush()


def _size(lines: IO[bytes]) -> int:
    """Return how long a file is [bytes], 0 of what is no file."""
    try:
        found = os.fstat(lines.fileno())
    except (OSError, AttributeError, ValueError):
        return 0
    return found.st_size if S_ISREG(found.st_mode) else 0
