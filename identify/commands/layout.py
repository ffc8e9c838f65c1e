"""Plain text in 80 columns: aligned tables and labelled paragraphs."""

from collections.abc import Iterable, Sequence
from textwrap import wrap

WIDTH = 80
LABEL = 11


def table(header: Sequence[str], rows: Iterable[Sequence[str]], width: int = WIDTH) -> str:
    """Return aligned columns; columns from the right that do not fit are left out.

    A column in which no row says anything is left out too; the first always stands.
    """
    body = [list(row) for row in rows]
    kept = [i for i in range(len(header)) if i == 0 or any(row[i] for row in body)]
    widths = [max(len(header[i]), *(len(row[i]) for row in body), 0) for i in kept]
    while len(kept) > 1 and sum(widths) + 2 * (len(widths) - 1) > width:
        kept.pop()
        widths.pop()
    lines = [[header[i] for i in kept]] + [[row[i] for i in kept] for row in body]
    return "\n".join(
        "  ".join(cell.ljust(size) for cell, size in zip(line, widths, strict=True)).rstrip()
        for line in lines
    )


def paragraph(text: str, indent: int = 0, width: int = WIDTH) -> str:
    """Return running text, wrapped and indented."""
    pad = " " * indent
    return "\n".join(wrap(text, width, initial_indent=pad, subsequent_indent=pad))


def labelled(label: str, text: str, width: int = WIDTH) -> str:
    """Return text with a label in the margin, wrapped under itself."""
    first = label.ljust(LABEL)
    return "\n".join(wrap(text, width, initial_indent=first, subsequent_indent=" " * LABEL))
