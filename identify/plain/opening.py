"""What is asked before the first question: an interview to go on with, tools, state of the end."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import Sequence
from identify.model.rule import Access, Tool
from identify.model.rulebook import RuleBook
from identify.pages.blocks import Block
from identify.pages.interview import (
    WHO,
    access_items,
    access_words,
    care_blocks,
    care_picked,
    kept,
    resume_blocks,
    tool_items,
    tool_names,
)
from identify.plain.console import Console

if TYPE_CHECKING:
    from identify.jobs.journal import Saved


def choose(console: Console, saved: Saved, book: RuleBook) -> str:
    """Return what becomes of a saved interview: "on", "new" or "discard".

    A script is not asked, because its first line is meant for a new interview.
    """
    if not console.typed:
        console.say(kept(saved))
        return "new"
    blocks = resume_blocks(saved, book)
    console.show(blocks)
    found = picks(blocks)
    while (line := console.hear()) not in found:
        console.say(f"Type a number from 1 to {len(found)}.")
    return found[line]


def ask_tools(console: Console, tools: frozenset[Tool], care: str) -> tuple[frozenset[Tool], str]:
    """Ask what is to hand, and who measures if one wants to say; Enter keeps both.

    Where only that was wanted the tools stay too.
    """
    items = tool_items(care)
    console.show(
        [
            Block("What have you to hand? Type the numbers, such as 1 3."),
            *items,
            Block(f"Enter alone keeps: {tool_names(tools)}."),
        ]
    )
    found = picks(items)
    while True:
        numbers = console.hear().replace(",", " ").split()
        if all(each in found or each == "0" for each in numbers):
            picked = [found.get(each, "") for each in numbers]
            if WHO in picked:
                care = _ask_care(console, care)
            if not set(picked) <= {WHO}:
                tools = frozenset(Tool(each) for each in picked if each not in ("", WHO))
            return tools, care
        console.say(f"Type numbers from 0 to {len(found)} with a space between, or Enter.")


def _ask_care(console: Console, care: str) -> str:
    blocks = care_blocks()
    console.show(blocks)
    found = picks(blocks)
    while (line := console.hear()) not in found:
        if not line:
            return care
        console.say(f"Type a number from 1 to {len(found)}, or Enter to leave it.")
    return care_picked(found[line])


def ask_access(console: Console, access: Access) -> Access:
    """Ask how much of the end can be reached; Enter keeps `access`."""
    items = access_items()
    console.show(
        [
            Block("How is the end now?"),
            *items,
            Block(f"Enter alone keeps: {access_words(access)}."),
        ]
    )
    found = picks(items)
    while (line := console.hear()) not in found:
        if not line:
            return access
        console.say(f"Type a number from 1 to {len(found)}, or Enter.")
    return Access(found[line])


def picks(blocks: Sequence[Block]) -> dict[str, str]:
    """Return what the numbers of a page choose."""
    chosen = [block.pick for block in blocks if block.pick]
    return {str(number): pick for number, pick in enumerate(chosen, 1)}
