"""How likely a reading is, given what is there; every reading leaves every end possible.

`weigh` returns two numbers: the likelihood, and the part of it that is a plain mistake. Their
ratio is the chance that the reading is wrong, which names the suspect.
"""

import math
from typing import NamedTuple

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import Instrument, ObservationModel
from identify.model.reading import Angle, Basis, Choice, How, Length, Marking, Pitch, Reading, Slope
from identify.reasoning.density import anywhere, between, log_normal, normal_pdf, worn
from identify.reasoning.traits import ABSENT, UNKNOWN, Cone, Interval, OilBore, Trait, mark_key

ONE_GAUGE = 0.25  # share of people who have a metric or an inch pitch gauge, not both
HALF_WAY = 0.035  # relative misfit of a leaf that such a person still accepts
OIL_BORE = 0.5  # of the thread diameter, in the middle
OIL_BORE_SPREAD = 0.35  # of its logarithm
WORN_SEAT_DEG = 1.0  # a worn seat reads a degree off
LEAF_STEP_DEG = 7.5  # between neighbouring leaves of a seat gauge
ANGLED_SELDOM = ("flat", "chamfer")  # have an angle, but few lay a gauge on it
WRONG_FEATURE = 0.1  # of plain mistakes, the share that measures what the end does not have
UNLIKELY = 0.2  # a report at most this usual for what is there counts as a mistake


class Weight(NamedTuple):
    """Likelihood of a reading and the part of it that is a plain mistake, in one unit."""

    likelihood: float
    mistake: float


