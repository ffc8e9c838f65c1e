"""Swivel females: a nut with its thread, and inside it the nipple that carries the seat."""

import math

from identify.drawing.measures import Measure, annotate, millimetres
from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet, Side, ThreadRun
from identify.drawing.proportions import Sizes, ring_section_mm, sizes
from identify.drawing.revolved import (
    arc,
    axis,
    break_line,
    contour,
    cut_half,
    hexagon_contour,
    hexagon_faces,
    joined,
    outside_half,
    ring_section,
)
from identify.drawing.seat_words import (
    angle_words,
    cone_construction,
    cone_run,
    crest_words,
    hexagon_words,
    is_cone,
    main_seat,
    pitch_words,
    seat_words,
)
from identify.frozen import replace
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread


def swivel_sheet(
    end: EndConnection, thread: Thread | None, ask: Feature | None, value: str = ""
) -> Sheet:
    """Return the half section of a swivel female, open end of the nut to the left."""
    size, seat = sizes(end, thread, Across.NUT), main_seat(end)
    unit = size.unit
    start = 0.05 * unit
    stop = start + size.thread_length
    nut_end = stop + 0.38 * unit
    corner = size.flats_r if ask is Feature.HEX else size.corner_r
    neck_r = max(0.62 * size.root_r, 1.25 * size.bore_r)
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
        )
    nose, bore, on_seat, rings = _nose(end, seat, size, stop)
    if is_standpipe(end):
        neck_r = nose[0][1] / 0.97
    nut = cut_half(
        contour(hexagon_contour(0.0, nut_end, corner)),
        contour(
            [(0.0, size.crest_r)],
            run,
            [(stop, size.crest_r), (stop + 0.2 * unit, size.crest_r),
             (stop + 0.2 * unit, neck_r), (nut_end, neck_r)],
        ),
        fill=Fill.CUT_OTHER,
        broken=False,
        edges_to=nose[0][0],
    )  # fmt: skip
    tail = nut_end + 0.35 * unit
    collar = stop + 0.19 * unit
    body = [*nose, (collar, nose[-1][1]), (collar, neck_r * 0.97), (tail, neck_r * 0.97)]
    if is_standpipe(end):
        body = [nose[0], (tail, nose[0][1])]
    nipple = cut_half(contour(body), contour([*bore, (tail, bore[-1][1])]))
    outside = outside_half(
        contour(
            [
                *hexagon_contour(0.0, nut_end, corner),
                (nut_end, neck_r * 0.97),
                (tail, neck_r * 0.97),
            ]
        )
    )
    left = min(0.0, nose[0][0])
    parts = [
        nut,
        nipple,
        outside,
        *rings,
        axis(left - 0.15 * unit, tail + 0.1 * unit),
        break_line(tail, neck_r, -neck_r),
    ]
    if ask is not Feature.HEX:
        parts.append(hexagon_faces(0.0, nut_end, corner))
    if ask is Feature.SEAT_ANGLE:
        parts.append(cone_construction(end, on_seat, 1.2 * size.unit))
    title = f"{end.title}, female"
    words = (
        f"Half section of {title}: swivel nut open to the left, hose to the right, upper half cut."
        + (" The seat is on the part inside the nut." if seat.shape is not Shape.NONE else ""),
        seat_words(end, ask),
    )
    bare = replace(joined(*parts), title=title, words=words)
    return annotate(bare, _measures(end, thread, size, nut_end, on_seat, nose), ask, value)


def is_standpipe(end: EndConnection) -> bool:
    """Tell whether the seat is a cutting ring on a plain tube."""
    return "cutting ring" in end.form and end.sizes.get(Feature.TUBE_OD) is not None


