"""Rows that are one answer though they look different: the same mates, the same part to order."""

from identify.light import cached_property
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.verdict import Hazard
from identify.reasoning.apart import Twins
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.joint import Outcome
from identify.reasoning.naming import Group
from identify.reasoning.posterior import Posterior, order
from identify.reasoning.threaded_joint import Fits

REMEMBERED = 500_000  # pairs of rows
GATHERED = 8  # answers put together at least: one that starts behind may come first by its twins
EQUAL = (Feature.TAPER, Feature.FLANK_ANGLE, Feature.SEAT_SHAPE, Feature.O_RING)
"""Features that twins show alike, beside the pitch; see `Twins`."""


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
        self._known: dict[int, tuple[set[int], set[int]]] = {}  # not yet looked at, those that are
        self._count = 0

    @cached_property
    def _looks(self) -> dict[tuple[int, ...], set[int]]:
        """Rows by what must be equal of twins, `EQUAL`, and by the pitch: numbers of traits."""
        found: dict[tuple[int, ...], set[int]] = {}
        for look, row in zip(self._columns, self.space.rows[: self.space.listed], strict=False):
            found.setdefault(look, set()).add(row)
        return found

    @cached_property
    def _columns(self) -> list[tuple[int, ...]]:
        spreads = [self.space.spread(feature).of for feature in (Feature.PITCH, *EQUAL)]
        return list(zip(*(of[: self.space.listed] for of in spreads), strict=True))

    def _near(self, head: int) -> set[int]:
        """Return the other rows that `same` may hold of: the rest differs at a glance."""
        space, found = self.space, set[int]()
        pitches = space.spread(Feature.PITCH).traits
        for way in space.ways[head]:
            own, *rest = self._columns[way]
            for number, pitch in enumerate(pitches):
                if self._twins.pitch_alike(pitches[own], pitch):
                    found |= self._looks.get((number, *rest), set())
        size = space.sizes.of
        found.update(self._sizes[size[head]])
        found.discard(head)
        return found

    @cached_property
    def _sizes(self) -> list[list[int]]:
        found: list[list[int]] = [[] for _ in self.space.sizes.names]
        for row, size in enumerate(self.space.sizes.of):
            found[size].append(row)
        return found

    def same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one answer."""
        kin, size = self.space.kin, self.space.sizes.of
        return kin[a] == kin[b] and (
            self._twins.same(a, b) or (size[a] == size[b] and self._interchange.same(a, b))
        )

    def joined(self, head: int, others: set[int]) -> set[int]:
        """Return the rows among others that are one answer with a row; it remembers them."""
        known = self._known.get(head)
        if known is None:
            near = self._near(head)
            self._count += len(near)
            if self._count > REMEMBERED:
                self._known, self._count = {}, len(near)
            known = self._known[head] = near, set()
        unknown, same = known
        new = unknown & others
        if new:
            unknown -= new
            for row in new:
                one = self.same(head, row)
                if one:
                    same.add(row)
                if row in self._known:  # it is the same the other way round
                    self._known[row][0].discard(head)
                    if one:
                        self._known[row][1].add(head)
        return same & others

    def groups(self, state: Posterior, limit: int) -> list[Group]:
        """Return leading answers: best row, probability of the answer, the other rows of it.

        Rows that no measurement can tell apart stand under the most probable of them, and so do
        forms of one size that take the same mates.

        Args:
            state: What is known.
            limit: How many to return at most.
        """
        ids, rows = self.space.catalogue.ids, state.rows
        # A few spare rows, because twins join groups that rank above them.
        falling = [row for row, _ in state.standing[: limit * 6 + 40]]
        left, out, alone = set(falling), list[Group](), True
        for head in falling:
            if head not in left:
                continue
            if len(out) == max(limit, GATHERED):
                break
            left.discard(head)
            same = self.joined(head, left)
            if same:
                left -= same
                joined, alone = tuple([row for row in falling if row in same]), False
                out.append((head, rows[head] + sum([rows[row] for row in joined]), joined))
            else:
                out.append((head, rows[head], ()))
        if not alone:
            out.sort(key=lambda group: order(group[1], ids[group[0]]))
        return out[:limit]
