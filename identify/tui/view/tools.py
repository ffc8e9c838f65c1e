"""Tools and access: asked once at the start, changed at any time."""

from identify.interview.tools import ASKED
from identify.model.rule import Access, Tool
from identify.pages.words import ACCESS, TOOLS
from identify.tui.view.lines import Block, Tone

_NOTES = {
    Tool.METRIC_GAUGE: "leaves marked in mm",
    Tool.INCH_GAUGE: "leaves marked in threads per inch",
    Tool.SEAT_GAUGE: "leaves or plugs for 24, 30, 37, 45 and 60 degree seats",
    Tool.KNOWN_ENDS: "to try the end on by hand",
    Tool.COMBS: 'printed with "whichend gauges"',
}


def tool_blocks(chosen: frozenset[Tool]) -> tuple[Block, ...]:
    """Return the tools to tick; a tick is a word, not a colour."""
    blocks = [Block("What have you to hand? A digit ticks or unticks.", Tone.HEAD), Block("")]
    for tool in ASKED:
        tick = "[x]" if tool in chosen else "[ ]"
        note = f" ({_NOTES[tool]})" if tool in _NOTES else ""
        blocks.append(Block(f"{tick} {TOOLS[tool]}{note}", pick=tool))
    blocks += [
        Block("0  nothing at all: eye and hand only"),
        Block(""),
        Block("Enter goes on. t changes this at any time.", Tone.HEAD),
        Block(""),
        Block("A caliper alone is enough for most ends. New here? g shows an example."),
    ]
    return tuple(blocks)


def access_blocks(cautions: tuple[str, ...]) -> tuple[Block, ...]:
    """Return the three states of the joint, and what to mind before touching it."""
    return (
        Block("How is the end now?", Tone.HEAD),
        Block(""),
        *(Block(f"{ACCESS[each][0]}: {ACCESS[each][1]}", pick=each) for each in Access),
        Block(""),
        *(Block(caution, Tone.WARN, mark="! ") for caution in cautions),
    )
