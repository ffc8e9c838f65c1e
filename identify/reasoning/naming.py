"""When an answer is called by its name: probability, risk, readings that would be wrong, rules."""

from identify.frozen import replace
from identify.light import Iterable, Sequence
from identify.model.feature import CLUES, SPACINGS, Feature
from identify.model.reading import Reading
from identify.model.rulebook import RuleBook
from identify.model.source import Confidence
from identify.model.verdict import Effect, VerdictKind, Warning
from identify.reasoning.conditions import Facts
from identify.reasoning.expert import Met, warned
from identify.reasoning.posterior import DIGITS, Posterior, evidence, sharpest
from identify.reasoning.risk import Risk
from identify.reasoning.suspects import contradicting

Group = tuple[int, float, tuple[int, ...]]  # row, probability of the group, the other rows

_NO_FIGURE = frozenset(CLUES) | {Feature.GENDER}
_THIN = (
    "Its row in the tables has weak support and one reading alone fits it. Measure another part "
    "of the end, or compare it with a known one."
)


def settle(
    state: Posterior, groups: Sequence[Group], book: RuleBook, risk: Risk | None, met: Met
) -> tuple[VerdictKind, tuple[Warning, ...], str]:
    """Return the verdict, the rules that fire, and what one of them asks for before a name.

    Args:
        state: What is known.
        groups: Leading answers, as `Engine.groups` returns them.
        book: Limits and rules.
        risk: What it costs to be wrong, None if that is not known.
        met: Tells which rules hold.
    """
    kind = kind_of(state, groups, book, risk)
    warnings = warned(met(facts := facts_of(state, groups, kind)), facts)
    first = ""
    if kind is VerdictKind.IDENTIFIED:
        first = _asked_first(warnings, state.readings) or _thin(state, groups[0][0])
    if first:  # seldom
        kind = VerdictKind.SHORTLIST
        warnings = warned(met(facts := replace(facts, verdict=kind)), facts)
    return kind, warnings, first


def kind_told(
    state: Posterior, groups: Sequence[Group], book: RuleBook, risk: Risk | None, met: Met
) -> VerdictKind:
    """Return the verdict alone: only an end that would be named needs to pass the rules.

    Of the rules that hold `met` need not tell more than those that ask before a name.
    """
    kind = kind_of(state, groups, book, risk)
    if kind is not VerdictKind.IDENTIFIED:
        return kind
    facts = facts_of(state, groups, kind)
    open_ = any(
        rule.effect is Effect.ASK_FIRST and rule.ask not in facts.readings for rule in met(facts)
    )
    return VerdictKind.SHORTLIST if open_ or _thin(state, groups[0][0]) else kind


def kind_of(
    state: Posterior, groups: Sequence[Group], book: RuleBook, risk: Risk | None
) -> VerdictKind:
    """Name the verdict by probability and risk, before the rules have spoken."""
    limits = book.limits
    if not groups or state.none_of_these >= max(limits.abstain, groups[0][1]):
        return VerdictKind.ABSTAIN
    if groups[0][1] < limits.identified:
        return VerdictKind.SHORTLIST
    if risk is not None and _risky(state, groups[0], risk, limits.risk):
        return VerdictKind.SHORTLIST
    if contradicting(state, groups[0][0], limits.suspect):
        return VerdictKind.SHORTLIST
    return VerdictKind.IDENTIFIED


def rivals(
    state: Posterior, group: Group, risk: Risk, standing: Iterable[tuple[int, float]]
) -> list[tuple[float, int]]:
    """Return risk and row of the dangerous lookalikes of an answer among rows, greatest first."""
    head, _, joined = group
    same, ends = {head, *joined}, state.space.ends
    found = [
        (p * risk.weight(ends[row], ends[head]), row) for row, p in standing if row not in same
    ]
    grave = (pair for pair in found if pair[0] > 0)
    return sorted(grave, key=lambda pair: (round(pair[0], DIGITS), pair[1]), reverse=True)


def _risky(state: Posterior, group: Group, risk: Risk, most: float) -> bool:
    """Tell whether the lookalikes of an answer weigh more than `most`.

    The likeliest first, and no more of them than settle it: none weighs more than it stands.
    """
    head, share, joined = group
    if 1.0 - state.none_of_these - share <= most:
        return False
    same, ends = {head, *joined}, state.space.ends
    others = [pair for pair in state.standing if pair[0] not in same]
    found, left = 0.0, sum([p for _, p in others])
    for row, p in others:
        if found > most or found + left <= most:
            break
        found += p * risk.weight(ends[row], ends[head])
        left -= p
    return found > most


def _thin(state: Posterior, row: int) -> str:
    """Return what is wanted before a row of low confidence is named, empty if nothing.

    Such a row may itself be wrong in one figure, so one figure that fits is no proof of it.
    """
    if state.space.ends[row].confidence is not Confidence.LOW:
        return ""
    for_it = {
        SPACINGS[0] if each.feature in SPACINGS else each.feature  # one of a square flange
        for each in evidence(state, row)
        if each.side > 0 and each.feature not in _NO_FIGURE
    }
    return "" if len(for_it) > 1 else _THIN


def _asked_first(warnings: tuple[Warning, ...], readings: Sequence[Reading]) -> str:
    """Return what experience asks for before anything is named, empty if that was read."""
    read = {reading.feature for reading in readings}
    asked = (each for each in warnings if each.effect is Effect.ASK_FIRST)
    return next((each.sentence for each in asked if each.ask not in read), "")


def facts_of(state: Posterior, groups: Sequence[Group], kind: VerdictKind) -> Facts:
    """Return what the rules look at; the first row of the leading answer stands first."""
    names, of, _ = state.space.families
    lead = groups[0][0] if groups else None
    living = state.standing
    if lead is not None and living[0][0] != lead:
        living = [(lead, state.rows[lead]), *(pair for pair in living if pair[0] != lead)]
    readings = {each.feature: sharpest(each.readings) for each in state.weighed}
    families = [names[of[row]] for row, _ in living]
    return Facts(readings, state.space.ends, living, families, state.none_of_these, kind)
