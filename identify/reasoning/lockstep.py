"""Work on many at once: every step of all before the next step of any.

What a step needs, code and tables, then stays near the processor, which takes a fifth off a batch;
and what many wish to know at one step is worked out together.
"""

from __future__ import annotations

from itertools import islice

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterable, Sequence
    from typing import TypeVar

    from identify.reasoning.openings import Wish

    T = TypeVar("T")
    Wishes = Sequence[Wish]
    Steps = Generator[Sequence[Wishes] | None, Sequence[Iterable[float]], T]
    """Work that yields None after a step, or wishes, of each of which it is then sent the bits."""
    Grant = Callable[[Sequence[Wishes]], Sequence[Iterable[float]]]
    """Returns the bits of some wishes, such as `Chooser.gains`."""


def together(works: Iterable[Steps[T]], grant: Grant) -> list[T]:
    """Do several works step by step and return what comes of each, in their order.

    Who wishes for something waits until all others do, or have ended.
    """
    found: dict[int, T] = {}
    going = list(enumerate(works))
    told: dict[int, Sequence[Iterable[float]]] = {}
    wishing: list[tuple[int, Steps[T]]] = []
    wishes: list[Sequence[Wishes]] = []
    while going:
        left = []
        for each in going:
            place, work = each
            try:
                wish = work.send(told[place]) if place in told else next(work)
            except StopIteration as done:
                found[place] = done.value
            else:
                if wish is None:
                    left.append(each)
                else:
                    wishing.append(each)
                    wishes.append(wish)
        going, told = left, {}
        if wishes and not going:
            bits = iter(grant([each for several in wishes for each in several]))
            for (place, _), several in zip(wishing, wishes, strict=True):
                told[place] = list(islice(bits, len(several)))
            going, wishing, wishes = wishing, [], []
    return [found[place] for place in range(len(found))]


def alone(work: Steps[T], grant: Grant) -> T:
    """Do one work to its end and return what comes of it."""
    return together([work], grant)[0]
