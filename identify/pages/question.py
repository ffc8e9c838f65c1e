"""The open question: what is asked, how it is measured, how it may be answered, every key."""

from identify.interview.bare import Unit
from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, Kind
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook
from identify.model.verdict import Other
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.text import wrap
from identify.pages.words import IN_SHORT, TOOLS, minutes_words, said, sentence

KEYS = (
    ("1 to 9", "choose a numbered answer, at once; a leaf is typed, and taken once it is whole"),
    ("Up, Down", "where leaves are listed: mark one, and Enter takes it"),
    ("0", "cannot tell, or leave it at one reading; where a value is typed: 0 and Enter"),
    ("Enter", "sends what is typed; on an empty line opens it for letters"),
    ("Backspace", "deletes a character, nothing else"),
    ("Space, Up", "next page, page before, where there are several"),
    ("b", "back: takes the last answer back; on other screens to the one before"),
    ("f", "forward: gives again what b took back"),
    ("u", "other unit: mm or inch, pitch or threads per inch, half or included angle"),
    ("m", "measured with another tool"),
    ("r", "read it anew: it was a slip, and the new reading replaces the old"),
    ("e", "one extra reading beside it: both count"),
    ("p", "the same by another person, or by you again"),
    ("k", "mark: type what is stamped on the end"),
    ("t", "tools, who measures, and access"),
    ("j", "jobs: find one, go on with it, its customer, machine, bag, other end"),
    ("a", "your answers: change, withdraw, answer any question out of turn"),
    ("o", f"on one line: several readings in short, such as {IN_SHORT}"),
    ("h", "heard: what somebody says it is, such as JIC 8, held against the readings"),
    ("y", "why: the ranking with the reasons for and against"),
    ("x", "why not: pick any end and see what speaks against it"),
    ("l", "label of each end that was measured, for a printer"),
    ("z", "lookalikes of the leading end, laid over it"),
    ("v", "verdict: what it is, mates, what to order, cautions"),
    ("w", "write the verdict to a text file; its path is shown"),
    ("d", "drawing, as large as the window"),
    ("s", "search the tables, with sources"),
    ("g", "guided example"),
    ("i", "what words mean, the parts of an end, lessons on families and lookalikes"),
    ("c", "colours: dark, sunlight, terminal"),
    ("n", "next end, hose or job, the same answers again, or the sheet of the hose; asks which"),
    ("q or Ctrl+C", "leave; every answer is already saved"),
    ("Ctrl+Z", "stop for a while; the shell's fg goes on"),
)


def standing_answer(ask: Ask) -> str:
    """Return the answer that stands where a question is asked again, empty where none does."""
    if not ask.given or ask.again:
        return ""  # once more: the question itself says what was read so far, and that it stays
    if len(ask.given) == 1:
        return f"Your answer stands: {standing_words(ask)}. A new one replaces it."
    return f"Your readings stand: {standing_words(ask)}. A new one replaces them all."


def standing_words(ask: Ask) -> str:
    """Return the answers that were given to a question, in a line."""
    return "; ".join(said(each, ask.text) for each in ask.given)


STAMP = "Is a size stamped on it, such as 12L, M22 or -8? k: type it now. If not, go on."


def cannot_words(ask: Ask | None) -> str:
    """Return what 0 stands for."""
    return "leave it at that" if ask and ask.again else "cannot tell"


def reader_words(ask: Ask) -> str:
    """Return who takes a further reading, and why another tool or person is worth it."""
    if ask.other_person:
        return "Somebody else reads it this time (p: you do)."
    if ask.others is not None:
        return " ".join(map(_other_words, ask.others))
    if len(ask.tools) == 1:
        return "Another person (p) repeats a slip less often."
    return "Another tool (m) repeats a slip less often, another person (p) least."


def _other_words(other: Other) -> str:
    """Return another way to take a further reading, and how much more it tells."""
    who = "Somebody else (p)" if other.other_person else f"With {TOOLS[Tool(other.how)]} (m)"
    return f"{who}: {minutes_words(other.minutes)}, tells {other.times:.2g} times as much."


def with_words(ask: Ask, tool: Tool) -> str:
    """Return a tool and how long it takes; empty where the answer needs none."""
    if tool is Tool.NONE and ask.choices:
        return ""
    return f"{TOOLS[tool]}, {minutes_words(ask.text.minutes.get(tool, 1.0))}"


def head_words(ask: Ask, number: int) -> str:
    """Return the heading of a question: its number, or that it was answered before."""
    head = "Once more" if ask.again else "Asked again" if ask.given else f"Question {number}"
    return f"{head}: {ask.text.title}"


