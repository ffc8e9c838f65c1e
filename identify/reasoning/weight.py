"""What one reading says of one thing that may be there, and the errors it is taken with."""

import math
from typing import NamedTuple

from identify.model.feature import FEATURES
from identify.model.observation import Instrument, ObservationModel
from identify.model.reading import How, Pitch, Reading

WRONG_FEATURE = 0.1  # of plain mistakes, the share that measures what the end does not have


class Weight(NamedTuple):
    """Likelihood of a reading and the part of it that is a plain mistake, in one unit."""

    likelihood: float
    mistake: float


def instrument(reading: Reading, model: ObservationModel) -> Instrument:
    """Return the error of the way a reading was taken; by eye where that way is not listed."""
    kind = FEATURES[reading.feature].kind
    how = reading.how
    if isinstance(reading.value, Pitch) and reading.value.pitches and how is How.GAUGE:
        how = How.COUNTED
    table = model.instruments[kind]
    return table.get(how, table["eye"])


def sigma_of(reading: Reading, size: float, model: ObservationModel) -> float:
    """Return the standard deviation of a length or angle reading [mm or deg]."""
    tool = instrument(reading, model)
    spread = getattr(reading.value, "spread_mm", 0.0)
    return math.sqrt(tool.sigma**2 + (tool.share * size) ** 2 + spread**2 / 3)


def slipped(value: float, middle: float, broad: float, model: ObservationModel) -> float:
    """Weigh a plain mistake about something that measures `middle`: near it as a rule.

    Args:
        value: The reading [mm].
        middle: What is there [mm].
        broad: Density of a mistake that may be anything [1/mm].
        model: Errors and habits.

    Returns:
        Density [1/mm].
    """
    reach = model.near_reach
    near = 0.5 / (reach * value) if abs(math.log(value / middle)) < reach else 0.0
    return model.near_gross * near + (1 - model.near_gross) * broad
