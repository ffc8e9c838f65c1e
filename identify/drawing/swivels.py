"""Swivel females: a nut with its thread, and inside it the nipple that carries the seat."""

import math

from identify.drawing.measures import Drawn, Measure, millimetres
from identify.drawing.outline import Fill, Point, Side, ThreadRun
from identify.drawing.part import Body, Hexagon, Name, Part, contour, named_outside
from identify.drawing.proportions import Sizes, ring_section_mm, sizes
from identify.drawing.revolved import arc, hexagon_contour, ring_section
from identify.drawing.seat_words import (
    angle_words,
    cone_run,
    crest_words,
    hexagon_words,
    is_cone,
    main_seat,
    pitch_words,
    seat_words,
)
from identify.drawing.thread_profile import crest_points
from identify.drawing.valves import valve_in
from identify.frozen import dataclass
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread

RINGS_ON_TUBES = ("cutting ring", "biting ring", "sleeve on the tube")
BALL_BORE = 0.45  # of the ball: the most a bore takes away, so that it still looks like a ball


@dataclass(frozen=True, slots=True)
class Nipple:
    """What stands inside the nut: outer contour, bore, a point on the seat, rings, names."""

    outer: list[Point]
    bore: list[Point]
    seat: Point
    seals: tuple[tuple[Point, ...], ...] = ()
    rings: tuple[Body, ...] = ()
    names: tuple[Name, ...] = ()


def swivel_part(
    end: EndConnection, thread: Thread | None, ask: Feature | None, worn_mm: float = 0.0
) -> Drawn:
    """Return a swivel female, open end of the nut to the left, and what can be measured on it."""
    size, seat = sizes(end, thread, Across.NUT), main_seat(end)
    unit = size.unit
    start = 0.05 * unit
    stop = start + size.thread_length
    nut_end = stop + 0.38 * unit
    corner = size.flats_r if ask is Feature.HEX else size.corner_r
    neck_r = max(0.62 * size.root_r, 1.25 * size.bore_r)
    loose = end.mount == "swivel"  # else nut and body are one piece, with no gap between them
    run = None
    if thread is not None:
        # The crests of a female stand inwards, at the minor diameter.
        run = ThreadRun(
            (start, size.root_r),
            (stop, size.root_r),
            size.pitch,
            size.depth,
            male=False,
            flank_angle_deg=thread.flank_angle_deg,
            left_hand=end.left_hand >= 0.5,
            worn_mm=worn_mm,
        )
    nose = _nose(end, seat, size, stop)
    front = nose.outer[0][0]
    if is_standpipe(end):
        neck_r = nose.outer[0][1] / 0.97
    nut = Body(
        contour(hexagon_contour(0.0, nut_end, corner)),
        contour(
            [(0.0, size.crest_r)],
            run,
            [(stop, size.crest_r), (stop + 0.2 * unit, size.crest_r),
             (stop + 0.2 * unit, neck_r), (nut_end, neck_r)],
        ),
        fill=Fill.CUT_OTHER if loose else Fill.CUT,
        broken=False,
        edges_to=front,
    )  # fmt: skip
    gap, tail = nut_end + (0.1 * unit if loose else 0.0), nut_end + 0.45 * unit
    collar, neck, shell = stop + 0.19 * unit, neck_r * 0.97, min(1.25 * neck_r, size.flats_r)
    outer = [*nose.outer, (collar, nose.outer[-1][1]), (collar, neck), (gap, neck),
             (gap, shell), (tail, shell)]  # fmt: skip
    if is_standpipe(end):
        outer = [nose.outer[0], (tail, nose.outer[0][1])]
    nipple = Body(contour(outer), contour([*nose.bore, (tail, nose.bore[-1][1])]))
    middle = nut_end / 2
    what = "nut" if loose else "body"
    names = [*nose.names, named_outside(what, (nut_end - 0.1 * unit, 0.3 * corner)),
             named_outside("hexagon", (middle, 0.8 * corner))]  # fmt: skip
    if run is not None:
        (x, y), (next_x, _) = crest_points(run)[:2]
        names += [Name("crest", (x, y)), Name("root", ((x + next_x) / 2, y + run.depth_mm))]
    valve, valve_names = valve_in(end, nose.bore, unit)
    part = Part(
        (nut, nipple, *nose.rings, *valve),
        nose.seals,
        () if ask is Feature.HEX else (Hexagon(0.0, nut_end, corner),),
        seat=nose.seat,
        names=(*names, *valve_names),
    )
    where = "nut" if loose else "thread"
    told = f"The seat lies inside the {where}." if seat.shape is not Shape.NONE else ""
    lies = f"{'swivel nut' if loose else 'thread'} open to the left, hose to the right"
    measures = _measures(end, thread, size, nut_end, nose.seat, nose.outer)
    return Drawn(part, f"{end.title}, female", lies, measures, (told,) if told else ())


