"""What stands before the thread of a male: its nose, with its seat."""

from identify.drawing.outline import Point
from identify.drawing.part import Name
from identify.drawing.proportions import Sizes, ring_section_mm
from identify.drawing.revolved import ring_section
from identify.drawing.seat_words import cone_run, is_cone
from identify.frozen import dataclass
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import CAPTIVE, Feature


@dataclass(frozen=True, slots=True)
class Nose:
    """What stands before the thread.

    Outer contour, bore up to the tail, a point on the seat, face, rings, names.
    """

    before: list[Point]
    bore: list[Point]
    seat: Point
    face: tuple[Point, ...] = ()
    seals: tuple[tuple[Point, ...], ...] = ()
    names: tuple[Name, ...] = ()


def is_stud(end: EndConnection, seat: Seat) -> bool:
    """Tell whether a male seals at its shoulder and not at its nose."""
    held = seat.shape is Shape.CHAMFER or seat.o_ring in ("boss", CAPTIVE)
    return held or (seat.shape is Shape.FLAT and end.sealing in ("o_ring_boss", "bonded_washer"))


def nose_of(end: EndConnection, seat: Seat, size: Sizes) -> Nose:
    """Return the nose that the tables describe: a cone out or in, a face, a bore, or plain."""
    unit, root, bore = size.unit, size.root_r * 0.99, size.bore_r
    plain = [(0.0, root - 0.04 * unit), (0.04 * unit, root)]
    angle = seat.half_angle_deg
    if seat.shape in (Shape.CONVEX, Shape.BALL) and angle and is_cone(seat):
        tip = bore + 0.03 * unit
        base = cone_run(root - tip, angle)
        cone = [(0.0, tip), (base, root), (base + 0.08 * unit, root)]
        middle = (base / 2, (tip + root) / 2)
        return Nose(
            cone, [(0.0, bore)], middle, names=(Name("nose", cone[0]), Name("seat", middle))
        )
    if seat.shape is Shape.CONCAVE and angle and is_cone(seat):
        return _cup(end, angle, size, plain)
    if seat.shape is Shape.FLAT and not is_stud(end, seat):
        return _flat(end, seat, size)
    if Feature.TUBE_BORE in end.sizes:  # a plain bore that takes a spigot
        floor, step = end.sizes[Feature.TUBE_BORE] / 2, 0.45 * unit
        taken = [(0.0, floor), (0.7 * step, floor), (step, floor), (step, 0.6 * floor)]
        names = (Name("bore", (0.5 * step, floor)),)
        return Nose(plain, taken, (0.0, (root + floor) / 2), names=names)
    return Nose(plain, [(0.0, bore)], (0.0, (root + bore) / 2))


def _flat(end: EndConnection, seat: Seat, size: Sizes) -> Nose:
    """Return a nose with a flat face, and the groove of its O-ring where it has one."""
    unit, root, bore = size.unit, size.root_r * 0.99, size.bore_r
    outer = [(0.0, root), (0.04 * unit, root)]
    middle = (0.0, (root + bore) / 2)
    if seat.o_ring != "face":
        return Nose(outer, [(0.0, bore)], middle, names=(Name("face", middle),))
    inside, thick = ring_section_mm(end) or (bore + root, 0.12 * unit)
    low, high = inside / 2, min(inside / 2 + 1.25 * thick, root - 0.03 * unit)
    deep, radius = 0.75 * thick, min(thick / 2, (high - low) / 2)
    face = ((0.0, low), (deep, low), (deep, high), (0.0, high))
    centre = (deep - radius, (low + high) / 2)
    names = (Name("groove", (deep, high)), Name("face", (0.0, (high + root) / 2)),
             Name("O-ring", centre))  # fmt: skip
    bore = min(bore, low - 0.06 * unit)
    return Nose(outer, [(0.0, bore)], centre, face, (ring_section(centre, radius),), names)


def _cup(end: EndConnection, angle: float, size: Sizes, outer: list[Point]) -> Nose:
    """Return a nose with a cone inside it, and the counterbore for the tube where it has one."""
    widest = outer[0][1] - 0.01 * size.unit
    floor = end.sizes.get(Feature.TUBE_BORE, 1.1 * widest) / 2
    mouth = end.seat_mouth_mm / 2 if end.seat_mouth_mm else max(0.92 * widest, floor * 1.08)
    mouth = min(mouth, widest)
    deep = cone_run(max(mouth - floor, 0.02 * size.unit), angle)
    bore = [(0.0, mouth), (deep, floor)]
    middle = (deep / 2, (mouth + floor) / 2)
    names = [Name("nose", outer[0]), Name("seat", middle)]
    if end.sizes.get(Feature.TUBE_BORE):
        step = deep + 0.35 * size.unit
        bore += [(step, floor), (step, 0.75 * floor)]
        names.append(Name("tube stop", (step, 0.87 * floor)))
    return Nose(outer, bore, middle, names=tuple(names))
