"""Dots as braille characters: 2 by 4 dots a cell, the finest a terminal can draw."""

from identify.drawing.raster import Raster

DOTS = (2, 4)
HATCH_DOTS = 4.5

_BITS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))  # [column][row], Unicode U+2800


def cells(raster: Raster) -> list[list[str]]:
    """Return the characters, `[row][column]`; an empty cell is a plain space."""
    rows, columns = raster.down // 4, raster.across // 2
    codes = [[0] * columns for _ in range(rows)]
    for x, y in raster.dots:
        codes[y // 4][x // 2] |= _BITS[x % 2][y % 4]
    return [[chr(0x2800 + code) if code else " " for code in row] for row in codes]
