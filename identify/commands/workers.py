"""A batch shared out to several processes, each with an engine of its own; answers keep order."""

import argparse
import signal
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from itertools import islice

from identify.commands.batch import Desk, Line, desk_of
from identify.errors import OutputError

AT_ONCE = 50  # lines that a process is given at a time
AHEAD = 3  # such shares a process that are read before the first is written
_desk: list[Desk] = []
"""The desk of this process, once it has one."""


def shared_out(lines: Iterable[Line], args: argparse.Namespace) -> Iterator[str]:
    """Yield one answer a line, in order, worked out by `args.jobs` processes.

    No more lines are read than are in work, so a batch of any length holds little memory.

    Raises:
        OutputError: A process was ended from outside.
    """
    waiting: deque[Future[list[str]]] = deque()
    rest = iter(lines)
    pool = ProcessPoolExecutor(args.jobs, initializer=_open, initargs=(args,))
    try:
        while share := list(islice(rest, AT_ONCE)):
            waiting.append(pool.submit(_answer, share))
            if len(waiting) >= AHEAD * args.jobs:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    except BrokenProcessPool:
        raise OutputError("a process of --jobs was ended before its work was done.") from None
    finally:
        pool.shutdown(cancel_futures=True)


def _open(args: argparse.Namespace) -> None:
    """Make the desk of this process; an interrupt is for the process that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _desk.append(desk_of(args))


def _answer(share: list[Line]) -> list[str]:
    return [_desk[0].written(number, line) for number, line in share]
