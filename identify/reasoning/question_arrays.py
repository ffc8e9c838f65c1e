"""The next question by numpy: see `question.Chooser`, whose choice it makes."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from identify.model.feature import Feature
from identify.model.observation import PriorTable, VerdictLimits
from identify.model.reading import How, Reading
from identify.model.rule import QuestionText, Tool
from identify.reasoning.again_arrays import LengthAgainArrays
from identify.reasoning.answers import Answers
from identify.reasoning.answers_again import LengthAgain
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.information_arrays import informed
from identify.reasoning.question import Chooser


class ArrayChooser(Chooser):
    """Keeps expected answers as arrays, and sums over them."""

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        questions: Sequence[QuestionText],
        limits: VerdictLimits,
    ) -> None:
        super().__init__(space, priors, questions, limits)
        self.information = informed
        self.questions = dict(self.questions)  # so many are asked that all are

    def _foreseen(
        self, feature: Feature, how: How, gauges: frozenset[Tool], kind: int
    ) -> Answers | None:
        found = super()._foreseen(feature, how, gauges, kind)
        if found is None:
            return None
        chances: Any = np.array(found.chances)
        return found._replace(chances=memoryview(chances))

    def _length_again(
        self, feature: Feature, how: How, before: tuple[Reading, ...], other_person: bool
    ) -> LengthAgain:
        model = self.space.model
        return LengthAgainArrays(feature, how, model, before, other_person=other_person)
