"""Lines and hatching on a grid of dots."""

import math

from identify.drawing.fit import Fit
from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet
from identify.drawing.thread_profile import DOTS_FOR_CRESTS, dots_for_teeth, thread_lines
from identify.light import Iterator

DASHES: dict[Kind, tuple[int, ...]] = {
    Kind.HIDDEN: (3, 2),
    Kind.CENTRE: (8, 2, 2, 2),
}
"""Dots on and off in turn; kinds not named are continuous."""
_ON = {
    kind: tuple(place % 2 == 0 for place, length in enumerate(dashes) for _ in range(length))
    for kind, dashes in DASHES.items()
}
"""The same dot by dot: whether it is on."""
_ORDER = {kind: place for place, kind in enumerate(Kind)}


class Raster:
    """Dots that are set, `[(column of dots, row of dots)]`, and the kind of line that set each."""

    def __init__(self, across: int, down: int) -> None:
        self.across, self.down = across, down
        self.dots: dict[tuple[int, int], Kind] = {}
        self.slopes: dict[tuple[int, int], float] = {}


def rasterise(
    sheet: Sheet, fit: Fit, columns: int, rows: int, dots: tuple[int, int], hatch_dots: float
) -> Raster:
    """Return the dots of a sheet.

    Args:
        sheet: What to draw.
        fit: Scale and place.
        columns: Width of the canvas in cells.
        rows: Height of the canvas in cells.
        dots: Dots in a cell, across and down.
        hatch_dots: Distance between hatch lines, in the coarser of the two dot sizes.
    """
    raster = Raster(columns * dots[0], rows * dots[1])
    dot_mm = max(fit.mm_per_column / dots[0], fit.mm_per_row / dots[1])
    lines, regions = plain_parts(sheet, dot_mm)
    for region in regions:
        if region.fill is Fill.SEAL:
            _fill(raster, region, fit, dots)
        else:
            for segment in hatch_lines(region, hatch_dots * dot_mm):
                _draw(raster, Line(Kind.HATCH, segment), fit, dots)
    for line in sorted(lines, key=lambda line: _ORDER[line.kind], reverse=True):
        _draw(raster, line, fit, dots)
    return raster


def plain_parts(sheet: Sheet, dot_mm: float) -> tuple[tuple[Line, ...], tuple[Region, ...]]:
    """Return all lines and regions with the threads drawn out, as teeth where `dot_mm` allows."""
    lines, regions = list(sheet.lines), list(sheet.regions)
    for run in sheet.threads:
        dots = run.pitch_mm / dot_mm
        more = thread_lines(run, dots >= dots_for_teeth(run), dots >= DOTS_FOR_CRESTS)
        lines += more[0]
        regions += more[1]
    return tuple(lines), tuple(regions)


def hatch_lines(region: Region, spacing_mm: float) -> tuple[tuple[Point, Point], ...]:
    """Return hatch lines across a region: parallel, at 45 deg, clipped to it (ISO 128-3).

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
    segments: list[tuple[Point, Point]] = []
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


def _draw(raster: Raster, line: Line, fit: Fit, dots: tuple[int, int]) -> None:
    on, kind = _ON.get(line.kind, (True,)), line.kind
    across, down, count = raster.across, raster.down, 0
    places = [_dot(point, fit, dots) for point in line.points]
    for at in range(len(places) - 1):
        slope = _slope(line.points[at], line.points[at + 1])
        for dot in _dots_between(places[at], places[at + 1]):
            if on[count % len(on)] and 0 <= dot[0] < across and 0 <= dot[1] < down:
                raster.dots[dot] = kind
                raster.slopes[dot] = slope
            count += 1


def _fill(raster: Raster, region: Region, fit: Fit, dots: tuple[int, int]) -> None:
    """Set every dot row across a region from edge to edge."""
    height = fit.mm_per_row / dots[1]
    tall = max(y for _, y in region.points) - min(y for _, y in region.points)
    steps = max(3, math.ceil(2 * tall / height))
    low = min(y for _, y in region.points)
    for step in range(steps):
        y = low + tall * (step + 0.5) / steps
        crossings = sorted(_level_crossings(region.points, y))
        for x1, x2 in zip(crossings[::2], crossings[1::2], strict=False):
            _draw(raster, Line(Kind.OUTLINE, ((x1, y), (x2, y))), fit, dots)


def _level_crossings(points: tuple[Point, ...], y: float) -> Iterator[float]:
    for (x1, y1), (x2, y2) in zip(points, (*points[1:], points[0]), strict=True):
        if (y1 > y) != (y2 > y):
            yield x1 + (x2 - x1) * (y - y1) / (y2 - y1)


def _dot(point: Point, fit: Fit, dots: tuple[int, int]) -> tuple[int, int]:
    return (
        math.floor(fit.column(point[0]) * dots[0]),
        math.floor(fit.row(point[1]) * dots[1]),
    )


def _slope(start: Point, end: Point) -> float:
    """Return the angle of a piece against the x axis, -90 to 90 [deg]."""
    (x1, y1), (x2, y2) = sorted((start, end))
    return math.degrees(math.atan2(y2 - y1, x2 - x1))


def _dots_between(start: tuple[int, int], end: tuple[int, int]) -> Iterator[tuple[int, int]]:
    """Yield the dots of a straight piece, both ends included."""
    steps = max(abs(end[0] - start[0]), abs(end[1] - start[1]), 1)
    for step in range(steps + 1):
        yield (
            round(start[0] + (end[0] - start[0]) * step / steps),
            round(start[1] + (end[1] - start[1]) * step / steps),
        )
