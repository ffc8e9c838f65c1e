"""How likely a reading is, given what is there; every reading leaves every end possible.

`weigh` returns two numbers: the likelihood, and the part of it that is a plain mistake. Their
ratio is the chance that the reading is wrong, which names the suspect. `answers` returns the
readings that the same model expects. Both stand together in one module a kind of value; origins
and trial fits, which need more than the model of readings, are asked for by `posterior` and
`question` themselves.
"""

from identify.light import Collection
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import (
    Angle,
    Choice,
    How,
    Length,
    Marking,
    Pitch,
    Reading,
    Slope,
    Trial,
)
from identify.model.rule import Tool
from identify.reasoning.answers import Answers
from identify.reasoning.traits import Trait
from identify.reasoning.weigh_angle import answers_angle, weigh_angle
from identify.reasoning.weigh_choice import answers_choice, weigh_choice
from identify.reasoning.weigh_length import answers_length, weigh_length
from identify.reasoning.weigh_pitch import GAUGES, answers_pitch, weigh_pitch
from identify.reasoning.weight import Weight


def weigh(reading: Reading, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh one reading against one trait.

    Args:
        reading: What was observed, but no origin or trial fit.
        trait: What is there, from `subject.trait` of the same feature.
        model: Errors and habits.

    Returns:
        Likelihood and mistake part; a density [1/mm] or [1/deg] for a number, a probability for
        a choice; always above 0. Units agree over all traits of one reading.
    """
    match reading.value:
        case Length() as value:
            return weigh_length(reading, value, trait, model)
        case Pitch() as value:
            return weigh_pitch(reading, value, trait, model)
        case Angle() as value:
            return weigh_angle(reading, value, trait, model)
        case Slope() as value:
            from identify.reasoning.weigh_taper import weigh_taper  # few are read

            return weigh_taper(value, trait, model)
        case Marking() as value:
            from identify.reasoning.weigh_marking import weigh_marking

            return weigh_marking(value, trait, model)
        case Choice(word):
            return weigh_choice(reading.feature, word, trait, model)
        case Trial():
            raise TypeError("a trial fit is weighed by weigh_trial, which knows the threads")


def answers(
    feature: Feature,
    trait: Trait,
    how: How,
    model: ObservationModel,
    gauges: Collection[Tool] = GAUGES,
) -> Answers | None:
    """Return the answers expected of one trait, None where none can be foreseen.

    Args:
        feature: What would be measured, but no origin or trial fit.
        trait: What is there.
        how: In which way it would be measured.
        model: Errors and habits.
        gauges: The pitch gauges in the bag.
    """
    match FEATURES[feature].kind:
        case Kind.LENGTH:
            return answers_length(feature, trait, how, model)
        case Kind.PITCH:
            return answers_pitch(trait, how, model, gauges)
        case Kind.ANGLE:
            return answers_angle(trait, how, model)
        case Kind.TAPER if how is not How.EYE:
            from identify.reasoning.weigh_taper import answers_taper

            return answers_taper(trait, model)
        case Kind.CHOICE | Kind.TAPER:
            return answers_choice(feature, trait, model)
    return None
