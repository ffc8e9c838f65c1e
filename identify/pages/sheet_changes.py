"""Two sheets beside each other: what was entered otherwise, and what comes out otherwise."""

from identify.pages.blocks import Block, Table, Tone
from identify.sheets.results import Change


def difference_blocks(found: tuple[Change, ...], before: str, after: str) -> list[Block | Table]:
    """Return what differs.

    Args:
        found: The differences.
        before: What the first sheet is called.
        after: What the second is called.
    """
    head = Block(f"{before} / {after}", Tone.HEAD)
    if not found:
        return [head, Block("Nothing differs: entries, results and checks are the same.")]
    rows = tuple((each.title, each.before or "-", each.after or "-") for each in found)
    return [head, Table(("what", "first", "second"), rows)]
