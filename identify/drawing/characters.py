"""Dots as characters: braille, quadrant blocks, ASCII."""

from identify.drawing.outline import Kind
from identify.drawing.raster import Raster
from identify.frozen import dataclass
from identify.light import Callable

Grid = list[list[str]]  # characters, [row][column]; an empty cell is a plain space


@dataclass(frozen=True, slots=True)
class Characters:
    """One way to write dots.

    `dots` are those of a cell, across and down; `hatch_dots` is the distance between hatch lines
    in the coarser of the two dot sizes; `cells` returns the characters of a raster.
    """

    dots: tuple[int, int]
    hatch_dots: float
    cells: Callable[[Raster], Grid]


_BITS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))  # [column][row], Unicode U+2800
_QUADRANTS = " ▘▝▀▖▌▞▛▗▚▐▜▄▙▟█"  # bits: 1 upper left, 2 upper right, 4 lower left, 8 lower right

PLAIN = str.maketrans("├┤┬┴┼─│┊•Ø°", "||--+-|:ood", "")
"""Stand-ins for what labels and dimension lines use beyond ASCII."""


def _braille(raster: Raster) -> Grid:
    rows, columns = raster.down // 4, raster.across // 2
    codes = [[0] * columns for _ in range(rows)]
    for x, y in raster.dots:
        codes[y // 4][x // 2] |= _BITS[x % 2][y % 4]
    return [[chr(0x2800 + code) if code else " " for code in row] for row in codes]


def _blocks(raster: Raster) -> Grid:
    rows, columns = raster.down // 2, raster.across // 2
    codes = [[0] * columns for _ in range(rows)]
    for x, y in raster.dots:
        codes[y // 2][x // 2] |= 1 << (x % 2 + 2 * (y % 2))
    return [[_QUADRANTS[code] for code in row] for row in codes]


def _ascii(raster: Raster) -> Grid:
    """Return lines by their slope, hatching as dots."""
    out = [[" "] * raster.across for _ in range(raster.down)]
    for (x, y), kind in raster.dots.items():
        out[y][x] = _character(kind, raster.slopes[x, y])
    return out


def _character(kind: Kind, slope_deg: float) -> str:
    if kind is Kind.HATCH:
        return "."
    if kind is Kind.CENTRE:
        return "-"
    if kind is Kind.HIDDEN:
        return ":" if abs(slope_deg) > 67 else "'"
    if abs(slope_deg) < 15:
        return "-" if kind is not Kind.THREAD else "="
    if abs(slope_deg) > 75:
        return "|"
    return "/" if slope_deg > 0 else "\\"


BRAILLE = Characters((2, 4), 4.5, _braille)  # the finest a terminal can draw
BLOCKS = Characters((2, 2), 2.6, _blocks)  # bold enough for sunlight
ASCII = Characters((1, 1), 1.5, _ascii)  # for terminals without Unicode
