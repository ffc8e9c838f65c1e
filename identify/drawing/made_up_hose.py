"""Both ends on one hose, and the clock face that shows how two bent ends stand to each other."""

import math
from collections.abc import Callable, Iterable

from identify.drawing.ends import Sort, drawn_of, half_section, sort_of
from identify.drawing.outline import Dimension, Kind, Line, Note, Point, Region, Sheet, Side
from identify.drawing.raster import plain_parts
from identify.frozen import dataclass, replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.sheet import EndShape
from identify.model.thread import Thread

_DOT_MM = 0.15  # decides between teeth and simplified thread, as on paper
_ARC_STEPS = 12
_FACE_MM = 20.0  # radius of the clock face
_SIX_DEG = 180.0  # 6 o'clock, counter-clockwise from 12
_TURN_DEG = {EndShape.BENT_45: 45.0, EndShape.BENT_90: 90.0}


@dataclass(frozen=True, slots=True)
class DrawnEnd:
    """One end as it is drawn: the row and its thread, None where it is not known, and its shape.

    `up` tells that a bent end points up on the page, `to_nut` that the length goes to the end of
    its nut, not to the seat inside.
    """

    end: EndConnection | None
    thread: Thread | None
    shape: EndShape | None
    up: bool = False
    to_nut: bool = False


def made_up_hose(a: DrawnEnd, b: DrawnEnd, outside_mm: float, overall: str, cut: str) -> Sheet:
    """Draw both ends on one hose, A to the left; ends to scale, the hose broken off.

    Args:
        a: The left end.
        b: The right one.
        outside_mm: Outside diameter of the hose [mm].
        overall: What stands on the dimension between the measuring points.
        cut: What is said of the hose to cut.
    """
    half = 1.1 * outside_mm  # of the hose that is drawn, to each side of the break
    ferrule = 1.4 * outside_mm
    left, right = _side(a, outside_mm), _side(b, outside_mm)
    width = 2 * (ferrule + half)

    def mirrored(point: Point) -> Point:
        return width - point[0], point[1]

    lines = [*left.lines, *_moved(right.lines, mirrored)]
    regions = [
        *left.regions,
        *(replace(r, points=tuple(map(mirrored, r.points))) for r in right.regions),
    ]
    hose = _hose(outside_mm, ferrule, half)
    lines += [*hose, *_moved(hose, mirrored)]
    face_b = mirrored(right.face)
    low = min(y for line in lines for _, y in line.points) - 1.0
    dimensions = (Dimension((left.face[0], low), (face_b[0], low), Side.BOTTOM, overall),)
    middle = (width / 2 - 0.5 * outside_mm, outside_mm / 2)
    notes = (
        Note(left.face, Side.LEFT, "A"),
        Note(face_b, Side.RIGHT, "B"),
        Note(middle, Side.TOP, cut),
    )
    words = (
        f"A hose with end A ({_name(a)}) at the left and end B ({_name(b)}) at the right.",
        f"{overall[:1].upper()}{overall[1:]}; {cut}.",
        "Ends are to scale where the tables have figures; the hose between them is cut short.",
    )
    return Sheet(
        "Both ends on one hose", tuple(lines), tuple(regions), (), dimensions, notes, words
    )


def clock_face(turn: float, words: tuple[str, ...]) -> Sheet:
    """Draw where two bent ends point, seen along the hose from A to B, A at 6 o'clock.

    Args:
        turn: The angle from end A to end B [deg], counter-clockwise, 0 to below 360.
        words: What must be said beside it: convention, reference, view, direction.
    """
    rim = tuple(_on_face(10.0 * step, _FACE_MM) for step in range(37))
    ticks = [
        (_on_face(30.0 * h, (0.92 if h % 3 else 0.82) * _FACE_MM), _on_face(30.0 * h, _FACE_MM))
        for h in range(12)
    ]
    near = _on_face(_SIX_DEG, 0.8 * _FACE_MM)
    far = _on_face(_SIX_DEG + turn, 0.6 * _FACE_MM)
    arc = tuple(_on_face(_SIX_DEG + turn * k / 24, 0.4 * _FACE_MM) for k in range(25))
    lines = (
        Line(Kind.HATCH, rim),
        *(Line(Kind.HATCH, tick) for tick in ticks),
        Line(Kind.OUTLINE, ((0.0, 0.0), near)),
        Line(Kind.HIDDEN, ((0.0, 0.0), far)),
        Line(Kind.HATCH, arc),
    )
    notes = (
        Note(near, Side.BOTTOM, "A, near: 6 o'clock"),
        Note(far, Side.TOP, f"B, far: {turn:g} deg on from A"),
    )
    return Sheet("Angle of the two ends", lines, notes=notes, words=words, to_scale=False)


