"""Sentences about thread and seat that every sheet of a threaded end needs."""

import math

from identify.drawing.outline import Kind, Line, Point, Sheet
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread

SHAPES = {
    Shape.CONVEX: "a cone that points out",
    Shape.CONCAVE: "a cone cut in, like a funnel",
    Shape.FLAT: "a flat face",
    Shape.BALL: "a ball nose",
    Shape.CHAMFER: "an O-ring in a chamfered mouth",
    Shape.PLUG: "a plain spigot",
    Shape.NONE: "no seat",
}
RINGS = {
    "face": "with an O-ring in the face",
    "nose": "with an O-ring in the nose",
    "boss": "with an O-ring at the foot of the thread",
    "captive": "with a flat-sided ring in a groove of the shoulder",
    "flange": "with an O-ring in the flange face",
}


def main_seat(end: EndConnection) -> Seat:
    """Return the commonest way the seat of an end is made."""
    return max(end.seats, key=lambda seat: seat.share)


def seat_words(end: EndConnection, ask: Feature | None = None) -> str:
    """Say what the seat is, as a sentence that does not give away what is asked for."""
    if ask is Feature.SEAT_SHAPE:
        return ""
    seat = main_seat(end)
    words = f"The seat is {SHAPES[seat.shape]}"
    if seat.shape is Shape.NONE:
        on_thread = ": it seals on the thread" if end.sealing == "thread_taper" else ""
        words = f"There is no seat{on_thread}"
    if is_cone(seat) and ask is not Feature.SEAT_ANGLE:
        words += f", {angle_words(seat)}"
    if seat.o_ring in RINGS and ask is not Feature.O_RING:
        words += f", {RINGS[seat.o_ring]}"
    return words + "."


def is_cone(seat: Seat) -> bool:
    """Tell whether a seat has a cone with an angle to measure."""
    return seat.half_angle_deg is not None and 0 < seat.half_angle_deg < 90


def angle_words(seat: Seat) -> str:
    """Write a seat angle both ways, empty where there is no cone."""
    if not is_cone(seat) or seat.half_angle_deg is None:
        return ""
    return f"{seat.half_angle_deg:g}° half, {2 * seat.half_angle_deg:g}° included"


def crest_words(thread: Thread, male: bool) -> str:
    """Write what a caliper reads on the crests [mm]."""
    limits = thread.external if male else thread.internal
    if limits is None:
        return f"{thread.major_mm if male else thread.minor_mm:.2f} mm nominal"
    return f"{limits.crest.low_mm:.2f} to {limits.crest.high_mm:.2f} mm"


def pitch_words(thread: Thread) -> str:
    """Write a pitch as the standard states it, in millimetres as well."""
    return f"{thread.tpi:g} tpi ({thread.pitch_mm:.3f} mm)" if thread.tpi else thread.pitch_words


def hexagon_words(end: EndConnection, part: Across) -> str:
    """Write the width across flats of a nut or body, empty where no table gives one."""
    return next((f"{hexagon.mm:g} mm" for hexagon in end.hexagons if hexagon.part is part), "")


def cone_run(length_across_mm: float, half_angle_deg: float) -> float:
    """Return the axial length of a cone whose radius changes by `length_across_mm` [mm]."""
    return length_across_mm / math.tan(math.radians(half_angle_deg))


def cone_construction(end: EndConnection, on_seat: Point, reach_mm: float) -> Sheet:
    """Return dashed lines that show the angle of a seat: along the cone towards the axis.

    The cone is carried on from a point on the seat to its apex, or for `reach_mm` where that is
    nearer, with a line parallel to the axis beside it where the axis is not reached.
    """
    seat = main_seat(end)
    if not is_cone(seat) or seat.half_angle_deg is None:
        return Sheet("")
    angle = math.radians(seat.half_angle_deg)
    towards = 1.0 if seat.shape is Shape.CONCAVE else -1.0
    x, y = on_seat
    run = min(y / math.tan(angle), reach_mm)
    tip = (x + towards * run, y - run * math.tan(angle))
    lines = [Line(Kind.HIDDEN, (on_seat, tip))]
    if tip[1] > 0.1 * y:
        lines.append(Line(Kind.HIDDEN, (on_seat, (x + towards * run, y))))
    return Sheet("", tuple(lines))
