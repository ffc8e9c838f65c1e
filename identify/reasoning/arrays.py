"""The posterior over arrays: the same sums as `posterior`, in the same order, by numpy.

Nothing is weighed here: the figures come from `scales`. Needs numpy, which the extra
`batch` brings; only a batch is long enough to pay for its import.
"""

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from identify.model.feature import Feature
from identify.reasoning.hypotheses import Hypotheses, Kinds
from identify.reasoning.posterior import (
    DIGITS,
    LEAST,
    Living,
    Posterior,
    in_order,
    said_in,
)
from identify.reasoning.scales import Weighed

Floats = Any  # one-dimensional arrays; types are checked without numpy too
Places = Any


class Arrays:
    """The hypotheses as arrays, and the posterior over them.

    Args:
        space: The hypotheses.
    """

    def __init__(self, space: Hypotheses) -> None:
        self.space = space
        self.prior: Floats = np.array(space.prior)
        self.row_of: Places = np.array(space.rows[: space.listed], dtype=np.intp)
        ids = sorted(range(len(space.ends)), key=space.catalogue.ids.__getitem__)
        self.alphabet: Places = np.empty(len(ids), dtype=np.intp)
        self.alphabet[ids] = np.arange(len(ids))
        self._of: dict[Feature, Places] = {}
        self._kinds: dict[int, tuple[Kinds, Places]] = {}

    def of(self, feature: Feature) -> Places:
        """Return the number of the trait that each hypothesis shows of a feature."""
        if feature not in self._of:
            self._of[feature] = np.array(self.space.spread(feature).of, dtype=np.intp)
        return self._of[feature]

    def of_kinds(self, kinds: Kinds) -> Places:
        """Return `kinds.of` as an array, made once."""
        if id(kinds) not in self._kinds:
            self._kinds[id(kinds)] = kinds, np.array(kinds.of, dtype=np.intp)
        return self._kinds[id(kinds)][1]

    def mean(self, space: Hypotheses, feature: Feature, likely: Sequence[float]) -> float:
        """Return the likelihood of a reading of an end drawn from the prior."""
        return summed(self.prior * np.array(likely)[self.of(feature)])

    def posterior(self, weighed: Iterable[Weighed]) -> Posterior:
        """Return the posterior over every row and "none of these"; see `posterior.posterior`."""
        weighed, product = tuple(weighed), self.prior
        for each in in_order(weighed):
            product = product * np.array(each.likely)[self.of(each.feature)]
        return ArrayPosterior(self, weighed, product / summed(product))


class ArrayPosterior(Posterior):
    """A posterior that sums by numpy; `of_weights` and `of_rows` are its figures as arrays."""

    __slots__ = ("arrays", "of_rows", "of_weights")
    arrays: Arrays
    of_weights: Floats
    of_rows: Floats

    def __init__(self, arrays: Arrays, weighed: tuple[Weighed, ...], weights: Floats) -> None:
        space = arrays.space
        rows: Any = np.bincount(arrays.row_of, weights[: space.listed], len(space.ends))
        found = np.flatnonzero(rows > LEAST)
        found = found[np.lexsort((arrays.alphabet[found], -np.round(rows[found], DIGITS)))]
        super().__init__(
            space,
            said_in(weighed),
            weights.tolist(),
            rows.tolist(),
            summed(weights[space.listed :]),
            list(zip(found.tolist(), rows[found].tolist(), strict=True)),
            weighed,
        )
        for name, value in (("arrays", arrays), ("of_weights", weights), ("of_rows", rows)):
            object.__setattr__(self, name, value)  # frozen, as every posterior

    def living(self, least: float, unlisted: float) -> Living:
        """Return hypotheses that weigh more than `least`, more than `unlisted` if in no table."""
        weights = self.of_weights
        few = weights > least
        few[self.space.listed :] &= weights[self.space.listed :] > unlisted
        found: Any = np.flatnonzero(few)
        return Living(found, weights[found].tolist())

    def mass(self, feature: Feature, living: Living) -> dict[int, float]:
        """Return the weight of each trait of a feature, by its number, over some hypotheses."""
        totals = np.bincount(self.arrays.of(feature)[living.numbers], living.weights)
        kinds = np.flatnonzero(totals)
        return dict(zip(kinds.tolist(), totals[kinds].tolist(), strict=True))

    def totals(self, kinds: Kinds) -> list[float]:
        """Return the probability of each kind of hypothesis or of row."""
        shares = self.of_rows if kinds.by_row else self.of_weights
        of = self.arrays.of_kinds(kinds)
        totals: list[float] = np.bincount(of, shares, len(kinds.names)).tolist()
        return totals

    def mistaken(self, each: Weighed, place: int) -> float:
        """Return the chance that a listed row is there and one of the readings is a mistake."""
        listed = self.space.listed
        wrong = np.array(each.wrong_at(place))[self.arrays.of(each.feature)[:listed]]
        return summed(self.of_weights[:listed] * wrong)


def summed(figures: Floats) -> float:
    """Return the sum, added in order as `sum` does, so that the last digit is the same."""
    return float(np.cumsum(figures)[-1])
