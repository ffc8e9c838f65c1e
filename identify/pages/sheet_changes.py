"""Two sheets beside each other: what was entered otherwise, and what comes out otherwise."""

from identify.pages.blocks import Block, Tone
from identify.sheets.results import Change


def difference_blocks(
    found: tuple[Change, ...], before: str, after: str, *, other_tables: bool = False
) -> list[Block]:
    """Return what differs: what it is, then both values, "-" where one of them has none.

    Args:
        found: The differences.
        before: What the first sheet is called.
        after: What the second is called.
        other_tables: Whether the two were made with other tables or rules.
    """
    head = [Block(f"{before} / {after}", Tone.HEAD)]
    if other_tables:
        head.append(Block("Tables or rules are others. What comes out otherwise stands below."))
    if not found:
        return [*head, Block("Nothing differs: entries, results and checks are the same.")]
    return [
        *head,
        *(Block(f"{each.title}: {each.before or '-'} / {each.after or '-'}", mark="  ")
          for each in found),
    ]  # fmt: skip
