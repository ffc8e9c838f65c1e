"""Whole interviews with simulated people: how many questions and minutes to the verdict."""

import random
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass

from identify.drill.parts import Part
from identify.drill.people import Person, observe, sharpest
from identify.model.feature import FEATURES, Feature
from identify.model.rule import Access, Tool
from identify.model.verdict import VerdictKind
from identify.reasoning.engine import Engine, Group
from identify.reasoning.posterior import Posterior
from identify.reasoning.question import Offer
from identify.session import GivenUp, Observed, SessionState, apply, start

NOT_TO_HAND = frozenset({Feature.ORIGIN, Feature.MARKING, Feature.TRIAL_FIT})
"""Nobody in the simulation knows the machine, finds a mark or has a known end to try it on."""

Ask = tuple[Feature, Tool, float]  # what, with what, minutes
Choose = Callable[[Engine, Posterior, SessionState], Ask | None]


@dataclass(frozen=True, slots=True)
class Course:
    """How one interview went. `hit` tells that the truth led when it ended."""

    kind: VerdictKind
    groups: tuple[Group, ...]
    state: SessionState
    questions: int
    minutes: float
    retakes: int


def hold(rng: random.Random, engine: Engine, part: Part, person: Person, choose: Choose) -> Course:
    """Hold one interview.

    It ends when an end is identified or nothing more is worth asking. An answer that would be
    named but for a reading that must then be wrong is looked into first: that reading is taken
    again, once.

    Args:
        rng: Source of chance.
        engine: Reasons.
        part: What is in the hand.
        person: Who measures.
        choose: Which question comes next.
    """
    state = start(tools=person.observer.tools)
    for feature in NOT_TO_HAND:
        state = apply(state, GivenUp(feature))
    tools: dict[Feature, tuple[Tool, float]] = {}
    taken_again: set[Feature] = set()
    minutes, questions = 0.0, 0
    while True:
        now = engine.posterior(state.readings)
        groups = engine.groups(now, 3)
        kind = engine.kind_of(now, groups)
        if kind is VerdictKind.IDENTIFIED:
            break
        doubt = _doubtful(engine, now, groups, taken_again)
        ask = (doubt, *tools[doubt]) if doubt else choose(engine, now, state)
        if ask is None:
            break
        feature, tool, time = ask
        if doubt:
            taken_again.add(doubt)
        tools[feature] = tool, time
        questions += 1
        minutes += time
        reading = observe(rng, part, feature, person, tool)
        if reading or not doubt:
            state = apply(state, Observed(reading) if reading else GivenUp(feature))
    return Course(kind, tuple(groups), state, questions, minutes, len(taken_again))


def _doubtful(
    engine: Engine, now: Posterior, groups: Sequence[Group], taken_again: Collection[Feature]
) -> Feature | None:
    if not groups or groups[0][1] < engine.book.limits.identified:
        return None
    wrong = engine.contradicting(now, groups[0][0])
    return next((each.feature for each in wrong if each.feature not in taken_again), None)


def adaptive(engine: Engine, now: Posterior, state: SessionState) -> Ask | None:
    """Return the question that tells most a minute, as the engine offers it."""
    offers = engine.offers(now, state.situation)
    return as_ask(offers[0]) if offers else None


def as_ask(offer: Offer) -> Ask:
    """Return an offer as a question to a simulated person."""
    return offer.text.feature, offer.tool, offer.minutes


def fixed_order(engine: Engine, now: Posterior, state: SessionState) -> Ask | None:
    """Return the next question of a printed form: the order of the features, with no thought."""
    done = {reading.feature for reading in state.answers} | state.given_up
    by_feature = {text.feature: text for text in engine.book.questions}
    for feature, info in FEATURES.items():
        text = by_feature.get(feature)
        if text is None or feature in done or Access.END_OFF not in text.access:
            continue
        if state.gender and info.genders and state.gender not in info.genders:
            continue
        tool = sharpest(text, state.tools)
        if tool is not None:
            return feature, tool, text.minutes[tool]
    return None
