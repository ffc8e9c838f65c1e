"""Lines of text with a tone, wrapped to a width; blocks of them, cut into pages."""

import textwrap
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

MOST_PICKS = 9  # digits 1 to 9 on one page


class Tone(StrEnum):
    """How a line is set. A theme gives it a look; the words must say the same without it."""

    PLAIN = "plain"
    TITLE = "title"  # the line at the top of a screen
    HEAD = "head"
    QUIET = "quiet"
    WARN = "warn"


@dataclass(frozen=True, slots=True)
class Line:
    """One row of a pane."""

    text: str
    tone: Tone = Tone.PLAIN


@dataclass(frozen=True, slots=True)
class Block:
    """A paragraph that is not parted at the end of a page.

    `pick` names what its number chooses; it is empty for text that only tells. `under` holds
    further lines that belong to it, each a paragraph of its own.
    """

    text: str
    tone: Tone = Tone.PLAIN
    pick: str = ""
    under: tuple[str, ...] = ()
    mark: str = ""  # stands before a text that is not picked, as a number does


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a screen: its lines, and what the digits 1 to 9 choose on it."""

    lines: tuple[Line, ...]
    picks: tuple[str, ...]


def wrap(
    text: str, width: int, tone: Tone = Tone.PLAIN, head: str = "", indent: str = ""
) -> tuple[Line, ...]:
    """Return text wrapped to `width` columns, `head` before the first line, the rest under it.

    No line is broken at a no-break space.
    """
    rows = textwrap.wrap(
        text,
        max(width, 8),
        initial_indent=indent + head,
        subsequent_indent=indent + " " * len(head),
        break_on_hyphens=False,
    )
    return tuple(Line(row.replace("\u00a0", " "), tone) for row in rows) or (Line("", tone),)


def caption(text: str, width: int) -> Line:
    """Return a heading with a rule that runs to the edge."""
    return Line(f"── {text} ".ljust(width, "─")[:width], Tone.HEAD)


def cut(text: str, width: int) -> str:
    """Return text of exactly `width` columns; a sign says if some of it is left out."""
    return text.ljust(width) if len(text) <= width else text[: max(width - 1, 0)] + "…"


def fit(lines: Iterable[Line], height: int) -> tuple[Line, ...]:
    """Return as many lines as there is room for; the last says so if some are left out."""
    kept = tuple(lines)
    if len(kept) <= height or height < 1:
        return kept[: max(height, 0)]
    return (*kept[: height - 1], Line("…", Tone.QUIET))


def paginate(blocks: Iterable[Block], width: int, height: int) -> tuple[Page, ...]:
    """Set blocks on pages of `height` rows; each page numbers its own picks from 1.

    A block longer than a page is parted, no other is; a heading stays with what it heads.
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
        rows = _set(block, len(picks) + 1, width)
        full = block.pick and len(picks) == MOST_PICKS
        headed = block.tone is Tone.HEAD and not block.pick and following is not None
        kept = len(_set(following, 1, width)) if headed and following else 0
        if lines and (full or len(lines) + len(rows) + kept > height):
            turn()
            rows = _set(block, 1, width)
        while len(rows) > height:
            lines.extend(rows[:height])
            rows = rows[height:]
            turn()
        lines.extend(rows)
        if block.pick:
            picks.append(block.pick)
    turn()
    return tuple(pages)


def _set(block: Block, number: int, width: int) -> list[Line]:
    head = f"{number}  " if block.pick else block.mark
    rows = list(wrap(block.text, width, block.tone, head))
    indent = " " * len(head)
    for text in block.under:
        rows += wrap(text, width, Tone.QUIET if block.tone is Tone.HEAD else block.tone, "", indent)
    return rows
