"""Plain text in 80 columns: aligned tables and labelled paragraphs."""

from collections.abc import Iterable, Sequence
from textwrap import wrap

WIDTH = 80
LABEL = 11


def table(header: Sequence[str], rows: Iterable[Sequence[str]], width: int = WIDTH) -> str:
    """Return aligned columns; the last is wrapped in the room that is left.

    A column in which no row says anything is left out, the first excepted. Columns from the right
    that find no room are left out too. A name in the header may have several lines.
    """
    body = [list(row) for row in rows]
    heads = [name.split("\n") for name in header]
    deep = max(map(len, heads))
    top = [list(line) for line in zip(*([""] * (deep - len(h)) + h for h in heads), strict=True)]
    kept = [i for i in range(len(header)) if i == 0 or any(row[i] for row in body)]
    wide = [max(len(line[i]) for line in [*top, *body]) for i in kept]
    longest_word = max(len(word) for line in [*top, *body] for word in line[kept[-1]].split(" "))
    room = width - sum(wide[:-1]) - 2 * len(wide[:-1])
    while len(kept) > 1 and room < longest_word:
        kept.pop()
        wide.pop()
        room = longest_word = width - sum(wide[:-1]) - 2 * len(wide[:-1])
    lines = []
    for line in [*top, *body]:
        *cells, last = [line[i] for i in kept]
        for part in _wrap(last, room) or [""]:
            row = [cell.ljust(size) for cell, size in zip(cells, wide, strict=False)]
            lines.append("  ".join([*row, part]).rstrip())
            cells = [""] * len(cells)
    return "\n".join(lines)


def paragraph(text: str, indent: int = 0, width: int = WIDTH) -> str:
    """Return running text, wrapped and indented."""
    pad = " " * indent
    return "\n".join(_wrap(text, width, pad, pad))


def labelled(label: str, text: str, width: int = WIDTH) -> str:
    """Return text with a label in the margin, wrapped under itself."""
    first = label.ljust(LABEL)
    return "\n".join(_wrap(text, width, first, " " * LABEL))


def _wrap(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """Wrap at blanks only: a designation or an id is never broken at its hyphen."""
    return wrap(text, width, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
