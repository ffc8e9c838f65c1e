"""How likely a reading is, given what is there; every reading leaves every end possible.

`weigh` returns two numbers: the likelihood, and the part of it that is a plain mistake. Their
ratio is the chance that the reading is wrong, which names the suspect.
"""

import math

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import Angle, Choice, Length, Marking, Pitch, Reading, Slope
from identify.reasoning.density import normal_pdf
from identify.reasoning.traits import UNKNOWN, Trait, mark_key
from identify.reasoning.weigh_angle import weigh_angle
from identify.reasoning.weigh_length import weigh_length
from identify.reasoning.weigh_pitch import weigh_pitch
from identify.reasoning.weight import Weight


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
        return weigh_length(reading, value, trait, model)
    if isinstance(value, Pitch):
        return weigh_pitch(reading, value, trait, model)
    if isinstance(value, Angle):
        return weigh_angle(reading, value, trait, model)
    if isinstance(value, Slope):
        return _slope(value, trait, model)
    if isinstance(value, Marking):
        return _marking(value, trait, model)
    assert isinstance(value, Choice)  # trials are weighed by the mating module
    return _choice(reading.feature, value.word, trait, model)


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
    return Weight(chance, chance if chance <= model.rare_report and trait != UNKNOWN else 0.0)
