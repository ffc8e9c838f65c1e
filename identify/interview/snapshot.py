"""Where an interview stands, as a face draws it, with the open question as it is put."""

from collections.abc import Sequence

from identify.frozen import dataclass, field
from identify.interview.session import Event, SessionState
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How, Reading
from identify.model.rule import ChoiceText, QuestionText, Tool
from identify.model.rulebook import RuleBook
from identify.model.verdict import Other, Verdict, VerdictKind
from identify.reasoning.sentences import AGAIN_WHY, once_more

EMPTY_VERDICT = Verdict(VerdictKind.ABSTAIN, "Nothing has been measured yet.", (), 1.0, ())
GAUGES_OF_PITCH = (Tool.METRIC_GAUGE, Tool.INCH_GAUGE)
_TYPED = (Kind.LENGTH, Kind.PITCH, Kind.ANGLE, Kind.TAPER)


@dataclass(frozen=True, slots=True)
class Snapshot:
    """Where the interview stands, as the screens need to know it.

    `asking` is a question taken out of turn, None for the one the engine offers; `once_more` tells
    that its answer is one more reading beside those given, `other_person` that somebody else takes
    it; `tool` is another than the one it asks for, `unit` counts how often the unit was changed
    that a bare number takes. `undone` are events that were taken back, the last one first.
    `problem` is the sentence about the last answer that could not be
    read, `doubted` an answer that was asked about, `saved` what became of the last answer on the
    disk. `inch` tells that inches are offered first, `trouble` says why answers are not kept,
    `note` what the last key did that no screen shows, `hidden` that nothing is told of what it is
    before the person has said so, `where` which job and end is measured, such as "K7M-3P4 1A".
    """

    state: SessionState = field(default_factory=SessionState)
    verdict: Verdict = EMPTY_VERDICT
    asking: Feature | None = None
    once_more: bool = False
    other_person: bool = False
    tool: Tool | None = None
    unit: int = 0
    undone: tuple[Event, ...] = ()
    problem: str = ""
    doubted: str = ""
    saved: str = ""
    inch: bool = False
    trouble: str = ""
    note: str = ""
    hidden: bool = False
    where: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """A question as it is put.

    `text` is worded for `tool`, with which it is taken, and for the end; `tools` are all those with
    which it can be taken, the one to use first; `reasons` says why now and
    what it separates; `given` are the readings that stand, if it is asked again;
    `known` the part on which a trial fit is to be made; `said` the question in words that name it;
    `again` tells that the answer is one more reading, beside those given, `other_person` that
    somebody else takes it; `others` are ways to take it that tell clearly more, None where that was
    not worked out.
    """

    text: QuestionText
    tools: tuple[Tool, ...]
    tool: Tool
    reasons: tuple[str, ...]
    given: tuple[Reading, ...] = ()
    known: str = ""
    said: str = ""
    again: bool = False
    other_person: bool = False
    others: tuple[Other, ...] | None = None

    @property
    def another(self) -> bool:
        """Tell whether somebody else's reading is worth it, as far as that was worked out."""
        return self.others is None or any(each.other_person for each in self.others)

    @property
    def words(self) -> str:
        """The question in words."""
        return self.said or self.text.question

    @property
    def choices(self) -> Sequence[ChoiceText]:
        """The answers that are listed.

        None for a trial fit on a part that is yet to be named, nor for a taper that is measured.
        """
        kind = FEATURES[self.text.feature].kind
        unnamed = kind is Kind.TRIAL and not self.known
        measured = kind is Kind.TAPER and self.tool is not Tool.NONE
        return () if unnamed or measured else self.text.choices

    def answer(self, word: str) -> str:
        """Return the text of a reading from the word of a numbered answer."""
        return f"{self.known}: {word}" if self.known else word

    @property
    def by_value(self) -> bool:
        """Tell whether the answers are called by numbers of their own, as leaves of a gauge.

        A number typed is then such a value and never a place in the list.
        """
        return bool(self.choices) and all(each.label[0].isdigit() for each in self.choices)

    @property
    def measured(self) -> bool:
        """Tell whether a digit begins a value instead of choosing an answer."""
        typed = FEATURES[self.text.feature].kind in _TYPED and not self.choices
        return typed or self.by_value

    @property
    def worded(self) -> bool:
        """Tell whether the answer is free words, for which the line must be opened first."""
        return not self.measured and not self.choices

    @property
    def typed(self) -> bool:
        """Tell whether an answer may be typed that is none of the numbered ones."""
        return FEATURES[self.text.feature].kind is not Kind.CHOICE

    @property
    def how(self) -> How | None:
        """How a reading taken with the tool counts."""
        return self.text.taken_as.get(self.tool)


def ask_of(snapshot: Snapshot, book: RuleBook) -> Ask | None:
    """Return the question that is open: the one taken out of turn, else the engine's."""
    offered = snapshot.verdict.question
    feature = snapshot.asking or (offered.feature if offered else None)
    text = book.question(feature) if feature else None
    if feature is None or text is None:
        return None
    best = Tool(offered.how) if offered and offered.feature is feature else None
    tools = _tools(text, snapshot, best)
    tool = snapshot.tool if snapshot.tool in tools else tools[0]
    text = text.put(tool, snapshot.state.gender)
    given = snapshot.state.given(feature)
    if snapshot.asking is None and offered:
        again, known = offered.again, offered.known
        reasons: tuple[str, ...] = (offered.why, offered.separates)
        if snapshot.hidden:  # both may name ends
            reasons = (text.why,)
    else:
        again, known = snapshot.once_more and bool(given), ""
        reasons = ("You chose this question yourself.", AGAIN_WHY if again else text.why)
    said = ""
    late = snapshot.asking is None and feature in snapshot.state.given_up
    if offered and (known or late):
        said = offered.text
    elif again:
        said = once_more(text.question, [each.entered for each in given])
    other = again and snapshot.other_person
    offered_again = offered if again and snapshot.asking is None else None
    others = offered_again.others if offered_again else None
    return Ask(text, tools, tool, reasons, given, known, said, again, other, others)


def _tools(text: QuestionText, snapshot: Snapshot, best: Tool | None) -> tuple[Tool, ...]:
    """Return the tools to take a reading with: the best, those at hand, then all others.

    What can be measured is not judged by eye first, and gaps are not counted first where a gauge
    of leaves is at hand: it takes less time and fewer keys, and a wrong leaf is seen to rock.
    """
    at_hand = [tool for tool in text.tools if tool in snapshot.state.tools or tool is Tool.NONE]
    if FEATURES[text.feature].kind in _TYPED:
        at_hand.sort(key=lambda tool: tool is Tool.NONE)
    gauges = [tool for tool in at_hand if tool in GAUGES_OF_PITCH]
    first = gauges if text.feature is Feature.PITCH and best not in gauges else []
    ordered = [*first, *([best] if best else []), *at_hand, *text.tools]
    return tuple(dict.fromkeys(ordered))
