"""The question pane: what is asked, why now, with what, and the answers by number."""

from dataclasses import dataclass

from identify.model.feature import FEATURES, Kind
from identify.model.reading import How, Reading
from identify.model.rule import ChoiceText, QuestionText, Tool
from identify.model.verdict import VerdictKind
from identify.tui.snapshot import Reference, Snapshot
from identify.tui.view.entry import Typing, entry_lines
from identify.tui.view.lines import Line, Tone, caption, fit, wrap
from identify.tui.view.words import TOOLS

_TYPED = (Kind.LENGTH, Kind.PITCH, Kind.ANGLE, Kind.TAPER)


@dataclass(frozen=True, slots=True)
class Ask:
    """A question as it is put.

    `tools` are those with which it can be taken, the one to use first; `reasons` says why now and
    what it separates; `given` is the answer that stands, if it is asked again;
    `known` the part on which a trial fit is to be made; `said` the question in words that name it.
    """

    text: QuestionText
    tools: tuple[Tool, ...]
    reasons: tuple[str, ...]
    given: Reading | None = None
    known: str = ""
    said: str = ""

    @property
    def words(self) -> str:
        """The question in words."""
        return self.said or self.text.question

    @property
    def choices(self) -> tuple[ChoiceText, ...]:
        """The numbered answers; none for a trial fit on a part that is yet to be named."""
        trial = FEATURES[self.text.feature].kind is Kind.TRIAL
        return () if trial and not self.known else self.text.choices

    def answer(self, word: str) -> str:
        """Return the text of a reading from the word of a numbered answer."""
        return f"{self.known}: {word}" if self.known else word

    @property
    def measured(self) -> bool:
        """Tell whether a digit begins a value instead of choosing an answer."""
        return FEATURES[self.text.feature].kind in _TYPED and not self.choices

    @property
    def worded(self) -> bool:
        """Tell whether the answer is free words, for which the line must be opened first."""
        return not self.measured and not self.choices

    def how(self, tool: Tool) -> How | None:
        """Return how a reading taken with a tool counts."""
        return self.text.taken_as.get(tool)


def ask_of(snapshot: Snapshot, reference: Reference) -> Ask | None:
    """Return the question that is open: the one taken out of turn, else the engine's."""
    offered = snapshot.verdict.question
    if snapshot.asking is not None:
        text = reference.question(snapshot.asking)
        if text is None:
            return None
        given = snapshot.state.answer(snapshot.asking)
        best = Tool(offered.how) if offered and offered.feature is snapshot.asking else None
        reasons = ("You chose this question yourself.", text.why)
        return Ask(text, _tools(text, snapshot, best), reasons, given)
    if offered is None:
        return None
    text = reference.question(offered.feature)
    if text is None:
        return None
    tools = _tools(text, snapshot, Tool(offered.how))
    reasons = (offered.why, offered.separates)
    given = snapshot.state.answer(offered.feature)
    return Ask(text, tools, reasons, given, offered.known, offered.text)


def _tools(text: QuestionText, snapshot: Snapshot, best: Tool | None) -> tuple[Tool, ...]:
    """Return the tools to take a reading with: the best, those at hand, then all others."""
    at_hand = [tool for tool in text.tools if tool in snapshot.state.tools or tool is Tool.NONE]
    ordered = [*([best] if best else []), *at_hand, *text.tools]
    return tuple(dict.fromkeys(ordered))


def question_lines(
    snapshot: Snapshot,
    reference: Reference,
    tool: Tool | None,
    typing: Typing | None,
    width: int,
    height: int,
) -> tuple[Line, ...]:
    """Return the question pane.

    What is asked, the numbered answers and the entry line always stand; reasons and advice fill
    the room left.

    Args:
        snapshot: Where the interview stands.
        reference: Tables and rules.
        tool: What the reading is taken with.
        typing: What stands on the entry line, None where nothing is typed.
        width: Columns.
        height: Rows.
    """
    ask = ask_of(snapshot, reference)
    if ask is None:
        return fit(_nothing_left(snapshot, width), height)
    number = len(snapshot.state.readings) + len(snapshot.state.given_up) + 1
    head = [
        caption(f"Question {number}: {ask.text.title}", width),
        *wrap(ask.words, width, Tone.HEAD),
    ]
    answers = _answers(ask, width, height - len(head))
    if typing:
        answers += [Line(""), *entry_lines(typing, width)]
    room = height - len(head) - len(answers)
    middle: list[Line] = []
    for lines in _advice(snapshot, ask, tool, width):
        if len(middle) + len(lines) + 1 <= room:
            middle += lines
    return fit([*head, *middle, *answers], height)


def _answers(ask: Ask, width: int, room: int) -> list[Line]:
    """Return the numbered answers in the fullest form for which there is room."""
    if not ask.choices:
        return []
    last = Line("0  Cannot tell")
    numbered = list(enumerate(ask.choices, 1))
    full = [
        line
        for number, choice in numbered
        for line in wrap(f"{choice.label}: {choice.line}", width, head=f"{number}  ")
    ]
    if len(full) + 2 <= room:
        return [Line(""), *full, last]
    if len(numbered) + 1 <= room:
        return [*(Line(f"{number}  {choice.label}"[:width]) for number, choice in numbered), last]
    parts = [*(f"{number} {choice.label}" for number, choice in numbered), "0 Cannot tell"]
    return list(wrap("   ".join(part.replace(" ", "\u00a0") for part in parts), width))


def _advice(snapshot: Snapshot, ask: Ask, tool: Tool | None, width: int) -> list[tuple[Line, ...]]:
    """Return paragraphs by worth: those that do not fit are left out from the end."""
    parts: list[tuple[Line, ...]] = []
    if snapshot.verdict.kind is VerdictKind.IDENTIFIED and snapshot.asking is None:
        parts.append(wrap("Identified; v shows the verdict. One more check, if you like:", width))
    if ask.given:
        parts.append(
            wrap(f"Your answer stands: {ask.given.entered}. A new one replaces it.", width)
        )
    parts.append(wrap(ask.reasons[0], width, Tone.QUIET, "Why now: "))
    parts += [wrap(reason, width, Tone.QUIET) for reason in ask.reasons[1:]]
    if tool and not (tool is Tool.NONE and ask.choices):
        minutes = ask.text.minutes.get(tool, 0)
        more = "; m: other tool" if len(ask.tools) > 1 else ""
        parts.append(
            wrap(f"{TOOLS[tool]}, about {minutes:g} min{more}", width, Tone.QUIET, "With: ")
        )
    parts += [wrap(step, width, head="- ") for step in ask.text.how_to]
    parts.append(wrap(f"Usual mistake: {ask.text.usual_mistake}", width, Tone.WARN))
    return parts


def _nothing_left(snapshot: Snapshot, width: int) -> list[Line]:
    kind = snapshot.verdict.kind
    lines = [caption("No question left", width)]
    if kind is VerdictKind.IDENTIFIED:
        lines += wrap("Nothing more would tell much.", width, Tone.HEAD)
    else:
        lines += wrap("Nothing more can be learnt with these tools.", width, Tone.HEAD)
        lines += wrap("t: other tools or access may open more questions.", width)
        if snapshot.state.given_up:
            lines += wrap('a: questions answered "cannot tell" can be tried again.', width)
    lines.append(Line(""))
    lines += wrap(snapshot.verdict.sentence, width)
    lines.append(Line(""))
    lines += wrap("Enter: the verdict, and what it rests on.", width)
    return lines
