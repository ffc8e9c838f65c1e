"""Tapers measured by two diameters: what such a reading weighs, which to expect.

A taper judged by eye is a choice.
"""

import math

from identify.model.feature import Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import How, Slope
from identify.reasoning.answers import Answers, answers_of
from identify.reasoning.density import normal_pdf
from identify.reasoning.traits import UNKNOWN, Missing, ThreadTaper, Trait
from identify.reasoning.weight import Weight, instrument_of, misfit

OVER_MM = 8.0  # distance of the two diameters, as the question asks for them
STEP = 0.01  # cells of the growth to expect


def weigh_taper(value: Slope, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a growth of the diameter per length; densities per unit of growth."""
    tool = instrument_of(Kind.LENGTH, How.CALIPER, model)
    if trait is UNKNOWN:  # it may grow or shrink by anything that a slip may give
        return Weight(0.5 / model.growth_span, 0.0)
    mistake = tool.gross / model.growth_span
    if isinstance(trait, Missing):
        return Weight(mistake, 0.0)
    if not isinstance(trait, ThreadTaper):
        raise misfit(Feature.TAPER, trait)
    sigma = math.sqrt(2) * tool.sigma / value.over_mm + model.growth_spread
    good = normal_pdf((value.rise_mm / value.over_mm - trait.growth) / sigma) / sigma
    return Weight((1 - tool.gross) * good + mistake, mistake)


def answers_taper(trait: Trait, model: ObservationModel) -> Answers | None:
    """Return the growths expected of a thread, in cells of `STEP`, None where there is none."""
    if not isinstance(trait, ThreadTaper):
        return None
    half = round(model.growth_span / STEP / 2)
    chances = [
        weigh_taper(growth_said(cell), trait, model).likelihood for cell in range(-half, 2 * half)
    ]
    whole = sum(chances)
    return answers_of(-half, [chance / whole for chance in chances])


def growth_said(cell: int) -> Slope:
    """Return the reading in the middle of a cell."""
    return Slope((cell + 0.5) * STEP * OVER_MM, OVER_MM)
