"""Multiply: prior times the likelihood of every reading, over all hypotheses at once."""

from __future__ import annotations

import math

from identify.frozen import TYPE_CHECKING, dataclass, field
from identify.light import Callable, Iterable, Sequence, attrgetter, mul
from identify.model.feature import Feature
from identify.model.reading import How, Reading
from identify.model.verdict import PROBABLY_MISTAKEN, Evidence
from identify.reasoning.answers import Doubts, entropy
from identify.reasoning.explain import Alike, sentence
from identify.reasoning.hypotheses import Hypotheses, Kinds
from identify.reasoning.scales import Weighed
from identify.reasoning.wear import is_worn

if TYPE_CHECKING:
    from identify.reasoning.openings import Key

DIGITS = 12  # decimals in which probabilities are compared: what is beyond is rounding
LOOKED_AT = 12  # rows that mostly tell whether a reading can be a mistake
ROUNDING = 1 + 1e-9  # so that no bound is missed by the last digit
EQUAL = 1 - 1e-14  # what is divided out again leaves the last digit open
LEAST = 1e-6  # rows below this never stand for anything in a ranking


class Memory:
    """What was worked out about one state of what is known, to be asked for again.

    `told` are the bits that measurements would tell; see `openings.wished`.
    """

    def __init__(self) -> None:
        self.told: dict[Key, float] = {}
        self.doubts: Doubts | None = None


@dataclass(frozen=True, slots=True)
class Posterior:
    """Probability of every hypothesis after some readings.

    `weights[i]` totals 1 over the hypotheses; `rows[r]` over the catalogue's rows and
    `none_of_these` together. `standing` are the rows that stand for anything, with their
    probability, in the order of `order`. `weighed[k]` are the readings of one feature.
    """

    space: Hypotheses
    readings: tuple[Reading, ...]
    weights: Sequence[float]
    rows: Sequence[float]
    none_of_these: float
    standing: Sequence[tuple[int, float]]
    weighed: tuple[Weighed, ...]
    memory: Memory = field(default_factory=Memory)

    def doubts(self) -> Doubts:
        """Return what is open; it is remembered."""
        if self.memory.doubts is None:
            self.memory.doubts = self._doubts()
        return self.memory.doubts

    def _doubts(self) -> Doubts:
        return Doubts(self.space, self.weights)

    def listed(self) -> float:
        """Return the probability that a row of the tables is there, however small it is."""
        return sum(self.rows)  # what is left of 1 would be rounding, where next to nothing is

    def totals(self, kinds: Kinds) -> list[float]:
        """Return the probability of each kind of hypothesis or of row."""
        out = [0.0] * len(kinds.names)
        for kind, weight in zip(kinds.of, self.rows if kinds.by_row else self.weights, strict=True):
            out[kind] += weight
        return out

    def most(self, kinds: Kinds) -> tuple[float, list[int]]:
        """Return the probability of the likeliest kind, and the places of all that are as likely.

        What is of no kind does not count; no place where nothing else is there.
        """
        return likeliest_of(self.totals(kinds), int(not kinds.names[0]))

    def doubt(self) -> float:
        """Return the entropy over all hypotheses [bits]."""
        return entropy(self.weights)

    def mistaken_at_most(self, enough: float = 0.0) -> list[float]:
        """Return what `mistaken` of each of `weighed` does not exceed, from the likeliest rows.

        Args:
            enough: Where all other rows hold no more than half of this, they are not looked at.
        """
        ways, weights, leading, left = self.space.ways, self.weights, [], self.listed()
        for row, p in self.standing[:LOOKED_AT]:
            leading += [(way, weights[way]) for way in ways[row]]
            left -= p
            if left <= enough / 2:
                break
        out = []
        for _, _, of, likely, mistake, joint, *_ in self.weighed:
            most = left
            for way, weight in leading:
                kind = of[way]
                most += weight * mistake[kind] / likely[kind]
            out.append(1.0 if joint else most * ROUNDING)
        return out

    def mistaken(self, each: Weighed, place: int) -> float:
        """Return the chance that a listed row is there and one of the readings is a mistake."""
        listed, wrong = self.space.listed, each.wrong_at(place)
        terms: Iterable[float] = map(mul, self.weights, map(wrong.__getitem__, each.of[:listed]))
        return sum(terms)

    def likeliest_without(self, each: Weighed, instead: Weighed | None) -> int:
        """Return the most probable row without some readings, of several the first.

        Args:
            each: One of `weighed`.
            instead: What is left of its readings, None if nothing is.
        """
        of, likely, left = each.of[: self.space.listed], each.likely, instead and instead.likely
        others = [
            weight / likely[kind] * (left[kind] if left else 1.0)
            for weight, kind in zip(self.weights, of, strict=False)
        ]
        rows = rows_of(others, self.space)
        least = max(rows) * EQUAL
        return next(row for row, share in enumerate(rows) if share >= least)


