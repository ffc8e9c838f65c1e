"""Blocks as text of 80 columns, and the one way in which this program wraps a line."""

import re
import textwrap
from collections.abc import Iterable, Sequence

from identify.pages.blocks import Block, Picture, Rows, Table

WIDTH = 80
LABEL = 9  # columns of the label before a strip
_FIGURE = re.compile(r"(?<=\d) (?=(?:mm|deg|bar|tpi|in|min)\b|%)")  # the blank before a unit
HELD = "\N{NO-BREAK SPACE}"


def wrap(text: str, width: int = WIDTH, head: str = "", *, part_words: bool = False) -> list[str]:
    """Return text in rows of `width` columns, `head` before the first, the rest under it.

    A figure stays on one row with its unit, and nothing is broken at a hyphen (a designation) or
    a no-break space.

    Args:
        text: One paragraph.
        width: Columns.
        head: What stands before the first row: a number, a sign, a label, blanks.
        part_words: Break a word that is longer than a row, as a pane must; else it sticks out, so
            that a path can be copied.
    """
    rows = textwrap.wrap(
        _FIGURE.sub(HELD, text),
        max(width, 1),
        initial_indent=head,
        subsequent_indent=" " * len(head),
        break_long_words=part_words,
        break_on_hyphens=False,
    )
    return [row.replace(HELD, " ") for row in rows] or [head.rstrip()]


def text_of(
    blocks: Iterable[Block | Table | Rows | Picture],
    width: int = WIDTH,
    *,
    numbered: bool = False,
    style: str = "",
) -> str:
    """Return a page as text that ends with a line feed.

    Args:
        blocks: The page.
        width: Columns.
        numbered: Number what can be picked, from 1.
        style: How pictures are drawn, empty for what they show in words.
    """
    rows: list[str] = []
    picks = 0
    for block in blocks:
        if isinstance(block, Rows):
            rows += block.rows
        elif isinstance(block, Picture):
            rows += picture_rows(block, width, block.rows, style)
        elif isinstance(block, Table):
            rows += _table(block.header, block.rows, width)
        else:
            picks += bool(block.pick)
            head = f"{picks}  " if numbered and block.pick else block.mark
            rows += wrap(block.text, width, head, part_words=True)
            for text in block.under:
                rows += wrap(text, width, " " * len(head), part_words=True)
    return "\n".join(rows) + "\n"


def picture_rows(picture: Picture, width: int, rows: int, style: str) -> list[str]:
    """Return a picture as rows of text; in words without a style, or where it finds no room."""
    if style and picture.label:
        return _strip(picture, width, style)
    if style:
        from identify.drawing.render import render
        from identify.drawing.style import FEWEST_COLUMNS, FEWEST_ROWS

        tall = min(picture.rows, rows)
        if width >= FEWEST_COLUMNS and tall >= FEWEST_ROWS:
            return list(render(picture.sheet, width, tall, style))
    return wrap(picture.sheet.described, width)


def _strip(picture: Picture, width: int, style: str) -> list[str]:
    from identify.drawing.render import render_sign
    from identify.drawing.style import Style

    room = max(width - LABEL, 1)
    drawn = render_sign(picture.sheet, picture.sheet.bounds(), room, picture.rows, Style(style))
    middle = (len(drawn) - 1) // 2
    heads = [picture.label if row == middle else "" for row in range(len(drawn))]
    return [f"{head:<{LABEL}}{row}".rstrip() for head, row in zip(heads, drawn, strict=True)]


def _table(header: Sequence[str], body: Sequence[Sequence[str]], width: int) -> list[str]:
    """Return aligned columns; the last is wrapped in the room that is left.

    A column in which no row says anything is left out, the first excepted. Columns from the right
    that find no room are left out too.
    """
    heads = [name.split("\n") for name in header]
    deep = max(map(len, heads))
    top = [list(line) for line in zip(*([""] * (deep - len(h)) + h for h in heads), strict=True)]
    every = [*top, *body]
    kept = [i for i in range(len(header)) if i == 0 or any(row[i] for row in body)]
    wide = [max(len(line[i]) for line in every) for i in kept]
    longest_word = max(len(word) for line in every for word in line[kept[-1]].split(" "))
    room = width - sum(wide[:-1]) - 2 * len(wide[:-1])
    while len(kept) > 1 and room < longest_word:
        kept.pop()
        wide.pop()
        room = longest_word = width - sum(wide[:-1]) - 2 * len(wide[:-1])
    rows = []
    for line in every:
        *cells, last = [line[i] for i in kept]
        for part in wrap(last, room):
            row = [cell.ljust(size) for cell, size in zip(cells, wide, strict=False)]
            rows.append("  ".join([*row, part]).rstrip())
            cells = [""] * len(cells)
    return rows
