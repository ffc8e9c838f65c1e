"""Everything in `rules/`, validated: errors, prevalence, limits, questions, expert rules."""

from dataclasses import dataclass

from identify.model.observation import ObservationModel, PriorTable, VerdictLimits
from identify.model.observer import ObserverTable
from identify.model.rule import Caution, ExpertRule, LookalikeNote, QuestionText
from identify.model.source import Source


@dataclass(frozen=True, slots=True)
class RuleBook:
    """All knowledge that is not a dimension; `sources` are those that only rules cite."""

    observation: ObservationModel
    priors: PriorTable
    limits: VerdictLimits
    questions: tuple[QuestionText, ...]
    rules: tuple[ExpertRule, ...]
    lookalikes: tuple[LookalikeNote, ...]
    cautions: tuple[Caution, ...]
    people: ObserverTable
    sources: tuple[Source, ...] = ()