def weigh(reading: Reading, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh one reading against one trait.

    Args:
        reading: What was observed.
        trait: What is there, from `traits.trait` of the same feature.
        model: Errors and habits.

    Returns:
        Likelihood and mistake part; a density [1/mm] or [1/deg] for a number, a probability for
        a choice; always above 0. Units agree over all traits of one reading.
    """
    value = reading.value
    if isinstance(value, Length):
        return _length(reading, value, trait, model)
    if isinstance(value, Pitch):
        return _pitch(reading, value, trait, model)
    if isinstance(value, Angle):
        return _angle(reading, value, trait, model)
    if isinstance(value, Slope):
        return _slope(value, trait, model)
    if isinstance(value, Marking):
        return _marking(value, trait, model)
    assert isinstance(value, Choice)  # trials are weighed by the mating module
    return _choice(reading.feature, value.word, trait, model)


def instrument(reading: Reading, model: ObservationModel) -> Instrument:
    """Return the error of the way a reading was taken; by eye where that way is not listed."""
    kind = FEATURES[reading.feature].kind
    how = reading.how
    if isinstance(reading.value, Pitch) and reading.value.pitches and how == "gauge":
        how = type(how).COUNTED
    table = model.instruments[kind]
    return table.get(how, table["eye"])


def sigma_of(reading: Reading, size: float, model: ObservationModel) -> float:
    """Return the standard deviation of a length or angle reading [mm or deg]."""
    tool = instrument(reading, model)
    spread = getattr(reading.value, "spread_mm", 0.0)
    return math.sqrt(tool.sigma**2 + (tool.share * size) ** 2 + spread**2 / 3)


def _length(reading: Reading, value: Length, trait: Trait, model: ObservationModel) -> Weight:
    info = FEATURES[reading.feature]
    broad = anywhere(value.mm, info.low, info.high)
    tool = instrument(reading, model)
    mistake = tool.gross * broad
    if trait == UNKNOWN:
        return Weight(broad, 0.0)
    if trait == ABSENT:
        return Weight(WRONG_FEATURE * mistake, WRONG_FEATURE * mistake)
    sigma = sigma_of(reading, value.mm, model)
    if isinstance(trait, OilBore):
        middle = trait.thread_mm * OIL_BORE
        good = model.elsewhere * log_normal(value.mm, middle, OIL_BORE_SPREAD)
        return Weight(good + mistake, mistake)
    if isinstance(trait, Interval):
        slack = model.tolerances[reading.feature]
        new = between(value.mm, trait.low, trait.high, sigma)
        if slack.shrinks:
            old = worn(-value.mm, -trait.high, -trait.low, sigma, slack.wear_mm)
        else:
            old = worn(value.mm, trait.low, trait.high, sigma, slack.wear_mm)
        good = (1 - slack.worn) * new + slack.worn * old
    elif reading.feature is Feature.HEX:
        good = _hexagon(value.mm, trait, sigma, model)
    else:
        good = _hose(value.mm, trait, sigma, model)
    return Weight((1 - tool.gross) * good + mistake, mistake)


def _hexagon(value: float, trait: Trait, sigma: float, model: ObservationModel) -> float:
    slack = model.tolerances[Feature.HEX]
    if isinstance(trait, tuple):
        each = [between(value, mm - slack.below_mm, mm + slack.above_mm, sigma) for mm in trait]
        known = sum(each) / len(each)
        middle = sum(trait) / len(trait)
        loose = log_normal(value, middle, model.hex_spread)
        return 0.6 * known + 0.4 * loose  # makers choose neighbouring hexagons as well
    assert isinstance(trait, float)
    return log_normal(value, trait * model.hex_of_thread, model.hex_spread)


BORES = (3, 4, 5, 6, 8, 10, 12.5, 16, 19, 25, 31.5, 38, 51, 63, 76, 102)  # ISO 4397 nominal


def _hose(value: float, trait: Trait, sigma: float, model: ObservationModel) -> float:
    assert isinstance(trait, float | int)
    slack = model.tolerances[Feature.HOSE_BORE]
    place = min(range(len(BORES)), key=lambda i: abs(math.log(BORES[i] / trait)))
    total = 0.0
    for step, share in (
        (-1, model.near_bore / 2),
        (0, 1 - model.near_bore),
        (1, model.near_bore / 2),
    ):
        bore = BORES[min(max(place + step, 0), len(BORES) - 1)]
        wide = slack.below_mm + 0.02 * bore
        total += share * between(value, bore - wide, bore + wide, sigma)
    return total


def _pitch(reading: Reading, value: Pitch, trait: Trait, model: ObservationModel) -> Weight:
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


def _angle(reading: Reading, value: Angle, trait: Trait, model: ObservationModel) -> Weight:
    tool = instrument(reading, model)
    broad = 1 / 175.0
    mistake = tool.gross * broad
    if not isinstance(trait, Cone):
        return Weight(broad, 0.0)
    half = trait.half_deg
    if half is None:
        odd = model.off_cone * broad + mistake
        return Weight(odd, odd)
    said_half = model.half_said
    if value.basis is not None:
        said_half = 1 - model.basis_slip if value.basis is Basis.HALF else model.basis_slip

    def read(sigma: float) -> float:
        as_half = normal_pdf((value.deg - half) / sigma) / sigma
        as_full = normal_pdf((value.deg / 2 - half) / sigma) / sigma / 2
        return said_half * as_half + (1 - said_half) * as_full

    there = model.off_cone if trait.shape in ANGLED_SELDOM else 1.0
    leaf = model.neighbour_leaf if reading.how in (How.GAUGE, How.COMBS) else 0.0
    beside = there * leaf * read(LEAF_STEP_DEG)
    good = there * (1 - leaf) * read(math.hypot(tool.sigma, WORN_SEAT_DEG))
    wrong = (1 - tool.gross) * beside + mistake
    return Weight((1 - tool.gross) * good + wrong, wrong)


def _slope(value: Slope, trait: Trait, model: ObservationModel) -> Weight:
    tool = model.instruments[Kind.LENGTH]["caliper"]
    sigma = math.sqrt(2) * tool.sigma / value.over_mm + 0.004
    mistake = tool.gross * 4.0
    if not isinstance(trait, float):
        return Weight(2.0 if trait == UNKNOWN else mistake, 0.0)
    good = normal_pdf((value.rise_mm / value.over_mm - trait) / sigma) / sigma
    return Weight((1 - tool.gross) * good + mistake, mistake)


def _marking(value: Marking, trait: Trait, model: ObservationModel) -> Weight:
    assert isinstance(trait, frozenset)
    said = mark_key(value.text)
    return Weight(model.mark_right if said in trait else 0.04, 0.0)


def _choice(feature: Feature, word: str, trait: Trait, model: ObservationModel) -> Weight:
    table = model.reports[feature]
    if isinstance(trait, float):  # a share: of tapered, of left hand, of ports with a ridge
        share = 1.0 if trait > 0.02 and feature is Feature.TAPER else trait
        yes, no = {
            Feature.TAPER: ("tapered", "parallel"),
            Feature.HAND: ("left", "right"),
            Feature.PORT_RIDGE: ("yes", "no"),
        }[feature]
        chance = share * table[yes][word] + (1 - share) * table[no][word]
    else:
        row = table.get(str(trait))
        chance = row[word] if row else 1 / len(FEATURES[feature].choices)
    chance = max(chance, 1e-4)
    return Weight(chance, chance if chance <= UNLIKELY and trait != UNKNOWN else 0.0)
