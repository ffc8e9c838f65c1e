"""The angle of a seat drawn as arcs: half, from the axis to the cone, and included, across it."""

import math

from identify.drawing.outline import Kind, Line, Note, Point, Sheet, Side
from identify.drawing.part import Part
from identify.drawing.revolved import arc
from identify.drawing.seat_words import is_cone, main_seat
from identify.model.connection import EndConnection, Shape

FURTHEST = 1.6  # radii of the seat from it to the apex: beyond that the cone is not drawn out to it
_NEAR, _FAR = 0.45, 0.75  # of the way from apex to seat: where the two arcs stand


def angle_arcs(end: EndConnection, part: Part) -> Sheet:
    """Return both angles of a seat with their labels, nothing where it has no cone.

    Where the apex is within reach the cone is drawn out to it, with both arcs about it. Else the
    half angle stands between the cone and a line parallel to the axis, and is told with the other.
    """
    seat = main_seat(end)
    if part.seat is None or not is_cone(seat) or seat.half_angle_deg is None:
        return Sheet("")
    half, (x, y) = seat.half_angle_deg, part.seat
    towards = 1.0 if seat.shape is Shape.CONCAVE else -1.0
    run = y / math.tan(math.radians(half))
    open_deg = 180.0 if towards > 0 else 0.0  # where the cone opens, seen from its apex
    if run > FURTHEST * y:
        return _beside(part.seat, half, towards, y)
    apex = (x + towards * run, 0.0)
    side = math.hypot(run, y)
    turn = -1.0 if towards > 0 else 1.0
    small = arc(apex, _NEAR * side, open_deg, open_deg + turn * half)
    large = arc(apex, _FAR * side, open_deg - turn * half, open_deg + turn * half, 16)
    lines = [Line(Kind.HIDDEN, (apex, (x, sign * y))) for sign in (1, -1)]
    lines += [Line(Kind.OUTLINE, small), Line(Kind.OUTLINE, large)]
    notes = (
        Note(small[len(small) // 2], Side.TOP, f"half {half:g}°"),
        Note(large[len(large) // 4], Side.BOTTOM, f"included {2 * half:g}°"),
    )
    return Sheet("", tuple(lines), notes=notes)


def _beside(seat: Point, half: float, towards: float, y: float) -> Sheet:
    """Return the half angle of a slender cone, at a point of it."""
    x, reach = seat[0], y
    tip = (x + towards * reach, y - reach * math.tan(math.radians(half)))
    start = 0.0 if towards > 0 else 180.0
    bow = arc(seat, 0.8 * reach, start, start + (-half if towards > 0 else half))
    lines = (
        Line(Kind.HIDDEN, (seat, tip)),
        Line(Kind.HIDDEN, (seat, (x + towards * reach, y))),
        Line(Kind.OUTLINE, bow),
    )
    label = f"half {half:g}°, included {2 * half:g}°"
    return Sheet("", lines, notes=(Note(bow[len(bow) // 2], Side.TOP, label),))
