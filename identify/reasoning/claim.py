"""Hold a claim against readings: does it stand, which part of it, what speaks against it.

A claim names a set of ends. It is weighed as a set: where the readings leave only ends of the set,
it stands, however many of them are left. All it says of the readings it takes from the verdict on
them, so that a claim and a ranking never tell two stories. Refuted needs two things: next to no
probability left, and readings that fit another end far better. A set that is merely rare, or one of
many that fit alike, is doubtful and not refuted.
"""

import math
from collections.abc import Iterable, Sequence

from identify.model.claim import Against, Claim, Said, Standing
from identify.model.feature import CLUES
from identify.model.verdict import Danger, Ranked, Verdict, VerdictKind
from identify.reading.names import understand
from identify.reasoning.check import best_check
from identify.reasoning.claim_parts import parts_of
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.hazards import Hazards
from identify.reasoning.interchange import GATHERED
from identify.reasoning.learnt import by_readings_alone
from identify.reasoning.naming import Group, kind_of
from identify.reasoning.posterior import LEAST, Posterior, order
from identify.reasoning.risk import Risk

SHOWN_RIVALS = 8


def hold(engine: Engine, said: Said, verdict: Verdict, situation: Situation | None = None) -> Claim:
    """Return whether a claim stands against the readings of a verdict.

    Args:
        engine: Tables and rules.
        said: The claim; its words name one or more ends.
        verdict: What the engine concluded from the readings.
        situation: Tools and access, for the check that would tell.

    Raises:
        UnknownEndError: The words name no end.
        ReadingError: They are empty, overlong or cannot be printed.
    """
    engine, verdict = by_readings_alone(engine, verdict)
    ends, limits = understand(engine.catalogue, said.words).ends, engine.book.limits
    state = engine.posterior(verdict.readings)
    numbers = engine.catalogue.row_of
    rows = {numbers[end.id] for end in ends}
    groups = engine.groups(state, max(GATHERED, len(verdict.ranking)))  # as it has them
    best = min(rows, key=lambda row: order(state.rows[row], engine.catalogue.ends[row].id))
    own = _answer(engine, state, groups, best)
    same = rows.union(own, *({head, *more} for head, _, more in groups if rows & {head, *more}))
    chance = sum(state.rows[row] for row in same)
    whole = sum(state.rows[row] for row in own)
    (claimed,) = engine.ranked(state, [(best, whole, _rest(own, best))])
    lead = verdict.ranking[0] if verdict.ranking else None
    leader = None if lead is None or numbers[lead.end.id] in same else lead
    against = _against(claimed, leader, limits.against)
    group = best, chance, _rest(same, best)
    standing = _standing(
        engine, state, verdict, group, leader, _worse(claimed, leader, limits.against)
    )
    found = (each for each in verdict.ranking if each.probability >= limits.standing)
    left = tuple(each for each in found if numbers[each.end.id] in same)
    check = verdict.question if standing is Standing.STANDS and len(left) > 1 else None
    if standing is Standing.DOUBTFUL:
        check = best_check(engine, state, same, situation or Situation(), clues=not against)
    return Claim(
        said=said,
        ends=ends,
        standing=standing,
        probability=chance,
        parts=tuple(parts_of(state, ends, limits)),
        claimed=claimed,
        open=left if len(left) > 1 else (),
        against=against,
        rivals=_rivals(engine, state, groups, best, same),
        leader=leader,
        none_of_these=verdict.none_of_these,
        suspects=verdict.suspects,
        check=check,
    )


def _answer(engine: Engine, state: Posterior, groups: Iterable[Group], row: int) -> set[int]:
    """Return the rows of the answer that a row belongs to, as a ranking gathers them."""
    for head, _, joined in groups:
        if row == head or row in joined:
            return {head, *joined}
    alike = {other for other, _ in state.standing if engine.one_answer.same(row, other)}
    return {row, *alike}


def _rest(rows: Iterable[int], row: int) -> tuple[int, ...]:
    return tuple(sorted(set(rows) - {row}))


def _against(claimed: Ranked, leader: Ranked | None, against: float) -> tuple[Against, ...]:
    """Return the readings that speak against a claim, the strongest first.

    Such are those that speak against it by themselves; where another end fits better, those that
    are far likelier for it; and where together they refute the claim, at least the one that does
    most.
    """
    pairs = list(zip(claimed.evidence, (leader or claimed).evidence, strict=True))
    nats = {mine.feature: best.weight_nats - mine.weight_nats for mine, best in pairs}
    measured = [mine.feature for mine, _ in pairs if mine.feature not in CLUES]
    most = max(measured, key=nats.__getitem__, default=None) if leader else None
    decides = most if _worse(claimed, leader, against) else None
    found = [
        Against(each, math.exp(min(nats[each.feature], 700.0)), alone=each.side >= 0)
        for each in claimed.evidence
        if each.side < 0
        or each.feature is decides
        or (each.feature not in CLUES and nats[each.feature] >= -math.log(against))
    ]
    return tuple(
        sorted(found, key=lambda each: min(each.evidence.weight_nats, -nats[each.evidence.feature]))
    )


def _worse(claimed: Ranked, leader: Ranked | None, against: float) -> bool:
    """Tell whether the readings of the end itself are far less likely for the claim."""
    if leader is None:
        return False
    return math.log(against) >= sum(
        mine.weight_nats - best.weight_nats
        for mine, best in zip(claimed.evidence, leader.evidence, strict=True)
        if mine.feature not in CLUES
    )


def _standing(
    engine: Engine,
    state: Posterior,
    verdict: Verdict,
    group: Group,
    leader: Ranked | None,
    worse: bool,
) -> Standing:
    """Return how far the set stands: one answer where the verdict names it, several together."""
    if group[1] < engine.book.limits.refuted and worse:
        return Standing.REFUTED
    if leader or verdict.suspects or not verdict.ranking:
        return Standing.DOUBTFUL
    lead = verdict.ranking[0]
    if group[1] <= lead.probability + LEAST:  # nothing but the leading answer
        kind = verdict.kind
    else:
        kind = kind_of(state, [group], engine.book, engine.risk)
    return Standing.STANDS if kind is VerdictKind.IDENTIFIED else Standing.DOUBTFUL


def _rivals(
    engine: Engine, state: Posterior, groups: Sequence[Group], row: int, same: set[int]
) -> tuple[Danger, ...]:
    """Return what else the readings allow: the likely, and the dangerous down to 1 in 1,000.

    Answers stand as the ranking gathers them, then rows that are in none of those.
    """
    ends, limits = engine.catalogue.ends, engine.book.limits
    risk = engine.risk or Risk(engine.catalogue, engine.book, Hazards(engine.catalogue))
    grouped = {each for head, _, joined in groups for each in (head, *joined)}
    others = [(each, p) for each, p in enumerate(state.rows) if each not in same | grouped]
    heads = [(head, p) for head, p, joined in groups if same.isdisjoint({head, *joined})]
    found = [
        risk.danger(ends[row], ends[head], p)
        for head, p in (*heads, *others)
        if p >= limits.standing or (p >= limits.shown and risk.weight(ends[head], ends[row]) > 0)
    ]
    return tuple(sorted(found, key=lambda each: (-each.probability, each.end.id))[:SHOWN_RIVALS])