def is_standpipe(end: EndConnection) -> bool:
    """Tell whether what seals is a ring on a plain tube, which goes through the nut."""
    ringed = any(word in end.form for word in RINGS_ON_TUBES)
    return ringed and end.sizes.get(Feature.TUBE_OD) is not None


def _nose(end: EndConnection, seat: Seat, size: Sizes, stop: float) -> Nipple:
    unit, widest, bore = size.unit, 0.93 * size.root_r, size.bore_r
    angle = seat.half_angle_deg if seat.half_angle_deg and is_cone(seat) else 30.0
    if seat.shape is Shape.CONCAVE:
        mouth = 0.96 * widest
        deep = cone_run(mouth - bore, angle)
        left = stop - max(0.5 * size.thread_length, deep * 0.6)
        middle = (left + deep / 2, (mouth + bore) / 2)
        cone = [(left, mouth), (left + deep, bore)]
        return Nipple([(left, widest)], cone, middle, names=(Name("seat", middle),))
    if is_standpipe(end) or seat.shape in (Shape.CONVEX, Shape.BALL):
        return _pointed(end, seat, angle, size, stop)
    if seat.shape is Shape.PLUG:
        radius = end.sizes.get(Feature.PLUG_OD, 1.2 * widest) / 2
        left, groove, section = 0.2 * unit, 0.35 * unit, 0.12 * radius
        ringed = seat.o_ring != "none"
        ring_name = (Name("O-ring", (groove, radius)),) if ringed else ()
        return Nipple(
            [(left, radius), (stop, radius), (stop, widest)],
            [(left, 0.6 * radius)],
            (groove, radius),
            (ring_section((groove, radius - 0.4 * section), section),) if ringed else (),
            names=(Name("spigot", (left, radius)), *ring_name),
        )
    left = stop - 0.25 * size.thread_length
    middle = (left, (widest + bore) / 2)
    names = (Name("face", middle),) if seat.shape is Shape.FLAT else ()
    return Nipple([(left, widest)], [(left, bore)], middle, names=names)


def _pointed(end: EndConnection, seat: Seat, angle: float, size: Sizes, stop: float) -> Nipple:
    """Return a nose that points out: cone, ball, or a cutting ring on a tube."""
    unit, widest, bore = size.unit, 0.93 * size.root_r, size.bore_r
    across = end.sizes.get(Feature.TUBE_OD)
    tube = across / 2 if across and (angle < 25 or is_standpipe(end)) else None
    base = min(1.13 * tube, 0.97 * widest) if tube else 0.97 * widest
    tip = min(0.93 * tube, 0.85 * base) if tube else bore + 0.04 * unit
    bore = min(bore, tip * 0.85)
    left = stop - cone_run(base - tip, angle)
    if is_standpipe(end) and tube:
        reach = min(0.0, left) - 0.15 * unit
        middle = ((left + stop) / 2, (tube + base) / 2)
        ring = "compression sleeve" if "sleeve" in end.form else "cutting ring"
        names = (named_outside("tube", (reach, tube)), Name(ring, middle))
        rings = (_cutting_ring(left, stop, tube, base),)
        return Nipple([(reach, tube), (stop, tube)], [(reach, 0.78 * tube)], middle,
                      rings=rings, names=names)  # fmt: skip
    if seat.shape is Shape.BALL:
        return _ball(angle, base, widest, min(bore, BALL_BORE * base), stop)
    nose = [(left, tip), (stop, base), (stop, widest)]
    middle = ((left + stop) / 2, (tip + base) / 2)
    nose_name = Name("nose", (left, tip))
    if seat.o_ring != "nose":
        return Nipple(nose, [(left, bore)], middle, names=(nose_name, Name("seat", middle)))
    found = ring_section_mm(end)
    radius = found[1] / 2 if found else 0.05 * unit
    slope = math.radians(angle)
    # The ring stands proud of the cone by about a third of its section.
    sunk = radius * 0.3
    centre = (middle[0] + sunk * math.sin(slope), middle[1] - sunk * math.cos(slope))
    proud = (centre[0] - 0.8 * radius * math.sin(slope), centre[1] + 0.8 * radius * math.cos(slope))
    clear = ((middle[0] + 3 * left) / 4, (middle[1] + 3 * tip) / 4)
    return Nipple(nose, [(left, bore)], middle, (ring_section(centre, radius),),
              names=(nose_name, Name("O-ring", proud), Name("seat", clear)))  # fmt: skip


