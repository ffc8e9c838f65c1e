"""What answers a measurement may give, before it is made: the fuel of the question chooser."""

import math

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel, PriorTable
from identify.model.reading import Choice, How, Length, Reading
from identify.reasoning.density import normal_pdf
from identify.reasoning.likelihood import weigh
from identify.reasoning.traits import ABSENT, UNKNOWN, Cone, Interval, Trait

Outcomes = dict[object, float]  # outcome -> probability, totals 1
ANGLE_STEP_DEG = 3.0


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
    if kind in (Kind.CHOICE, Kind.TAPER):
        return {
            word: weigh(Reading(feature, Choice(word), how, word), trait, model).likelihood
            for word in FEATURES[feature].choices
        }
    return None


def _lengths(feature: Feature, trait: Trait, how: How, model: ObservationModel) -> Outcomes:
    tool = model.instruments[Kind.LENGTH].get(how) or model.instruments[Kind.LENGTH]["caliper"]
    if isinstance(trait, Interval):
        low, high = trait.low, trait.high
        slack = model.tolerances[feature].wear_mm
    else:
        each = trait if isinstance(trait, tuple) else (trait,)
        middle = [x * (model.hex_of_thread if isinstance(trait, float) else 1) for x in each]
        if feature is Feature.HOSE_BORE:
            middle, slack = [float(trait)], 0.3 * float(trait)  # type: ignore[arg-type]
        else:
            slack = 2 * model.hex_spread * max(middle)
        low, high = min(middle), max(middle)
    reach = 2.5 * (tool.sigma + tool.share * high) + slack
    step = max(0.1, tool.sigma + tool.share * high, (high - low + 2 * reach) / 40)
    first, last = math.floor((low - reach) / step), math.ceil((high + reach) / step)
    raw: Outcomes = {}
    for number in range(first, last + 1):
        value = (number + 0.5) * step
        if value > 0:
            reading = Reading(feature, Length(value), how, "")
            raw[(round(step, 6), number)] = weigh(reading, trait, model).likelihood
    return _normal(raw)


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