def question_blocks(ask: Ask, number: int) -> list[Block]:
    """Return the question with its reasons: why now, what it separates, with what."""
    tool = with_words(ask, ask.tool)
    other = " (m: with another)" if len(ask.tools) > 1 else ""
    lines = [
        f"{head_words(ask, number)}.",
        ask.words,
        standing_answer(ask),
        reader_words(ask) if ask.again else "",
        f"Why now: {ask.reasons[0]}",
        *ask.reasons[1:],
        f"With: {tool}{other}." if tool else "",
    ]
    return [Block(line) for line in lines if line]


def answer_blocks(ask: Ask, unit: Unit | None = None) -> list[Block]:
    """Return how the question may be answered: by a number, or typed.

    Args:
        ask: The question.
        unit: What a bare number takes.
    """
    blocks = [Block(f"{each.label}: {each.line}.", pick=each.word) for each in ask.choices]
    if ask.by_value:
        blocks = [dashed(each.text) for each in blocks]
        blocks.append(Block(f"Type the number itself, such as {value_example(ask)}."))
    if ask.typed:
        example = typed_example(ask)
        blocks.append(Block(f"{'Or type' if ask.choices else 'Type'} it, such as: {example}"))
    if unit and not ask.choices:
        such = f", such as {unit.example}" if unit.example else ""
        blocks.append(Block(f"A bare number is {unit.label}{such} (u: other unit)."))
    if ask.given and not ask.again:
        blocks.append(Block(f"Enter alone keeps: {standing_words(ask)}."))
    return blocks


def value_example(ask: Ask) -> str:
    """Return the number alone of an answer as it may be typed."""
    return ask.text.example.split()[0]


def typed_example(ask: Ask) -> str:
    """Return an answer as it may be typed."""
    return f"{ask.known}: binds after 3 turns" if ask.known else ask.text.example


def help_blocks(ask: Ask, picture: str = "") -> list[Block]:
    """Return how to measure what is asked, the usual mistake, and the leading end in words."""
    text = ask.text
    tools = "; ".join(with_words(ask, tool) or TOOLS[tool] for tool in text.tools)
    blocks = [
        Block(text.title, Tone.HEAD),
        Block(ask.words),
        Block(f"Why it matters: {text.why}"),
        BLANK,
        Block("How to measure it", Tone.HEAD),
        *map(dashed, text.how_to),
        Block(f"With: {tools}."),
    ]
    if Tool.COMBS in text.tools:
        blocks.append(Block('No gauge? "whichend gauges" writes a page of gauges to print.'))
    blocks += [
        Block(f"Typed as: {text.example}"),
        Block(f"Usual mistake: {text.usual_mistake}", Tone.WARN, mark="! "),
    ]
    if picture:
        blocks += [BLANK, Block(f"The leading end in words: {picture}")]
    return blocks


def key_blocks() -> list[Block]:
    """Return every key of the full screen."""
    keys = [Block(words, mark=f"{key}: ".ljust(16)) for key, words in KEYS]
    return [Block("Keys", Tone.HEAD), *keys]


def letters(
    ask: Ask | None,
    *,
    answered: bool,
    again: str = "",
    undone: bool = False,
) -> str:
    """Return the letters that may be typed now in the dialogue of lines.

    Args:
        ask: The open question.
        answered: Whether it has an answer that can be withdrawn.
        again: What r and e are about, in words; empty for nothing.
        undone: Whether something was taken back that can be given again.
    """
    first = ["Enter stop"] if ask is None else [f"0 {cannot_words(ask)}"]
    if ask and answered:
        first.append("x withdraw it")
    if ask and ask.again:
        if ask.other_person:
            first.append("p you read it")
        elif ask.another:
            first.append("p somebody else reads it")
        first.append(f"r replace {again}")
    elif ask and ask.given:
        first += ["e read it beside that", "p somebody else reads it beside that"]
    elif again:
        first += [f"r replace {again}", "e read it once more"]
    if undone:
        first.append("f give again what was taken back")
    every = [
        "b back", "? help", "? WORD what it means", "a answers", "o on one line",
        "h heard it called", "t tools", "v verdict", "w write", "l label", "n next end or job",
        "j jobs", "q stop",
    ]  # fmt: skip
    return sentence(", ".join([*first, *(each for each in every if ask or each != "? help")]))


def names_text(book: RuleBook) -> str:
    """Return every name of a reading with an example, for a command line."""
    examples = {
        text.feature: (text.example, *(each.example for each in text.wordings if each.example))
        for text in book.questions
    }
    wide = max(map(len, FEATURES))
    lines = [
        *wrap(
            "readings (in any order; a name given twice is a second reading of the same thing, and "
            'both count; "by rule" or "by eye" after a value says how it was taken, "by somebody '
            'else" that another person took it):'
        )
    ]
    for feature, info in FEATURES.items():
        typed = (*dict.fromkeys(examples.get(feature, ())),) if info.kind is not Kind.CHOICE else ()
        said = " | ".join((*info.choices, *(f'"{each}"' for each in typed)))
        lines += wrap(said, head=f"  {feature.ljust(wide)}  ")
    return "\n".join(lines)
