"""Work on many at once: every step of all before the next step of any.

What a step needs, code and tables, then stays near the processor, which takes a fifth off a batch;
and what many wish to know at one step is worked out together.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Generator, Iterable, Sequence
    from typing import Any, TypeVar

    from identify.reasoning.openings import Wish

    T = TypeVar("T")
    Steps = Generator[Wish | None, Any, T]
    """Work that yields None after a step, or a wish, whose bits it is then sent."""
    Grant = Callable[[Sequence[Wish]], Sequence[float]]
    """Returns the bits of each of some wishes, such as `Chooser.gains`."""


def together(works: Iterable[Steps[T]], grant: Grant) -> list[T]:
    """Do several works step by step and return what comes of each, in their order.

    Who wishes for something waits until all others do, or have ended.
    """
    found: dict[int, T] = {}
    going: list[tuple[int, Steps[T], float | None]]
    going = [(place, work, None) for place, work in enumerate(works)]
    wishing: list[tuple[int, Steps[T]]] = []
    wishes: list[Wish] = []
    while going:
        left: list[tuple[int, Steps[T], float | None]] = []
        for place, work, bits in going:
            try:
                wish = work.send(bits)
            except StopIteration as done:
                found[place] = done.value
            else:
                if wish is None:
                    left.append((place, work, None))
                else:
                    wishing.append((place, work))
                    wishes.append(wish)
        going = left
        if wishes and not going:
            going = [(*each, bits) for each, bits in zip(wishing, grant(wishes), strict=True)]
            wishing, wishes = [], []
    return [found[place] for place in range(len(found))]


def alone(work: Steps[T], grant: Grant) -> T:
    """Do one work to its end and return what comes of it."""
    return together([work], grant)[0]
