"""Where labels, dimension lines and leaders go, so that none covers another or leaves the canvas.

Labels stand in rows above and below the part; a leader drops straight from under its label to the
point it speaks of. Dimension lines along y stand in gutters left and right, those along x in rows
below the part. The fewest label rows that hold all labels are taken; a label for which there is no
room is left to the words.
"""

import math

from identify.drawing.fit import Box, Fit
from identify.drawing.outline import Dimension, Note, Sheet, Side
from identify.frozen import dataclass
from identify.light import Callable

MOST_LABEL_ROWS = 4  # a side
_GUTTER = 3  # columns for one dimension line


@dataclass(frozen=True, slots=True)
class Label:
    """A placed text with its leader, in cells.

    The leader runs in column `column` from the text to row `to_row`; `tip` is where it ends, as
    column and row with their fractions. `dot` tells that it ends on the part, not on a dimension
    line.
    """

    text: str
    row: int
    start: int
    column: int
    to_row: int
    tip: tuple[float, float]
    dot: bool

    @property
    def cells(self) -> range:
        """Columns the text covers."""
        return range(self.start, self.start + len(self.text))


@dataclass(frozen=True, slots=True)
class DimensionLine:
    """A placed dimension line: in column `at` for one along y, in row `at` for one along x."""

    dimension: Dimension
    at: int


@dataclass(frozen=True, slots=True)
class Layout:
    """A finished arrangement on a canvas of cells; the last row holds the scale bar."""

    columns: int
    rows: int
    fit: Fit
    labels: tuple[Label, ...]
    lines: tuple[DimensionLine, ...]


Scaler = Callable[[int, int, int, int], tuple[Fit, int, int] | None]
"""From the margins left, right, top, bottom to a fit and the canvas in columns and rows.

None where the margins leave the part too little room.
"""


@dataclass(frozen=True, slots=True)
class _Want:
    text: str
    column: int
    to_row: int
    tip: tuple[float, float]
    dot: bool
    asked: bool


def arrange(sheet: Sheet, scaler: Scaler) -> Layout:
    """Return the arrangement of a sheet with the fewest label rows.

    Args:
        sheet: What to draw.
        scaler: Gives scale and canvas once the margins are known.
    """
    keep = list(sheet.labelled)
    while True:
        found = _try_rows(sheet, keep, scaler)
        if isinstance(found, Layout):
            return found
        plain = [item for item in keep if not item.asked] or keep
        crowded = [item for item in plain if item.side is found] or plain
        keep.remove(crowded[-1] if not isinstance(found, Note) else found)


def _try_rows(
    sheet: Sheet, keep: list[Dimension | Note], scaler: Scaler
) -> Layout | Note | Side | None:
    """Return the arrangement of what is kept; or which note, or which side, is one too many."""
    below = _dimensions(keep, Side.BOTTOM)
    left = _GUTTER * len(_dimensions(keep, Side.LEFT)) + 1
    right = _GUTTER * len(_dimensions(keep, Side.RIGHT)) + 1
    top = bottom = 0
    crowded: Side | None = None
    while top <= MOST_LABEL_ROWS and bottom <= MOST_LABEL_ROWS:
        scaled = scaler(left, right, top, bottom + len(below))
        if scaled is None:
            return crowded
        fit, columns, rows = scaled
        part = _part_cells(sheet, fit)
        lines = _lines(keep, part)
        over, under = _wants(keep, lines, fit)
        if (close := _too_close(keep, fit)) is not None:
            return close
        last = part.bottom + len(below)
        above = _place(over, [part.top - 1 - row for row in range(top)], columns, down=True)
        beneath = _place(under, [last + row for row in range(bottom)], columns, down=False)
        if above is not None and beneath is not None:
            return Layout(columns, rows, fit, (*above, *beneath), tuple(lines))
        top += above is None
        bottom += beneath is None
        crowded = Side.TOP if above is None else Side.BOTTOM
    return crowded


def _too_close(keep: list[Dimension | Note], fit: Fit) -> Note | None:
    """Return a note whose leader would touch that of an earlier one: no rows can part the two."""
    taken: list[tuple[Side, int]] = []
    for note in keep:
        if isinstance(note, Note):
            column = int(fit.column(note.at[0]))
            near = any(side is note.side and abs(at - column) < 2 for side, at in taken)
            if near and not note.asked:
                return note
            taken.append((note.side, column))
    return None