def _on_face(position_deg: float, radius: float) -> Point:
    turned = math.radians(position_deg)
    return -radius * math.sin(turned), radius * math.cos(turned)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """An end to the left of a ferrule that begins at the origin; `face` is its measuring point."""

    lines: tuple[Line, ...]
    regions: tuple[Region, ...]
    face: Point


def _side(drawn: DrawnEnd, outside: float) -> _Drawn:
    """Place an end on the tube that comes out of the hose to the left, bent where it is bent."""
    lines, regions, reach = _profile(drawn, outside)
    point = (_measured_at(drawn), 0.0)
    turn = math.radians(_TURN_DEG.get(drawn.shape, 0.0)) if drawn.shape else 0.0
    radius, tube = 1.2 * outside, 0.3 * outside
    foot = (-radius * math.sin(turn), radius * (math.cos(turn) - 1))
    flip = -1.0 if drawn.up else 1.0

    def placed(point: Point) -> Point:
        x, y = point[0] - reach, point[1]
        across = x * math.cos(turn) - y * math.sin(turn) + foot[0]
        return across, flip * (x * math.sin(turn) + y * math.cos(turn) + foot[1])

    def bent(offset: float) -> Line:
        steps = [turn * k / _ARC_STEPS for k in range(_ARC_STEPS + 1)]
        out = radius + offset
        return Line(
            Kind.OUTLINE,
            tuple((-out * math.sin(s), flip * (out * math.cos(s) - radius)) for s in steps),
        )

    arcs = [bent(tube), bent(-tube)] if turn else []
    return _Drawn(
        (*_moved(lines, placed), *arcs),
        tuple(replace(each, points=tuple(map(placed, each.points))) for each in regions),
        placed(point),
    )


def _profile(drawn: DrawnEnd, outside: float) -> tuple[Iterable[Line], tuple[Region, ...], float]:
    """Return an end with its measuring point at the origin, and how far it reaches."""
    end = drawn.end
    if drawn.shape is EndShape.BANJO or (end and end.is_eye):
        eye = end.sizes.get(Feature.EYE_BORE, outside) if end else outside
        return [_ring(eye / 2), _ring(eye)], (), eye  # measured to the middle of the eye
    if drawn.shape is EndShape.BLOCK or end is None:
        return [_box(-outside / 2, outside / 2, 0.7 * outside)], (), outside / 2
    flange = sort_of(end) is Sort.FLANGE  # of which the section is wanted, not the front
    sheet = half_section(end, drawn.thread, Feature.FLANGE_HEAD_THICKNESS if flange else None)
    lines, regions = plain_parts(sheet, _DOT_MM)
    return lines, regions, sheet.bounds()[2]


def _measured_at(drawn: DrawnEnd) -> float:
    """Return where along its axis an end is measured to: its seat or face, else its front."""
    end = drawn.end
    if end is None or end.mount != "swivel" or drawn.to_nut or drawn.shape is EndShape.BLOCK:
        return 0.0
    names = {name.term: name.at[0] for name in drawn_of(end, drawn.thread).part.names}
    return names.get("seat", names.get("face", 0.0))


def _box(left: float, right: float, half: float) -> Line:
    corners = ((left, half), (right, half), (right, -half), (left, -half), (left, half))
    return Line(Kind.OUTLINE, corners)


def _ring(radius: float) -> Line:
    return Line(Kind.OUTLINE, tuple(_on_face(15.0 * step, radius) for step in range(25)))


def _hose(outside: float, ferrule: float, half: float) -> list[Line]:
    """Return the left half of the hose: ferrule, hose up to a wavy break, axis."""
    tall, end = outside / 2, ferrule + half - 0.15 * outside
    wave = tuple((end + 0.1 * outside * math.sin(k), tall - tall * k / 3) for k in range(7))
    return [
        _box(0.0, ferrule, 0.58 * outside),
        Line(Kind.OUTLINE, ((ferrule, tall), (end, tall))),
        Line(Kind.OUTLINE, ((ferrule, -tall), (end, -tall))),
        Line(Kind.HATCH, wave),
        Line(Kind.CENTRE, ((ferrule, 0.0), (end, 0.0))),
    ]


def _moved(lines: Iterable[Line], move: Callable[[Point], Point]) -> tuple[Line, ...]:
    return tuple(replace(line, points=tuple(map(move, line.points))) for line in lines)


def _name(drawn: DrawnEnd) -> str:
    shape = drawn.shape.value if drawn.shape else "shape not entered"
    return f"{drawn.end.named if drawn.end else 'not named'}, {shape}"
