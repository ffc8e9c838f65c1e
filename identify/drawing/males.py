"""Threaded males: nose with its seat, thread, hexagon, and the hose tail behind a break line."""

from identify.drawing.measures import Drawn, Measure, millimetres, size_words
from identify.drawing.noses import is_stud, nose_of
from identify.drawing.outline import Kind, Line, Point, Side, ThreadRun
from identify.drawing.part import Body, Hexagon, Name, Part, contour, named_outside
from identify.drawing.proportions import Sizes, ring_section_mm, sizes
from identify.drawing.revolved import circle, hexagon_contour, profile_ring, ring_section
from identify.drawing.seat_words import (
    angle_words,
    crest_words,
    hexagon_words,
    main_seat,
    seat_words,
)
from identify.drawing.thread_profile import crest_points
from identify.drawing.valves import valve_in
from identify.model.connection import Across, EndConnection
from identify.model.feature import CAPTIVE, Feature
from identify.model.thread import Thread


def male_part(
    end: EndConnection, thread: Thread | None, ask: Feature | None, worn_mm: float = 0.0
) -> Drawn:
    """Return a threaded male, nose to the left, and what can be measured on it."""
    size, seat = sizes(end, thread, Across.BODY), main_seat(end)
    nose = nose_of(end, seat, size)
    stud = is_stud(end, seat)
    taper = thread is not None and thread.taper > 0
    start = nose.before[-1][0]
    stop = start + size.thread_length
    run = None
    if thread is not None:
        run = ThreadRun(
            (start, size.crest_r),
            (stop, size.crest_r + size.slope * size.thread_length),
            size.pitch,
            size.depth,
            male=True,
            flank_angle_deg=thread.flank_angle_deg,
            left_hand=end.left_hand >= 0.5,
            worn_mm=worn_mm,
        )
    # A taper thread runs out into the body, a parallel one stops at an undercut.
    shoulder = stop + (0.16 if stud else 0.02 if taper else 0.06) * size.unit
    right = shoulder + 0.42 * size.unit
    tail, broken = _tail(end, size, right)
    undercut = size.root_r * 0.97
    neck = [(stop, undercut), (shoulder, undercut)]
    if taper and run is not None:
        neck = [(shoulder, run.end[1])]
    hexagon = size.flats_r if ask is Feature.HEX else size.corner_r
    collar = shoulder + (0.08 * size.unit if stud else 0.0)
    groove = _groove(shoulder, size) if seat.o_ring == CAPTIVE else []
    washer_face = [(shoulder, 0.96 * size.flats_r), (collar, 0.96 * size.flats_r)] if stud else []
    body = [*groove, *washer_face, *hexagon_contour(collar, right, hexagon)]
    outer = contour(nose.before, run, [*neck, *body, *tail])
    seals, on_seat, rings = list(nose.seals), nose.seat, []
    if stud and seat.o_ring == "boss":
        radius = _ring_radius(end, shoulder - stop, size)
        on_seat = (shoulder - radius, undercut + radius)
        seals.append(ring_section(on_seat, radius))
        rings = [Name("O-ring", on_seat)]
    if groove:
        (low, high), floor = (groove[0][1], groove[-1][1]), groove[1][0]
        seals.append(profile_ring((shoulder - 0.04 * size.unit, low), (floor, high)))
        on_seat = (shoulder, (low + high) / 2)
    inner = [*nose.bore, (tail[-1][0], nose.bore[-1][1])]
    if not broken:  # a head closes the bore
        inner = [*nose.bore, (shoulder, nose.bore[-1][1]), (shoulder, 0.0), (tail[-1][0], 0.0)]
    metal = Body(outer, contour(inner), nose.face, broken=broken)
    hexagons = () if ask is Feature.HEX else (Hexagon(collar, right, hexagon),)
    middle = (collar + right) / 2
    names = [*nose.names, *rings, named_outside("hexagon", (middle, 0.8 * size.corner_r))]
    if run is not None:
        names += _thread_names(run)
    if stud:
        names.append(named_outside("shoulder", (shoulder, 0.8 * size.flats_r)))
    if groove:
        names.append(Name("groove", (groove[1][0], (groove[1][1] + groove[2][1]) / 2)))
    valve, valve_names = valve_in(end, nose.bore, size.unit)
    part = Part(
        (metal, *valve),
        tuple(seals),
        hexagons,
        beside=_beside(end, run, taper),
        seat=on_seat,
        names=(*names, *valve_names),
    )
    words = (
        f"{end.title}, {end.gender}",
        "nose to the left, hose to the right",
    )
    measures = _measures(end, thread, size, (start, stop, middle), nose.bore, on_seat)
    return Drawn(part, *words, measures)


def _tail(end: EndConnection, size: Sizes, right: float) -> tuple[list[Point], bool]:
    """Return what stands behind the hexagon, and whether it goes on.

    A tube where the thread is that of a nut on it, nothing behind the head of a hollow bolt, the
    head of a grease nipple, else the tail of a body.
    """
    end_x, tube = right + 0.3 * size.unit, end.sizes.get(Feature.TUBE_OD)
    if "hollow bolt" in end.form:
        return [(right, 0.5 * size.flats_r)], False
    if across := end.sizes.get(Feature.PLUG_OD):
        head, neck = across / 2, 0.36 * across
        far = right + 1.1 * across
        return [(right, neck), (right + 0.4 * across, neck), (right + 0.55 * across, head),
                (right + 0.75 * across, head), (far, 0.4 * head), (far, 0.0)], False  # fmt: skip
    radius = tube / 2 if tube and end.mount == "swivel" else size.tail_r
    return [(right, radius), (end_x, radius)], True


def _beside(end: EndConnection, run: ThreadRun | None, taper: bool) -> tuple[Line, ...]:
    """Return what only the side shows: the cross hole of a hollow bolt; how far a taper rises.

    The taper is shown against lines level with the first crest.
    """
    if run is None:
        return ()
    (x1, y1), (x2, _) = run.start, run.end
    if "hollow bolt" in end.form:
        return (Line(Kind.OUTLINE, circle(((x1 + x2) / 2, 0.0), 0.3 * y1, 20)),)
    return tuple(Line(Kind.HIDDEN, ((x1, y), (x2, y))) for y in (y1, -y1)) if taper else ()


def _thread_names(run: ThreadRun) -> list[Name]:
    """Return where crest and root of a male thread are pointed at, below on the half turned on."""
    (x, y), step = crest_points(run)[-2], run.pitch_mm / 2
    root = y - run.depth_mm
    return [Name("crest", (x, y), (x + step, -y)), Name("root", (x + step, root))]


def _groove(shoulder: float, size: Sizes) -> list[Point]:
    """Return the contour of the groove for a captive ring, cut into the face of the shoulder."""
    floor, low, high = shoulder + 0.09 * size.unit, size.root_r, 0.94 * size.flats_r
    return [(shoulder, low), (floor, low), (floor, high), (shoulder, high)]


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


def _ring_radius(end: EndConnection, room: float, size: Sizes) -> float:
    ring = ring_section_mm(end)
    return min(ring[1] / 2 if ring else 0.07 * size.unit, room / 2)
