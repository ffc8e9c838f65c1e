"""The posterior over arrays: the same sums as `posterior`, by numpy, of many samples at once.

Nothing is weighed here: the figures come from `scales`. Needs numpy, which the extra
`batch` brings; only a batch is long enough to pay for its import.
"""

from collections.abc import Iterator, Sequence
from functools import cached_property
from itertools import pairwise
from typing import Any

import numpy as np

from identify.frozen import NamedTuple
from identify.model.feature import FEATURES, Feature, Kind
from identify.reasoning.answers import Doubts
from identify.reasoning.doubt_arrays import ArrayDoubts, Stacked
from identify.reasoning.hypotheses import Hypotheses, Kinds
from identify.reasoning.posterior import (
    DIGITS,
    EQUAL,
    LEAST,
    ROUNDING,
    Posterior,
    in_order,
    said_in,
)
from identify.reasoning.scales import Weighed

Floats = Any  # one-dimensional arrays; types are checked without numpy too
Places = Any
KEPT = 512  # readings kept gathered, 12 kB each
_ONE = 10**DIGITS


class Gathered(NamedTuple):
    """Readings of one feature, and their likelihood by hypothesis."""

    weighed: Weighed
    likely: Floats


class Arrays:
    """The hypotheses as arrays, and the posterior over them.

    Args:
        space: The hypotheses.
    """

    def __init__(self, space: Hypotheses) -> None:
        self.space = space
        self.prior: Floats = np.array(space.prior)
        further = space.rows[len(space.ends) : space.listed]
        self._further: Places = (..., np.array(further, dtype=np.intp))  # of ways after the first
        ids = sorted(range(len(space.ends)), key=space.catalogue.ids.__getitem__)
        self.alphabet: Places = np.empty(len(ids), dtype=np.intp)
        self.alphabet[ids] = np.arange(len(ids))
        self._of: dict[Feature, Places] = {}
        self._masses: dict[Feature, Floats] = {}
        self._kinds: dict[int, tuple[Kinds, Places]] = {}
        self._gathered: dict[int, Gathered] = {}

    def of(self, feature: Feature) -> Places:
        """Return the number of the trait that each hypothesis shows of a feature."""
        if feature not in self._of:
            self._of[feature] = np.array(tuple(self.space.spread(feature).of), dtype=np.intp)
        return self._of[feature]

    @cached_property
    def stacked(self) -> Stacked:
        """The traits of all features."""
        return Stacked(self.of, self.space.listed)

    def of_kinds(self, kinds: Kinds) -> Places:
        """Return `kinds.of` as an array, made once."""
        if id(kinds) not in self._kinds:
            self._kinds[id(kinds)] = kinds, np.array(tuple(kinds.of), dtype=np.intp)
        return self._kinds[id(kinds)][1]

    def means(
        self, space: Hypotheses, feature: Feature, several: Sequence[Sequence[float]]
    ) -> list[float]:
        """Return the likelihood of each of several readings of an end drawn from the prior."""
        if feature not in self._masses:
            self._masses[feature] = np.bincount(self.of(feature), self.prior)
        found: list[float] = (np.array(several) @ self._masses[feature]).tolist()
        return found

    def gathered(self, each: Weighed) -> Floats:
        """Return the likelihood of readings by hypothesis; kept for the words that come again."""
        found = self._gathered.get(id(each))
        if found is None:
            likely: Floats = np.asarray(each.likely)[self.of(each.feature)]
            if FEATURES[each.feature].kind is Kind.LENGTH:
                return likely
            if len(self._gathered) >= KEPT:
                self._gathered.clear()
            found = self._gathered[id(each)] = Gathered(each, likely)
        return found.likely

    def rows(self, weights: Floats) -> Floats:
        """Return the sums of the weights of hypotheses by row, of one sample or of each of many."""
        first = len(self.space.ends)
        rows: Floats = weights[..., :first].copy()
        np.add.at(rows, self._further, weights[..., first : self.space.listed])
        return rows

    def posteriors(self, samples: Sequence[tuple[Weighed, ...]]) -> list[Posterior]:
        """Return the posterior of each of many samples: a row a sample, a column a hypothesis."""
        weights: Floats = np.empty((len(samples), len(self.prior)))
        weights[:] = self.prior
        for product, weighed in zip(weights, samples, strict=True):
            for each in in_order(weighed):
                product *= self.gathered(each)
        weights /= weights.sum(axis=1, keepdims=True)
        rows = self.rows(weights)
        none = weights[:, self.space.listed :].sum(axis=1).tolist()
        standing = self._standing(rows)
        each_of = zip(samples, weights, rows, none, standing, strict=True)
        return [ArrayPosterior(self, *each) for each in each_of]

    def _standing(self, rows: Floats) -> Iterator[list[tuple[int, float]]]:
        """Yield the rows that stand for anything, of each sample; see `posterior.standing_in`."""
        places: Places = np.flatnonzero(rows > LEAST)
        shares, (sample, row) = rows.ravel()[places], np.divmod(places, rows.shape[1])
        falling = 2 * _ONE * sample - np.rint(shares * _ONE).astype(np.int64)
        by_name: Places = np.argsort(self.alphabet[row])
        order: Places = by_name[np.argsort(falling[by_name], kind="stable")]
        pairs = list(zip(row[order].tolist(), shares[order].tolist(), strict=True))
        cuts: list[int] = np.searchsorted(sample, np.arange(len(rows) + 1)).tolist()
        return (pairs[first:last] for first, last in pairwise(cuts))


