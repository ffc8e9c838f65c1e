"""Work on many at once: every step of all before the next step of any.

What a step needs, code and tables, then stays near the processor, which takes a fifth off a batch.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Generator, Iterable
    from typing import TypeVar

    T = TypeVar("T")
    Steps = Generator[None, None, T]
    """Work that yields after each step and returns what comes of it."""


def together(works: Iterable[Steps[T]]) -> list[T]:
    """Do several works step by step and return what comes of each, in their order."""
    found: dict[int, T] = {}
    going = list(enumerate(works))
    while going:
        left = []
        for each in going:
            try:
                next(each[1])
            except StopIteration as done:
                found[each[0]] = done.value
            else:
                left.append(each)
        going = left
    return [found[place] for place in range(len(found))]


def alone(work: Steps[T]) -> T:
    """Do one work to its end and return what comes of it."""
    return together([work])[0]
