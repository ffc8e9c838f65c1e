"""Blocks as text of 80 columns, and the one way in which this program wraps a line."""

from identify.light import Iterable, Sequence
from identify.pages.blocks import Block, Picture, Rows, Table

WIDTH = 80
LABEL = 9  # columns of the label before a strip
_UNITS = ("mm", "deg", "bar", "tpi", "in", "min")
_BLANKS = str.maketrans("\n\v\f\r", "    ")
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
    rows = _filled(_held(text), max(width, 1), head, part_words=part_words)
    return [row.replace(HELD, " ") for row in rows] or [head.rstrip()]


def _held(text: str) -> str:
    """Return text in which every figure is tied to its unit, and every gap is of blanks."""
    first, *words = text.expandtabs().translate(_BLANKS).split(" ")
    out = [first]
    for word in words:
        tied = out[-1][-1:].isdecimal() and (word[:1] == "%" or _starts_with_unit(word))
        out.append(f"{HELD if tied else ' '}{word}")
    return "".join(out)


def _starts_with_unit(word: str) -> bool:
    return word.startswith(_UNITS) and any(
        word.startswith(unit) and not (word[len(unit) :][:1] or " ").replace("_", "a").isalnum()
        for unit in _UNITS
    )


def _filled(text: str, width: int, head: str, *, part_words: bool) -> list[str]:
    """Return what `textwrap.wrap` would, whose import and patterns take a third of a bare start."""
    rows: list[str] = []
    room = max(1, width - len(head))
    row, gap = "", 0
    for word in text.split(" "):
        if not word:
            gap += 1
            continue
        if rows and not row:
            gap = 0
        while len(row) + gap + len(word) > room:
            left = room - len(row) - gap
            if part_words and len(word) > room and left > 0:
                row, word = f"{row}{' ' * gap}{word[:left]}", word[left:]
            elif not row and gap:
                gap = 0  # spaces in front that leave no room for the word
                continue
            elif not row:
                break
            rows.append(row)
            row, gap = "", 0
        row, gap = f"{row}{' ' * gap}{word}", 1
    rows += [row] if row else []
    return [f"{' ' * len(head) if number else head}{row}" for number, row in enumerate(rows)]


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