def _ball(angle: float, base: float, widest: float, bore: float, stop: float) -> Nipple:
    """Return a nose that is half a ball, and where it touches the cone it is meant for."""
    first = math.degrees(math.asin(bore / base))
    nose = arc((stop, 0.0), base, 180 - first, 90, 18)
    slope = math.radians(angle)
    contact = (stop - base * math.sin(slope), base * math.cos(slope))
    names = (Name("ball nose", nose[4]), Name("seat", contact))
    return Nipple([*nose, (stop, widest)], [(nose[0][0], bore)], contact, names=names)


def _beside(on_seat: Point, nose: list[Point]) -> Point:
    """Return a point of the seat clear of its middle, where an O-ring may sit."""
    (x, y), (tip_x, tip_y) = on_seat, nose[0]
    return (x + 3 * tip_x) / 4, (y + 3 * tip_y) / 4


def _cutting_ring(left: float, right: float, tube_r: float, base: float) -> Body:
    """Return a ring on the tube: a wedge in front, a shoulder behind."""
    back = right + 0.8 * (base - tube_r)
    wedge = contour([(left, tube_r), (right, base), (back, base)])
    return Body(wedge, contour([(left, tube_r), (back, tube_r)]), fill=Fill.CUT_OTHER, broken=False)


def _measures(
    end: EndConnection,
    thread: Thread | None,
    size: Sizes,
    nut_end: float,
    on_seat: Point,
    nose: list[Point],
) -> list[Measure]:
    middle = nut_end / 2
    clear = _beside(on_seat, nose) if main_seat(end).o_ring == "nose" else on_seat
    found = [
        Measure(Feature.SEAT_SHAPE, on_seat, None, Side.TOP, seat_words(end), always=False),
        Measure(Feature.SEAT_ANGLE, clear, None, Side.TOP,
                angle_words(main_seat(end))),
        Measure(Feature.O_RING, on_seat, None, Side.TOP, end.o_ring_size or ""),
        Measure(Feature.HEX, (middle, -size.flats_r), (middle, size.flats_r), Side.RIGHT,
                hexagon_words(end, Across.NUT), always=False),
        Measure(Feature.MARKING, (middle, -0.8 * size.corner_r), None, Side.BOTTOM, always=False),
    ]  # fmt: skip
    if end.sizes.get(Feature.PLUG_OD) or is_standpipe(end):
        feature = Feature.PLUG_OD if end.sizes.get(Feature.PLUG_OD) else Feature.TUBE_OD
        across = (end.sizes.get(Feature.PLUG_OD) or end.sizes.get(Feature.TUBE_OD) or 0.0) / 2
        at = nose[0][0]
        found.append(
            Measure(feature, (at, -across), (at, across), Side.LEFT, millimetres(2 * across))
        )
    if thread is None:
        return found
    near = 0.05 * size.unit + 1.5 * size.pitch
    found += [
        Measure(Feature.THREAD_ID, (0.0, -size.root_r), (0.0, size.root_r), Side.LEFT,
                crest_words(thread, male=False), "Measure across the crests inside the nut."),
        Measure(Feature.PITCH, (near, size.root_r), None, Side.TOP, pitch_words(thread),
                "Press a pitch gauge into the thread of the nut."),
        Measure(Feature.FLANK_ANGLE, (near, size.root_r), None, Side.TOP,
                f"{thread.flank_angle_deg:g}°", always=False),
        Measure(Feature.HAND, (near, size.root_r), None, Side.TOP, always=False),
        Measure(Feature.TAPER, (near, size.root_r), None, Side.TOP, "parallel", always=False),
    ]  # fmt: skip
    return found
