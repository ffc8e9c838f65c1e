"""The question pane: what is asked, why now, with what, and the answers by number."""

from identify.interview.ask import Ask, ask_of
from identify.interview.snapshot import Reference, Snapshot
from identify.model.rule import Tool
from identify.model.verdict import VerdictKind
from identify.pages.words import TOOLS
from identify.tui.view.entry import Typing, entry_lines
from identify.tui.view.lines import Line, Tone, caption, fit, wrap


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
        more = "Identified; v shows the verdict. One more check, if you like:"
        parts.append(wrap(more, width))
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