def _dimensions(keep: list[Dimension | Note], side: Side) -> list[Dimension]:
    """Return the dimensions of one side, the shortest, which stands nearest the part, first."""
    found = [item for item in keep if isinstance(item, Dimension) and item.side is side]
    return sorted(found, key=lambda item: math.dist(item.start, item.end))


def _part_cells(sheet: Sheet, fit: Fit) -> Box:
    """Return the cells the part covers."""
    left, bottom, right, top = sheet.bounds()
    return Box(
        int(fit.column(left)),
        int(fit.row(top)),
        math.ceil(fit.column(right)),
        math.ceil(fit.row(bottom)),
    )


def _lines(keep: list[Dimension | Note], part: Box) -> list[DimensionLine]:
    out = []
    for side, first, step in (
        (Side.LEFT, part.left - _GUTTER, -_GUTTER),
        (Side.RIGHT, part.right + _GUTTER - 1, _GUTTER),
        (Side.BOTTOM, part.bottom, 1),
    ):
        for number, item in enumerate(_dimensions(keep, side)):
            out.append(DimensionLine(item, first + step * number))
    return out


def _wants(
    keep: list[Dimension | Note], lines: list[DimensionLine], fit: Fit
) -> tuple[list[_Want], list[_Want]]:
    """Return what is to be labelled above and below the part."""
    over: list[_Want] = []
    under: list[_Want] = []
    for note in keep:
        if isinstance(note, Note):
            tip = (fit.column(note.at[0]), fit.row(note.at[1]))
            want = _Want(note.label, int(tip[0]), int(tip[1]), tip, True, note.asked)
            (over if note.side is Side.TOP else under).append(want)
    for line in lines:
        item = line.dimension
        if item.side is Side.BOTTOM:
            middle = fit.column((item.start[0] + item.end[0]) / 2)
            tip = (middle, line.at + 0.5)
            under.append(_Want(item.label, int(middle), line.at + 1, tip, False, item.asked))
    for line in lines:
        item = line.dimension
        if item.side is not Side.BOTTOM:  # labelled at whichever end is less crowded
            high, low = sorted((fit.row(item.start[1]), fit.row(item.end[1])))
            above = len(over) <= len(under)
            end, to_row = (high, int(high) - 1) if above else (low, int(low) + 1)
            want = _Want(item.label, line.at, to_row, (line.at + 0.5, end), False, item.asked)
            (over if above else under).append(want)
    return over, under


def _place(wants: list[_Want], rows: list[int], columns: int, down: bool) -> list[Label] | None:
    """Place the texts of one side by trying every row and alignment in turn, None if impossible."""
    return _search(
        sorted(wants, key=lambda want: (not want.asked, want.column)), [], rows, columns, down
    )


def _search(
    wants: list[_Want], placed: list[Label], rows: list[int], columns: int, down: bool
) -> list[Label] | None:
    if not wants:
        return placed
    want, *others = wants
    for row in rows:
        for start in _starts(want, columns):
            label = Label(want.text, row, start, want.column, want.to_row, want.tip, want.dot)
            if all(_clear(label, other, down) and _clear(other, label, down) for other in placed):
                found = _search(others, [*placed, label], rows, columns, down)
                if found is not None:
                    return found
    return None


def _starts(want: _Want, columns: int) -> list[int]:
    """Return possible first columns: text right of its leader, left of it, or across it."""
    length, column = len(want.text), want.column
    last = columns - length
    if last < 0:
        return []
    wanted = [column - round(share * (length - 1)) for share in (0, 1, 0.5, 0.25, 0.75)]
    if not want.dot:
        wanted.reverse()
    return list(dict.fromkeys(max(0, min(start, last)) for start in wanted))


def _clear(label: Label, other: Label, down: bool) -> bool:
    """Tell that a label's text touches neither the other's text nor its leader."""
    if label.row == other.row:
        return label.cells.stop < other.start or other.cells.stop < label.start
    crossed = other.row < label.row if down else other.row > label.row
    return not (crossed and label.start - 1 <= other.column <= label.cells.stop)
