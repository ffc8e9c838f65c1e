"""A bar on standard error while a benchmark runs, where somebody looks at it."""

import sys
from collections.abc import Iterable, Iterator
from typing import TypeVar

from rich.console import Console
from rich.progress import Progress

T = TypeVar("T")


def shown(items: Iterable[T], total: int, what: str) -> Iterator[T]:
    """Yield items, with a bar where standard error is a terminal; it is gone at the end.

    It is drawn between two items and by no thread of its own, which would be measured as well.
    """
    with Progress(
        console=Console(stderr=True),
        transient=True,
        auto_refresh=False,
        disable=not sys.stderr.isatty(),
    ) as bar:
        yield from bar.track(items, total, description=what)
