"""All the tables together, validated once and then trusted."""

from dataclasses import dataclass
from functools import cached_property

from identify.errors import UnknownEndError, near_misses
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

    def find(self, words: str) -> EndConnection:
        """Return the one end that `words` names: its id, or words that only it answers to.

        Raises:
            UnknownEndError: None or several answer; the message lists the nearest.
        """
        if words.strip() in self.by_id:
            return self.by_id[words.strip()]
        wanted = words.lower().replace(":", " ").replace(",", " ").split()
        found = [end for end in self.ends if wanted and _answers(end, wanted)]
        if len(found) == 1:
            return found[0]
        raise UnknownEndError(_not_one(words, found, self.ends))


def slug(size: str) -> str:
    """Return a size as it stands in an id: "G1 1/4" becomes "G1-1/4"."""
    return "-".join(size.replace(",", " ").split())


def mate_id(mate: str, end: EndConnection) -> str:
    """Return the full id that an entry of `mates` ("family:form" or a full id) means for `end`."""
    return mate if mate.count(":") == 2 else mate.replace(":", f":{slug(end.size)}:")


def _answers(end: EndConnection, wanted: list[str]) -> bool:
    """Tell whether every word names this end; words left over must be its whole size.

    Part of a size is no name of it: "1/2" is not "1 1/2".
    """
    names = {end.family.lower(), end.gender, end.form_key, *end.form_key.split("-")}
    size = "".join(word for word in wanted if word not in names).replace("-", "")
    own = slug(end.size).lower().replace("-", "")
    return not size or size in (own, own.lstrip("abcdefghijklmnopqrstuvwxyz"))


def _not_one(words: str, found: list[EndConnection], ends: tuple[EndConnection, ...]) -> str:
    if found:
        names = ", ".join(end.id for end in found[:6])
        more = f" and {len(found) - 6} more" if len(found) > 6 else ""
        return f'"{words}" names {len(found)} ends: {names}{more}. Add a word to say which.'
    near = near_misses(words.lower(), (end.id for end in ends), 3, 0.45)
    hint = f" Nearest: {', '.join(near)}." if near else ""
    return f'"{words[:60]}" names no end connection.{hint} "whichend tables" lists them.'
