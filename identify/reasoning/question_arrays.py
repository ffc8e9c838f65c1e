"""What many measurements would tell, by numpy: see `question.Chooser`, whose choice it makes."""

from __future__ import annotations

from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.reasoning.again_arrays import LengthAgainArrays, read_again
from identify.reasoning.answers import TRIFLE
from identify.reasoning.called_arrays import CalledRows
from identify.reasoning.information_arrays import Rows, Shelf, informed, joined
from identify.reasoning.length_shapes import Shapes
from identify.reasoning.question import Chooser, Measured
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from identify.model.observation import PriorTable, VerdictLimits
    from identify.model.reading import Reading
    from identify.model.rule import QuestionText
    from identify.reasoning.answers_again import LengthAgain
    from identify.reasoning.hypotheses import Hypotheses
    from identify.reasoning.openings import Wish

Floats = Any  # arrays
Asked = tuple["Wish", list[int]]
"""A wish, and the numbers of the traits that are likely enough to count."""


class ArrayChooser(Chooser):
    """Works out together what many measurements would tell."""

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        questions: Sequence[QuestionText],
        limits: VerdictLimits,
    ) -> None:
        super().__init__(space, priors, questions, limits)
        self.questions = dict(self.questions)  # so many are asked that all are
        self._shelf = Shelf()
        self._put: dict[Measured, dict[int, int]] = {}
        self._shapes: dict[tuple[Feature, How], Shapes] = {}
        self._calls = CalledRows()

    def gains(self, wishes: Iterable[Wish]) -> list[float]:
        """Return what is wished for [bits]; see `Chooser.gain`."""
        sorts: dict[int, list[tuple[int, Asked]]] = {}
        weights: dict[int, list[float]] = {}
        count = 0
        for place, wish in enumerate(wishes):
            count += 1
            kinds = [kind for kind, weight in wish.mass.items() if weight > TRIFLE]
            if len(kinds) > 1:
                sort = _sort(wish)
                sorts.setdefault(sort, []).append((place, (wish, kinds)))
                weights.setdefault(sort, []).extend([wish.mass[kind] for kind in kinds])
        if not sorts:
            return [0.0] * count
        rows, of, places = [], [], []
        for sort, asked in sorts.items():
            rows.append(self._rows(sort, [each for _, each in asked]))
            of += [len(kinds) for _, (_, kinds) in asked]
            places += [place for place, _ in asked]
        every: Floats = np.array([each for sort in sorts for each in weights[sort]])
        number = np.arange(len(of)).repeat(of)
        found = [0.0] * count
        bits = informed(joined(rows), every, number, len(of))
        for place, each in zip(places, bits.tolist(), strict=True):
            found[place] = each
        return found

    def _rows(self, sort: int, asked: Sequence[Asked]) -> Rows:
        """Return the answers expected of every trait of some wishes of one sort."""
        if sort == _FIRST:
            return self._shelf.rows([at for wish, kinds in asked for at in self._at(wish, kinds)])
        told = []
        for wish, kinds in asked:
            traits = self.space.spread(wish.feature).traits
            again: Any = self._once_more(wish.feature, wish.how, *wish[3:])
            told.append((again, [traits[kind] for kind in kinds]))
        if sort == _CALLED:
            return self._calls.rows(told)
        return read_again([(self._shapes_of(each), each, traits) for each, traits in told])

    def _at(self, wish: Wish, kinds: Sequence[int]) -> list[int]:
        """Return where the answers expected at first stand on the shelf."""
        gauges = wish.gauges if wish.feature is Feature.PITCH else GAUGES
        measured = wish.feature, wish.how, gauges
        known = self._put.setdefault(measured, {})
        for kind in kinds:
            if kind not in known:
                known[kind] = self._shelf.put(self._foreseen(*measured, kind))
        return [known[kind] for kind in kinds]

    def _shapes_of(self, again: LengthAgain) -> Shapes:
        key = again.feature, again.how
        if key not in self._shapes:
            self._shapes[key] = Shapes(*key, self.space.model)
        return self._shapes[key]

    def _length_again(
        self, feature: Feature, how: How, before: tuple[Reading, ...], other_person: bool
    ) -> LengthAgain:
        model = self.space.model
        return LengthAgainArrays(feature, how, model, before, other_person=other_person)


_FIRST, _CALLED = 0, -1


def _sort(wish: Wish) -> int:
    """Return what wishes have in common that are worked out together: how often it was read."""
    if wish.before and FEATURES[wish.feature].kind is not Kind.LENGTH:
        return _CALLED
    return len(wish.before)
