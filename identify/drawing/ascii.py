"""Dots as ASCII: one dot a cell, for terminals without Unicode."""

from identify.drawing.outline import Kind
from identify.drawing.raster import Raster

DOTS = (1, 1)
HATCH_DOTS = 1.5

PLAIN = str.maketrans("├┤┬┴┼─│┊•Ø°", "||--+-|:ood", "")
"""Stand-ins for what labels and dimension lines use beyond ASCII."""


def cells(raster: Raster) -> list[list[str]]:
    """Return the characters, `[row][column]`: lines by their slope, hatching as dots."""
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
