"""Rows that are one answer though they look different: the same mates, the same part to order."""

from functools import lru_cache

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.verdict import Hazard
from identify.reasoning.joint import Outcome
from identify.reasoning.threaded_joint import Fits


class Interchange:
    """Answers whether either of two rows may stand for the other, worked out from the mating.

    They are forms of one family, size and gender, held in the same way, and every mate that the
    tables name for the one or the other seals with both. Which of the two it is then changes what
    is ordered in form only: a swivel with or without its O-ring. Symmetric, not transitive.
    """

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._fits: Fits = {}
        self.same = lru_cache(maxsize=100_000)(self._same)

    def _same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one answer."""
        one, other = self.catalogue.ends[a], self.catalogue.ends[b]
        if (one.family, one.size, one.gender) != (other.family, other.size, other.gender):
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
