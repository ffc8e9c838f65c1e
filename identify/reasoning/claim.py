"""Hold a claimed identity against readings: does it stand, what speaks against it, what would tell.

Refuted needs two things: next to no probability left, and readings that fit another end far better.
An end that is merely rare, or one of many that fit alike, is doubtful and not refuted.
"""

import math
from collections.abc import Sequence

from identify.model.connection import EndConnection
from identify.model.feature import CLUES, Feature
from identify.model.reading import How, Reading, lacked
from identify.model.rule import QuestionText, Tool
from identify.model.verdict import Claim, Danger, Question, Ranked, Standing, VerdictKind
from identify.reasoning.answers import Answers, information, mixed
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.hazards import Hazards
from identify.reasoning.naming import Group, kind_of
from identify.reasoning.posterior import LEAST, Posterior
from identify.reasoning.question import Chooser
from identify.reasoning.risk import Risk
from identify.reasoning.suspects import suspects as suspects_of
from identify.reasoning.weigh_pitch import GAUGES

SHOWN_RIVALS = 8


def hold(
    engine: Engine,
    end: EndConnection,
    readings: Sequence[Reading],
    situation: Situation | None = None,
) -> Claim:
    """Return whether the claim that the part is `end` stands against these readings.

    Args:
        engine: Tables and rules.
        end: The claimed end, a row of the engine's catalogue.
        readings: Several of one feature stand for readings of the same size.
        situation: Tools and access, for the check that would tell.
    """
    state = engine.posterior(readings)
    row = engine.catalogue.row_of[end.id]
    group = _group(engine, state, row)
    claimed = engine.ranked(state, group)
    against = tuple(
        sorted(
            (each for each in claimed.evidence if each.side < 0),
            key=lambda each: each.weight_nats,
        )
    )
    best = engine.groups(state, 1)[:1]
    leader = engine.ranked(state, best[0]) if best else claimed
    suspects = suspects_of(state, engine.book.limits.suspect, engine.likeliest)
    worse = _log_ratio(claimed, leader) <= math.log(engine.book.limits.against)
    standing = _standing(engine, state, group, worse, bool(suspects))
    same = {row, *group[2]}
    check = None
    if standing is Standing.DOUBTFUL:
        check = best_check(engine, state, same, situation or Situation(), clues=not against)
    return Claim(
        standing=standing,
        claimed=claimed,
        against=against,
        rivals=_rivals(engine, state, row, same),
        leader=None if engine.catalogue.row_of[leader.end.id] in same else leader,
        none_of_these=state.none_of_these,
        suspects=suspects,
        check=check,
    )


def _log_ratio(claimed: Ranked, leader: Ranked) -> float:
    """Return how much likelier the readings of the end itself are for the claim [nats]."""
    return sum(
        mine.weight_nats - best.weight_nats
        for mine, best in zip(claimed.evidence, leader.evidence, strict=True)
        if mine.feature not in CLUES
    )


def _group(engine: Engine, state: Posterior, row: int) -> Group:
    """Return the claimed row with all rows that are one answer with it."""
    joined = tuple(
        other
        for other, _ in sorted(state.standing)
        if other != row and engine.one_answer.same(row, other)
    )
    return row, state.rows[row] + sum(state.rows[other] for other in joined), joined


def _standing(
    engine: Engine, state: Posterior, group: Group, worse: bool, suspects: bool
) -> Standing:
    if group[1] < engine.book.limits.refuted and worse:
        return Standing.REFUTED
    identified = kind_of(state, [group], engine.book, engine.risk) is VerdictKind.IDENTIFIED
    return Standing.STANDS if identified and not worse and not suspects else Standing.DOUBTFUL


def _rivals(engine: Engine, state: Posterior, row: int, same: set[int]) -> tuple[Danger, ...]:
    """Return what else the readings allow: the likely, and the dangerous down to 1 in 1,000."""
    ends = engine.catalogue.ends
    risk = engine.risk or Risk(engine.catalogue, engine.book, Hazards(engine.catalogue))
    standing = engine.book.limits.standing
    found = [
        risk.danger(ends[row], ends[other], p)
        for other, p in enumerate(state.rows)
        if other not in same
        and (
            p >= standing
            or (p >= engine.book.limits.shown and risk.weight(ends[other], ends[row]) > 0)
        )
    ]
    return tuple(sorted(found, key=lambda each: (-each.probability, each.end.id))[:SHOWN_RIVALS])


def best_check(
    engine: Engine, state: Posterior, same: set[int], situation: Situation, *, clues: bool
) -> Question | None:
    """Return the measurement that tells most whether the part is one of the rows `same`.

    Args:
        engine: Tables and rules.
        state: What is known.
        same: Rows of the claim.
        situation: Tools and access.
        clues: Name a clue where no measurement of the end itself tells anything.
    """
    chooser = engine.chooser
    asked = {reading.feature for reading in state.readings} | situation.given_up
    asked |= lacked(state.readings)
    found = []
    for feature, text in chooser.questions.items():
        if feature in asked or situation.access not in text.access:
            continue
        for tool in text.tools:
            if tool is Tool.NONE or tool in situation.tools:
                how = text.taken_as[tool]
                bits = _bits(chooser, state, same, feature, how, GAUGES & situation.tools)
                bits *= chooser.answered.get(feature, 1.0)
                found.append((bits, text, tool))
    found = [each for each in found if each[0] >= chooser.limits.worth_bits]
    measured = [each for each in found if each[1].feature not in CLUES]
    return _best(measured or (found if clues else []), chooser.limits.nearly_as_good)


def _best(found: list[tuple[float, QuestionText, Tool]], nearly_as_good: float) -> Question | None:
    if not found:
        return None
    most = max(bits for bits, _, _ in found)
    near = [each for each in found if each[0] >= nearly_as_good * most]
    bits, text, tool = min(near, key=lambda each: (each[1].minutes[each[2]], -each[0]))
    return Question(
        feature=text.feature,
        text=text.question,
        why=text.why,
        how=tool,
        bits=bits,
        minutes=text.minutes[tool],
        separates="It tells most whether the claim is true.",
    )


def _bits(
    chooser: Chooser,
    state: Posterior,
    same: set[int],
    feature: Feature,
    how: How,
    gauges: frozenset[Tool],
) -> float:
    """Return what a measurement is expected to tell of one thing only: the claim [bits]."""
    spread = chooser.space.spread(feature)
    sides: tuple[dict[int, float], dict[int, float]] = ({}, {})
    for number, (weight, row) in enumerate(zip(state.weights, state.space.rows, strict=True)):
        if weight >= LEAST:
            side, kind = sides[row in same], spread.at(number)
            side[kind] = side.get(kind, 0.0) + weight
    told: list[tuple[float, Answers | None]] = []
    for side in sides:
        foreseen = [
            (weight, answers)
            for kind, weight in side.items()
            if (answers := chooser.predicted(feature, how, kind, gauges)) is not None
        ]
        told.append((sum(weight for weight, _ in foreseen), mixed(foreseen)))
    return information(told)
