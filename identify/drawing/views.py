"""A part looked at: cut open, from the side, into its end. Every line comes from the one `Part`."""

from itertools import groupby

from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet, ThreadRun
from identify.drawing.part import Body, Part, half_turn
from identify.drawing.revolved import axis, break_line, circle, cut_half, joined, mirrored
from identify.drawing.skyline import Piece, edges, skyline

OVERHANG = 0.08  # of the length of a view: how far a centre line stands out
THREE_QUARTERS = 0.75  # of a circle: how ISO 6410 draws the hidden side of a thread from its end
_NEAR = 1e-6
CHAMFER = 0.97  # of half across flats: the circle that turns the corners of a hexagon off


def section(part: Part) -> Sheet:
    """Return the part with its upper half cut and its lower half from outside; a hole all cut."""
    cut = [
        cut_half(body.outer, body.inner, body.fill, body.face, body.broken, body.edges_to)
        for body in part.bodies
    ]
    cut += [_seal(points) for points in part.seals]
    upper = joined(*cut)
    if part.block:
        return joined(upper, mirrored(upper), *_frame(upper))
    low = _below(_outside(part))
    tail = _broken_radius(part)
    broken = [break_line(part.right, tail, -tail)] if tail else []
    return joined(upper, low, *_frame(upper), *broken)


def side_view(part: Part) -> Sheet:
    """Return the part as it lies on the bench, its connecting end to the left.

    Teeth are those of its thread, shifted by half a pitch below the axis as a helix is.
    """
    if part.block:
        return Sheet("")
    upper = _outside(part)
    tail = _broken_radius(part)
    broken = [break_line(part.right, tail, -tail)] if tail else []
    bare = joined(upper, _below(upper), Sheet("", part.beside), *broken)
    return joined(bare, *_frame(bare))


def end_view(part: Part) -> Sheet:
    """Return what is seen looking into the connecting end, along the axis, about the origin."""
    chains = [tuple((y, -x) for x, y in _closed(body)) for body in part.bodies]
    rings = [tuple((y, -x) for x, y in (*points, points[0])) for points in part.seals]
    seen = skyline([*chains, *rings])
    lines = [
        Line(Kind.OUTLINE, circle((0.0, 0.0), radius, 48))
        for radius, height in edges(seen)
        if 0 < radius < part.turned_to and not _on_hexagon(part, radius, -height)
    ]
    for hexagon in part.hexagons:
        flats = hexagon.corner_mm * 3**0.5 / 2
        lines.append(Line(Kind.OUTLINE, circle((0.0, 0.0), hexagon.corner_mm, 6, 90.0)))
        lines.append(Line(Kind.HATCH, circle((0.0, 0.0), CHAMFER * flats, 48)))
    lines += [_hidden_thread(run) for body in part.bodies for run in _runs(body)]
    lines += part.front
    regions = [
        Region(Fill.SEAL, (*circle((0.0, 0.0), high, 48), *circle((0.0, 0.0), low, 48)[::-1]))
        for low, high in _spans(seen, len(chains))
    ]
    flat = Sheet("", tuple(lines), tuple(regions))
    left, bottom, right, top = (place * (1 + OVERHANG) for place in flat.bounds())
    upright = Sheet("", (Line(Kind.CENTRE, ((0.0, bottom), (0.0, top))),))
    return joined(flat, axis(left, right), upright)


def seen_from_the_end(part: Part, at: Point) -> bool:
    """Tell whether a place of the part is seen by who looks into its end."""
    chains = [tuple((y, -x) for x, y in _closed(body)) for body in part.bodies]
    for piece in skyline(chains):
        (low, one), (high, other) = piece.start, piece.end
        if (
            low < at[1] < high
            and one + (other - one) * (at[1] - low) / (high - low) > _NEAR - at[0]
        ):
            return False
    return True


