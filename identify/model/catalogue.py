"""All the tables together, validated once and then trusted."""

from functools import cached_property

from identify.frozen import dataclass
from identify.model.connection import EndConnection, Family
from identify.model.source import Source
from identify.model.thread import Thread


@dataclass(frozen=True)
class Catalogue:
    """Threads, end connections, families and sources, each keyed by its name.

    `ends` keeps table order.
    """

    threads: dict[str, Thread]
    ends: tuple[EndConnection, ...]
    families: dict[str, Family]
    sources: dict[str, Source]

    @cached_property
    def by_id(self) -> dict[str, EndConnection]:
        """End connections by id."""
        return {end.id: end for end in self.ends}

    def thread_of(self, end: EndConnection, variant: str = "") -> Thread | None:
        """Return the thread of an end (or of one of its variants), None for flanges and plugs."""
        name = variant or end.thread
        return self.threads[name] if name else None

    def mates_of(self, end: EndConnection) -> tuple[EndConnection, ...]:
        """Return the ends that this one is meant for, as far as the tables hold its size."""
        ids = (mate_id(mate, end) for mate in end.mates)
        return tuple(self.by_id[name] for name in ids if name in self.by_id)


def slug(size: str) -> str:
    """Return a size as it stands in an id: "G1 1/4" becomes "G1-1/4"."""
    return "-".join(size.replace(",", " ").split())


def mate_id(mate: str, end: EndConnection) -> str:
    """Return the full id that an entry of `mates` ("family:form" or a full id) means for `end`."""
    return mate if mate.count(":") == 2 else mate.replace(":", f":{slug(end.size)}:")
