"""The confusion table of a trainee as an SVG image: a bar for each of two, by what was answered."""

from collections.abc import Sequence
from html import escape

from identify.practice.progress import PairProgress

_WIDTH, _NAMES, _BAR, _ROW = 720, 300, 400, 20  # of the image, of its names, bars and rows [px]
_FILLS = (
    ("right", "#276749", "#fff"),
    ("wrong", "url(#wrong)", "#000"),
    ("guessed or left open", "#fff", "#000"),
)
"""What a piece of a bar stands for, how it is filled, and the colour of its figure.

Paper without colour still shows dark, striped and white, and each piece bears its count.
"""
_STRIPES = (
    '<defs><pattern id="wrong" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<rect width="6" height="6" fill="#fed7d7"/>'
    '<path d="M0 6L6 0" stroke="#f56565" stroke-width="1"/></pattern></defs>'
)
_LONGEST = 46  # characters of a name that find room before its bar


def confusion_svg(found: Sequence[PairProgress]) -> str:
    """Return the image; each bar is as long as there were answers, the longest fills the room.

    Args:
        found: The pairs that were met.

    Returns:
        SVG to stand within HTML; it refers to nothing outside itself.
    """
    most = max((sum(cells) for each in found for cells in each.cells), default=1)
    rows, top = _legend(), 2 * _ROW
    for each in found:
        rows.append(_text(0, top, f"{each.words}: {each.right} of {each.tries}", bold=True))
        top += _ROW
        sides = each.pair.sides if each.pair else ("", "")
        for side, cells in zip(sides, each.cells, strict=True):
            if sum(cells):
                name = side if len(side) <= _LONGEST else f"{side[: _LONGEST - 1]}…"
                rows.append(_text(12, top, name))
                rows += _bar(cells, most, top)
                top += _ROW
        top += _ROW // 2
    told = sum(each.right for each in found)
    tries = sum(each.tries for each in found)
    title = f"Answers by pair and by what lay there: {told} of {tries} right"
    return (
        f'<svg viewBox="0 0 {_WIDTH} {top}" width="{_WIDTH}" '
        f'height="{top}" role="img" font-family="sans-serif" font-size="12">'
        f"<title>{escape(title)}</title>{_STRIPES}{''.join(rows)}</svg>"
    )


def _legend() -> list[str]:
    out, left = [], 0
    for words, fill, _ in _FILLS:
        out.append(_piece(left, 4, 16, fill))
        out.append(_text(left + 22, 0, words))
        left += 30 + 8 * len(words)
    return out


def _bar(cells: Sequence[int], most: int, top: int) -> list[str]:
    out, left = [], float(_NAMES)
    for count, (_, fill, ink) in zip(cells, _FILLS, strict=True):
        if count:
            wide = _BAR * count / most
            out.append(_piece(left, top + 3, wide, fill))
            out.append(_text(left + wide / 2, top, str(count), ink=ink, middle=True))
            left += wide
    return out


def _piece(left: float, top: float, wide: float, fill: str) -> str:
    return (
        f'<rect x="{left:.1f}" y="{top}" width="{wide:.1f}" height="{_ROW - 6}" '
        f'fill="{fill}" stroke="#000" stroke-width="0.8"/>'
    )


def _text(
    left: float, top: float, words: str, *, ink: str = "#000", bold: bool = False,
    middle: bool = False,
) -> str:  # fmt: skip
    more = ' font-weight="bold"' if bold else ""
    more += ' text-anchor="middle"' if middle else ""
    return f'<text x="{left:.1f}" y="{top + 14}" fill="{ink}"{more}>{escape(words)}</text>'
