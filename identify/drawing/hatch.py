"""Hatching: parallel lines at 45 deg, clipped to a closed region (ISO 128-3)."""

import math

from identify.drawing.outline import Fill, Point, Region

Segment = tuple[Point, Point]


def hatch_lines(region: Region, spacing_mm: float) -> tuple[Segment, ...]:
    """Return hatch lines across a region.

    The lines lie on a grid fixed to the sheet, so that regions of one part hatch in step.

    Args:
        region: A closed region of any shape.
        spacing_mm: Distance between lines, square to them [mm], above 0.

    Returns:
        Segments [mm].
    """
    slope = 1.0 if region.fill is Fill.CUT else -1.0
    step = spacing_mm * math.sqrt(2)
    offsets = [y - slope * x for x, y in region.points]
    segments: list[Segment] = []
    for index in range(math.ceil(min(offsets) / step), math.floor(max(offsets) / step) + 1):
        crossings = sorted(_crossings(region.points, slope, index * step))
        segments += [
            ((x1, slope * x1 + index * step), (x2, slope * x2 + index * step))
            for x1, x2 in zip(crossings[::2], crossings[1::2], strict=False)
        ]
    return tuple(segments)


def _crossings(points: tuple[Point, ...], slope: float, offset: float) -> list[float]:
    """Return the x at which the line y = slope x + offset crosses the boundary."""
    found = []
    for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True):
        before, after = y1 - slope * x1 - offset, y2 - slope * x2 - offset
        if (before > 0) != (after > 0):  # half-open, so that a corner counts once
            found.append(x1 + (x2 - x1) * before / (before - after))
    return found
