"""What is known level by level: the thread may be certain where the family is open."""

from collections.abc import Iterable, Sequence

from identify.model.verdict import Certain, Level
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.posterior import Kinds, Posterior

STANDS_OUT = 0.5  # of the probability that no row fits, what other sizes of families must have
_OTHER = ""  # name of what belongs to no kind: its place is 0


class Levels:
    """Which hypotheses and rows have the same thread, family or size, worked out once."""

    def __init__(self, space: Hypotheses) -> None:
        self.ids = space.catalogue.ids
        self.kinds = {
            Level.THREAD: _kinds(space.threads),
            Level.FAMILY: _kinds(space.families, by_row=True),
            Level.SIZE: _kinds((name.rpartition(":")[0] for name in self.ids), by_row=True),
        }
        self.unlisted = _kinds(space.other_sizes)

    def certain(self, state: Posterior) -> tuple[Certain, ...]:
        """Return the most probable thread, family, size and form, each with its probability.

        A thread may be that of an end in no table. A size is one of a family; its value is written
        "family:size", that of a form is the id of a row. Levels of which nothing is known are left
        out.
        """
        found = [
            _most(level, kinds.names, state.totals(kinds)) for level, kinds in self.kinds.items()
        ]
        return tuple(filter(None, (*found, _most(Level.FORM, self.ids, state.rows))))

    def unlisted_size(self, state: Posterior) -> str:
        """Return the family an end in no table most likely is, in another size; empty if none.

        Families with the same seat look alike in a size that nobody lists: the commonest is named.
        """
        totals = state.totals(self.unlisted)[1:]
        if sum(totals) <= STANDS_OUT * state.none_of_these:
            return ""
        return self.unlisted.names[1 + totals.index(max(totals))]


def _kinds(names: Iterable[str], *, by_row: bool = False) -> Kinds:
    places: dict[str, int] = {} if by_row else {_OTHER: 0}
    of = [places.setdefault(name, len(places)) for name in names]
    return Kinds(tuple(places), tuple(of), by_row)


def _most(level: Level, names: Sequence[str], totals: Sequence[float]) -> Certain | None:
    """Return the name with the greatest share; of several the first in the alphabet."""
    first = int(names[:1] == (_OTHER,))
    shares = totals[first:]
    if not shares:
        return None
    most = max(shares)
    if shares.count(most) == 1:
        return Certain(level, names[first + shares.index(most)], most)
    pairs = zip(names[first:], shares, strict=True)
    return Certain(level, min(name for name, share in pairs if share == most), most)
