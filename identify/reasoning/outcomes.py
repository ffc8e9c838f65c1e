"""What answers a measurement may give, before it is made: the fuel of the question chooser."""

import math

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel, PriorTable
from identify.model.reading import Choice, How, Length, Reading, Slope
from identify.reasoning.density import normal_pdf
from identify.reasoning.likelihood import weigh
from identify.reasoning.traits import ABSENT, UNKNOWN, Cone, Interval, OilBore, Trait

Outcomes = dict[object, float]  # outcome -> probability, totals 1
ANGLE_STEP_DEG = 3.0
STEP_MM = {How.CALIPER: 0.1, How.RULE: 0.5, How.GAUGE: 0.2, How.COMBS: 0.5, How.EYE: 2.0}
_COARSE = (Feature.HEX, Feature.HOSE_BORE)  # clues: their spread is millimetres, not tenths


def outcomes(
    feature: Feature, trait: Trait, how: How, model: ObservationModel, priors: PriorTable
) -> Outcomes | None:
    """Return the answers expected of an end with this trait, None where no answer tells anything.

    Args:
        feature: What would be measured.
        trait: What is there.
        how: With what it would be measured.
        model: Errors and habits.
        priors: Prevalence by region, for the origin.
    """
    if feature is Feature.ORIGIN:
        return _origins(trait, priors)
    if trait in (UNKNOWN, ABSENT):
        return None
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return _lengths(feature, trait, how, model)
    if kind is Kind.PITCH:
        return _pitches(trait, how, model)
    if kind is Kind.ANGLE:
        return _angles(trait, how, model)
    if kind is Kind.TAPER and how is not How.EYE:
        return _slopes(trait, model)
    if kind in (Kind.CHOICE, Kind.TAPER):
        return {
            word: weigh(Reading(feature, Choice(word), how, word), trait, model).likelihood
            for word in FEATURES[feature].choices
        }
    return None


def _lengths(feature: Feature, trait: Trait, how: How, model: ObservationModel) -> Outcomes:
    """Spread over bins that are the same for every end, else the bins themselves would tell."""
    table = model.instruments[Kind.LENGTH]
    tool = table.get(how) or table["caliper"]
    step = STEP_MM.get(how, STEP_MM[How.CALIPER]) * (10 if feature in _COARSE else 1)
    low, high, slack = _reach(feature, trait, model)
    reach = 2.5 * (tool.sigma + tool.share * high) + slack
    raw: Outcomes = {}
    for number in range(max(0, math.floor((low - reach) / step)), math.ceil((high + reach) / step)):
        reading = Reading(feature, Length((number + 0.5) * step), how, "")
        raw[number] = weigh(reading, trait, model).likelihood
    return _normal(raw)


def _reach(feature: Feature, trait: Trait, model: ObservationModel) -> tuple[float, float, float]:
    """Return where a reading may lie [mm]: middle from and to, and what it may stray."""
    if isinstance(trait, Interval):
        return trait.low, trait.high, model.tolerances[feature].wear_mm
    if isinstance(trait, OilBore):
        return 0.25 * trait.thread_mm, 0.9 * trait.thread_mm, 0.0
    if isinstance(trait, tuple):
        return min(trait), max(trait), 2.5 * model.hex_spread * max(trait)
    assert isinstance(trait, float | int)
    if feature is Feature.HEX:
        middle = trait * model.hex_of_thread
        return middle, middle, 2.5 * model.hex_spread * middle
    return float(trait), float(trait), 0.4 * trait  # the next hose size up or down


def _pitches(trait: Trait, how: How, model: ObservationModel) -> Outcomes:
    assert isinstance(trait, float)
    tool = model.instruments[Kind.PITCH].get(how) or model.instruments[Kind.PITCH]["gauge"]
    spread = tool.share or max(0.004, tool.sigma / (10 * trait))
    leaves = [25.4 / tpi for tpi in model.leaves_tpi] + list(model.leaves_mm)
    raw: Outcomes = {leaf: normal_pdf(math.log(leaf / trait) / spread) + 1e-3 for leaf in leaves}
    return _normal(raw)


def _angles(trait: Trait, how: How, model: ObservationModel) -> Outcomes | None:
    if not isinstance(trait, Cone) or trait.half_deg is None:
        return None
    tool = model.instruments[Kind.ANGLE].get(how) or model.instruments[Kind.ANGLE]["gauge"]
    sigma = math.sqrt(tool.sigma**2 + 1.0)
    raw: Outcomes = {}
    for number in range(1, 32):
        half = number * ANGLE_STEP_DEG
        raw[number] = normal_pdf((half - trait.half_deg) / sigma) + tool.gross / 30
    return _normal(raw)


def _slopes(taper: Trait, model: ObservationModel) -> Outcomes:
    """Two diameters 8 mm apart, as the question asks for them."""
    raw: Outcomes = {}
    for number in range(-2, 12):
        reading = Reading(Feature.TAPER, Slope(number * 0.08, 8.0), How.CALIPER, "")
        raw[number] = weigh(reading, taper, model).likelihood
    return _normal(raw)


def _origins(family: Trait, priors: PriorTable) -> Outcomes:
    raw: Outcomes = {
        word: priors.regions.get(word, {}).get(str(family), 1.0)
        for word in FEATURES[Feature.ORIGIN].choices
    }
    raw["unknown"] = sum(raw.values()) * 0.6  # most people at the machine do not know
    return _normal(raw)


def _normal(raw: Outcomes) -> Outcomes:
    total = sum(raw.values())
    return {key: value / total for key, value in raw.items() if value > 1e-5 * total}
