"""What is open, by numpy: the sums of `answers.Doubts`, of all features at once."""

import math
from collections.abc import Callable
from functools import cached_property
from typing import Any

import numpy as np

from identify.model.feature import FEATURES, Feature, Kind
from identify.reasoning.answers import STRANGE, TRIFLE, Doubts, least_of

Floats = Any  # one-dimensional arrays; types are checked without numpy too
Places = Any
Masses = tuple[list[int], list[float], list[int]]
"""Numbers of traits and their probability, feature after feature, and where each begins."""


class Stacked:
    """The traits of all features in one row: their numbers begin where the last feature ends.

    Args:
        of: For each feature the number of the trait of each hypothesis.
        listed: How many hypotheses stand for rows of the tables.
    """

    def __init__(self, of: Callable[[Feature], Places], listed: int) -> None:
        self.listed = listed
        self.place = {feature: place for place, feature in enumerate(Feature)}
        numbers = [of(feature) for feature in self.place]
        sizes = [int(each.max()) + 1 for each in numbers]
        starts = np.cumsum([0, *sizes[:-1]])
        self.of: Places = np.ascontiguousarray((np.array(numbers) + starts[:, None]).T)
        self.number: Places = np.concatenate([np.arange(size) for size in sizes])
        self.starts: Places = np.append(starts, sum(sizes))


class ArrayDoubts(Doubts):
    """See `Doubts`; its masses leave out what is too improbable to count.

    Not so of a trial fit: the part to try it on may be that of an improbable thread.

    Args:
        stacked: The traits of all hypotheses.
        weights: Their probability.
    """

    def __init__(self, stacked: Stacked, weights: Floats) -> None:
        least = least_of(len(weights))
        few = weights > least
        few[stacked.listed :] &= weights[stacked.listed :] > STRANGE * least
        living = few.nonzero()[0]
        weights = weights[living]
        total = float(weights.sum())
        nats = total * math.log2(total)
        self.whole = nats - float(weights @ np.log2(weights))
        self._stacked = stacked
        places = stacked.of[living].ravel()
        totals = np.bincount(places, weights.repeat(len(stacked.place)))
        self._kinds: Places = totals.nonzero()[0]
        self._shares: Floats = totals[self._kinds]
        starts: Places = np.searchsorted(self._kinds, stacked.starts)
        self._starts = starts
        sharp = np.add.reduceat(self._shares * np.log2(self._shares), starts[:-1])
        self._bits: list[float] = (nats - sharp).tolist()

    def bits(self, feature: Feature) -> float:
        """Return the entropy over the traits of a feature: what no answer tells more than."""
        return self._bits[self._stacked.place[feature]]

    def mass(self, feature: Feature) -> dict[int, float]:
        """Return the probability of each trait of a feature that counts, by its number."""
        numbers, shares, cuts = self._all if FEATURES[feature].kind is Kind.TRIAL else self._likely
        place = self._stacked.place[feature]
        own = slice(cuts[place], cuts[place + 1])
        return dict(zip(numbers[own], shares[own], strict=True))

    @cached_property
    def _likely(self) -> Masses:
        counts = (self._shares > TRIFLE).nonzero()[0]
        cuts = counts.searchsorted(self._starts).tolist()
        kinds, shares = self._kinds[counts], self._shares[counts]
        return self._stacked.number[kinds].tolist(), shares.tolist(), cuts

    @cached_property
    def _all(self) -> Masses:
        numbers = self._stacked.number[self._kinds].tolist()
        return numbers, self._shares.tolist(), self._starts.tolist()
