"""Everything in `rules/`, validated: errors, prevalence, limits, questions, expert rules."""

from identify.frozen import dataclass
from identify.model.feature import Feature
from identify.model.observation import ObservationModel, PriorTable, VerdictLimits
from identify.model.observer import ObserverTable
from identify.model.rule import Caution, ExpertRule, LookalikeNote, Moment, QuestionText
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

    def question(self, feature: Feature) -> QuestionText | None:
        """Return how a feature is asked for, None if it is not."""
        return next((text for text in self.questions if text.feature is feature), None)

    def cautions_at(self, *moments: Moment) -> tuple[str, ...]:
        """Return the standing cautions of any of these moments."""
        return tuple(each.sentence for each in self.cautions if {*moments} & {*each.when})
