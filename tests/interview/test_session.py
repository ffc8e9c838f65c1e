"""An interview as events: whatever the order and the detours, the answers decide the state."""

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from identify.interview.session import (
    Equipped,
    Event,
    GivenUp,
    Observed,
    Reached,
    SessionState,
    Withdrawn,
    applies,
    apply,
    back,
    conclude,
    replay,
)
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Choice, How, Length, Pitch, Reading
from identify.model.rule import Access, Tool
from identify.reasoning.engine import Engine
from tests.strategies import HOWS, values

FEATURE = st.sampled_from(tuple(Feature))
TOOLS = st.frozensets(st.sampled_from(tuple(Tool)))


def seen(state: SessionState) -> tuple[object, ...]:
    """Return all of a state but the way it came about."""
    return state.answers, state.given_up, state.tools, state.access


def reading(feature: Feature, word: str) -> Reading:
    return Reading(feature, Choice(word), How.EYE, word)


MALE = reading(Feature.GENDER, "male")
CREST = Reading(Feature.THREAD_OD, Length(20.9), How.CALIPER, "20.9 mm")
PITCH = Reading(Feature.PITCH, Pitch(25.4 / 14, True), How.GAUGE, "14 tpi")


class Interview(RuleBasedStateMachine):
    """Walks through an interview beside a dictionary of what was last said of each feature."""

    @initialize(tools=TOOLS, access=st.sampled_from(tuple(Access)))
    def begin(self, tools: frozenset[Tool], access: Access) -> None:
        self.first = (Equipped(tools), Reached(access))
        self.state = replay(self.first)
        self.before: list[SessionState] = []
        self.said: dict[Feature, Reading | None] = {}  # None where the person cannot tell

    def step(self, event: Event) -> None:
        self.before.append(self.state)
        self.state = apply(self.state, event)

    @rule(data=st.data(), feature=FEATURE, how=st.sampled_from(HOWS))
    def observe(self, data: st.DataObject, feature: Feature, how: How) -> None:
        one = Reading(feature, data.draw(values(feature)), how, "as typed")
        fresh = feature not in self.said
        self.step(Observed(one))
        self.said[feature] = one
        if fresh:  # taking a first answer back undoes it exactly
            assert seen(apply(self.state, Withdrawn(feature))) == seen(self.before[-1])

    @rule(feature=FEATURE)
    def give_up(self, feature: Feature) -> None:
        self.step(GivenUp(feature))
        self.said[feature] = None

    @rule(feature=FEATURE)
    def withdraw(self, feature: Feature) -> None:
        self.step(Withdrawn(feature))
        self.said.pop(feature, None)

    @rule(tools=TOOLS)
    def equip(self, tools: frozenset[Tool]) -> None:
        self.step(Equipped(tools))
        assert self.state.tools == tools

    @rule(access=st.sampled_from(tuple(Access)))
    def reach(self, access: Access) -> None:
        self.step(Reached(access))
        assert self.state.access is access

    @precondition(lambda self: self.before)
    @rule()
    def go_back(self) -> None:
        assert back(self.state) == self.before[-1]
        self.state = self.before.pop()
        self.said = {feature: None for feature in self.state.given_up}
        self.said |= {one.feature: one for one in self.state.answers}

    @precondition(lambda self: not self.before)
    @rule()
    def go_back_at_the_start(self) -> None:
        assert back(back(back(self.state))) == SessionState()

    @invariant()
    def the_state_is_what_was_last_said(self) -> None:
        state = self.state
        assert {one.feature: one for one in state.answers} == {
            feature: one for feature, one in self.said.items() if one
        }
        assert state.given_up == {feature for feature, one in self.said.items() if one is None}

    @invariant()
    def answers_stand_in_the_order_of_features(self) -> None:
        places = [list(FEATURES).index(one.feature) for one in self.state.answers]
        assert places == sorted(set(places))

    @invariant()
    def every_answer_counts_or_waits(self) -> None:
        state = self.state
        assert sorted((*state.readings, *state.set_aside), key=repr) == sorted(
            state.answers, key=repr
        )
        assert all(applies(one.feature, state.gender) for one in state.readings)
        assert not any(applies(one.feature, state.gender) for one in state.set_aside)

    @invariant()
    def the_events_add_up_to_the_state(self) -> None:
        assert replay(self.state.events) == self.state

    @invariant()
    def out_of_order_is_in_order(self) -> None:
        events: list[Event] = [
            Observed(one) if one else GivenUp(feature) for feature, one in self.said.items()
        ]
        events += [Equipped(self.state.tools), Reached(self.state.access)]
        for order in (events, events[::-1]):
            assert seen(replay((*self.first, *order))) == seen(self.state)


Interview.TestCase.settings = settings(
    max_examples=60, stateful_step_count=20, deadline=None, derandomize=True
)
TestInterview = Interview.TestCase


def test_a_new_answer_replaces_the_old_one() -> None:
    state = replay((Observed(MALE), Observed(reading(Feature.GENDER, "female"))))
    assert state.gender == "female"
    assert len(state.answers) == 1


def test_an_answer_after_all_ends_the_giving_up() -> None:
    state = replay((GivenUp(Feature.THREAD_OD), Observed(CREST)))
    assert state.given_up == frozenset()
    assert state.answer(Feature.THREAD_OD) == CREST
    assert replay((Observed(CREST), GivenUp(Feature.THREAD_OD))).answers == ()


def test_a_change_of_gender_sets_readings_aside_and_brings_them_back() -> None:
    male = replay((Observed(MALE), Observed(CREST), Observed(PITCH)))
    flange = apply(male, Observed(reading(Feature.GENDER, "flange")))
    assert flange.set_aside == (CREST, PITCH)
    assert flange.readings == (reading(Feature.GENDER, "flange"),)
    assert apply(flange, Observed(MALE)).readings == male.readings


def test_while_the_gender_is_open_every_reading_counts() -> None:
    state = replay((Observed(CREST),))
    assert state.gender is None
    assert state.readings == (CREST,)


def test_the_verdict_of_an_interview_is_that_of_its_readings(engine: Engine) -> None:
    state = replay((Observed(PITCH), Observed(MALE), Observed(CREST)))
    told, plain = conclude(engine, state), engine.conclude((MALE, CREST, PITCH))
    assert told == plain


def test_what_was_given_up_is_not_asked(engine: Engine) -> None:
    state = replay((Observed(MALE), Observed(CREST)))
    question = conclude(engine, state).question
    assert question is not None
    given_up = apply(state, GivenUp(question.feature))
    following = conclude(engine, given_up).question
    assert following is not None
    assert following.feature is not question.feature


def test_tools_at_hand_decide_how_a_question_is_asked(engine: Engine) -> None:
    state = replay((Equipped(frozenset()), Observed(MALE), Observed(CREST)))
    question = conclude(engine, state).question
    assert question is not None
    assert question.how == Tool.NONE
