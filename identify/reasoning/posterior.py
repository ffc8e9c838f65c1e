"""Multiply: prior times the likelihood of every reading, over all hypotheses at once."""

import math
from collections.abc import Iterable, Iterator, Sequence
from operator import mul

from identify.frozen import NamedTuple, dataclass
from identify.model.feature import Feature
from identify.model.observation import PriorTable
from identify.model.reading import Choice, How, Length, Reading, Trial
from identify.model.verdict import PROBABLY_MISTAKEN, Evidence
from identify.reasoning import explain
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.likelihood import weigh
from identify.reasoning.repeated import copied
from identify.reasoning.traits import Trait
from identify.reasoning.wear import is_worn
from identify.reasoning.weigh_length import weigh_lengths
from identify.reasoning.weigh_origin import weigh_origin
from identify.reasoning.weight import Joint, Weight

DIGITS = 12  # decimals in which probabilities are compared: what is beyond is rounding


class Weighed(NamedTuple):
    """The readings of one feature against everything.

    `table` holds the weight of each distinct trait of the feature, `of` the number of the trait of
    each hypothesis, `column` the likelihood of each, `mean` that of an end drawn from the prior.
    `mistaken` is for each hypothesis of a listed row the chance [0..1] that every one of the
    readings is a plain mistake if that row is there.
    """

    readings: tuple[Reading, ...]
    table: tuple[Weight, ...] | tuple[Joint, ...]
    of: Sequence[int]
    column: tuple[float, ...]
    mean: float
    mistaken: tuple[float, ...]

    @property
    def feature(self) -> Feature:
        """The feature that was read."""
        return self.readings[0].feature

    def mistaken_of(self, place: int) -> tuple[float, ...]:
        """Return `mistaken` of one of the readings alone."""
        joint = [weight for weight in self.table if isinstance(weight, Joint)]
        if not joint:
            return self.mistaken
        wrong = [weight.each[place] / weight.likelihood for weight in joint]
        return tuple(map(wrong.__getitem__, self.of[: len(self.mistaken)]))


@dataclass(frozen=True, slots=True)
class Posterior:
    """Probability of every hypothesis after some readings.

    `weights[i]` totals 1 over the hypotheses; `rows[r]` over the catalogue's rows and
    `none_of_these` together. `weighed[k]` is reading k against everything.
    """

    space: Hypotheses
    readings: tuple[Reading, ...]
    weights: tuple[float, ...]
    rows: tuple[float, ...]
    none_of_these: float
    weighed: tuple[Weighed, ...]


def weigh_all(readings: tuple[Reading, ...], space: Hypotheses, priors: PriorTable) -> Weighed:
    """Weigh the readings of one feature against every hypothesis, by way of its distinct traits."""
    spread = space.spread(readings[0].feature)
    of = spread.of
    table = _table(readings, spread.traits[: max(of) + 1], space, priors)
    likely = [weight.likelihood for weight in table]
    wrong = [weight.mistake / weight.likelihood for weight in table]
    column = tuple(map(likely.__getitem__, of))
    mistaken = tuple(map(wrong.__getitem__, of[: space.listed]))
    return Weighed(readings, table, of, column, sum(map(mul, space.prior, column)), mistaken)


def _table(
    readings: tuple[Reading, ...], traits: list[Trait], space: Hypotheses, priors: PriorTable
) -> tuple[Weight, ...] | tuple[Joint, ...]:
    if len(readings) == 1:
        return tuple(_of_one(readings[0], traits, space, priors))
    if all(isinstance(each.value, Length) for each in readings):
        return tuple(weigh_lengths(readings, each, space.model) for each in traits)
    columns = [_of_one(each, traits, space, priors) for each in readings]
    return tuple(copied(readings, singles, space.model) for singles in zip(*columns, strict=True))


def _of_one(
    reading: Reading, traits: list[Trait], space: Hypotheses, priors: PriorTable
) -> Iterator[Weight]:
    value, model, catalogue = reading.value, space.model, space.catalogue
    if isinstance(value, Choice) and reading.feature is Feature.ORIGIN:
        return (weigh_origin(value.word, each, priors) for each in traits)
    if isinstance(value, Trial):
        from identify.reasoning.weigh_trial import known_part, weigh_trial  # few have known ends

        known = known_part(catalogue, value)
        return (weigh_trial(value, known, each, model.trial, catalogue) for each in traits)
    return (weigh(reading, each, model) for each in traits)


_CARE = (How.EYE, How.COMBS, How.RULE, How.PROTRACTOR, How.GAUGE, How.CALIPER, How.COUNTED)


def sharpest(readings: Sequence[Reading]) -> Reading:
    """Return the reading of a feature that was taken with most care, of two alike the later."""
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
    for each in sorted(weighed, key=lambda each: each.feature):  # so rounding is the same
        product = map(mul, product, each.column)
    raw = tuple(product)
    total = sum(raw)
    weights = tuple([weight / total for weight in raw])
    first = len(space.ends)
    rows = list(weights[:first])
    for number in range(first, space.listed):
        rows[space.rows[number]] += weights[number]
    none = sum(weights[space.listed :])
    readings = tuple(reading for each in weighed for reading in each.readings)
    return Posterior(space, readings, weights, tuple(rows), none, weighed)


def best_way(state: Posterior, row: int) -> int:
    """Return the most probable way in which a row is made, as the number of a hypothesis."""
    return min(state.space.ways[row], key=lambda way: -round(state.weights[way], DIGITS))


def evidence(state: Posterior, row: int) -> tuple[Evidence, ...]:
    """Return what the readings of each feature say of one row, made in its most probable way."""
    number, space = best_way(state, row), state.space
    out = []
    for each in state.weighed:
        spread = space.spread(each.feature)
        kind = spread.of[number]
        found = each.table[kind]
        weight = math.log(found.likelihood / each.mean)
        words = explain.sentence(each.readings, spread.traits[kind], space.subjects[number])
        mistaken = min(1.0, found.mistake / found.likelihood)
        worn = mistaken < PROBABLY_MISTAKEN and is_worn(
            each.readings, spread.traits[kind], space.subjects[number], space.model
        )
        out.append(Evidence(each.feature, weight, words, mistaken, worn))
    return tuple(out)
