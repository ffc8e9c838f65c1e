"""One small picture for each answer of a question: what the eye sees if that answer is true.

Signs, not drawings of an end: of no size, all in one frame, so that none stands out. The end looks
to the left; a part with a hole is cut open.
"""

import math
from collections.abc import Callable
from functools import partial

from identify.drawing.outline import Fill, Kind, Line, Point, Region, Sheet
from identify.model.feature import Feature

FRAME = (0.0, -9.0, 20.0, 9.0)  # left, bottom, right, top, the same for every sign
Parts = tuple[Line | Region, ...]


def choice_sheet(feature: Feature, word: str, gender: str | None) -> Sheet | None:
    """Return the sign of an answer, None where there is none.

    Args:
        feature: What is asked.
        word: The answer, as it is stored.
        gender: What the end is known to be: how a thread is held or grows looks otherwise inside.
    """
    female = gender == "female"
    make = (_INSIDE if female else {}).get((feature, word)) or _SIGNS.get((feature, word))
    if make is None:
        return None
    parts = make()
    lines = tuple(each for each in parts if isinstance(each, Line))
    regions = tuple(each for each in parts if isinstance(each, Region))
    return Sheet(word, lines, regions)


# ---- pieces


def _path(*points: Point) -> Line:
    return Line(Kind.OUTLINE, points)


def _box(x0: float, x1: float, y: float) -> Parts:
    """A body seen from the side, from x0 to x1, as high above the axis as below it."""
    return (_path((x0, -y), (x0, y), (x1, y), (x1, -y), (x0, -y)),)


def _male(x0: float, x1: float, y0: float, y1: float) -> Parts:
    """An outside thread from x0 to x1 that grows from y0 to y1."""
    sides = _path((x1, y1), (x0, y0), (x0, -y0), (x1, -y1))
    count = int((x1 - x0) / 2)
    turns = []
    for turn in range(count):
        x = x0 + 0.5 + turn * 2
        y = y0 + (y1 - y0) * (x - x0) / (x1 - x0)
        turns.append(Line(Kind.THREAD, ((x, -y), (x + 1, y))))
    return (sides, *turns)


def _hole(x0: float, x1: float, y: float, outer: float) -> Parts:
    """Two cut walls round a plain hole from x0 to x1."""
    walls: list[Line | Region] = []
    for side in (1, -1):
        corners = ((x0, side * y), (x1, side * y), (x1, side * outer), (x0, side * outer))
        walls += [_path(*corners, corners[0]), Region(Fill.CUT, corners)]
    return tuple(walls)


def _female(x0: float, x1: float, y0: float, y1: float, outer: float) -> Parts:
    """Two cut walls with teeth round a hole that goes from y0 at its mouth to y1 inside."""
    walls: list[Line | Region] = []
    count = int((x1 - x0) / 2)
    for side in (1, -1):
        teeth: list[Point] = []
        for turn in range(count):
            x = x0 + turn * (x1 - x0) / count
            y = y0 + (y1 - y0) * turn / count
            teeth += [(x, side * y), (x + (x1 - x0) / count / 2, side * (y + 1.8))]
        teeth.append((x1, side * y1))
        walls.append(_path(*teeth, (x1, side * outer), (x0, side * outer), teeth[0]))
    return tuple(walls)


def _ring(x: float, y: float, *, square: bool = False) -> Parts:
    """A soft ring cut through, above and below the axis."""
    size = 1.3
    sides = 4 if square else 8
    return tuple(Region(Fill.SEAL, _circle(x, side * y, size, sides)[:-1]) for side in (1, -1))


def _circle(x: float, y: float, r: float, sides: int = 24) -> tuple[Point, ...]:
    step = 2 * math.pi / sides
    turned = step / 2 if sides == 4 else 0.0
    return tuple(
        (x + r * math.cos(turned + n * step), y + r * math.sin(turned + n * step))
        for n in range(sides + 1)
    )


def _turns() -> Parts:
    """The arrow that says: this part turns by itself."""
    return (
        _path((2, 8.6), (3, 9), (7, 9), (8, 8.6)),
        _path((6, 9), (8, 8.6), (7.6, 7.4)),
    )


def _cone(half_deg: float) -> Parts:
    """A nose with a cone of this half angle."""
    slope, tip, foot = math.tan(math.radians(half_deg)), 1.5, 7.0
    wide = min(foot, tip + 15 * slope)
    x = 1 + (wide - tip) / slope
    sides = [_path((1, side * tip), (x, side * wide), (19, side * wide)) for side in (1, -1)]
    return (*sides, _path((1, tip), (1, -tip)))


# ---- signs


def _flange() -> Parts:
    return (*_box(1, 5, 8.5), *_box(5, 19, 4))


def _eye() -> Parts:
    return (
        _path(*_circle(7, 0, 6.5)), _path(*_circle(7, 0, 3)),
        _path((13, 2.5), (19, 2.5)), _path((13, -2.5), (19, -2.5)),
    )  # fmt: skip


def _plug() -> Parts:
    return (
        _path((12, -4), (3, -4), (1, -3), (1, 3), (3, 4), (12, 4)),
        _path((7, -4), (7, 4)),
        *_box(12, 19, 7),
    )


def _ball() -> Parts:
    half = [point for point in _circle(8, 0, 6.5, 32) if point[0] <= 8.01]
    return (_path(*half), _path((8, 6.5), (19, 6.5)), _path((8, -6.5), (19, -6.5)))


def _funnel() -> Parts:
    sides = [
        _path((19, side * 7), (2, side * 7), (2, side * 6), (10, side * 2), (19, side * 2))
        for side in (1, -1)
    ]
    return tuple(sides)