class ArrayPosterior(Posterior):
    """A posterior that sums by numpy; `of_weights` and `of_rows` are its figures as arrays."""

    __slots__ = ("arrays", "of_rows", "of_weights")
    arrays: Arrays
    of_weights: Floats
    of_rows: Floats

    def __init__(
        self,
        arrays: Arrays,
        weighed: tuple[Weighed, ...],
        weights: Floats,
        rows: Floats,
        none: float,
        standing: list[tuple[int, float]],
    ) -> None:
        super().__init__(
            arrays.space,
            said_in(weighed),
            memoryview(weights),
            memoryview(rows),
            none,
            standing,
            weighed,
        )
        for name, value in (("arrays", arrays), ("of_weights", weights), ("of_rows", rows)):
            object.__setattr__(self, name, value)  # frozen, as every posterior

    def _doubts(self) -> Doubts:
        return ArrayDoubts(self.arrays.stacked, self.of_weights)

    def listed(self) -> float:
        """Return the probability that a row of the tables is there, however small it is."""
        return float(self.of_rows.sum())

    def totals(self, kinds: Kinds) -> list[float]:
        """Return the probability of each kind of hypothesis or of row."""
        totals: list[float] = self._totals(kinds).tolist()
        return totals

    def _totals(self, kinds: Kinds) -> Floats:
        shares = self.of_rows if kinds.by_row else self.of_weights
        return np.bincount(self.arrays.of_kinds(kinds), shares, len(kinds.names))

    def most(self, kinds: Kinds) -> tuple[float, list[int]]:
        """Return the likeliest kind; see `Posterior.most`."""
        first = int(not kinds.names[0])
        shares = self._totals(kinds)[first:]
        if not len(shares):
            return 0.0, []
        most = shares.item(shares.argmax())
        places: Places = (shares >= most / ROUNDING).nonzero()[0] + first
        return most, places.tolist()

    def doubt(self) -> float:
        """Return the entropy over all hypotheses [bits]."""
        weights = self.of_weights[self.of_weights > 0]
        return -float(weights @ np.log2(weights))

    def mistaken(self, each: Weighed, place: int) -> float:
        """Return the chance that a listed row is there and one of the readings is a mistake."""
        listed = self.space.listed
        if each.joint:
            wrong: Floats = np.array(each.wrong_at(place))
        else:
            wrong = np.asarray(each.mistake) / np.asarray(each.likely)
        return float(self.of_weights[:listed] @ wrong[self.arrays.of(each.feature)[:listed]])

    def likeliest_without(self, each: Weighed, instead: Weighed | None) -> int:
        """Return the most probable row without some readings; see the same of `Posterior`."""
        others = self.of_weights / self.arrays.gathered(each)
        if instead:
            others *= self.arrays.gathered(instead)
        rows = self.arrays.rows(others)
        return int((rows >= rows.max() * EQUAL).argmax())
