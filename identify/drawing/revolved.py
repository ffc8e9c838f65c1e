"""Turned parts: from a contour in the upper half to a cut upper and an outside lower half."""

import math

from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet, ThreadRun, add_sheets
from identify.frozen import dataclass, replace


@dataclass(frozen=True, slots=True)
class Contour:
    """A contour from left to right, above the axis [mm].

    Where the contour is threaded, `points[at]` and `points[at + 1]` are the ends of the root line
    of `run`, and the run is drawn instead of that chord.
    """

    points: tuple[Point, ...]
    run: ThreadRun | None = None
    at: int = 0


def contour(before: list[Point], run: ThreadRun | None = None, after: list[Point] = []) -> Contour:  # noqa: B006 - never changed
    """Return a contour with a run of thread between two chains of points."""
    if run is None:
        return Contour((*before, *after))
    step = -run.depth_mm if run.male else run.depth_mm
    root = [(x, y + step) for x, y in (run.start, run.end)]
    return Contour((*before, *root, *after), run, len(before))


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


def outside_half(outer: Contour, broken: bool = True) -> Sheet:
    """Return the lower half of a turned part, seen from outside, with the edges of its steps."""
    down = mirrored(Sheet("", tuple(_edges(outer)), (), (outer.run,) if outer.run else ()))
    corners = _corners(outer)
    edges = [Line(Kind.OUTLINE, ((x, -y), (x, 0.0))) for x, y in corners[: -1 if broken else None]]
    return replace(down, lines=(*down.lines, *edges))


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


def hexagon_faces(left: float, right: float, corner_mm: float) -> Sheet:
    """Return the edges between the faces of a hexagon, seen with a corner at top and bottom."""
    edge = Line(Kind.OUTLINE, ((left, -corner_mm / 2), (right, -corner_mm / 2)))
    return Sheet("", (edge,))


def hexagon_contour(left: float, right: float, corner_mm: float) -> list[Point]:
    """Return the outer contour of a hexagon with chamfered corners."""
    cut = corner_mm * 0.07
    return [
        (left, corner_mm - cut),
        (left + cut / 2, corner_mm),
        (right - cut / 2, corner_mm),
        (right, corner_mm - cut),
    ]


def circle(centre: Point, radius_mm: float, pieces: int = 32) -> tuple[Point, ...]:
    """Return a closed circle as a chain of points."""
    return arc(centre, radius_mm, 0.0, 360.0, pieces)


def arc(
    centre: Point, radius_mm: float, from_deg: float, to_deg: float, pieces: int = 12
) -> tuple[Point, ...]:
    """Return an arc, angles counted from the x axis against the clock [deg]."""
    angles = [math.radians(from_deg + (to_deg - from_deg) * i / pieces) for i in range(pieces + 1)]
    x, y = centre
    return tuple((x + radius_mm * math.cos(a), y + radius_mm * math.sin(a)) for a in angles)


def ring_section(centre: Point, radius_mm: float) -> Sheet:
    """Return the cut section of an O-ring."""
    points = circle(centre, radius_mm, 20)
    return Sheet("", (Line(Kind.OUTLINE, points),), (Region(Fill.SEAL, points),))


def profile_ring_section(low: Point, high: Point) -> Sheet:
    """Return the cut section of a flat-sided ring: a rectangle between two opposite corners."""
    (left, bottom), (right, top) = low, high
    points = ((left, bottom), (right, bottom), (right, top), (left, top), (left, bottom))
    return Sheet("", (Line(Kind.OUTLINE, points),), (Region(Fill.SEAL, points),))


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
