"""Learning from the shop: what was fitted here weighs a little more, and every answer says so.

An end counts that was identified, made and fitted; one that came back counts for nothing. The
prior odds of a row grow with the number fitted, to twice at most: a shop that sees one end daily
is helped to put it first, and never told that the others do not exist. Four things hold whatever
was fitted (`tests/reasoning/test_learnt.py`): odds move by no more than `MOST`; no candidate that
would be shown is pushed out; nothing is named that the readings alone do not name, nor denied; no
warning is lost. Claims are held against the readings alone, and a kept verdict rests on them alone.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from identify.frozen import TYPE_CHECKING, replace
from identify.model.learnt import Fitted, Learnt, Moved
from identify.model.reading import Reading
from identify.model.verdict import Danger, Ranked, Verdict, VerdictKind, Warning, percent
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.naming import Group
from identify.reasoning.posterior import Posterior, rows_of, standing_in

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

MOST = 2.0  # times the odds of a row grow at most; judgement
HALF = 20  # fitted ends that give half of that growth; judgement
STRENGTHS = (1.0, 0.75, 0.5, 0.25, 0.1)  # tried in that order until no candidate is pushed out
SHOWN, SHOWN_FROM = 8, 0.005  # candidates of a ranking, and from which probability one is listed
_CAUTION = (VerdictKind.IDENTIFIED, VerdictKind.SHORTLIST, VerdictKind.ABSTAIN)


def factor(count: int) -> float:
    """Return how many times the odds of a row grow of which so many were fitted: 1 to `MOST`."""
    return 1 + (MOST - 1) * count / (count + HALF)


def moved(state: Posterior, factors: Mapping[int, float], strength: float) -> Posterior:
    """Return a posterior as it is when the prior of some rows is multiplied.

    Args:
        state: Without it.
        factors: By number of the row.
        strength: Power to which they are taken, 0 for not at all.
    """
    space = state.space
    raw = [
        weight * factors[row] ** strength if row in factors else weight
        for row, weight in zip(space.rows, state.weights, strict=True)
    ]
    total = sum(raw)
    weights = [weight / total for weight in raw]
    rows = rows_of(weights, space)
    none = sum(weights[space.listed :])
    standing = standing_in(rows, space)
    return Posterior(space, state.readings, weights, rows, none, standing, state.weighed)


class LearntEngine(Engine):
    """An engine that lets what was fitted weigh in.

    Args:
        plain: The engine of the readings alone; all but the prior is shared with it.
        shop: What was fitted, by id of the end.
    """

    def __init__(self, plain: Engine, shop: Mapping[str, Fitted]) -> None:
        vars(self).update(vars(plain))
        self.plain, self.shop = plain, shop
        numbers = self.catalogue.row_of
        self.factors = {
            numbers[name]: factor(each.count) for name, each in shop.items() if name in numbers
        }
        self._others: dict[str, LearntEngine] = {plain.care: self}

    def measured_by(self, care: str) -> Engine:
        """Return the engine for readings of one kind of person, which has learnt the same."""
        if care not in self._others:
            self._others[care] = LearntEngine(self.plain.measured_by(care), self.shop)
        return self._others[care]

    def posterior(self, readings: Sequence[Reading]) -> Posterior:
        """Return the posterior, moved as far as no candidate that is shown is pushed out."""
        plain = self.plain.posterior(readings)
        if not self.factors or not readings:
            return plain
        shown = [group for group in self.groups(plain, SHOWN) if group[1] >= SHOWN_FROM]
        for strength in STRENGTHS:
            found = moved(plain, self.factors, strength)
            if self._all_shown(shown, self.groups(found, SHOWN)):
                return found
        return plain

    def settle(
        self, state: Posterior, groups: Sequence[Group]
    ) -> tuple[VerdictKind, tuple[Warning, ...], str]:
        """Return the more cautious of what the moved state and the plain one lead to."""
        kind, warnings, first = super().settle(state, groups)
        plain = self.plain.posterior(state.readings)
        before, told, asked = self.plain.settle(plain, self.groups(plain, len(groups)))
        rules = {each.rule for each in warnings}
        both = (*warnings, *(each for each in told if each.rule not in rules))
        return max(kind, before, key=_CAUTION.index), both, first or asked

    def concluding(
        self, readings: Sequence[Reading], state: Posterior, situation: Situation, limit: int
    ) -> Steps[Verdict]:
        """Return the verdict, with what was learnt said in its sentence, in steps."""
        before = self.plain.posterior(readings)
        plain = yield from self.plain.concluding(readings, before, situation, limit)
        if not readings:
            return plain
        found = yield from super().concluding(readings, state, situation, limit)
        learnt = tuple(each for ranked in found.ranking if (each := self._moved(ranked, before)))
        lead = found.ranking[0] if found.ranking else None
        own = {each.id for each in (lead.end, *lead.others)} if lead else set()
        listed = found.kind is VerdictKind.SHORTLIST
        return replace(
            found,
            sentence=f"{found.sentence} {learnt_words(learnt)}",
            dangers=_with(found.dangers, plain.dangers, own),
            beside=_with(found.beside, plain.beside, own) if listed else (),
            learnt=Learnt(learnt, plain),
        )

    def _moved(self, ranked: Ranked, before: Posterior) -> Moved | None:
        """Return how far an answer was moved, None where no end of it was fitted here."""
        ends = (ranked.end, *ranked.others)
        found = [self.shop[each.id] for each in ends if each.id in self.shop]
        if not found:
            return None
        fitted = Fitted(sum(each.count for each in found), max(each.last for each in found))
        numbers = self.catalogue.row_of
        chance = sum(before.rows[numbers[each.id]] for each in ends)
        return Moved(ranked.end, fitted, chance, ranked.probability)

    def _all_shown(self, before: Sequence[Group], after: Sequence[Group]) -> bool:
        """Tell whether every answer is still among those that are listed."""
        listed = {row for head, p, more in after if p >= SHOWN_FROM for row in (head, *more)}
        return all(head in listed for head, _, _ in before)


def by_readings_alone(engine: Engine, verdict: Verdict) -> tuple[Engine, Verdict]:
    """Return engine and verdict without what was learnt."""
    if isinstance(engine, LearntEngine) and verdict.learnt:
        return engine.plain, verdict.learnt.plain
    return engine, verdict


def learnt_words(learnt: Collection[Moved]) -> str:
    """Return what was learnt and how far it moved the answer."""
    told = [
        f"{each.end.named} was fitted {_times(each.fitted.count)}, last on {each.fitted.last}, "
        f"which moved it from {percent(each.before)} to {percent(each.after)}"
        for each in learnt
        if percent(each.before) != percent(each.after)
    ]
    if not told:
        return "Learnt in this shop: nothing that moves this answer."
    return f"Learnt in this shop: {'; '.join(told)}."


def _times(count: int) -> str:
    return "once" if count == 1 else f"{count} times"


def _with(
    found: tuple[Danger, ...], plain: tuple[Danger, ...], own: Collection[str]
) -> tuple[Danger, ...]:
    """Return what a verdict warns of, and behind it what only the plain one does."""
    ends = {*own, *(each.end.id for each in found)}
    return (*found, *(each for each in plain if each.end.id not in ends))
