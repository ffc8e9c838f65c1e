"""Turned parts: from a contour in the upper half to a cut upper and an outside lower half."""

import math

from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet, add_sheets
from identify.drawing.part import Contour
from identify.frozen import replace

ROUND = 28  # corners of a ring: so many that none of them is an edge


def cut_half(
    outer: Contour,
    inner: Contour,
    fill: Fill = Fill.CUT,
    face: tuple[Point, ...] = (),
    broken: bool = True,
    edges_to: float = math.inf,
) -> Sheet:
    """Return the upper half of a turned part, cut.

    Args:
        outer: Outer contour.
        inner: Bore.
        fill: How the metal is hatched.
        face: Points of the left face between bore and outer contour, where it is not plain.
        broken: The part goes on to the right: no edge is drawn there.
        edges_to: Edges round the bore are seen up to this x [mm]; beyond it another part is.
    """
    region = Region(fill, (*face, *outer.points, *reversed(inner.points)))
    lines = [*_edges(outer), *_edges(inner)]
    lines.append(Line(Kind.OUTLINE, (inner.points[0], *face, outer.points[0])))
    if not broken:
        lines.append(Line(Kind.OUTLINE, (outer.points[-1], inner.points[-1])))
    lines += [
        Line(Kind.OUTLINE, ((x, y), (x, 0.0)))
        for x, y in _corners(inner)[: -1 if broken else None]
        if y > 0 and x <= edges_to
    ]
    runs = [replace(part.run, cut=fill) for part in (outer, inner) if part.run]
    return Sheet("", tuple(lines), (region,), tuple(runs))


def mirrored(sheet: Sheet) -> Sheet:
    """Return the sheet turned over the axis."""

    def flip(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((x, -y) for x, y in points)

    return replace(
        sheet,
        lines=tuple(replace(line, points=flip(line.points)) for line in sheet.lines),
        regions=tuple(replace(region, points=flip(region.points)) for region in sheet.regions),
        threads=tuple(
            replace(run, start=flip((run.start,))[0], end=flip((run.end,))[0])
            for run in sheet.threads
        ),
    )


def moved(sheet: Sheet, by: Point) -> Sheet:
    """Return the sheet shifted [mm]."""

    def at(point: Point) -> Point:
        return point[0] + by[0], point[1] + by[1]

    def all_at(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple(at(point) for point in points)

    return replace(
        sheet,
        lines=tuple(Line(line.kind, all_at(line.points)) for line in sheet.lines),
        regions=tuple(Region(each.fill, all_at(each.points)) for each in sheet.regions),
        threads=tuple(replace(run, start=at(run.start), end=at(run.end)) for run in sheet.threads),
        dimensions=tuple(
            replace(each, start=at(each.start), end=at(each.end)) for each in sheet.dimensions
        ),
        notes=tuple(replace(each, at=at(each.at)) for each in sheet.notes),
    )


def hexagon_contour(left: float, right: float, corner_mm: float) -> list[Point]:
    """Return the outer contour of a hexagon with chamfered corners."""
    cut = corner_mm * 0.07
    return [
        (left, corner_mm - cut),
        (left + cut / 2, corner_mm),
        (right - cut / 2, corner_mm),
        (right, corner_mm - cut),
    ]


def circle(
    centre: Point, radius_mm: float, pieces: int = 32, from_deg: float = 0.0
) -> tuple[Point, ...]:
    """Return a closed circle as a chain of points, or a polygon in it: first corner `from_deg`."""
    return arc(centre, radius_mm, from_deg, from_deg + 360.0, pieces)


def arc(
    centre: Point, radius_mm: float, from_deg: float, to_deg: float, pieces: int = 12
) -> tuple[Point, ...]:
    """Return an arc, angles counted from the x axis against the clock [deg]."""
    angles = [math.radians(from_deg + (to_deg - from_deg) * i / pieces) for i in range(pieces + 1)]
    x, y = centre
    return tuple((x + radius_mm * math.cos(a), y + radius_mm * math.sin(a)) for a in angles)


def ring_section(centre: Point, radius_mm: float) -> tuple[Point, ...]:
    """Return the cut section of an O-ring."""
    return circle(centre, radius_mm, ROUND)[:-1]


def profile_ring(low: Point, high: Point) -> tuple[Point, ...]:
    """Return the cut section of a flat-sided ring: a rectangle between two opposite corners."""
    (left, bottom), (right, top) = low, high
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def axis(left: float, right: float, y: float = 0.0) -> Sheet:
    """Return a centre line along x."""
    return Sheet("", (Line(Kind.CENTRE, ((left, y), (right, y))),))


def break_line(x: float, top: float, bottom: float) -> Sheet:
    """Return a freehand break line: here the part goes on."""
    wave = abs(top - bottom) * 0.04
    pieces = 16
    points = tuple(
        (
            x + wave * math.sin(2 * math.pi * i / pieces),
            bottom + (top - bottom) * i / pieces,
        )
        for i in range(pieces + 1)
    )
    return Sheet("", (Line(Kind.HATCH, points),))


def joined(*parts: Sheet) -> Sheet:
    """Return all parts on one sheet."""
    return add_sheets("", parts, ())


def _edges(part: Contour) -> list[Line]:
    if part.run is None:
        return [Line(Kind.OUTLINE, part.points)]
    pieces = (part.points[: part.at + 1], part.points[part.at + 1 :])
    return [Line(Kind.OUTLINE, piece) for piece in pieces if len(piece) > 1]


def _corners(part: Contour) -> list[Point]:
    """Return the outermost point at every x where the contour turns; none inside a thread."""
    highest: dict[float, float] = {}
    for x, y in part.points:
        highest[x] = max(y, highest.get(x, 0.0))
    return sorted(highest.items())
