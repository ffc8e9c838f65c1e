"""Threaded males: nose with its seat, thread, hexagon, and the hose tail behind a break line."""

from identify.drawing.measures import Measure, annotate, millimetres, size_words
from identify.drawing.outline import Kind, Line, Point, Sheet, Side, ThreadRun
from identify.drawing.proportions import Sizes, ring_section_mm, sizes
from identify.drawing.revolved import (
    axis,
    break_line,
    contour,
    cut_half,
    hexagon_contour,
    hexagon_faces,
    joined,
    mirrored,
    outside_half,
    profile_ring_section,
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
    seat_words,
)
from identify.frozen import replace
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import CAPTIVE, Feature
from identify.model.thread import Thread

Nose = tuple[list[Point], list[Point], tuple[Point, ...], Point]
"""Outer contour before the thread, bore up to the tail, face, and a point on the seat."""


def male_sheet(
    end: EndConnection, thread: Thread | None, ask: Feature | None, value: str = ""
) -> Sheet:
    """Return the half section of a threaded male, nose to the left."""
    size, seat = sizes(end, thread, Across.BODY), main_seat(end)
    before, bore, face, on_seat = _nose(end, seat, size)
    stud = is_stud(end, seat)
    start = before[-1][0]
    stop = start + size.thread_length
    crest_at_stop = size.crest_r + size.slope * size.thread_length
    run = None
    if thread is not None:
        run = ThreadRun(
            (start, size.crest_r),
            (stop, crest_at_stop),
            size.pitch,
            size.depth,
            male=True,
            flank_angle_deg=thread.flank_angle_deg,
        )
    shoulder = stop + (0.16 if stud else 0.06) * size.unit
    right, end_x = shoulder + 0.42 * size.unit, shoulder + 0.72 * size.unit
    neck = [(stop, size.root_r * 0.97), (shoulder, size.root_r * 0.97)]
    hexagon = size.flats_r if ask is Feature.HEX else size.corner_r
    tail = [(right, size.tail_r), (end_x, size.tail_r)]
    body = [*hexagon_contour(shoulder, right, hexagon), *tail]
    groove = _groove(shoulder, size) if seat.o_ring == CAPTIVE else []
    outer = contour(before, run, [*neck, *body])
    inner = contour([*bore, (end_x, bore[-1][1])])
    parts = [
        cut_half(contour(before, run, [*neck, *groove, *body]), inner, face=face),
        outside_half(outer),
        axis(-0.15 * size.unit, end_x + 0.1 * size.unit),
        break_line(end_x, size.tail_r, -size.tail_r),
    ]
    if ask is not Feature.HEX:
        parts.append(hexagon_faces(shoulder, right, hexagon))
    if stud and seat.o_ring == "boss":
        radius = _ring_radius(end, shoulder - stop, size)
        ring = ring_section((shoulder - radius, size.root_r * 0.97 + radius), radius)
        parts += [ring, mirrored(replace(ring, regions=()))]
        on_seat = (shoulder - radius, size.root_r * 0.97 + radius)
    if groove:
        parts.append(_captive_ring(groove, size))
        on_seat = (shoulder, (groove[0][1] + groove[-1][1]) / 2)
    if face:
        radius = min(_section(end) / 2, (face[2][1] - face[1][1]) / 2)
        parts.append(ring_section((face[1][0] - radius, (face[1][1] + face[2][1]) / 2), radius))
    if ask is Feature.SEAT_ANGLE:
        parts.append(cone_construction(end, on_seat, 1.2 * size.unit))
    title = f"{end.title}, {end.gender}"
    words = (
        f"Half section of {title}: nose to the left, hose to the right, upper half cut.",
        seat_words(end, ask),
    )
    bare = replace(joined(*parts), title=title, words=words)
    middle = (shoulder + right) / 2
    return annotate(
        bare, _measures(end, thread, size, (start, stop, middle), bore, on_seat), ask, value
    )


def is_stud(end: EndConnection, seat: Seat) -> bool:
    """Tell whether a male seals at its shoulder and not at its nose."""
    held = seat.shape is Shape.CHAMFER or seat.o_ring in ("boss", CAPTIVE)
    return held or (seat.shape is Shape.FLAT and end.sealing in ("o_ring_boss", "bonded_washer"))


def _groove(shoulder: float, size: Sizes) -> list[Point]:
    """Return the contour of the groove for a captive ring, cut into the face of the shoulder."""
    floor, low, high = shoulder + 0.09 * size.unit, size.root_r, 0.94 * size.flats_r
    return [(shoulder, low), (floor, low), (floor, high), (shoulder, high)]


def _captive_ring(groove: list[Point], size: Sizes) -> Sheet:
    """Return the ring that fills its groove and stands a little proud of the shoulder."""
    (shoulder, low), _, (floor, high), _ = groove
    front = shoulder - 0.04 * size.unit
    seen = ((front, 0.0), (front, -high), (shoulder, -high), (shoulder, 0.0))
    return joined(
        profile_ring_section((front, low), (floor, high)), Sheet("", (Line(Kind.OUTLINE, seen),))
    )


