"""Marks stamped on an end: what one weighs."""

from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Marking
from identify.reasoning.traits import Marks, Trait
from identify.reasoning.weight import Weight, misfit


def weigh_marking(value: Marking, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a mark: the chance that it is found on an end that would bear it, or would not.

    No answers are foreseen: what is stamped on ends has no list. A rule or the person brings marks
    up, not the expected information.
    """
    if not isinstance(trait, Marks):
        raise misfit(Feature.MARKING, trait)
    from identify.reading.names import name_key  # marks are seldom read

    own = name_key(value.text) in trait.keys
    return Weight(model.mark_right if own else model.mark_other, 0.0)
