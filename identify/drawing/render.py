"""A sheet as lines of text, to scale, with its labels and scale bar."""

from identify.drawing.characters import ASCII, BLOCKS, BRAILLE, PLAIN
from identify.drawing.fit import Box, Fit, fit_box, place
from identify.drawing.layout import DimensionLine, Layout, arrange
from identify.drawing.outline import Sheet, Side
from identify.drawing.raster import rasterise
from identify.drawing.style import Style

LONGEST_BAR, SCALE_WORDS = 16, 27  # columns of the scale bar, and of what stands beside it
LEAST_PART = 0.4  # of the canvas, across and down; labels take no more than the rest
SPARE_ROW = 0.4  # of a small picture, so that its axis can fall on a row of dots
CELL_RATIO = 2.0  # height of a character cell over its width

_CHARACTERS = {Style.BRAILLE: BRAILLE, Style.BLOCKS: BLOCKS, Style.ASCII: ASCII}


def render(
    sheet: Sheet,
    columns: int,
    rows: int,
    style: Style | str = Style.BRAILLE,
    cell_ratio: float = CELL_RATIO,
) -> tuple[str, ...]:
    """Draw a sheet as text.

    Args:
        sheet: What to draw.
        columns: Width of the canvas in characters, 36 or more.
        rows: Height of the canvas in lines, 12 or more.
        style: Braille, quadrant blocks or ASCII.
        cell_ratio: Height of a character cell over its width, as the terminal's font has it.

    Returns:
        Exactly `rows` lines of at most `columns` characters, trailing spaces cut.
    """
    style = Style(style)
    layout = text_layout(sheet, columns, rows, cell_ratio)
    how = _CHARACTERS[style]
    grid = how.cells(rasterise(sheet, layout.fit, columns, rows, how.dots, how.hatch_dots))
    for line in layout.lines:
        _draw_dimension(grid, line, layout.fit)
    _draw_labels(grid, layout)
    if sheet.to_scale:
        _draw_scale(grid, layout.fit, how.dots[0])
    text = tuple("".join(row).rstrip() for row in grid)
    return tuple(line.translate(PLAIN) for line in text) if style is Style.ASCII else text


def render_sign(
    sheet: Sheet,
    frame: tuple[float, float, float, float],
    columns: int,
    rows: int,
    style: Style,
) -> tuple[str, ...]:
    """Draw a sheet without labels and scale.

    Args:
        sheet: What to draw.
        frame: Left, bottom, right, top of what the canvas holds [mm].
        columns: Width of the canvas in characters.
        rows: Height of the canvas in lines.
        style: How dots become characters.

    Returns:
        Exactly `rows` lines of `columns` characters.
    """
    left, bottom, right, top = frame
    scale = max((right - left) / columns, (top - bottom) / (rows - SPARE_ROW) / CELL_RATIO)
    fit = place(frame, Box(0, 0, columns, rows), scale, CELL_RATIO, 0.0, 0)
    how = _CHARACTERS[style]
    grid = how.cells(rasterise(sheet, fit, columns, rows, how.dots, how.hatch_dots))
    return tuple("".join(row) for row in grid)


def text_layout(sheet: Sheet, columns: int, rows: int, cell_ratio: float = CELL_RATIO) -> Layout:
    """Return where everything goes on a canvas of a given size."""
    bounds = sheet.bounds()
    longest_bar = min(LONGEST_BAR, columns - SCALE_WORDS)

    def scaler(left: int, right: int, top: int, bottom: int) -> tuple[Fit, int, int] | None:
        box = Box(left, top, columns - right, rows - 1 - bottom)
        if min((box.right - box.left) / columns, (box.bottom - box.top) / rows) < LEAST_PART:
            return None
        return fit_box(bounds, box, cell_ratio, longest_bar), columns, rows

    return arrange(sheet, scaler)


def _draw_dimension(grid: list[list[str]], line: DimensionLine, fit: Fit) -> None:
    """Draw a dimension line and its extension lines in box-drawing characters."""
    (x1, y1), (x2, y2) = line.dimension.start, line.dimension.end
    if line.dimension.side in (Side.LEFT, Side.RIGHT):
        ends = sorted((int(fit.row(y1)), int(fit.row(y2))))
        step = 1 if line.dimension.side is Side.LEFT else -1
        for row, mark in zip(ends, "┬┴", strict=True):
            _run(
                grid,
                row,
                line.at + step,
                int(fit.column(min(x1, x2) if step > 0 else max(x1, x2))),
                step,
            )
            grid[row][line.at] = mark
        for row in range(ends[0] + 1, ends[1]):
            grid[row][line.at] = "│"
        return
    left, right = sorted((int(fit.column(x1)), int(fit.column(x2))))
    lowest = int(fit.row(min(y1, y2)))
    for column, mark in ((left, "├"), (right, "┤")):
        for row in range(lowest, line.at):
            if grid[row][column] == " ":
                grid[row][column] = "│"
        grid[line.at][column] = mark
    for column in range(left + 1, right):
        grid[line.at][column] = "─"


def _run(grid: list[list[str]], row: int, column: int, stop: int, step: int) -> None:
    """Draw an extension line through empty cells, up to the part."""
    while column != stop + step and 0 <= column < len(grid[row]) and grid[row][column] == " ":
        grid[row][column] = "─"
        column += step


def _draw_labels(grid: list[list[str]], layout: Layout) -> None:
    for label in layout.labels:
        step = 1 if label.to_row >= label.row else -1
        for row in range(label.row + step, label.to_row + step, step):
            grid[row][label.column] = "│"
        if label.dot:
            grid[label.to_row][label.column] = "•"
        grid[label.row][label.start : label.start + len(label.text)] = label.text


def _draw_scale(grid: list[list[str]], fit: Fit, dots_across: int) -> None:
    bar = "├" + "─" * (fit.bar_columns - 1) + "┤"
    dot = fit.mm_per_column / dots_across
    what = "dot" if dots_across > 1 else "column"
    text = f"{bar} {fit.bar_mm:g} mm, 1 {what} = {dot:.2g} mm"
    grid[-1][: len(text)] = text[: len(grid[-1])]