def _flat() -> Parts:
    return (*_box(2, 19, 7), _path((2, 2.5), (19, 2.5)), _path((2, -2.5), (19, -2.5)))


def _upright(rise: float) -> Parts:
    """A bolt that stands upright, its thread rising to the right (or left, below 0)."""
    turns = [Line(Kind.THREAD, ((5, y - rise), (15, y + rise))) for y in (-4.5, -1.5, 1.5, 4.5, 7)]
    return (_path((5, -8), (5, 8.5), (15, 8.5), (15, -8), (5, -8)), *turns)


def _question() -> Parts:
    return (
        _path((6, 4), (7, 7), (10, 8), (13, 7), (14, 4), (13, 2), (10, 0), (10, -3)),
        _path((9.5, -6.5), (10.5, -6.5), (10.5, -7.5), (9.5, -7.5), (9.5, -6.5)),
    )


def _of(*parts: Parts) -> Callable[[], Parts]:
    return lambda: tuple(piece for part in parts for piece in part)


_HEX, _STEM = _box(9, 14, 7.5), _box(14, 19, 3)
_THREAD, _NUT = _male(1, 9, 5, 5), _female(1, 11, 4.5, 4.5, 8)
_SIGNS: dict[tuple[Feature, str], Callable[[], Parts]] = {
    (Feature.GENDER, "male"): _of(_THREAD, _HEX, _STEM),
    (Feature.GENDER, "female"): _of(_NUT, _box(11, 19, 3)),
    (Feature.GENDER, "flange"): _flange,
    (Feature.GENDER, "eye"): _eye,
    (Feature.GENDER, "washer"): _of((_path(*_circle(10, 0, 8)), _path(*_circle(10, 0, 5)))),
    (Feature.GENDER, "plug"): _plug,
    (Feature.GENDER, "socket"): _of(_hole(1, 13, 4.5, 8), _box(13, 19, 3)),
    (Feature.GENDER, "none"): _question,
    (Feature.MOUNT, "swivel"): _of(_male(1, 9, 5, 5), _box(9, 11, 6.5), _box(13, 19, 3), _turns()),
    (Feature.MOUNT, "fixed"): _of(_THREAD, _HEX, _STEM),
    (Feature.MOUNT, "port"): _of(_female(1, 12, 4.5, 4.5, 9), _box(12, 19, 9)),
    (Feature.MOUNT, "stud"): _of(
        _male(1, 8, 5, 5), _ring(9.5, 6), _box(11, 15, 8), _box(15, 19, 4)
    ),
    (Feature.MOUNT, "none"): _question,
    (Feature.TAPER, "parallel"): _of(_male(1, 13, 5.5, 5.5), _box(13, 19, 8)),
    (Feature.TAPER, "tapered"): _of(_male(1, 13, 3, 6.5), _box(13, 19, 8)),
    (Feature.HAND, "right"): partial(_upright, 1.2),
    (Feature.HAND, "left"): partial(_upright, -1.2),
    (Feature.SEAT_SHAPE, "convex"): partial(_cone, 37),
    (Feature.SEAT_SHAPE, "concave"): _funnel,
    (Feature.SEAT_SHAPE, "flat"): _flat,
    (Feature.SEAT_SHAPE, "ball"): _ball,
    (Feature.SEAT_SHAPE, "none"): _of(_male(1, 19, 5.5, 5.5)),
    (Feature.SEAT_ANGLE, "24 deg included"): partial(_cone, 12),
    (Feature.SEAT_ANGLE, "60 deg included"): partial(_cone, 30),
    (Feature.SEAT_ANGLE, "82 deg included"): partial(_cone, 41),
    (Feature.SEAT_ANGLE, "12 deg half"): partial(_cone, 12),
    (Feature.SEAT_ANGLE, "30 deg half"): partial(_cone, 30),
    (Feature.SEAT_ANGLE, "37 deg half"): partial(_cone, 37),
    (Feature.SEAT_ANGLE, "45 deg half"): partial(_cone, 45),
    (Feature.O_RING, "none"): _of(_male(1, 10, 5, 5), _box(10, 19, 8)),
    (Feature.O_RING, "face"): _of(_box(2, 19, 7), _ring(2.5, 4.5)),
    (Feature.O_RING, "nose"): _of(_cone(25), _ring(6, 4)),
    (Feature.O_RING, "boss"): _of(_male(1, 8, 4.5, 4.5), _ring(9.5, 5.5), _box(11, 19, 8)),
    (Feature.O_RING, "captive"): _of(
        _male(1, 9, 4, 4), _box(9, 19, 8.5), _ring(9.8, 6, square=True)
    ),
    (Feature.O_RING, "flange"): _of(_box(2, 6, 8.5), _box(6, 19, 4), _ring(2.5, 5.5)),
    (Feature.PORT_RIDGE, "yes"): _of(
        (_path(*_circle(10, 0, 4.5)), _path(*_circle(10, 0, 7.2)), _path(*_circle(10, 0, 8.4)))
    ),
    (Feature.PORT_RIDGE, "no"): _of((_path(*_circle(10, 0, 4.5)),)),
}
_INSIDE: dict[tuple[Feature, str], Callable[[], Parts]] = {
    (Feature.MOUNT, "swivel"): _of(_female(1, 10, 4.5, 4.5, 7.2), _box(12, 19, 3), _turns()),
    (Feature.MOUNT, "fixed"): _of(_female(1, 10, 4.5, 4.5, 7.2), _box(10, 19, 7.2)),
    (Feature.TAPER, "parallel"): _of(_female(1, 17, 4.5, 4.5, 8.5)),
    (Feature.TAPER, "tapered"): _of(_female(1, 17, 5.8, 2.5, 8.5)),
}
