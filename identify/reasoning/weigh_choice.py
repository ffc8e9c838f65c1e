"""One answer of several, by eye: what it weighs, which to expect."""

from identify.model.feature import FEATURES, Feature, agrees
from identify.model.observation import ObservationModel
from identify.reasoning.answers import Answers, answers_called
from identify.reasoning.traits import UNKNOWN, Missing, OneOf, Share, ThreadTaper, Trait, Word
from identify.reasoning.weight import Weight, misfit

LEAST_CHANCE = 1e-4  # so that no answer rules anything out


def weigh_choice(feature: Feature, word: str, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh an answer: the chance that it is given of what is there."""
    reports = model.reports[feature]
    match trait:
        case Missing():
            told = {} if trait is UNKNOWN else reports.get(trait.value, {})
            chance = told.get(word, 1 / len(FEATURES[feature].choices))
        case Word(name):
            chance = reports[name][word]
        case OneOf(names):
            chance = sum(reports[name][word] for name in names) / len(names)
        case ThreadTaper():
            chance = reports[trait.word][word]
        case Share(share):
            yes, no = FEATURES[feature].shown_or_not
            chance = share * reports[yes][word] + (1 - share) * reports[no][word]
        case _:
            raise misfit(feature, trait)
    chance = max(chance, LEAST_CHANCE)
    rare = chance <= model.rare_report and trait is not UNKNOWN
    if feature is Feature.GENDER and isinstance(trait, Word):
        rare = rare and not agrees(word, trait.name)  # a vague answer is no mistake
    return Weight(chance, chance if rare else 0.0)


def answers_choice(feature: Feature, trait: Trait, model: ObservationModel) -> Answers | None:
    """Return how often each answer of the feature is expected, None where it is not known."""
    if isinstance(trait, Missing):
        return None
    words = FEATURES[feature].choices
    return answers_called(weigh_choice(feature, word, trait, model).likelihood for word in words)
