"""What many measurements would tell, by numpy: see `question.Chooser`, whose choice it makes."""

from __future__ import annotations

from functools import lru_cache
from itertools import chain, islice
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
from identify.reasoning.question import Chooser
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from identify.model.observation import PriorTable, VerdictLimits
    from identify.model.reading import Reading
    from identify.model.rule import QuestionText
    from identify.reasoning.answers_again import LengthAgain
    from identify.reasoning.hypotheses import Hypotheses
    from identify.reasoning.openings import Wish

Floats = Any  # arrays
Asked = tuple["Wish", list[int]]
"""A wish, and the numbers of the traits that are likely enough to count."""
LENGTHS = frozenset(each for each, info in FEATURES.items() if info.kind is Kind.LENGTH)
_CALLED = -1  # in the place of how often a length was read
REMEMBERED = 4096  # readings of which is kept what they may be once more


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
        self._once_more = lru_cache(maxsize=REMEMBERED)(self._reread)
        self._shelf = Shelf()
        self._put: dict[tuple[Any, ...], dict[int, int]] = {}
        self._shapes: dict[tuple[Feature, How], Shapes] = {}
        self._calls = CalledRows()

    def gains(self, wishes: Sequence[Sequence[Wish]]) -> list[Iterable[float]]:
        """Return what is wished for [bits], all worked out together; see `Chooser.gain`."""
        told = iter(self._gains(wish for several in wishes for wish in several))
        return [list(islice(told, len(several))) for several in wishes]

    def _gains(self, wishes: Iterable[Wish]) -> list[float]:
        likely: dict[int, tuple[list[int], list[float]]] = {}  # several tools ask about one mass
        sorts: dict[int, list[Asked]] = {}
        places: dict[int, list[int]] = {}
        weights: dict[int, list[float]] = {}
        count = 0
        for place, wish in enumerate(wishes):
            count += 1
            known = likely.get(id(wish.mass))
            if known is None:
                known = likely[id(wish.mass)] = _likely(wish.mass)
            if len(known[0]) > 1:
                before = wish.before
                sort = len(before) if not before or wish.feature in LENGTHS else _CALLED
                if sort not in sorts:
                    sorts[sort], places[sort], weights[sort] = [], [], []
                sorts[sort].append((wish, known[0]))
                places[sort].append(place)
                weights[sort] += known[1]
        found = [0.0] * count
        if not sorts:
            return found
        rows = joined([self._rows(sort, asked) for sort, asked in sorts.items()])
        of = [len(kinds) for asked in sorts.values() for _, kinds in asked]
        every: Floats = np.array([each for several in weights.values() for each in several])
        bits = informed(rows, every, np.arange(len(of)).repeat(of), len(of)).tolist()
        for place, each in zip(chain(*places.values()), bits, strict=True):
            found[place] = each
        return found

    def _rows(self, sort: int, asked: Sequence[Asked]) -> Rows:
        """Return the answers expected of every trait of some wishes of one sort."""
        if sort == 0:
            return self._shelf.rows([at for wish, kinds in asked for at in self._at(wish, kinds)])
        again: Any = [self._once_more(wish.feature, wish.how, *wish[3:6]) for wish, _ in asked]
        traits = [self.space.spread(wish.feature).traits for wish, _ in asked]
        each_of = zip(again, traits, (kinds for _, kinds in asked), strict=True)
        if sort == _CALLED:
            return self._calls.rows(list(each_of))
        return read_again(
            [
                (self._shapes_of(each), each, [traits[kind] for kind in kinds])
                for each, traits, kinds in each_of
            ]
        )

    def _at(self, wish: Wish, kinds: Sequence[int]) -> list[int]:
        """Return where the answers expected at first stand on the shelf."""
        gauges = wish.gauges if wish.feature is Feature.PITCH else GAUGES
        measured = wish.feature, wish.how, gauges
        known = self._put.setdefault((*measured, wish.known), {})
        try:
            return [known[kind] for kind in kinds]
        except KeyError:
            part = wish.known
            for kind in kinds:
                if kind not in known:
                    told = self._tried(*part, kind) if part else self._foreseen(*measured, kind)
                    known[kind] = self._shelf.put(told)
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


def _likely(mass: Mapping[int, float]) -> tuple[list[int], list[float]]:
    """Return the traits that count, with their probability."""
    kinds, weights = list(mass), list(mass.values())
    if weights and min(weights) <= TRIFLE:
        kinds = [kind for kind, weight in mass.items() if weight > TRIFLE]
        weights = [weight for weight in weights if weight > TRIFLE]
    return kinds, weights
