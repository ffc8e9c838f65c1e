"""The open question: what is asked, how it is measured, how it may be answered, every key."""

from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, Kind
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.text import wrap
from identify.pages.words import TOOLS, minutes_words, said, sentence

KEYS = (
    ("1 to 9", "choose an answer, at once"),
    ("0", "cannot tell; where a value is typed: 0 and Enter"),
    ("Enter", "sends what is typed; on an empty line opens it for letters"),
    ("Backspace or b", "back; deletes while something is typed"),
    ("u", "other unit: mm or inch, pitch or threads per inch, half or included angle"),
    ("m", "measured with another tool"),
    ("r", "retake the suspect reading"),
    ("t", "tools and access"),
    ("a", "your answers: change, withdraw, answer any question out of turn"),
    ("y", "why: the ranking with the reasons for and against"),
    ("x", "why not: pick any end and see what speaks against it"),
    ("l", "lookalikes of the leading end, laid over it"),
    ("v", "verdict: what it is, mates, what to order, cautions"),
    ("w", "write the verdict to a text file; its path is shown"),
    ("d", "drawing, as large as the window"),
    ("s", "search the tables, with sources"),
    ("g", "guided example"),
    ("c", "colours: dark, sunlight, terminal"),
    ("n", "new interview with the same tools"),
    ("q or Ctrl+C", "leave; every answer is already saved"),
)


def standing_answer(ask: Ask) -> str:
    """Return the answer that stands where a question is asked again, empty where none does."""
    if ask.given is None:
        return ""
    if ask.again:
        return ""  # the question itself says what was read so far, and that it stays
    return f"Your answer stands: {said(ask.given, ask.text)}. A new one replaces it."


def with_words(ask: Ask, tool: Tool) -> str:
    """Return a tool and how long it takes; empty where the answer needs none."""
    if tool is Tool.NONE and ask.choices:
        return ""
    return f"{TOOLS[tool]}, {minutes_words(ask.text.minutes.get(tool, 1.0))}"


def question_blocks(ask: Ask, number: int) -> list[Block]:
    """Return the question with its reasons: why now, what it separates, with what."""
    head = "Asked again" if ask.given else f"Question {number}"
    tool = with_words(ask, ask.tools[0] if ask.tools else Tool.NONE)
    lines = [
        f"{head}: {ask.text.title}.",
        ask.words,
        standing_answer(ask),
        f"Why now: {ask.reasons[0]}",
        *ask.reasons[1:],
        f"With: {tool}." if tool else "",
    ]
    return [Block(line) for line in lines if line]


def answer_blocks(ask: Ask) -> list[Block]:
    """Return how the question may be answered: by a number, or typed."""
    blocks = [Block(f"{each.label}: {each.line}.", pick=each.word) for each in ask.choices]
    example = f"{ask.known}: binds after 3 turns" if ask.known else ask.text.example
    if not ask.choices or FEATURES[ask.text.feature].kind is not Kind.CHOICE:
        blocks.append(Block(f"{'Or type' if ask.choices else 'Type'} it, such as: {example}"))
    return blocks


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


def letters(ask: Ask | None, *, retake: bool, answered: bool) -> str:
    """Return the letters that may be typed now in the dialogue of lines."""
    first = ["Enter stop"] if ask is None else ["0 cannot tell"]
    if ask and answered:
        first.append("x withdraw it")
    if retake:
        first.append("r retake the suspect reading")
    every = ["b back", "? help", "a answers", "t tools", "v verdict", "w write", "q stop"]
    return sentence(", ".join([*first, *(each for each in every if ask or each != "? help")]))


def names_text(book: RuleBook) -> str:
    """Return every name of a reading with an example, for a command line."""
    examples = {text.feature: text.example for text in book.questions}
    wide = max(map(len, FEATURES))
    lines = ["readings (in any order; a name given twice is a second reading of the same thing):"]
    for feature, info in FEATURES.items():
        said = " | ".join(info.choices) or f'"{examples.get(feature, "")}"'
        lines += wrap(said, head=f"  {feature.ljust(wide)}  ")
    return "\n".join(lines)
