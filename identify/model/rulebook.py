"""Everything in `rules/`, validated: errors, prevalence, limits, questions, expert rules."""

from identify.frozen import dataclass
from identify.light import Iterator, Sequence, cached_property
from identify.model.catalogue import column
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.observation import ObservationModel, PriorTable, VerdictLimits
from identify.model.observer import ObserverTable
from identify.model.rule import Caution, ExpertRule, LookalikeNote, Moment, QuestionText, names_of
from identify.model.source import Source


@dataclass(frozen=True)
class RuleBook:
    """All knowledge that is not a dimension; `sources` are those that only rules cite."""

    observation: ObservationModel
    priors: PriorTable
    limits: VerdictLimits
    questions: Sequence[QuestionText]
    rules: Sequence[ExpertRule]
    lookalikes: Sequence[LookalikeNote]
    cautions: Sequence[Caution]
    people: ObserverTable
    sources: Sequence[Source] = ()

    def question(self, feature: Feature) -> QuestionText | None:
        """Return how a feature is asked for, None if it is not."""
        asked = column(self.questions, "feature")
        return self.questions[asked.index(feature)] if feature in asked else None

    def notes_on(self, first: EndConnection, second: EndConnection) -> Iterator[LookalikeNote]:
        """Yield what is written down about taking two ends for each other, either way round."""
        pairs = ((one, other) for one in names_of(first) for other in names_of(second))
        found = {at for pair in pairs for at in self._noted.get(pair, ())}
        return (self.lookalikes[at] for at in sorted(found))

    @cached_property
    def _noted(self) -> dict[tuple[str, str], list[int]]:
        """Places of the notes by the names that they are on, either way round."""
        found: dict[tuple[str, str], list[int]] = {}
        names = zip(column(self.lookalikes, "a"), column(self.lookalikes, "b"), strict=True)
        for at, (a, b) in enumerate(names):
            for pair in ((a, b), (b, a)):
                found.setdefault(pair, []).append(at)
        return found

    def cautions_at(self, *moments: Moment) -> tuple[str, ...]:
        """Return the standing cautions of any of these moments."""
        every = enumerate(column(self.cautions, "when"))
        return tuple(self.cautions[at].sentence for at, when in every if {*moments} & {*when})
