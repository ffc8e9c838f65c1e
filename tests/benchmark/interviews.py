"""Whole interviews with simulated people: how many questions and minutes to the verdict."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from identify.interview.session import Again, Enough, GivenUp, Observed, SessionState, apply
from identify.model.feature import FEATURES, Feature, applies
from identify.model.rule import Access, Tool
from identify.model.verdict import VerdictKind, Warning
from identify.reasoning.engine import Engine, Group
from identify.reasoning.lockstep import alone
from identify.reasoning.openings import Offer
from identify.reasoning.posterior import Posterior
from identify.reasoning.suspects import contradicting
from identify.simulation.measuring import NOT_SIMULATED, attempt, sharpest
from identify.simulation.parts import Part
from identify.simulation.people import Person

Ask = tuple[Feature, Tool, float]  # what, with what, minutes


@dataclass(frozen=True, slots=True)
class Standing:
    """Where an interview stands before the next question."""

    engine: Engine
    now: Posterior
    state: SessionState
    warnings: tuple[Warning, ...]
    held_back: bool


Choose = Callable[[Standing], Ask | None]


@dataclass(frozen=True, slots=True)
class Course:
    """How one interview went: the verdict, the leading groups, and what it took."""

    kind: VerdictKind
    groups: tuple[Group, ...]
    state: SessionState
    questions: int
    minutes: float
    retakes: int

    def leads(self, row: int) -> bool:
        """Tell whether a row stands in the leading group."""
        return bool(self.groups) and row in (self.groups[0][0], *self.groups[0][2])


def hold(seed: str, engine: Engine, part: Part, person: Person, choose: Choose) -> Course:
    """Hold one interview.

    It ends when an end is identified or nothing more is worth asking. An answer that would be
    named but for a reading that must then be wrong is looked into first: that reading is taken
    again, once.

    Args:
        seed: Names the part. A person gives one answer to one question with one tool, whenever it
            is asked, so that ways of choosing can be compared.
        engine: Reasons.
        part: What is in the hand.
        person: Who measures.
        choose: Which question comes next.
    """
    state = SessionState(tools=person.observer.tools)
    for feature in (*NOT_SIMULATED, *NOT_SIMULATED):  # twice, so that they are not asked again
        state = apply(state, GivenUp(feature))
    last: dict[Feature, Ask] = {}
    slips: dict[Feature, list[str]] = {}
    minutes, questions, retakes = 0.0, 0, 0
    while True:
        now = engine.posterior(state.readings)
        groups = engine.groups(now, 3)
        kind, warnings, first = engine.settle(now, groups)
        if kind is VerdictKind.IDENTIFIED:
            break
        doubt = _doubtful(engine, now, groups, slips)
        ask = last[doubt] if doubt else choose(Standing(engine, now, state, warnings, bool(first)))
        if ask is None:
            break
        feature, tool, time = ask
        questions, minutes = questions + 1, minutes + time
        before, tried = last.get(feature), slips.setdefault(feature, [])
        tool_before = before[1] if before else None
        reading = attempt(seed, part, person, feature, tool, tool_before, tried)
        again = bool(state.answer(feature))
        retakes += again
        if reading:
            state = apply(state, Again(reading) if again else Observed(reading))
        else:
            state = apply(state, Enough(feature) if again else GivenUp(feature))
        last[feature] = ask
    return Course(kind, tuple(groups), state, questions, minutes, retakes)


def _doubtful(
    engine: Engine, now: Posterior, groups: Sequence[Group], taken: Mapping[Feature, Sequence[str]]
) -> Feature | None:
    """Return a measurement that must be a mistake if the answer holds, and was made only once."""
    if not groups or groups[0][1] < engine.book.limits.identified:
        return None
    wrong = contradicting(now, groups[0][0], engine.book.limits.suspect)
    return next((each for each in wrong if len(taken[each]) < 2), None)


def adaptive(at: Standing) -> Ask | None:
    """Return the question the product would ask: most bits a minute, unless a rule asks first."""
    engine, situation = at.engine, at.state.situation
    work = engine.next_offer(at.now, situation, at.warnings, held_back=at.held_back)
    found = alone(work, engine.chooser.gains)
    return as_ask(found[0]) if found else None


def as_ask(offer: Offer) -> Ask:
    """Return an offer as a question to a simulated person."""
    return offer.text.feature, offer.tool, offer.minutes


def fixed_order(at: Standing) -> Ask | None:
    """Return the next question of a printed form: the order of the features, with no thought."""
    state = at.state
    done = {reading.feature for reading in state.answers} | state.given_up
    by_feature = {text.feature: text for text in at.engine.book.questions}
    for feature in FEATURES:
        text = by_feature.get(feature)
        if text is None or feature in done or Access.END_OFF not in text.access:
            continue
        if not applies(feature, state.gender):
            continue
        tool = sharpest(text, state.tools)
        if tool is not None:
            return feature, tool, text.minutes[tool]
    return None
