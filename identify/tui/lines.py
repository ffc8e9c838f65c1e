"""Lines cut to cells: text wrapped to a pane, and blocks cut into pages."""

from collections.abc import Iterable

from identify.frozen import NamedTuple
from identify.pages.blocks import Block, Line, Picture, Rows, Tone
from identify.pages.text import picture_rows, wrap

MOST_PICKS = 9  # digits 1 to 9 on one page


class Page(NamedTuple):
    """One page of a screen: its lines, and what the digits 1 to 9 choose on it."""

    lines: tuple[Line, ...]
    picks: tuple[str, ...]


def wrapped(text: str, width: int, tone: Tone = Tone.PLAIN, head: str = "") -> tuple[Line, ...]:
    """Return text wrapped to `width` columns, `head` before the first line, the rest under it."""
    rows = wrap(text, max(width, 8), head, part_words=True)
    return tuple(Line(row, tone) for row in rows)


def caption(text: str, width: int) -> Line:
    """Return a heading with a rule that runs to the edge; a sign says if it is cut."""
    return Line(cut(f"── {text} ".ljust(width, "─"), width), Tone.HEAD)


def cut(text: str, width: int) -> str:
    """Return text of exactly `width` columns; a sign says if some of it is left out."""
    return text.ljust(width) if len(text) <= width else text[: max(width - 1, 0)] + "…"


def fit(lines: Iterable[Line], height: int) -> tuple[Line, ...]:
    """Return as many lines as there is room for; the last says so if some are left out."""
    kept = tuple(lines)
    if len(kept) <= height or height < 1:
        return kept[: max(height, 0)]
    return (*kept[: height - 1], Line("…", Tone.QUIET))


def paginate(
    blocks: Iterable[Block | Picture | Rows], width: int, height: int, style: str = ""
) -> tuple[Page, ...]:
    """Set blocks on pages of `height` rows; each page numbers its own picks from 1.

    A block longer than a page is parted, no other is; a heading stays with what it heads. A picture
    takes at most a page without the heading above it; `style` is how it is drawn.
    """
    pages: list[Page] = []
    lines: list[Line] = []
    picks: list[str] = []

    def turn() -> None:
        pages.append(Page(tuple(lines), tuple(picks)))
        lines.clear()
        picks.clear()

    every = tuple(blocks)
    for block, following in zip(every, (*every[1:], None), strict=False):
        if not isinstance(block, Block):
            rows = _stands(block, width, height, style)
            full, kept = False, 0
        else:
            rows = _set(block, len(picks) + 1, width)
            full = bool(block.pick) and len(picks) == MOST_PICKS
            headed = block.tone is Tone.HEAD and not block.pick
            kept = _kept(following, width, height, style) if headed else 0
        if lines and (full or len(lines) + len(rows) + kept > height):
            turn()
            rows = _set(block, 1, width) if isinstance(block, Block) else rows
        while len(rows) > height:
            lines.extend(rows[:height])
            rows = rows[height:]
            turn()
        lines.extend(rows)
        if isinstance(block, Block) and block.pick:
            picks.append(block.pick)
    turn()
    return tuple(pages)


def _kept(following: Block | Picture | Rows | None, width: int, height: int, style: str) -> int:
    """Return how many rows must stand on one page with the heading above them."""
    if following is None:
        return 0
    if isinstance(following, Block):
        return len(_set(following, 1, width))
    return len(_stands(following, width, height, style))


def _stands(block: Picture | Rows, width: int, height: int, style: str) -> list[Line]:
    if isinstance(block, Rows):
        return [Line(row[:width]) for row in block.rows]
    return _drawn(block, width, height, style)


def _drawn(picture: Picture, width: int, height: int, style: str) -> list[Line]:
    if picture.label:
        return [Line(row) for row in picture_rows(picture, width, picture.rows, style)]
    rows = max(picture.rows, height * 3 // 5)  # the larger the window the larger the picture
    return [
        Line(row) for row in picture_rows(picture._replace(rows=rows), width, height - 1, style)
    ]


def _set(block: Block, number: int, width: int) -> list[Line]:
    head = f"{number}  " if block.pick else block.mark
    rows = list(wrapped(block.text, width, block.tone, head))
    indent = " " * len(head)
    for text in block.under:
        rows += wrapped(text, width, Tone.QUIET if block.tone is Tone.HEAD else block.tone, indent)
    return rows
