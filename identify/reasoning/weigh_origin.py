"""Where a machine comes from: a prior by region, never proof. What it weighs, what to expect."""

from identify.model.feature import FEATURES, Feature
from identify.model.observation import ObservationModel, PriorTable
from identify.reasoning.answers import Answers, answers_called
from identify.reasoning.traits import Missing, Trait, Word
from identify.reasoning.weight import Weight, misfit

NOT_KNOWN = "unknown"


def weigh_origin(word: str, trait: Trait, priors: PriorTable) -> Weight:
    """Weigh an origin by how much commoner the family is there than everywhere together."""
    if isinstance(trait, Missing):
        return Weight(1.0, 0.0)
    if not isinstance(trait, Word):
        raise misfit(Feature.ORIGIN, trait)
    return Weight(priors.regions.get(word, {}).get(trait.name, 1.0), 0.0)


def answers_origin(trait: Trait, model: ObservationModel, priors: PriorTable) -> Answers:
    """Return how often each origin is expected of a family, all origins being equally common.

    The factors by region are stated one by one and do not average to 1 over the regions, so these
    chances are in proportion to `weigh_origin` only within a family: what is expected of the
    question is nearly, not exactly, what its answers tell.
    """
    words = [word for word in FEATURES[Feature.ORIGIN].choices if word != NOT_KNOWN]
    factors = [weigh_origin(word, trait, priors).likelihood for word in words]
    told = (1 - model.origin_unknown) / sum(factors)
    return answers_called([*(factor * told for factor in factors), model.origin_unknown])
