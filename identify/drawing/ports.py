"""Female ports in a block: full section, mouth to the left."""

import math

from identify.drawing.measures import Drawn, Measure
from identify.drawing.outline import Kind, Line, Point, Side, ThreadRun
from identify.drawing.part import Body, Name, Part, contour
from identify.drawing.proportions import Sizes, sizes
from identify.drawing.seat_words import (
    angle_words,
    cone_run,
    crest_words,
    is_cone,
    main_seat,
    pitch_words,
    seat_words,
)
from identify.drawing.thread_profile import crest_points
from identify.frozen import replace
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread

MOUTH_HALF_ANGLE_DEG = 15.0  # chamfer of an O-ring port where the tables give none


def port_part(end: EndConnection, thread: Thread | None, worn_mm: float = 0.0) -> Drawn:
    """Return a female port, mouth to the left, and what can be measured on it."""
    size, seat = sizes(end, thread, Across.BODY), main_seat(end)
    if thread is not None and thread.taper > 0:
        # A female tapers the other way: widest at its mouth.
        size = replace(
            size, crest_r=thread.major_mm / 2, root_r=thread.minor_mm / 2, slope=-size.slope
        )
    face, mouth, start, on_seat = _mouth(end, seat, size)
    stop = start + size.thread_length
    inward = size.root_r + size.slope * size.thread_length
    run = None
    if thread is not None:
        run = ThreadRun(
            (start, size.root_r),
            (stop, inward),
            size.pitch,
            size.depth,
            male=False,
            flank_angle_deg=thread.flank_angle_deg,
            left_hand=end.left_hand >= 0.5,
            worn_mm=worn_mm,
        )
    deep, right, floor = _floor(seat, size, stop, inward)
    outer_r = _block_radius(end, size)
    metal = Body(
        contour([(face[-1][0], outer_r), (right, outer_r)]), contour(mouth, run, floor), tuple(face)
    )
    names = [Name("face", (face[-1][0], (face[-1][1] + face[0][1]) / 2))]
    if end.spotface_mm:
        names.append(Name("spotface", face[-2]))
    if deep is not None:
        on_seat = deep
    if seat.shape is not Shape.NONE:
        names.append(Name("seat", on_seat))
    if run is not None:
        (x, y), (next_x, _) = crest_points(run)[:2]
        names += [Name("crest", (x, y)), Name("root", ((x + next_x) / 2, y + run.depth_mm))]
    side = 1.06 * outer_r
    square = ((-side, -side), (side, -side), (side, side), (-side, side), (-side, -side))
    part = Part(
        (metal,),
        front=(Line(Kind.HATCH, square),),
        turned_to=0.999 * outer_r,
        block=True,
        seat=on_seat,
        names=tuple(names),
    )
    measures = _measures(end, thread, size, (start, stop), on_seat, face)
    return Drawn(part, f"{end.title}, port", "mouth to the left, cut through the block", measures)


def _block_radius(end: EndConnection, size: Sizes) -> float:
    spot = end.spotface_mm / 2 if end.spotface_mm else 1.35 * size.crest_r
    return max(spot, 1.2 * size.crest_r) + 0.25 * size.crest_r


def _mouth(
    end: EndConnection, seat: Seat, size: Sizes
) -> tuple[list[Point], list[Point], float, Point]:
    """Return face from mouth to rim, mouth of the bore, start of thread, a point of the seat."""
    unit, crest = size.unit, size.crest_r
    spot = end.spotface_mm / 2 if end.spotface_mm else 1.35 * crest
    sunk = -0.06 * unit
    if seat.shape is Shape.CHAMFER:
        long = 0.2 * unit
        wide = crest + long * math.tan(math.radians(seat.half_angle_deg or MOUTH_HALF_ANGLE_DEG))
        mouth = [(0.0, wide), (long, crest)]
        on_seat = (long / 2, (wide + crest) / 2)
        start = long
    else:
        start = 0.05 * unit
        mouth = [(0.0, crest + start), (start, crest)]
        on_seat = (0.0, (crest + spot) / 2)
    face = [(0.0, spot), (sunk, spot), (sunk, _block_radius(end, size))]
    if end.shares.get(Feature.PORT_RIDGE):
        middle, wide = (mouth[0][1] + spot) / 2, 0.03 * unit
        ridge = [(0.0, middle - wide), (sunk * 0.7, middle - wide), (sunk * 0.7, middle + wide)]
        face = [*ridge, (0.0, middle + wide), *face]
    if seat.shape is Shape.NONE:
        face = [(0.0, _block_radius(end, size))]
    return face, mouth, start, on_seat


