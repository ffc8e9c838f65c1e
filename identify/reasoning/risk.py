"""What it would cost to be wrong: lookalikes of an answer, and when they keep a question open."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import Collection, lru_cache
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.rule import LookalikeNote
from identify.model.rulebook import RuleBook
from identify.model.verdict import Danger, Hazard
from identify.reasoning.hazards import Hazards

if TYPE_CHECKING:
    from identify.reasoning.apart import Nears


class Risk:
    """Hazards of mistaking ends for each other, from the mating computation.

    Args:
        catalogue: The tables.
        book: Experience with named pairs, what instruments resolve, how hazards count.
        hazards: Of taking one end for another.
    """

    def __init__(self, catalogue: Catalogue, book: RuleBook, hazards: Hazards) -> None:
        self.catalogue, self.book, self.hazards = catalogue, book, hazards
        medium = book.limits.medium_risk
        self._weight = {Hazard.HIGH: 1.0, Hazard.MEDIUM: medium, Hazard.LOW: 0.0}
        self._nears: Nears | None = None
        self._known_lookalikes = lru_cache(maxsize=4096)(self._lookalikes)
        self.noted = lru_cache(maxsize=16384)(self._noted)
        self.tells = lru_cache(maxsize=16384)(self._tells)

    def lookalikes(self, end: EndConnection) -> tuple[Danger, ...]:
        """Return what is easily taken for an end, worked out once; see `danger`."""
        return self._known_lookalikes(end.id)

    def hazard(self, truth: EndConnection, taken: EndConnection) -> Hazard:
        """Return the hazard of taking `truth` for `taken`."""
        return self.hazards.of(truth, taken)

    def weight(self, truth: EndConnection, taken: EndConnection) -> float:
        """Return the share of the probability of `truth` that counts as risk of saying `taken`."""
        return self._weight[self.hazard(truth, taken)]

    def pair(self, one: EndConnection, other: EndConnection) -> Hazard:
        """Return the hazard of mixing up two ends: of the two ways round the worse."""
        ways = self.hazard(one, other), self.hazard(other, one)
        return max(ways, key=lambda hazard: hazard.rank)

    def _tells(self, taken: str, truth: str) -> tuple[tuple[Feature, str], ...]:
        """Return every observation that separates two ends, by id, the best to look at first."""
        from identify.reasoning.differences import differences  # not needed for most verdicts

        ends = self.catalogue.by_id
        found = differences(self.catalogue, ends[taken], ends[truth], self.book.observation)
        return tuple(
            (
                each.feature,
                f"{FEATURES[each.feature].words}: {each.other}, not {each.one} "
                f"({'by eye' if each.tool == 'eye' else each.tool})",
            )
            for each in found
            if each.resolved
        )

    def _noted(self, taken: str, truth: str) -> LookalikeNote | None:
        """Return what is written down of two ends, by id."""
        ends = self.catalogue.by_id
        return next(self.book.notes_on(ends[taken], ends[truth]), None)

    def danger(
        self,
        taken: EndConnection,
        truth: EndConnection,
        probability: float,
        read: Collection[Feature] = (),
        hazards: Collection[Hazard] = (),
    ) -> Danger:
        """Return what there is to say of an end that still stands beside an answer.

        Args:
            taken: The leading end.
            truth: The lookalike.
            probability: What the readings leave it.
            read: Features already read; another one that tells the two apart is named first.
            hazards: Of which the worst is told; none for that of the pair.
        """
        told = self.tells(taken.id, truth.id)
        new = [words for feature, words in told if feature not in read]
        known = [words for feature, words in told if feature in read]
        note = self.noted(taken.id, truth.id)
        return Danger(
            end=truth,
            probability=probability,
            hazard=max(hazards or (self.pair(truth, taken),), key=lambda hazard: hazard.rank),
            tells=(*new, *known),
            goes_wrong=note.what_goes_wrong if note else "",
            source=note.source if note else "calculated from the tables",
            again=bool(known) and not new,
            tell_apart=note.tell_apart if note else "",
        )

    def _lookalikes(self, taken: str) -> tuple[Danger, ...]:
        """Return what is easily taken for an end though no reading has spoken of it yet."""
        from identify.reasoning.apart import nears_of, rivals_of  # not needed for an abstention

        end = self.catalogue.by_id[taken]
        self._nears = self._nears or nears_of(self.book.observation)
        found = [
            rival
            for rival, _ in rivals_of(self.catalogue, end, self._nears)
            if self.hazard(rival, end) is not Hazard.LOW
        ]
        found.sort(key=lambda rival: (-self.pair(rival, end).rank, bool(rival.refuse), rival.id))
        return tuple(self.danger(end, rival, 0.0) for rival in found)