def _nose(
    end: EndConnection, seat: Seat, size: Sizes, stop: float
) -> tuple[list[Point], list[Point], Point, list[Sheet]]:
    """Return outer contour and bore of the nipple from the left, a point on the seat, its rings."""
    unit, widest, bore = size.unit, 0.93 * size.root_r, size.bore_r
    angle = seat.half_angle_deg if seat.half_angle_deg and is_cone(seat) else 30.0
    if seat.shape is Shape.CONCAVE:
        mouth = 0.96 * widest
        deep = cone_run(mouth - bore, angle)
        left = stop - max(0.5 * size.thread_length, deep * 0.6)
        return (
            [(left, widest)],
            [(left, mouth), (left + deep, bore)],
            (left + deep / 2, (mouth + bore) / 2),
            [],
        )
    if seat.shape in (Shape.CONVEX, Shape.BALL):
        return _pointed(end, seat, angle, size, stop)
    if seat.shape is Shape.PLUG:
        radius = end.sizes.get(Feature.PLUG_OD, 1.2 * widest) / 2
        left, groove = 0.2 * unit, 0.35 * unit
        section = 0.12 * radius
        ring = ring_section((groove, radius), section)
        return (
            [(left, radius), (stop, radius), (stop, widest)],
            [(left, 0.6 * radius)],
            (groove, radius),
            [ring],
        )
    left = stop - 0.25 * size.thread_length
    return [(left, widest)], [(left, bore)], (left, (widest + bore) / 2), []


def _pointed(
    end: EndConnection, seat: Seat, angle: float, size: Sizes, stop: float
) -> tuple[list[Point], list[Point], Point, list[Sheet]]:
    """Return a nose that points out: cone, ball, or a cutting ring on a tube."""
    unit, widest, bore = size.unit, 0.93 * size.root_r, size.bore_r
    across = end.sizes.get(Feature.TUBE_OD)
    tube = across / 2 if across and angle < 25 else None
    base = min(1.13 * tube, 0.97 * widest) if tube else 0.97 * widest
    tip = min(0.93 * tube, 0.85 * base) if tube else bore + 0.04 * unit
    bore = min(bore, tip * 0.85)
    long = cone_run(base - tip, angle)
    right = stop
    left = right - long
    if is_standpipe(end) and tube:
        reach = min(0.0, left) - 0.15 * unit
        nose = [(reach, tube), (right, tube)]
        ring = _cutting_ring(left, right, tube, base)
        return nose, [(reach, 0.78 * tube)], ((left + right) / 2, (tube + base) / 2), [ring]
    if seat.shape is Shape.BALL:
        # A sphere that touches the mating cone: its flank is square to the radius at the contact.
        radius = base / math.cos(math.radians(angle)) * 0.98
        centre = right
        first = math.degrees(math.asin(min(1.0, tip / radius)))
        last = math.degrees(math.asin(min(1.0, base / radius)))
        round_nose = arc((centre, 0.0), radius, 180 - first, 180 - last, 10)
        contact = (
            centre - radius * math.sin(math.radians(angle)),
            radius * math.cos(math.radians(angle)),
        )
        nose = [*round_nose, (right, base), (right, widest)]
        return nose, [(round_nose[0][0], bore)], contact, []
    nose = [(left, tip), (right, base), (right, widest)]
    middle = ((left + right) / 2, (tip + base) / 2)
    rings = []
    if seat.o_ring == "nose":
        found = ring_section_mm(end)
        radius = found[1] / 2 if found else 0.05 * unit
        slope = math.radians(angle)
        # The ring stands proud of the cone by about a third of its section.
        sunk = radius * 0.3
        centre_of_ring = (middle[0] + sunk * math.sin(slope), middle[1] - sunk * math.cos(slope))
        rings.append(ring_section(centre_of_ring, radius))
    return nose, [(left, bore)], middle, rings


def _beside(on_seat: Point, nose: list[Point]) -> Point:
    """Return a point of the seat clear of its middle, where an O-ring may sit."""
    (x, y), (tip_x, tip_y) = on_seat, nose[0]
    return (x + 3 * tip_x) / 4, (y + 3 * tip_y) / 4


def _cutting_ring(left: float, right: float, tube_r: float, base: float) -> Sheet:
    """Return a ring on the tube: a wedge in front, a shoulder behind."""
    back = right + 0.8 * (base - tube_r)
    points = ((left, tube_r), (right, base), (back, base), (back, tube_r), (left, tube_r))
    return Sheet("", (Line(Kind.OUTLINE, points),), (Region(Fill.CUT_OTHER, points),))


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
