"""What many measurements would tell, by numpy: see `question.Chooser`, whose choice it makes."""

from __future__ import annotations

from functools import lru_cache
from itertools import islice
from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.reasoning.again_arrays import LengthAgainArrays, read_again
from identify.reasoning.answers import TRIFLE
from identify.reasoning.arrays import ArrayPosterior
from identify.reasoning.called_arrays import CalledRows
from identify.reasoning.information_arrays import Rows, Shelf, informed, joined
from identify.reasoning.length_shapes import Shapes
from identify.reasoning.openings import Opening, Openings
from identify.reasoning.posterior import ROUNDING, Posterior
from identify.reasoning.question import Chooser, least_of, may_read
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from identify.model.observation import PriorTable, VerdictLimits
    from identify.model.reading import Reading
    from identify.model.rule import Access, QuestionText, Tool
    from identify.reasoning.answers_again import LengthAgain
    from identify.reasoning.hypotheses import Hypotheses
    from identify.reasoning.openings import Wish

Floats = Any  # arrays
Asked = tuple["Wish", list[int]]
"""A wish, and the numbers of the traits that are likely enough to count."""


REMEMBERED = 4096  # readings of which is kept what they may be once more


class Laid(NamedTuple):
    """What can be asked for with some tools: tools by feature; by place the share who can answer.

    `may_ask` tells at which places is what can be measured.
    """

    at_hand: dict[Feature, tuple[Tool, ...]]
    share: Floats
    may_ask: Floats


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
        self._features = tuple(self.questions)
        self._place = {feature: place for place, feature in enumerate(self._features)}
        self._laid = lru_cache(maxsize=64)(self._lay_out)
        self._given_up = lru_cache(maxsize=64)(self._lie)
        self._once_more = lru_cache(maxsize=REMEMBERED)(self._reread)
        self._shelf = Shelf()
        self._put: dict[tuple[Any, ...], dict[int, int]] = {}
        self._shapes: dict[tuple[Feature, How], Shapes] = {}
        self._calls = CalledRows()

    def openings(
        self,
        state: Posterior,
        given_up: Collection[Feature],
        tools: Collection[Tool],
        access: Access,
        needed: Collection[Feature] = (),
        put_off: Collection[Feature] = (),
        asked: Collection[Feature | None] = (),
    ) -> Openings:
        """Return the measurements that may be worth making; see `Chooser.openings`."""
        if put_off or not isinstance(state, ArrayPosterior):
            return super().openings(state, given_up, tools, access, needed, put_off, asked)
        laid = self._laid(frozenset(tools), access)
        found, least = state.open(self._features, least_of(state)), self.limits.worth_bits
        usual = max(least, self.limits.worth_share * found.whole)
        read = {each.feature: each.readings for each in state.weighed}
        if not needed and found.whole * ROUNDING < least:
            return Openings(
                (), self._wishes, self._offer, read
            )  # nothing tells more than there is to be told
        share, may_ask = laid.share.copy(), laid.may_ask & ~self._given_up(frozenset(given_up))
        worth: Floats = np.full(len(share), usual)
        for feature in asked:
            if feature:
                worth[self._place[feature]] = least
        for feature in needed:
            if feature not in read:
                worth[self._place[feature]] = 0.0
        for feature, before in read.items():
            place = self._place.get(feature)
            if place is not None:
                share[place] = 1.0
                may_ask[place] &= may_read(feature, before, late=False)
        most = share * found.bits
        gauges = GAUGES.intersection(tools)
        return Openings(
            [
                Opening(
                    self.questions[feature := self._features[place]],
                    found.mass(place),
                    share=float(share[place]),
                    worth=float(worth[place]),
                    tools=laid.at_hand[feature],
                    most=float(most[place]),
                    gauges=gauges,
                    before=read.get(feature, ()),
                    put_off=False,
                )
                for place in ((most >= worth) & may_ask).nonzero()[0].tolist()
            ],
            self._wishes,
            self._offer,
            read,
        )

    def _lay_out(self, tools: frozenset[Tool], access: Access) -> Laid:
        at_hand = dict(self._askable(tools, access))
        answered = [self.answered.get(feature, 1.0) for feature in self._features]
        return Laid(
            at_hand, np.array(answered), np.array([each in at_hand for each in self._features])
        )

    def _lie(self, features: frozenset[Feature]) -> Floats:
        return np.array([each in features for each in self._features])

    def gains(self, wishes: Sequence[Sequence[Wish]]) -> list[Iterable[float]]:
        """Return what is wished for [bits], all worked out together; see `Chooser.gain`."""
        told = iter(self._gains(wish for several in wishes for wish in several))
        return [list(islice(told, len(several))) for several in wishes]

    def _gains(self, wishes: Iterable[Wish]) -> list[float]:
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
            again: Any = self._once_more(wish.feature, wish.how, *wish[3:6])
            told.append((again, [traits[kind] for kind in kinds]))
        if sort == _CALLED:
            return self._calls.rows(told)
        return read_again([(self._shapes_of(each), each, traits) for each, traits in told])

    def _at(self, wish: Wish, kinds: Sequence[int]) -> list[int]:
        """Return where the answers expected at first stand on the shelf."""
        gauges = wish.gauges if wish.feature is Feature.PITCH else GAUGES
        measured = wish.feature, wish.how, gauges
        known = self._put.setdefault((*measured, wish.known), {})
        for kind in kinds:
            if kind not in known:
                part = wish.known
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


_FIRST, _CALLED = 0, -1


def _sort(wish: Wish) -> int:
    """Return what wishes have in common that are worked out together: how often it was read."""
    if wish.before and FEATURES[wish.feature].kind is not Kind.LENGTH:
        return _CALLED
    return len(wish.before)
