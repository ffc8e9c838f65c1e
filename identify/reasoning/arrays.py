"""The posterior over arrays: the same sums as `posterior`, in the same order, by numpy.

Nothing is weighed here: the figures come from `scales`. Needs numpy, which the extra
`batch` brings; only a batch is long enough to pay for its import.
"""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Any

import numpy as np

from identify.frozen import NamedTuple
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
KEPT = 512  # readings kept gathered, 30 kB each


class Gathered(NamedTuple):
    """Readings of one feature, and their likelihood by hypothesis."""

    weighed: Weighed
    likely: Floats


class Stacked:
    """The traits of several features in one row: their numbers begin where the last feature ends.

    Args:
        of: For each feature the number of the trait of each hypothesis.
    """

    def __init__(self, of: Sequence[Places]) -> None:
        sizes = [int(each.max()) + 1 for each in of]
        starts = np.cumsum([0, *sizes[:-1]])
        self.of: Places = np.array(of) + starts[:, None]
        self.number: Places = np.concatenate([np.arange(size) for size in sizes])
        self.starts: Places = np.append(starts, sum(sizes))


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
        self._stacks: dict[tuple[Feature, ...], Stacked] = {}
        self._masses: dict[Feature, Floats] = {}
        self._kinds: dict[int, tuple[Kinds, Places]] = {}
        self._gathered: dict[int, Gathered] = {}

    def of(self, feature: Feature) -> Places:
        """Return the number of the trait that each hypothesis shows of a feature."""
        if feature not in self._of:
            self._of[feature] = np.array(self.space.spread(feature).of, dtype=np.intp)
        return self._of[feature]

    def of_all(self, features: tuple[Feature, ...]) -> "Stacked":
        """Return the numbers of traits of several features, one after another, made once."""
        found = self._stacks.get(features)
        if found is None:
            found = self._stacks[features] = Stacked([self.of(each) for each in features])
        return found

    def of_kinds(self, kinds: Kinds) -> Places:
        """Return `kinds.of` as an array, made once."""
        if id(kinds) not in self._kinds:
            self._kinds[id(kinds)] = kinds, np.array(kinds.of, dtype=np.intp)
        return self._kinds[id(kinds)][1]

    def mean(self, space: Hypotheses, feature: Feature, likely: Sequence[float]) -> float:
        """Return the likelihood of a reading of an end drawn from the prior."""
        if feature not in self._masses:
            self._masses[feature] = np.bincount(self.of(feature), self.prior)
        return float(self._masses[feature] @ np.asarray(likely))

    def gathered(self, each: Weighed) -> Floats:
        """Return the likelihood of readings by hypothesis; kept for the words that come again."""
        found = self._gathered.get(id(each))
        if found is None:
            if len(self._gathered) >= KEPT:
                self._gathered.clear()
            likely = np.asarray(each.likely)[self.of(each.feature)]
            found = self._gathered[id(each)] = Gathered(each, likely)
        return found.likely

    def product(self, weighed: Iterable[Weighed]) -> Floats:
        """Return prior times likelihoods, by hypothesis."""
        product = self.prior
        for each in in_order(weighed):
            product = product * self.gathered(each)
        return product

    def rows(self, weights: Floats) -> Floats:
        """Return the sums of the weights of hypotheses by row."""
        rows: Floats = np.bincount(self.row_of, weights[: self.space.listed], len(self.space.ends))
        return rows

    def posterior(self, weighed: Iterable[Weighed]) -> Posterior:
        """Return the posterior over every row and "none of these"; see `posterior.posterior`."""
        weighed = tuple(weighed)
        product = self.product(weighed)
        return ArrayPosterior(self, weighed, product / summed(product))

    def likeliest(self, weighed: Iterable[Weighed]) -> int:
        """Return the most probable row; see `posterior.likeliest`."""
        return int(self.rows(self.product(weighed)).argmax())


class ArrayPosterior(Posterior):
    """A posterior that sums by numpy; `of_weights` and `of_rows` are its figures as arrays."""

    __slots__ = ("arrays", "of_rows", "of_weights")
    arrays: Arrays
    of_weights: Floats
    of_rows: Floats

    def __init__(self, arrays: Arrays, weighed: tuple[Weighed, ...], weights: Floats) -> None:
        space = arrays.space
        rows = arrays.rows(weights)
        found = np.flatnonzero(rows > LEAST)
        found = found[np.lexsort((arrays.alphabet[found], -np.round(rows[found], DIGITS)))]
        super().__init__(
            space,
            said_in(weighed),
            memoryview(weights),
            memoryview(rows),
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

    def masses(self, features: Sequence[Feature], living: Living) -> list[dict[int, float]]:
        """Return `mass` of each of several features, counted together."""
        if not features:
            return []
        stacked = self.arrays.of_all(tuple(features))
        places = stacked.of[:, living.numbers].ravel()
        totals = np.bincount(places, np.tile(living.weights, len(features)))
        kinds = np.flatnonzero(totals)
        numbers, shares = stacked.number[kinds].tolist(), totals[kinds].tolist()
        cuts: Any = np.searchsorted(kinds, stacked.starts).tolist()
        return [dict(zip(numbers[a:b], shares[a:b], strict=True)) for a, b in pairwise(cuts)]

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
