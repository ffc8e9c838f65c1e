"""How far a batch has come, on standard error, where somebody looks at it."""

import sys
import time
from collections.abc import Iterator

EVERY_S = 0.5  # between two counts


def counted(answers: Iterator[str]) -> Iterator[str]:
    """Yield answers; where standard error is a terminal, say how many there were and how fast.

    Where the answers go to that terminal themselves, they show it well enough.
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
            _say(number, now - start, "\r")
    if number and due > start:
        _say(number, time.monotonic() - start, "\n")


def _say(number: int, seconds: float, end: str) -> None:
    text = f"{number} samples, {number / seconds:.0f} a second"
    print(f"\r{text:<40}", end="" if end == "\r" else end, file=sys.stderr, flush=True)