def _floor(
    seat: Seat, size: Sizes, stop: float, inward: float
) -> tuple[Point | None, float, list[Point]]:
    """Return a point of a seat at the bottom of the port, the end of the block, and the bottom."""
    unit, bore = size.unit, size.bore_r
    past = stop + 0.12 * unit
    if is_cone(seat) and seat.half_angle_deg and seat.shape is Shape.CONVEX:
        rise = cone_run(inward - bore - 0.02 * unit, seat.half_angle_deg)
        foot = past + rise
        tip = (past, bore + 0.02 * unit)
        right = foot + 0.45 * unit
        chain = [(stop, inward), (foot, inward), tip, (past, bore), (right, bore)]
        return ((past + foot) / 2, (inward + bore) / 2), right, chain
    if is_cone(seat) and seat.half_angle_deg and seat.shape is Shape.CONCAVE:
        deep = cone_run(inward - bore, seat.half_angle_deg)
        right = past + deep + 0.3 * unit
        chain = [(stop, inward), (past, inward), (past + deep, bore), (right, bore)]
        return (past + deep / 2, (inward + bore) / 2), right, chain
    drill = cone_run(inward - bore, 59.0)  # the point of an ordinary drill, 118 deg
    right = past + drill + 0.35 * unit
    return None, right, [(stop, inward), (past, inward), (past + drill, bore), (right, bore)]


def _measures(
    end: EndConnection,
    thread: Thread | None,
    size: Sizes,
    places: tuple[float, float],
    on_seat: Point,
    face: list[Point],
) -> list[Measure]:
    start, _ = places
    seat, ridge = main_seat(end), end.shares.get(Feature.PORT_RIDGE)
    found = [
        Measure(Feature.SEAT_SHAPE, on_seat, None, Side.TOP, seat_words(end), always=False),
        Measure(Feature.SEAT_ANGLE, on_seat, None, Side.TOP, angle_words(seat)),
        Measure(Feature.O_RING, (on_seat[0], -on_seat[1]), None, Side.BOTTOM,
                end.o_ring_size or ""),
        Measure(Feature.PORT_RIDGE, face[min(2, len(face) - 1)], None, Side.TOP,
                f"on {ridge:.0%} of such ports" if ridge else "",
                "A raised ring on the face round the mouth."),
    ]  # fmt: skip
    if thread is None:
        return found
    near = start + 1.5 * size.pitch
    tapered = thread.taper > 0
    return [
        *found,
        Measure(Feature.THREAD_ID, (start, -size.root_r), (start, size.root_r), Side.LEFT,
                crest_words(thread, male=False), "Measure across the crests at the mouth."),
        Measure(Feature.PITCH, (near, -size.root_r), None, Side.BOTTOM, pitch_words(thread),
                "Press a pitch gauge into the thread."),
        Measure(Feature.TAPER, (near, size.root_r), None, Side.TOP,
                "1:16" if tapered else "parallel", always=tapered),
        Measure(Feature.FLANK_ANGLE, (near, size.root_r), None, Side.TOP,
                f"{thread.flank_angle_deg:g}°", always=False),
        Measure(Feature.HAND, (near, size.root_r), None, Side.TOP, always=False),
    ]  # fmt: skip
