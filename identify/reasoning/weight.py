"""What one reading says of one thing that may be there, and the errors it is taken with."""

import math

from identify.frozen import NamedTuple
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import Instrument, ObservationModel
from identify.model.reading import Angle, How, Length, Pitch, Reading
from identify.reasoning.traits import Trait


class Weight(NamedTuple):
    """Likelihood of a reading and the part of it that is a plain mistake, in one unit."""

    likelihood: float
    mistake: float


class Joint(NamedTuple):
    """The same of several readings of one feature.

    `mistake` is the part in which every one of them is a mistake, `each` that of each alone.
    """

    likelihood: float
    mistake: float
    each: tuple[float, ...]


def misfit(feature: Feature, trait: Trait) -> TypeError:
    """Return the error of a trait that no end shows of a feature."""
    return TypeError(f"{feature} is not weighed against {trait!r}")


def instrument_of(kind: Kind, how: How, model: ObservationModel) -> Instrument:
    """Return the error of a way of measuring; by eye where that way is not listed."""
    table = model.instruments[kind]
    return table.get(how, table["eye"])


def instrument(reading: Reading, model: ObservationModel) -> Instrument:
    """Return the error of the way a reading was taken."""
    how = reading.how
    if isinstance(reading.value, Pitch) and reading.value.pitches and how is How.GAUGE:
        how = How.COUNTED
    return instrument_of(FEATURES[reading.feature].kind, how, model)


def spread_deg(value: Angle, half_deg: float, tool: Instrument) -> float:
    """Return the standard deviation of an angle as it was read of a cone [deg].

    Two diameters and their distance give the slope of a line through two points of the cone: what
    they err across it [mm] weighs by the distance of the points along it.
    """
    if not value.over_mm:
        return tool.sigma
    return math.degrees(tool.sigma * math.cos(math.radians(half_deg)) / value.over_mm)


def sigma_of(value: Length, tool: Instrument) -> float:
    """Return the standard deviation of a length as it was read [mm]."""
    return math.sqrt(tool.sigma**2 + (tool.share * value.mm) ** 2 + value.spread_mm**2 / 3)


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
