"""From millimetres to character cells, at a scale whose bar is a whole number of columns."""

from identify.frozen import dataclass

BARS_MM = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
SHORTEST_BAR = 4  # columns

_CLEAR = 0.15  # rows left free below, so that no dot falls into the next row
AXIS_IN_ROW = 0.375  # the axis falls on a row of dots, so that both halves come out alike


@dataclass(frozen=True, slots=True)
class Fit:
    """A scale and a place.

    Column 0 begins at x = `left_mm`, row 0 at y = `top_mm`; rows grow downwards. The scale bar is
    `bar_mm` long, exactly `bar_columns` columns.
    """

    mm_per_column: float
    mm_per_row: float
    left_mm: float
    top_mm: float
    bar_mm: float
    bar_columns: int

    def column(self, x_mm: float) -> float:
        """Return the column of x, with its fraction."""
        return (x_mm - self.left_mm) / self.mm_per_column

    def row(self, y_mm: float) -> float:
        """Return the row of y, with its fraction."""
        return (self.top_mm - y_mm) / self.mm_per_row


@dataclass(frozen=True, slots=True)
class Box:
    """The cells kept for the part: columns `left` to `right`, rows `top` to `bottom`, exclusive."""

    left: int
    top: int
    right: int
    bottom: int


def fit_box(
    bounds: tuple[float, float, float, float], box: Box, cell_ratio: float, longest_bar: int
) -> Fit:
    """Return the largest scale at which a part fits a box, with the part in its middle.

    Args:
        bounds: Left, bottom, right, top of the part [mm].
        box: Cells to fill.
        cell_ratio: Height of a cell over its width.
        longest_bar: Most columns the scale bar may take.
    """
    left, bottom, right, top = bounds
    columns, rows = box.right - box.left, box.bottom - box.top - 1 - _CLEAR  # room for the axis
    least = max((right - left) / columns, (top - bottom) / rows / cell_ratio)
    scale, bar_mm, bar = min(
        (length / count, length, count)
        for length in BARS_MM
        for count in range(SHORTEST_BAR, longest_bar + 1)
        if length / count >= least
    )
    return place(bounds, box, scale, cell_ratio, bar_mm, bar)


def place(
    bounds: tuple[float, float, float, float],
    box: Box,
    mm_per_column: float,
    cell_ratio: float,
    bar_mm: float,
    bar_columns: int,
) -> Fit:
    """Return a fit of a given scale with the part in the middle of the box."""
    left, bottom, right, top = bounds
    mm_per_row = mm_per_column * cell_ratio
    middle = (box.left + box.right) / 2
    left_mm = (left + right) / 2 - middle * mm_per_column
    axis_row = (box.top + box.bottom) / 2 + (top + bottom) / 2 / mm_per_row
    axis_row = int(axis_row) + AXIS_IN_ROW
    while axis_row - top / mm_per_row < box.top:
        axis_row += 1
    while axis_row - bottom / mm_per_row > box.bottom - _CLEAR:
        axis_row -= 1
    return Fit(mm_per_column, mm_per_row, left_mm, axis_row * mm_per_row, bar_mm, bar_columns)
