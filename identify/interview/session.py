"""An interview as a list of events; the state is what the events add up to.

Any answer may be given out of turn, changed, withdrawn or given up: the state is then the same
as if it had been so from the start, because it keeps answers in feature order.
"""

from collections.abc import Iterable

from identify.frozen import dataclass, field
from identify.model.claim import Said
from identify.model.feature import FEATURES, Feature, applies
from identify.model.reading import Reading, gender_said
from identify.model.rule import Access, Tool
from identify.model.verdict import Verdict
from identify.reasoning.engine import ALL_TOOLS, Engine, Situation

ASKED = (  # the tools a person is asked for, in that order
    Tool.CALIPER,
    Tool.RULE,
    Tool.METRIC_GAUGE,
    Tool.INCH_GAUGE,
    Tool.SEAT_GAUGE,
    Tool.PROTRACTOR,
    Tool.COMBS,
    Tool.KNOWN_ENDS,
)
FIRST_TOOLS = frozenset({Tool.CALIPER})
"""Ticked before anything is said: what nearly everybody has."""


@dataclass(frozen=True, slots=True)
class Observed:
    """A reading was given, or given anew."""

    reading: Reading


@dataclass(frozen=True, slots=True)
class Again:
    """The feature was read once more; what was read before still counts."""

    reading: Reading


@dataclass(frozen=True, slots=True)
class Enough:
    """The feature is not read once more; what was read still counts."""

    feature: Feature


@dataclass(frozen=True, slots=True)
class GivenUp:
    """The person cannot tell."""

    feature: Feature


@dataclass(frozen=True, slots=True)
class Withdrawn:
    """An answer was taken back; the question is open again."""

    feature: Feature


@dataclass(frozen=True, slots=True)
class Equipped:
    """The tools at hand changed, or who measures with them (`observer.CARES`; empty: not told)."""

    tools: frozenset[Tool]
    care: str = ""


@dataclass(frozen=True, slots=True)
class Reached:
    """The access to the end changed."""

    access: Access


@dataclass(frozen=True, slots=True)
class Claimed:
    """Somebody said what the end is: the `words`, `by` whom, and the ids of all that they name.

    `anyway` says why it is ordered although the readings are against it, empty where nobody said
    so; `at` is UTC. What was said in the same words before is replaced. A claim is weighed against
    the readings and is none itself.
    """

    words: str
    by: str
    at: str
    ends: tuple[str, ...] = ()
    anyway: str = ""

    @property
    def said(self) -> Said:
        """What is held against the readings."""
        return Said(self.words, self.by, self.anyway)


@dataclass(frozen=True, slots=True)
class Unclaimed:
    """What was said in these words is taken back."""

    words: str


Event = Observed | Again | Enough | GivenUp | Withdrawn | Equipped | Reached | Claimed | Unclaimed


@dataclass(frozen=True, slots=True)
class SessionState:
    """Where an interview stands.

    `answers` holds every reading given, in feature order, those of one feature in the order given;
    `readings` those of them that apply to an end of the gender given. The others wait in case the
    gender was the slip. Of what was `given_up` the features in `closed` were so twice, or are not
    to be read once more: they are not asked again. `care` tells who measures, empty for not told.
    `claims` is what was said that the end is, in the order said.
    """

    events: tuple[Event, ...] = ()
    answers: tuple[Reading, ...] = ()
    given_up: frozenset[Feature] = frozenset()
    closed: frozenset[Feature] = frozenset()
    tools: frozenset[Tool] = field(default=ALL_TOOLS)
    access: Access = Access.END_OFF
    care: str = ""
    claims: tuple[Claimed, ...] = ()

    @property
    def gender(self) -> str | None:
        """The gender as answered, None while it is open."""
        return gender_said(self.answers)

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Readings that count."""
        return tuple(each for each in self.answers if applies(each.feature, self.gender))

    @property
    def set_aside(self) -> tuple[Reading, ...]:
        """Readings kept but not counted, because an end of this gender has no such feature."""
        return tuple(each for each in self.answers if not applies(each.feature, self.gender))

    @property
    def situation(self) -> Situation:
        """Tools, access, and what need not be asked: given up, or answered and set aside."""
        aside = {each.feature for each in self.set_aside}
        closed = self.closed | aside
        return Situation(self.tools, self.access, closed, self.given_up - closed)

    def answer(self, feature: Feature) -> Reading | None:
        """Return the last reading given for a feature."""
        return next((each for each in reversed(self.answers) if each.feature is feature), None)

    def given(self, feature: Feature) -> tuple[Reading, ...]:
        """Return every reading given for a feature, in the order given."""
        return tuple(each for each in self.answers if each.feature is feature)


def apply(state: SessionState, event: Event) -> SessionState:
    """Return the state after one more event."""
    return _fold(state, event, (*state.events, event))


def replay(events: Iterable[Event]) -> SessionState:
    """Return the state that a list of events adds up to."""
    state = SessionState()
    for event in events:
        state = apply(state, event)
    return state


def following(state: SessionState, *, repeat: bool) -> tuple[Event, ...]:
    """Return the events with which the next end begins: same tools, same access.

    With `repeat` also the same answers, of which only those that differ need to be given anew.
    """
    events: list[Event] = [Equipped(state.tools, state.care), Reached(state.access)]
    seen: set[Feature] = set()
    for reading in state.answers if repeat else ():
        events.append(Again(reading) if reading.feature in seen else Observed(reading))
        seen.add(reading.feature)
    return tuple(events)


def back(state: SessionState) -> SessionState:
    """Return the state before the last event; the start stays the start."""
    return replay(state.events[:-1])


def conclude(engine: Engine, state: SessionState, *, limit: int = 8) -> Verdict:
    """Return the verdict on where an interview stands."""
    own = engine.measured_by(state.care)
    return own.conclude(state.readings, state.situation, limit=limit)


def claims_after(claims: tuple[Claimed, ...], event: Event) -> tuple[Claimed, ...]:
    """Return what was said that an end is after one more event."""
    if not isinstance(event, Claimed | Unclaimed):
        return claims
    others = tuple(each for each in claims if each.words != event.words)
    return (*others, event) if isinstance(event, Claimed) else others


def _fold(state: SessionState, event: Event, events: tuple[Event, ...]) -> SessionState:
    answers, given_up, closed = state.answers, state.given_up, state.closed
    tools, access, care = state.tools, state.access, state.care
    claims = claims_after(state.claims, event)
    if isinstance(event, Equipped):
        tools, care = event.tools, event.care
    elif isinstance(event, Reached):
        access = event.access
    elif not isinstance(event, Claimed | Unclaimed):
        feature = feature_of(event)
        keeps = isinstance(event, Again | Enough)
        kept = [each for each in answers if keeps or each.feature is not feature]
        twice = feature in given_up
        given_up, closed = given_up - {feature}, closed - {feature}
        if isinstance(event, Observed | Again):
            kept.append(event.reading)
        elif isinstance(event, Enough):
            closed = closed | {feature}
        elif isinstance(event, GivenUp):
            given_up = given_up | {feature}
            closed = closed | {feature} if twice else closed
        order = list(FEATURES)
        answers = tuple(sorted(kept, key=lambda each: order.index(each.feature)))
    return SessionState(events, answers, given_up, closed, tools, access, care, claims)


def feature_of(event: Observed | Again | Enough | GivenUp | Withdrawn) -> Feature:
    """Return what an event is about."""
    return event.reading.feature if isinstance(event, Observed | Again) else event.feature
