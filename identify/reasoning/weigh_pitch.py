"""How likely a pitch is: called off a gauge, or counted along a rule or caliper."""

import math

from identify.model.observation import Instrument, ObservationModel
from identify.model.reading import Pitch, Reading
from identify.reasoning.density import anywhere, normal_pdf
from identify.reasoning.traits import ABSENT, UNKNOWN, Trait
from identify.reasoning.weight import WRONG_FEATURE, Weight, instrument

ONE_GAUGE = 0.25  # share of people who have a metric or an inch pitch gauge, not both
HALF_WAY = 0.035  # relative misfit of a leaf that such a person still accepts


def weigh_pitch(reading: Reading, value: Pitch, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a pitch: the chance that a leaf is called, or a density [1/mm]."""
    tool = instrument(reading, model)
    leaves = model.leaves_tpi if value.inch else model.leaves_mm
    is_leaf = not value.pitches and not value.spread_mm and _nearest_leaf(value, leaves) is not None
    flat = 0.5 / len(leaves) if is_leaf else anywhere(value.mm, 0.4, 4.5)
    mistake = tool.gross * flat
    if trait == UNKNOWN:
        return Weight(_typical_pitch(value, is_leaf, flat), 0.0)
    if trait == ABSENT:
        return Weight(WRONG_FEATURE * mistake, WRONG_FEATURE * mistake)
    assert isinstance(trait, float)
    if is_leaf:
        good, beside = _leaf(value, trait, tool.share or 0.03, model)
        wrong = (1 - tool.gross) * beside + mistake
        return Weight((1 - tool.gross) * good + wrong, wrong)
    if value.pitches:
        good = _counted(value, trait, tool, model)
    else:
        sigma = math.sqrt((max(tool.share, 0.01) * trait) ** 2 + value.spread_mm**2 / 3)
        good = normal_pdf((value.mm - trait) / sigma) / sigma
    return Weight((1 - tool.gross) * good + mistake, mistake)


def _typical_pitch(value: Pitch, is_leaf: bool, flat: float) -> float:
    """Weigh a pitch of a thread in no table: hoses carry 0.9 to 2.4 mm, so those count double."""
    return flat * (2.0 if is_leaf and 0.9 <= value.mm <= 2.4 else 1.0)


def _nearest_leaf(value: Pitch, leaves: tuple[float, ...]) -> float | None:
    said = 25.4 / value.mm if value.inch else value.mm
    near = min(leaves, key=lambda leaf: abs(leaf - said))
    return near if abs(near - said) < 0.01 * said else None


def _leaf(
    value: Pitch, pitch_mm: float, share: float, model: ObservationModel
) -> tuple[float, float]:
    """Chance that this leaf is called because it fits, and because it is beside one that does.

    Who has one gauge only takes its best leaf if it fits half-way; who has both, the better one.
    """
    inch = [25.4 / tpi for tpi in model.leaves_tpi]
    metric = list(model.leaves_mm)

    def fit(leaf_mm: float) -> float:
        return math.exp(-0.5 * (math.log(leaf_mm / pitch_mm) / share) ** 2)

    gauge = sorted(inch if value.inch else metric)
    own = sum(map(fit, gauge)) + 1e-12
    both = sum(map(fit, inch)) + sum(map(fit, metric)) + 1e-12

    def called(leaf_mm: float) -> float:
        half_way = math.exp(-0.5 * (math.log(leaf_mm / pitch_mm) / HALF_WAY) ** 2)
        here = fit(leaf_mm)
        return ONE_GAUGE / 2 * half_way * here / own + (1 - ONE_GAUGE) * here / both

    place = min(range(len(gauge)), key=lambda i: abs(gauge[i] - value.mm))
    next_to = [gauge[i] for i in (place - 1, place + 1) if 0 <= i < len(gauge)]
    slip = model.neighbour_leaf
    return (1 - slip) * called(gauge[place]), slip / 2 * sum(map(called, next_to))


def _counted(value: Pitch, pitch_mm: float, tool: Instrument, model: ObservationModel) -> float:
    sigma = max(tool.sigma / value.pitches, tool.share * pitch_mm, 1e-4)
    right = normal_pdf((value.mm - pitch_mm) / sigma) / sigma
    slips = 0.0
    for step in (-1, 1):
        said = pitch_mm * (value.pitches + step) / value.pitches
        slips += normal_pdf((value.mm - said) / sigma) / sigma
    return (1 - 2 * model.miscount) * right + model.miscount * slips
