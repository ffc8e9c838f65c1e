"""Multiply: prior times the likelihood of every reading, over all hypotheses at once."""

from collections.abc import Sequence
from dataclasses import dataclass

from identify.model.feature import Feature
from identify.model.observation import PriorTable
from identify.model.reading import Choice, Reading, Trial
from identify.reasoning.hypotheses import NONE, Hypotheses
from identify.reasoning.likelihood import Weight, weigh
from identify.reasoning.traits import Trait
from identify.reasoning.trial import known_part, weigh_trial


@dataclass(frozen=True, slots=True)
class Posterior:
    """Probability of every hypothesis after some readings.

    `weights[i]` totals 1 over the hypotheses; `rows[r]` over the catalogue's rows and
    `none_of_these` together. `tables[k]` holds, for reading k, the weight of each distinct trait.
    """

    space: Hypotheses
    readings: tuple[Reading, ...]
    weights: tuple[float, ...]
    rows: tuple[float, ...]
    none_of_these: float
    tables: tuple[tuple[Weight, ...], ...]


def weigh_all(reading: Reading, space: Hypotheses, priors: PriorTable) -> tuple[Weight, ...]:
    """Weigh one reading against each distinct trait of its feature."""
    spread = space.spread(reading.feature)
    traits = spread.traits[: max(spread.of) + 1]
    if reading.feature is Feature.ORIGIN:
        return tuple(_origin(reading, each, priors) for each in traits)
    if isinstance(reading.value, Trial):
        known = known_part(space.catalogue, reading.value)
        return tuple(weigh_trial(reading, known, each, space.catalogue) for each in traits)
    return tuple(weigh(reading, each, space.model) for each in traits)


def _origin(reading: Reading, family: Trait, priors: PriorTable) -> Weight:
    """Weigh where a machine comes from: a prior by region, never proof."""
    word = reading.value.word if isinstance(reading.value, Choice) else "unknown"
    return Weight(priors.regions.get(word, {}).get(str(family), 1.0), 0.0)


def posterior(readings: Sequence[Reading], space: Hypotheses, priors: PriorTable) -> Posterior:
    """Return the posterior over every row and "none of these".

    Args:
        readings: At most one of each feature; their order does not matter.
        space: The hypotheses.
        priors: Prevalence by region, for a reading of the origin.

    Returns:
        Posterior whose weights total 1.
    """
    tables = tuple(weigh_all(reading, space, priors) for reading in readings)
    weights = list(space.prior)
    for reading, table in zip(readings, tables, strict=True):
        column = [weight.likelihood for weight in table]
        of = space.spread(reading.feature).of
        weights = [w * column[number] for w, number in zip(weights, of, strict=True)]
    total = sum(weights)
    weights = [w / total for w in weights]
    rows = [0.0] * len(space.ends)
    none = 0.0
    for row, weight in zip(space.rows, weights, strict=True):
        if row == NONE:
            none += weight
        else:
            rows[row] += weight
    return Posterior(space, tuple(readings), tuple(weights), tuple(rows), none, tables)