def _nose(end: EndConnection, seat: Seat, size: Sizes) -> Nose:
    unit, root, bore = size.unit, size.root_r * 0.99, size.bore_r
    plain = [(0.0, root - 0.04 * unit), (0.04 * unit, root)]
    angle = seat.half_angle_deg
    if seat.shape in (Shape.CONVEX, Shape.BALL) and angle and is_cone(seat):
        tip = bore + 0.03 * unit
        base = cone_run(root - tip, angle)
        cone = [(0.0, tip), (base, root), (base + 0.08 * unit, root)]
        return cone, [(0.0, bore)], (), (base / 2, (tip + root) / 2)
    if seat.shape is Shape.CONCAVE and angle and is_cone(seat):
        return _cup(end, angle, size, plain)
    if seat.shape is Shape.FLAT and not is_stud(end, seat):
        outer = [(0.0, root), (0.04 * unit, root)]
        if seat.o_ring != "face":
            return outer, [(0.0, bore)], (), (0.0, (root + bore) / 2)
        ring = ring_section_mm(end) or (bore + root, 0.12 * unit)
        low, high = ring[0] / 2, min(ring[0] / 2 + 1.25 * ring[1], root - 0.03 * unit)
        bore = min(bore, low - 0.06 * unit)
        depth = 0.75 * ring[1]
        face = ((0.0, low), (depth, low), (depth, high), (0.0, high))
        return outer, [(0.0, bore)], face, (depth - ring[1] / 2, (low + high) / 2)
    if Feature.TUBE_BORE in end.sizes:  # a plain bore that takes a spigot
        floor, step = end.sizes[Feature.TUBE_BORE] / 2, 0.45 * unit
        taken = [(0.0, floor), (0.7 * step, floor), (step, floor), (step, 0.6 * floor)]
        return plain, taken, (), (0.0, (root + floor) / 2)
    return plain, [(0.0, bore)], (), (0.0, (root + bore) / 2)


def _cup(end: EndConnection, angle: float, size: Sizes, outer: list[Point]) -> Nose:
    """Return a nose with a cone inside it, and the counterbore for the tube where it has one."""
    widest = outer[0][1] - 0.01 * size.unit
    floor = end.sizes.get(Feature.TUBE_BORE, 1.1 * widest) / 2
    mouth = end.seat_mouth_mm / 2 if end.seat_mouth_mm else max(0.92 * widest, floor * 1.08)
    mouth = min(mouth, widest)
    deep = cone_run(max(mouth - floor, 0.02 * size.unit), angle)
    bore = [(0.0, mouth), (deep, floor)]
    if end.sizes.get(Feature.TUBE_BORE):
        step = deep + 0.35 * size.unit
        bore += [(step, floor), (step, 0.75 * floor)]
    return outer, bore, (), (deep / 2, (mouth + floor) / 2)


def _measures(
    end: EndConnection,
    thread: Thread | None,
    size: Sizes,
    places: tuple[float, float, float],
    bore: list[Point],
    on_seat: Point,
) -> list[Measure]:
    start, stop, middle = places
    crest, last = size.crest_r, size.crest_r + size.slope * size.thread_length
    found = [
        Measure(Feature.SEAT_SHAPE, on_seat, None, Side.TOP, seat_words(end), always=False),
        Measure(Feature.SEAT_ANGLE, on_seat, None, Side.TOP, angle_words(main_seat(end))),
        Measure(Feature.O_RING, on_seat, None, Side.TOP, end.o_ring_size or ""),
        Measure(Feature.HEX, (middle, -size.flats_r), (middle, size.flats_r), Side.RIGHT,
                hexagon_words(end, Across.BODY), always=False),
        Measure(Feature.MARKING, (middle, -0.8 * size.corner_r), None, Side.BOTTOM, always=False),
    ]  # fmt: skip
    if thread is None:
        return found
    near, far = start + 1.5 * size.pitch, stop - 1.5 * size.pitch
    tapered = thread.taper > 0
    hint = "Caliper over the crests"
    found += [
        Measure(
            Feature.THREAD_OD, (near, -crest), (near, crest), Side.LEFT, crest_words(thread, True),
            f"{hint} at the first thread and again at the last." if tapered else f"{hint}.",
        ),
        _pitch(thread, size, start),
        Measure(Feature.TAPER, (far, last), None, Side.TOP, "1:16" if tapered else "parallel",
                "Compare the first thread with the last full one.", always=tapered),
        Measure(Feature.FLANK_ANGLE, (near, crest), None, Side.TOP,
                f"{thread.flank_angle_deg:g}°", always=False),
        Measure(Feature.HAND, (near, -crest / 2), None, Side.BOTTOM, always=False),
    ]  # fmt: skip
    if end.sizes.get(Feature.TUBE_BORE) and len(bore) > 2:
        inside = (bore[2][0], bore[2][1])
        found.append(
            Measure(Feature.TUBE_BORE, (inside[0], -inside[1]), inside, Side.LEFT,
                    size_words(end, Feature.TUBE_BORE), "Measure inside the nose, behind any cone.")
        )  # fmt: skip
    return found


def _pitch(thread: Thread, size: Sizes, start: float) -> Measure:
    """Return a dimension over as many whole pitches as there are, five at most."""
    count = min(5, round(size.thread_length / size.pitch) - 1)
    first, last = start + size.pitch / 2, start + (count + 0.5) * size.pitch
    low = [-(size.crest_r + size.slope * (x - start)) for x in (first, last)]
    name = f"{thread.tpi:g} tpi" if thread.tpi else f"{thread.pitch_mm:g} mm"
    return Measure(
        Feature.PITCH, (first, low[0]), (last, low[1]), Side.BOTTOM,
        f"{name}, {count} pitches {millimetres(count * thread.pitch_mm)}",
        f"The line spans {count} pitches: measure from crest to crest and divide by {count}.",
    )  # fmt: skip


def _section(end: EndConnection) -> float:
    ring = ring_section_mm(end)
    return ring[1] if ring else 2.0


def _ring_radius(end: EndConnection, room: float, size: Sizes) -> float:
    ring = ring_section_mm(end)
    return min(ring[1] / 2 if ring else 0.07 * size.unit, room / 2)
