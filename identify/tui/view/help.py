"""Help: the open question in full, then every key."""

from identify.interview.ask import ask_of
from identify.interview.snapshot import Reference, Snapshot
from identify.pages.words import TOOLS
from identify.tui.view.lines import Block, Tone

KEYS = (
    ("1 to 9", "choose an answer, at once"),
    ("0", "cannot tell; where a value is typed: 0 and Enter"),
    ("Enter", "sends what is typed; on an empty line opens it for letters"),
    ("Backspace or b", "back; rubs out while something is typed"),
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


def help_blocks(snapshot: Snapshot, reference: Reference) -> tuple[Block, ...]:
    """Return how to measure what is asked, the usual mistake, and the keys."""
    blocks: list[Block] = []
    ask = ask_of(snapshot, reference)
    if ask:
        text = ask.text
        tools = ", ".join(f"{TOOLS[tool]} {text.minutes[tool]:g} min" for tool in text.tools)
        blocks += [
            Block(text.title, Tone.HEAD),
            Block(ask.words),
            Block(f"Why it matters: {text.why}"),
            Block(""),
            Block("How to measure it", Tone.HEAD),
            *(Block(step, mark="- ") for step in text.how_to),
            Block(f"With: {tools}."),
            Block(f"Typed as: {text.example}"),
            Block(f"Usual mistake: {text.usual_mistake}", Tone.WARN, mark="! "),
            Block(""),
        ]
    blocks.append(Block("Keys", Tone.HEAD))
    blocks += [Block(words, mark=f"{key}: ".ljust(16)) for key, words in KEYS]
    return tuple(blocks)
