"""Dots as quadrant blocks: 2 by 2 dots a cell, bold enough for sunlight."""

from identify.drawing.raster import Raster

DOTS = (2, 2)
HATCH_DOTS = 2.6

_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"  # bits: 1 upper left, 2 upper right, 4 lower left, 8 lower right


def cells(raster: Raster) -> list[list[str]]:
    """Return the characters, `[row][column]`; an empty cell is a plain space."""
    rows, columns = raster.down // 2, raster.across // 2
    codes = [[0] * columns for _ in range(rows)]
    for x, y in raster.dots:
        codes[y // 2][x // 2] |= 1 << (x % 2 + 2 * (y % 2))
    return [[_QUADRANTS[code] for code in row] for row in codes]