_CARE = (How.EYE, How.COMBS, How.RULE, How.PROTRACTOR, How.GAUGE, How.CALIPER, How.COUNTED)


def sharpest(readings: Sequence[Reading]) -> Reading:
    """Return the reading of a feature that was taken with most care, of two alike the later."""
    if len(readings) == 1:
        return readings[0]
    return max(readings, key=lambda each: (_CARE.index(each.how), readings.index(each)))


def posterior(weighed: Iterable[Weighed], space: Hypotheses) -> Posterior:
    """Return the posterior over every row and "none of these".

    Args:
        weighed: Readings against everything, each feature once; their order does not matter.
        space: The hypotheses.

    Returns:
        Posterior whose weights total 1.
    """
    weighed = tuple(weighed)
    product: Iterable[float] = space.prior
    for each in in_order(weighed):
        product = map(mul, product, map(each.likely.__getitem__, each.of))
    raw = list(product)
    total = sum(raw)
    weights = [weight / total for weight in raw]
    rows = rows_of(weights, space)
    standing = standing_in(rows, space)
    none = sum(weights[space.listed :])
    return Posterior(space, said_in(weighed), weights, rows, none, standing, weighed)


def posteriors(samples: Iterable[Iterable[Weighed]], space: Hypotheses) -> list[Posterior]:
    """Return the posterior of each of many samples."""
    return [posterior(each, space) for each in samples]


def rows_of(weights: Sequence[float], space: Hypotheses) -> list[float]:
    """Return the sums of the weights of hypotheses by row."""
    first = len(space.ends)
    rows = list(weights[:first])
    for number in range(first, space.listed):
        rows[space.rows[number]] += weights[number]
    return rows


def likeliest_of(shares: Sequence[float], first: int = 0) -> tuple[float, list[int]]:
    """Return the greatest of some probabilities from the place `first` on, and where it stands."""
    most = max(shares[first:], default=0.0)
    near = most / ROUNDING  # the last digit does not choose between two
    return most, [place for place, share in enumerate(shares) if share >= near and place >= first]


def standing_in(rows: Sequence[float], space: Hypotheses) -> list[tuple[int, float]]:
    """Return the rows that stand for anything, with their probability, in the order of `order`."""
    ids = space.catalogue.ids
    return sorted(
        ((row, p) for row, p in enumerate(rows) if p > LEAST),
        key=lambda pair: order(pair[1], ids[pair[0]]),
    )


def order(probability: float, name: str) -> tuple[float, str]:
    """Return what to rank ends by: probability, then id; rounding does not choose between two."""
    return -round(probability, DIGITS), name


_FEATURE: Callable[[Weighed], Feature] = attrgetter("feature")


def in_order(weighed: Iterable[Weighed]) -> list[Weighed]:
    """Return readings in the order in which they are multiplied, so that rounding is the same."""
    return sorted(weighed, key=_FEATURE)


def said_in(weighed: Iterable[Weighed]) -> tuple[Reading, ...]:
    """Return the readings that were weighed."""
    return tuple([reading for each in weighed for reading in each.readings])


def best_way(state: Posterior, row: int) -> int:
    """Return the most probable way in which a row is made, as the number of a hypothesis."""
    ways = state.space.ways[row]
    if len(ways) == 1:
        return ways[0]
    return min(ways, key=lambda way: -round(state.weights[way], DIGITS))


def evidence(state: Posterior, row: int) -> tuple[Evidence, ...]:
    """Return what the readings of each feature say of one row, made in its most probable way."""
    return evidence_of(state, [best_way(state, row)])[0]


def evidence_of(state: Posterior, numbers: Sequence[int]) -> list[tuple[Evidence, ...]]:
    """Return what the readings of each feature say of each of some hypotheses."""
    if not state.weighed:
        return [()] * len(numbers)
    space = state.space
    return list(zip(*[_says(each, numbers, space) for each in state.weighed], strict=True))


def _says(each: Weighed, numbers: Sequence[int], space: Hypotheses) -> list[Evidence]:
    """Return what readings say of some hypotheses: of those that are alike the same."""
    alikes, told, out = space.alike(each.feature), each.told, []
    for number in numbers:
        alike = alikes[number]
        found = told.get(alike)
        if found is None:
            found = told[alike] = _told(each, alike, space)
        out.append(found)
    return out


def _told(each: Weighed, alike: Alike, space: Hypotheses) -> Evidence:
    readings, likely = each.readings, each.likely[alike.kind]
    mistaken = min(1.0, each.mistake[alike.kind] / likely)
    worn = (
        alike.wears is not None
        and mistaken < PROBABLY_MISTAKEN
        and is_worn(readings, alike.wears, space.model)
    )
    words = sentence(readings, alike.compare)
    return Evidence(each.feature, math.log(likely / each.mean), words, mistaken, worn)
