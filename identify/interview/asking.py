"""Questions put out of turn: an answer anew, one reading more, by somebody else."""

from identify.errors import ReadingError
from identify.frozen import replace
from identify.interview.session import Again, Observed
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.rulebook import RuleBook
from identify.reading.consistency import MOST_READINGS, READ_ONCE


def in_question(snapshot: Snapshot, book: RuleBook) -> Feature | None:
    """Return the feature that "read it again" is about, None before anything was answered.

    It is that of the question chosen out of turn, else the suspect one, else that of the question
    that is due if it has an answer, else the last answered.
    """
    ask = ask_of(snapshot, book)
    if ask and ask.given and snapshot.asking:
        return ask.text.feature
    if snapshot.verdict.suspects:
        return snapshot.verdict.suspects[0].reading.feature
    if ask and ask.given:
        return ask.text.feature
    for event in reversed(snapshot.state.events):
        if isinstance(event, Observed | Again) and snapshot.state.answer(event.reading.feature):
            return event.reading.feature
    return None


LOOKS = 2  # the first questions, with which a stamp is looked for


def may_be_stamped(snapshot: Snapshot) -> bool:
    """Tell whether to offer, beside the first looks, that a stamp be typed at once.

    It costs those who find none no question: it is an offer, and the question goes on.
    """
    state = snapshot.state
    known = state.answer(Feature.MARKING) or Feature.MARKING in state.given_up
    few = len(state.readings) + len(state.given_up) < LOOKS
    return bool(snapshot.verdict.question) and snapshot.asking is None and few and not known


def put_anew(snapshot: Snapshot, feature: Feature | None) -> Snapshot:
    """Put a question whose answer replaces what stands; None goes back to the one that is due."""
    return replace(
        snapshot,
        asking=feature,
        once_more=False,
        other_person=False,
        tool=None,
        unit=0,
        problem="",
        note="",
    )


def with_other_tool(snapshot: Snapshot, book: RuleBook) -> Snapshot:
    """Take the open question with the next of its tools."""
    ask = ask_of(snapshot, book)
    if ask is None:
        return snapshot
    following = (ask.tools.index(ask.tool) + 1) % len(ask.tools)
    return replace(snapshot, tool=ask.tools[following], unit=0, problem="")


def in_other_unit(snapshot: Snapshot, book: RuleBook) -> Snapshot:
    """Let a bare number take the next unit; that of a length holds for all lengths."""
    ask = ask_of(snapshot, book)
    if ask and FEATURES[ask.text.feature].kind is Kind.LENGTH:
        return replace(snapshot, inch=not snapshot.inch)
    return replace(snapshot, unit=snapshot.unit + 1)


def put_once_more(snapshot: Snapshot, feature: Feature, *, other_person: bool = False) -> Snapshot:
    """Put a question whose answer counts beside those given, one of them made by somebody else.

    Raises:
        ReadingError: Its answer can only be replaced, or it was read often enough.
    """
    title = FEATURES[feature].title
    if feature in READ_ONCE:
        raise ReadingError(f"{title} has one answer only; r answers it anew.", feature)
    if len(snapshot.state.given(feature)) >= MOST_READINGS:
        raise ReadingError(
            f"{title} was read {MOST_READINGS} times, and more are not weighed; r begins anew.",
            feature,
        )
    return replace(put_anew(snapshot, feature), once_more=True, other_person=other_person)


def put_to_another(snapshot: Snapshot, book: RuleBook) -> Snapshot:
    """Say that somebody else takes the reading that is open, or after all the same person.

    Where the open question has no answer yet, that which is in question is read once more.

    Raises:
        ReadingError: Nothing was answered yet, or as in `put_once_more`.
    """
    ask = ask_of(snapshot, book)
    if ask and ask.again:
        return replace(snapshot, other_person=not snapshot.other_person)
    if (feature := in_question(snapshot, book)) is None:
        raise ReadingError(NOTHING_YET)
    return put_once_more(snapshot, feature, other_person=True)


NOTHING_YET = "Nothing was answered yet that could be read again."
