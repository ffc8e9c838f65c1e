"""Every law, in the order in which a mutated table meets them: the quickest first."""

from collections.abc import Iterator

from identify.model.catalogue import Catalogue
from tests.laws import rows, second_sources, sizes, standards, threads
from tests.laws.registry import LAWS

ROOMS = {  # what kind of check a law is, for reports
    second_sources.__name__: "second source",
    rows.__name__: "law",
    sizes.__name__: "law",
    standards.__name__: "law",
    threads.__name__: "law",
}


def complaints(tables: Catalogue) -> Iterator[tuple[str, str]]:
    """Yield the name of each law that is broken with what it complains of."""
    for name, law in LAWS.items():
        yield from ((name, complaint) for complaint in law(tables))
