"""What it would cost to be wrong: lookalikes of an answer, and when they keep a question open."""

from functools import lru_cache

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.rule import LookalikeNote
from identify.model.verdict import Danger, Hazard

WEIGHT = {Hazard.HIGH: 1.0, Hazard.MEDIUM: 0.25, Hazard.LOW: 0.0}
"""How much of a lookalike's probability counts as risk: the project's choice."""

Hazards = dict[str, dict[str, Hazard]]


class Risk:
    """Hazards of mistaking ends for each other, from the mating computation.

    Args:
        catalogue: The tables.
        notes: What geometry cannot know of named pairs.
        hazards: `hazards[truth][taken]` by id, as worked out when the tables were compiled.
    """

    def __init__(
        self, catalogue: Catalogue, notes: tuple[LookalikeNote, ...], hazards: Hazards
    ) -> None:
        self.catalogue, self.notes, self.hazards = catalogue, notes, hazards
        self.lookalikes = lru_cache(maxsize=512)(self._lookalikes)

    def hazard(self, truth: EndConnection, taken: EndConnection) -> Hazard:
        """Return the hazard of taking `truth` for `taken`."""
        return self.hazards.get(truth.id, {}).get(taken.id, Hazard.LOW)

    def weight(self, truth: EndConnection, taken: EndConnection) -> float:
        """Return the share of the probability of `truth` that counts as risk of saying `taken`."""
        return WEIGHT[self.hazard(truth, taken)]

    def danger(self, taken: EndConnection, truth: EndConnection, probability: float) -> Danger:
        """Return what there is to say of a lookalike that still stands beside an answer."""
        from identify.reasoning.differences import differences  # not needed for most verdicts

        told = differences(self.catalogue, taken, truth)
        tell = ""
        if told and told[0].resolved:
            first = told[0]
            tell = f"{first.feature}: {first.one} here, {first.other} there ({first.tool})"
        note = next((note for note in self.notes if note.joins(taken, truth)), None)
        return Danger(
            end=truth,
            probability=probability,
            hazard=self.hazard(truth, taken),
            tell=tell,
            goes_wrong=note.what_goes_wrong if note else "",
            source=note.source if note else "calculated from the tables",
        )

    def _lookalikes(self, end: EndConnection) -> tuple[Danger, ...]:
        """Return what is easily taken for an end though no reading has spoken of it yet."""
        from identify.reasoning.lookalikes import lookalikes_of

        pairs = {(end.id, other): hazard for other, hazard in self.hazards.get(end.id, {}).items()}
        found = lookalikes_of(self.catalogue, end, pairs)
        return tuple(
            self.danger(end, each.rival, 0.0) for each in found if each.hazard is not Hazard.LOW
        )
