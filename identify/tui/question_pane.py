"""The question pane: what is asked, why now, with what, the answers by number, the entry line."""

from identify.frozen import dataclass
from identify.interview.asking import may_be_stamped
from identify.interview.bare import Unit
from identify.interview.snapshot import Ask, Snapshot, ask_of
from identify.model.rulebook import RuleBook
from identify.model.verdict import VerdictKind
from identify.pages.blocks import Line, Tone
from identify.pages.interview import nothing_left_blocks
from identify.pages.question import (
    STAMP,
    cannot_words,
    head_words,
    reader_words,
    standing_answer,
    typed_example,
    value_example,
    with_words,
)
from identify.pages.text import HELD
from identify.pages.words import sentence
from identify.tui.lines import caption, fit, wrapped


@dataclass(frozen=True, slots=True)
class Typing:
    """What stands on the entry line, and the word of the answer marked in the list.

    `opened` tells that letters are typed too.
    """

    text: str = ""
    opened: bool = False
    unit: str = ""
    hint: str = ""
    problem: str = ""
    marked: str = ""


def entry_hint(ask: Ask, unit: Unit | None) -> str:
    """Return what may be typed on the entry line, `unit` being what a bare number takes there."""
    cannot = cannot_words(ask)
    if ask.worded:
        return f"Enter: type it, such as {ask.text.example}   0: {cannot}"
    if ask.by_value:
        such = f"Such as {value_example(ask)}, taken when whole."
        return f"{such}\nOr arrow keys, Enter.   0 Enter: {cannot}"
    if unit is None or not ask.measured:
        return f"Such as {ask.text.example}"
    such = f"such as {unit.example}\n" if unit.example else ""
    return f"{such}u: other unit   0 Enter: {cannot}"


def entry_lines(typing: Typing, width: int) -> list[Line]:
    """Return the entry line with its cursor and unit, and under it what was wrong, or the hint.

    The cursor is always at the end, which is all that gloved fingers can use.
    """
    cursor = "█" if typing.opened or typing.text else "_"
    room = max(width - 3, 1)
    lines = [Line(f"> {typing.text[-room:]}{cursor}", Tone.HEAD)]
    if typing.unit:
        tail = f"  {typing.unit}"
        if len(lines[0].text) + len(tail) <= width:
            lines = [Line(lines[0].text + tail, Tone.HEAD)]
        else:
            lines += wrapped(typing.unit, width, head="  ")
    if typing.problem:
        lines += wrapped(typing.problem, width, Tone.WARN, "! ")
    else:
        for hint in typing.hint.splitlines():
            lines += wrapped(hint, width, Tone.QUIET, "  ")
    return lines


def question_lines(
    snapshot: Snapshot,
    book: RuleBook,
    typing: Typing | None,
    width: int,
    height: int,
) -> tuple[Line, ...]:
    """Return the question pane.

    What is asked, the numbered answers and the entry line always stand; reasons and advice fill
    the room left.

    Args:
        snapshot: Where the interview stands.
        book: The questions.
        typing: What stands on the entry line, None where nothing is typed.
        width: Columns.
        height: Rows.
    """
    ask = ask_of(snapshot, book)
    if ask is None:
        return fit(_nothing_left(snapshot, width), height)
    number = len(snapshot.state.readings) + len(snapshot.state.given_up) + 1
    head = [
        caption(head_words(ask, number), width),
        *wrapped(ask.words, width, Tone.HEAD),
    ]
    entry = entry_lines(typing, width) if typing else []
    if typing and len(head) + len(entry) < height:
        entry = [Line(""), *entry]
    marked = typing.marked if typing else ""
    answers = [*_answers(ask, marked, width, height - len(head) - len(entry)), *entry]
    room = height - len(head) - len(answers)
    middle: list[Line] = []
    for lines in _advice(snapshot, ask, width):
        if len(middle) + len(lines) + 1 > room:
            break
        middle += lines
    return fit([*head, *middle, *answers], height)


def _answers(ask: Ask, marked: str, width: int, room: int) -> list[Line]:
    """Return the answers listed in the fullest form for which there is room."""
    if not ask.choices:
        return []
    if ask.by_value:
        return _values(ask, marked, width, room)
    cannot = sentence(cannot_words(ask)).rstrip(".")
    last = [Line(f"0  {cannot}")]
    if ask.typed:
        last += wrapped(f"type it, such as {typed_example(ask)}", width, head="Enter  ")
    numbered = list(enumerate(ask.choices, 1))
    full = [
        line
        for number, choice in numbered
        for line in wrapped(f"{choice.label}: {choice.line}", width, head=f"{number}  ")
    ]
    if len(full) + len(last) + 1 <= room:
        return [Line(""), *full, *last]
    if len(numbered) + len(last) <= room:
        return [*(Line(f"{number}  {choice.label}"[:width]) for number, choice in numbered), *last]
    parts = [*(f"{number} {choice.label}" for number, choice in numbered), f"0 {cannot}"]
    return list(wrapped("   ".join(part.replace(" ", HELD) for part in parts), width))


def _values(ask: Ask, marked: str, width: int, room: int) -> list[Line]:
    """Return answers that are called by numbers of their own, and so have none of a list."""
    full: list[Line] = []
    for each in ask.choices:
        tone, head = (Tone.HEAD, "→ ") if each.word == marked else (Tone.PLAIN, "- ")
        full += wrapped(f"{each.label}: {each.line}", width, tone, head)
    if len(full) < room:
        return [Line(""), *full]
    parts = [f"{'→' if each.word == marked else ''}{each.label}" for each in ask.choices]
    return list(wrapped("   ".join(part.replace(" ", HELD) for part in parts), width))


def _advice(snapshot: Snapshot, ask: Ask, width: int) -> list[tuple[Line, ...]]:
    """Return paragraphs by worth: those that do not fit are left out from the end."""
    parts: list[tuple[Line, ...]] = []
    if snapshot.verdict.kind is VerdictKind.IDENTIFIED and snapshot.asking is None:
        more = "Identified; v shows the verdict. One more check, if you like:"
        parts.append(wrapped(more, width))
    if may_be_stamped(snapshot):
        parts.append(wrapped(STAMP, width))
    if standing := standing_answer(ask):
        parts.append(wrapped(standing, width))
    if ask.again and (reader := reader_words(ask)):
        parts.append(wrapped(reader, width))
    parts.append(wrapped(ask.reasons[0], width, Tone.QUIET, "Why now: "))
    parts += [wrapped(reason, width, Tone.QUIET) for reason in ask.reasons[1:]]
    if words := with_words(ask, ask.tool):
        more = "; m: other tool" if len(ask.tools) > 1 and not ask.again else ""
        parts.append(wrapped(f"{words}{more}", width, Tone.QUIET, "With: "))
    parts += [wrapped(step, width, head="- ") for step in ask.text.how_to]
    parts.append(wrapped(f"Usual mistake: {ask.text.usual_mistake}", width, Tone.WARN))
    return parts


def _nothing_left(snapshot: Snapshot, width: int) -> list[Line]:
    lines = [caption("No question left", width)]
    for block in nothing_left_blocks(snapshot):
        lines += wrapped(block.text, width, block.tone)
    lines.append(Line(""))
    lines += wrapped(snapshot.verdict.sentence, width)
    lines.append(Line(""))
    lines += wrapped("Enter: the verdict, and what it rests on.", width)
    return lines
