"""Rows that are one answer though they look different: the same mates, the same part to order."""

from collections.abc import Sequence

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.verdict import Hazard
from identify.reasoning.apart import Twins
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.joint import Outcome
from identify.reasoning.threaded_joint import Fits

REMEMBERED = 500_000  # pairs of rows


class Interchange:
    """Answers whether either of two rows may stand for the other, worked out from the mating.

    They are forms of one family, size and gender, held in the same way, and every mate that the
    tables name for the one or the other seals with both. Which of the two it is then changes what
    is ordered in form only: a swivel with or without its O-ring. Symmetric, not transitive.
    """

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._fits: Fits = {}

    def same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one answer."""
        ids = self.catalogue.ids
        if ids[a].rpartition(":")[0] != ids[b].rpartition(":")[0]:  # family and size
            return False
        one, other = self.catalogue.ends[a], self.catalogue.ends[b]
        if one.gender != other.gender:
            return False
        if (one.mount, one.left_hand, one.refuse) != (other.mount, other.left_hand, other.refuse):
            return False
        mates = {*self.catalogue.mates_of(one), *self.catalogue.mates_of(other)}
        return bool(mates) and all(
            self._seals(each, mate) for mate in mates for each in (one, other)
        )

    def _seals(self, end: EndConnection, mate_: EndConnection) -> bool:
        from identify.reasoning.mating import mate  # an answer that is one row needs none of it

        met = mate(self.catalogue, end, mate_, self._fits)
        return met.outcome is Outcome.SEALS and met.hazard is Hazard.LOW


class OneAnswer:
    """Answers whether two rows are one answer: no telling them apart, or no need to.

    Args:
        space: The hypotheses.
        twins: Tells what no measurement tells apart.
        interchange: Tells what need not be told apart.
    """

    def __init__(self, space: Hypotheses, twins: Twins, interchange: Interchange) -> None:
        self.space, self._twins, self._interchange = space, twins, interchange
        kin: dict[tuple[str, str, float], set[int]] = {}
        for row, own in enumerate(space.kin):
            kin.setdefault(own, set()).add(row)
        self._kin = kin
        self._known: dict[int, tuple[set[int], set[int]]] = {}  # rows met, those that are one
        self._count = 0

    def same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one answer."""
        kin = self.space.kin
        return kin[a] == kin[b] and (self._twins.same(a, b) or self._interchange.same(a, b))

    def joined(self, head: int, rest: Sequence[int]) -> tuple[int, ...]:
        """Return the rows among others that are one answer with a row; it remembers them."""
        met, same = self._known.setdefault(head, (set(), set()))
        new = self._kin[self.space.kin[head]].intersection(rest) - met
        if new:
            self._count += len(new)
            if self._count > REMEMBERED:
                self._known, self._count = {}, 0
            met |= new
            same |= {row for row in new if self.same(head, row)}
        return tuple([row for row in rest if row in same]) if same else ()
