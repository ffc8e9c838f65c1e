"""A batch shared out to several processes, each with an engine of its own; answers keep order."""

import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from itertools import islice
from typing import Any

from identify.commands.batch import tidied_seldom
from identify.commands.desk import TOGETHER, Answer
from identify.errors import OutputError

AHEAD = 3  # such shares a process that are read before the first is written
_desk: list[Any] = []
"""The desk of this process, once it has one."""


def shared_out(
    samples: Iterable[tuple[int, Any]], processes: int, make: Callable[[], Any]
) -> Iterator[Answer]:
    """Yield one answer a sample, in order, worked out by several processes.

    No more samples are read than are in work, so a batch of any length holds little memory.

    Args:
        samples: Each with its number.
        processes: How many.
        make: Makes the desk of a process.

    Raises:
        OutputError: A process was ended from outside.
    """
    waiting: deque[Future[list[Answer]]] = deque()
    rest = iter(samples)
    pool = ProcessPoolExecutor(processes, initializer=_open, initargs=(make,))
    try:
        while share := list(islice(rest, TOGETHER)):
            waiting.append(pool.submit(_answer, share))
            if len(waiting) >= AHEAD * processes:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    except BrokenProcessPool:
        raise OutputError("a process of --jobs was ended before its work was done.") from None
    finally:
        pool.shutdown(cancel_futures=True)


def _open(make: Callable[[], Any]) -> None:
    """Make the desk of this process; an interrupt is for the process that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _desk.append(make())


def _answer(share: list[tuple[int, Any]]) -> list[Answer]:
    with tidied_seldom():
        found: list[Answer] = _desk[0].written(share)
    return found
