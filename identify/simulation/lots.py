"""What simulated parts are drawn from."""

import random
from collections.abc import Collection
from itertools import accumulate

from identify.model.catalogue import Catalogue
from identify.model.rulebook import RuleBook
from identify.reasoning.hypotheses import row_weights
from identify.simulation.blueprint import blueprint_of
from identify.simulation.parts import Make, Part, make_part
from identify.simulation.strangers import strangers


class Lot:
    """What parts are drawn from: the tables by a prior, and strangers.

    Args:
        catalogue: The tables.
        book: Prevalence, tolerances, wear.
        even: Every row as common as any other.
        region: Multiply by the prevalence of this origin.
        families: Only these families, no strangers.

    `makes` weigh 1 together.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        book: RuleBook,
        *,
        even: bool = False,
        region: str = "",
        families: Collection[str] = (),
    ) -> None:
        self.catalogue, self.book = catalogue, book
        weights = [1.0] * len(catalogue.ends) if even else row_weights(catalogue, book.priors)
        more = book.priors.regions[region] if region else {}
        weights = [
            weight * more.get(end.family, 1.0) if not families or end.family in families else 0.0
            for end, weight in zip(catalogue.ends, weights, strict=True)
        ]
        strange = 0.0 if families else book.priors.none_of_these
        listed = self._listed([(1 - strange) * weight / sum(weights) for weight in weights])
        self.makes = listed + (strangers(catalogue, book, strange, listed) if strange else [])
        self._sums = list(accumulate(make.weight for make in self.makes))

    def draw(self, rng: random.Random) -> Part:
        """Return the next part."""
        make = rng.choices(self.makes, cum_weights=self._sums)[0]
        return make_part(rng, make, self.book)

    def _listed(self, weights: list[float]) -> list[Make]:
        return [
            Make(row, blueprint_of(end, seat, self.catalogue, self.book), weight * seat.share)
            for row, (end, weight) in enumerate(zip(self.catalogue.ends, weights, strict=True))
            for seat in end.seats
            if weight > 0
        ]