def _outside(part: Part) -> Sheet:
    """Return the outline above the axis with its edges, threads and rings."""
    bodies = [body.outer.crested for body in part.bodies]
    seen = skyline([*bodies, *(_upper(points) for points in part.seals)])
    runs = [run for body in part.bodies for run in _runs(body) if run.male and _shown(run, seen)]
    lines = [
        Line(Kind.OUTLINE, (piece.start, piece.end))
        for piece in seen
        if not any(_between(run, piece) for run in runs)
    ]
    ends = {point[0] for run in runs for point in (run.start, run.end)}
    stop = part.right if any(body.broken for body in part.bodies) else None
    lines += [
        Line(Kind.OUTLINE, ((x, y), (x, 0.0)))
        for x, y in edges(seen)
        if x != stop and x not in ends
    ]
    for hexagon in part.hexagons:
        half = hexagon.corner_mm / 2
        lines.append(Line(Kind.OUTLINE, ((hexagon.left, half), (hexagon.right, half))))
    regions = []
    for owner, pieces in groupby(seen, key=lambda piece: piece.owner):
        if owner >= len(bodies):
            chain = [point for piece in pieces for point in (piece.start, piece.end)]
            points = ((chain[0][0], 0.0), *chain, (chain[-1][0], 0.0))
            regions.append(Region(Fill.SEAL, points))
    return Sheet("", tuple(lines), tuple(regions), tuple(runs))


def _below(upper: Sheet) -> Sheet:
    """Return the lower half to an upper one; its threads lie half a pitch further on."""
    low = mirrored(Sheet("", upper.lines, upper.regions))
    runs = tuple(half_turn(run) for run in upper.threads)
    gaps = []
    for run, turned in zip(upper.threads, runs, strict=True):
        deep = -run.depth_mm
        for (x1, y1), (x2, y2) in ((run.start, turned.start), (turned.end, run.end)):
            gaps.append(Line(Kind.THREAD, ((x1, -abs(y1) - deep), (x2, -abs(y2) - deep))))
    return Sheet("", (*low.lines, *gaps), low.regions, runs)


def _runs(body: Body) -> list[ThreadRun]:
    return [part.run for part in (body.outer, body.inner) if part.run]


def _shown(run: ThreadRun, seen: tuple[Piece, ...]) -> bool:
    return any(_between(run, piece) for piece in seen)


def _between(run: ThreadRun, piece: Piece) -> bool:
    """Tell whether a piece lies on the crest line of a run."""
    (x1, y1), (x2, y2) = run.start, run.end
    middle = (piece.start[0] + piece.end[0]) / 2
    if not x1 < middle < x2:
        return False
    crest = y1 + (y2 - y1) * (middle - x1) / (x2 - x1)
    return abs((piece.start[1] + piece.end[1]) / 2 - crest) < _NEAR


def _closed(body: Body) -> tuple[Point, ...]:
    """Return the outline of a body's cut half, as its crests stand."""
    first = (*body.face, *body.outer.crested, *reversed(body.inner.crested))
    return (*first, first[0])


def _upper(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Return the boundary of a cut ring, closed: its upper side is what can be seen."""
    return (*points, points[0])


def _spans(seen: tuple[Piece, ...], bodies: int) -> list[tuple[float, float]]:
    """Return from which to which radius a ring is seen."""
    spans = []
    for owner, pieces in groupby(seen, key=lambda piece: piece.owner):
        if owner >= bodies:
            found = list(pieces)
            spans.append((found[0].start[0], found[-1].end[0]))
    return spans


def _on_hexagon(part: Part, radius: float, x: float) -> bool:
    return any(
        hexagon.left - _NEAR <= x <= hexagon.right + _NEAR and radius > 0.85 * hexagon.corner_mm
        for hexagon in part.hexagons
    )


def _hidden_thread(run: ThreadRun) -> Line:
    """Return the root of a thread seen from its end: three quarters of a thin circle."""
    radius = run.start[1] + (-run.depth_mm if run.male else run.depth_mm)
    whole = circle((0.0, 0.0), radius, 48)
    return Line(Kind.HATCH, whole[: round(THREE_QUARTERS * 48) + 1])


def _broken_radius(part: Part) -> float:
    """Return the radius at which the part breaks off, 0 where it ends."""
    ends = [body.outer.points[-1] for body in part.bodies if body.broken]
    return max((y for x, y in ends if x >= part.right - _NEAR), default=0.0)


def _seal(points: tuple[Point, ...]) -> Sheet:
    return Sheet("", (Line(Kind.OUTLINE, (*points, points[0])),), (Region(Fill.SEAL, points),))


def _frame(sheet: Sheet) -> list[Sheet]:
    """Return the centre line of a view."""
    left, _, right, _ = sheet.bounds()
    over = OVERHANG * (right - left)
    return [axis(left - over, right + over)]
