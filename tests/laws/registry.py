"""The laws that tables must keep, so that pytest and the mutation of tables apply the same ones."""

from collections.abc import Callable, Iterator

from identify.model.catalogue import Catalogue

Law = Callable[[Catalogue], Iterator[str]]
LAWS: dict[str, Law] = {}


def law(function: Law) -> Law:
    """Register a law: it takes a catalogue and yields a complaint for each breach."""
    assert function.__name__ not in LAWS
    LAWS[function.__name__] = function
    return function
