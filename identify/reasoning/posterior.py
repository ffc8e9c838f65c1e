"""Multiply: prior times the likelihood of every reading, over all hypotheses at once."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from operator import mul
from typing import NamedTuple

from identify.model.feature import Feature
from identify.model.observation import PriorTable
from identify.model.reading import Choice, Reading, Trial
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.likelihood import weigh
from identify.reasoning.traits import Trait
from identify.reasoning.weigh_origin import weigh_origin
from identify.reasoning.weight import Weight


class Weighed(NamedTuple):
    """One reading against everything.

    `table` holds the weight of each distinct trait of its feature, `column` the likelihood of
    each hypothesis, `mean` that of an end drawn from the prior, `mistaken` for each hypothesis of
    a listed row the chance [0..1] that the reading is a plain mistake if that row is there.
    """

    reading: Reading
    table: tuple[Weight, ...]
    column: tuple[float, ...]
    mean: float
    mistaken: tuple[float, ...]


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


def weigh_all(reading: Reading, space: Hypotheses, priors: PriorTable) -> Weighed:
    """Weigh one reading against every hypothesis, by way of the distinct traits of its feature."""
    spread = space.spread(reading.feature)
    of = spread.of
    table = tuple(_table(reading, spread.traits[: max(of) + 1], space, priors))
    likely = [weight.likelihood for weight in table]
    wrong = [weight.mistake / weight.likelihood for weight in table]
    column = tuple(map(likely.__getitem__, of))
    mistaken = tuple(map(wrong.__getitem__, of[: space.listed]))
    return Weighed(reading, table, column, sum(map(mul, space.prior, column)), mistaken)


def _table(
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


def posterior(weighed: Iterable[Weighed], space: Hypotheses) -> Posterior:
    """Return the posterior over every row and "none of these".

    Args:
        weighed: Readings against everything, at most one of each feature; their order does not
            matter.
        space: The hypotheses.

    Returns:
        Posterior whose weights total 1.
    """
    weighed = tuple(weighed)
    product: Iterable[float] = space.prior
    for each in sorted(weighed, key=lambda each: each.reading.feature):  # so rounding is the same
        product = map(mul, product, each.column)
    raw = tuple(product)
    total = sum(raw)
    weights = tuple([weight / total for weight in raw])
    first = len(space.ends)
    rows = list(weights[:first])
    for number in range(first, space.listed):
        rows[space.rows[number]] += weights[number]
    none = sum(weights[space.listed :])
    readings = tuple(each.reading for each in weighed)
    return Posterior(space, readings, weights, tuple(rows), none, weighed)
