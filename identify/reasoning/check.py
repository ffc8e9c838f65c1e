"""The one measurement that tells most whether a part is one of some rows."""

from identify.model.feature import CLUES, Feature
from identify.model.reading import How, lacked
from identify.model.rule import QuestionText, Tool
from identify.model.verdict import Question
from identify.reasoning.answers import Answers, information, mixed
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.posterior import LEAST, Posterior
from identify.reasoning.question import Chooser
from identify.reasoning.weigh_pitch import GAUGES


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
