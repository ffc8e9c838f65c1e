"""All the tables together, validated once and then trusted."""

from identify.frozen import TYPE_CHECKING, dataclass
from identify.light import Iterator, Mapping, Sequence, cached_property
from identify.model.connection import EndConnection, Family
from identify.model.source import Source
from identify.model.thread import Thread

if TYPE_CHECKING:
    from typing import Any


@dataclass(frozen=True)
class Catalogue:
    """Threads, end connections, families and sources, each keyed by its name.

    `ends` keeps table order.
    """

    threads: Mapping[str, Thread]
    ends: Sequence[EndConnection]
    families: Mapping[str, Family]
    sources: Mapping[str, Source]

    @cached_property
    def ids(self) -> tuple[str, ...]:
        """Of the end connections, in table order."""
        return column(self.ends, "id")

    @cached_property
    def kinds(self) -> Mapping[tuple[str, str | None, tuple[str, ...]], Sequence[int]]:
        """The rows by gender, thread and all threads that they are made with."""
        found: dict[tuple[str, str | None, tuple[str, ...]], list[int]] = {}
        names = zip(
            *(column(self.ends, each) for each in ("gender", "thread", "threads")),
            strict=True,
        )
        for row, key in enumerate(names):
            found.setdefault(key, []).append(row)
        return found

    @cached_property
    def pitches_mm(self) -> Mapping[str, float]:
        """Pitch of every thread, by its designation."""
        threads = self.threads
        return dict(zip(threads, column(threads, "pitch_mm"), strict=True))

    @cached_property
    def reaches_mm(self) -> Mapping[str, tuple[float, float, float, float] | None]:
        """How far every thread reaches, by its designation; see `Thread.reach_mm`."""
        threads = self.threads
        return dict(zip(threads, column(threads, "reach_mm"), strict=True))

    @cached_property
    def row_of(self) -> dict[str, int]:
        """The place of every end connection in table order, by its id."""
        return {name: row for row, name in enumerate(self.ids)}

    @cached_property
    def by_id(self) -> Mapping[str, EndConnection]:
        """End connections by id."""
        return _ById(self)

    def thread_of(self, end: EndConnection, variant: str = "") -> Thread | None:
        """Return the thread of an end (or of one of its variants), None for flanges and plugs."""
        name = variant or end.thread
        return self.threads[name] if name else None

    def mates_of(self, end: EndConnection) -> tuple[EndConnection, ...]:
        """Return the ends that this one is meant for, as far as the tables hold its size."""
        ids = (mate_id(mate, end) for mate in end.mates)
        return tuple(self.by_id[name] for name in ids if name in self.by_id)


def column(table: "Sequence[object] | Mapping[str, object]", name: str) -> "tuple[Any, ...]":
    """Return one field of all values; a table read from a cache knows some before it makes any."""
    columns: Mapping[str, tuple[Any, ...]] = getattr(table, "columns", {})
    if name in columns:
        return columns[name]
    values = table.values() if isinstance(table, Mapping) else table
    return tuple(getattr(each, name) for each in values)


class _ById(Mapping[str, EndConnection]):
    def __init__(self, catalogue: Catalogue) -> None:
        self._ends, self._rows = catalogue.ends, catalogue.row_of

    def __getitem__(self, name: str) -> EndConnection:
        return self._ends[self._rows[name]]

    def __contains__(self, name: object) -> bool:
        return name in self._rows

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


def slug(size: str) -> str:
    """Return a size as it stands in an id: "G1 1/4" becomes "G1-1/4"."""
    return "-".join(size.replace(",", " ").split())


def mate_id(mate: str, end: EndConnection) -> str:
    """Return the full id that an entry of `mates` ("family:form" or a full id) means for `end`."""
    return mate if mate.count(":") == 2 else mate.replace(":", f":{slug(end.size)}:")
