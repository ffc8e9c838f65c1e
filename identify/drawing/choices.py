"""One small picture for each answer of a question: what the eye sees if that answer is true.

Signs, not drawings of an end of the tables: of no size, all in one frame, so that none stands out.
Each is a part of round numbers, looked at as every part is (`views`): from the side, into its end,
or cut through where it has a hole. What no view of a part shows is drawn beside it: that it turns,
and which way a thread rises.
"""

import math
from collections.abc import Callable
from functools import partial

from identify.drawing.outline import Fill, Kind, Line, Point, Sheet, ThreadRun
from identify.drawing.part import Body, Contour, Hexagon, Part, contour
from identify.drawing.revolved import circle, joined, moved
from identify.drawing.views import end_view, section, side_view
from identify.frozen import replace
from identify.model.feature import Feature

FRAME = (0.0, -9.0, 20.0, 9.0)  # left, bottom, right, top, the same for every sign
_PITCH, _DEPTH = 2.0, 1.2
_MIDDLE = 10.0  # of the frame
_TIP = 1.5  # radius of the small end of a cone


def choice_sheet(feature: Feature, word: str, gender: str | None) -> Sheet | None:
    """Return the sign of an answer, None where there is none.

    Args:
        feature: What is asked.
        word: The answer, as it is stored.
        gender: What the end is known to be: how a thread is held or grows looks otherwise inside.
    """
    female = gender == "female"
    make = (_INSIDE if female else {}).get((feature, word)) or _SIGNS.get((feature, word))
    return replace(make(), title=word) if make else None


# ---- looking at a part


def _bare(sheet: Sheet) -> Sheet:
    """Return a view without centre line and hatching, for which a sign has no room."""
    lines = tuple(line for line in sheet.lines if line.kind is not Kind.CENTRE)
    seals = tuple(region for region in sheet.regions if region.fill is Fill.SEAL)
    runs = tuple(replace(run, cut=None) for run in sheet.threads)
    return replace(sheet, lines=lines, regions=seals, threads=runs)


def _from_the_side(*bodies: Body, hexagon: Hexagon | None = None, ring: Point | None = None,
                   square: bool = False) -> Callable[[], Sheet]:  # fmt: skip
    seals = (_ring(ring, square=square),) if ring else ()
    part = Part(bodies, seals, (hexagon,) if hexagon else ())
    return lambda: _bare(side_view(part))


def _cut_through(*bodies: Body, ring: Point | None = None) -> Callable[[], Sheet]:
    part = Part(bodies, (_ring(ring),) if ring else (), block=True)
    return lambda: _bare(section(part))


def _into_the_end(*radii: float) -> Callable[[], Sheet]:
    bodies = [_body([(0.0, high), (2.0, high)], [(0.0, low), (2.0, low)])
              for high, low in zip(radii[::2], radii[1::2], strict=True)]  # fmt: skip
    return lambda: moved(_bare(end_view(Part(tuple(bodies)))), (_MIDDLE, 0.0))


def _with(make: Callable[[], Sheet], *lines: Line) -> Callable[[], Sheet]:
    """Return a sign with what no view of a part shows."""
    return lambda: joined(make(), Sheet("", lines))


# ---- pieces of round numbers


def _body(outer: list[Point] | Contour, inner: list[Point] | Contour | None = None) -> Body:
    """Return a turned piece that ends where its outer contour ends; solid without an inner one."""
    whole = contour(outer) if isinstance(outer, list) else outer
    (left, _), (right, _) = whole.crested[0], whole.crested[-1]
    hole = inner if inner is not None else [(left, 0.0), (right, 0.0)]
    return Body(whole, contour(hole) if isinstance(hole, list) else hole, broken=False)


def _bar(left: float, right: float, radius: float) -> Body:
    return _body([(left, 0.0), (left, radius), (right, radius), (right, 0.0)])


def _male(left: float, right: float, y0: float, y1: float) -> Body:
    """An outside thread that grows from y0 to y1."""
    run = ThreadRun((left + 0.3, y0), (right, y1), _PITCH, _DEPTH, male=True)
    return _body(contour([(left, 0.0), (left, y0 - 0.3)], run, [(right, 0.0)]))


def _female(left: float, right: float, y0: float, y1: float, outer: float) -> Body:
    """A wall round an inside thread that goes from y0 at its mouth to y1 inside."""
    run = ThreadRun((left, y0), (right, y1), _PITCH, _DEPTH, male=False)
    return _body([(left, outer), (right, outer)], contour([(left, y0)], run, [(right, y1)]))


def _hole(left: float, right: float, radius: float, outer: float) -> Body:
    return _body([(left, outer), (right, outer)], [(left, radius), (right, radius)])


def _cone(half_deg: float, foot: float = 7.0) -> Body:
    """A nose with a cone of this half angle."""
    slope = math.tan(math.radians(half_deg))
    wide = min(foot, _TIP + 15 * slope)
    x = 1 + (wide - _TIP) / slope
    return _body([(1.0, 0.0), (1.0, _TIP), (x, wide), (19.0, wide)])


def _ball() -> Body:
    arc = [(8 - 6.5 * math.cos(turn), 6.5 * math.sin(turn))
           for turn in (math.pi / 2 * step / 8 for step in range(9))]  # fmt: skip
    return _body([*arc, (19.0, 6.5)])


def _ring(at: Point, *, square: bool = False) -> tuple[Point, ...]:
    """A soft ring cut through."""
    return circle(at, 1.3, 4, 45.0)[:-1] if square else circle(at, 1.3, 8)[:-1]


# ---- what no view of a part shows


def _path(*points: Point) -> Line:
    return Line(Kind.OUTLINE, points)


_TURNS = (
    _path((2, 8.6), (3, 9), (7, 9), (8, 8.6)),
    _path((6, 9), (8, 8.6), (7.6, 7.4)),
)
"""The arrow that says: this part turns by itself."""


def _upright(rise: float) -> Sheet:
    """A bolt that stands upright, its thread rising to the right (or left, below 0), steeply."""
    turns = [Line(Kind.THREAD, ((5, y - rise), (15, y + rise))) for y in (-4.5, -1.5, 1.5, 4.5, 7)]
    return Sheet("", (_path((5, -8), (5, 8.5), (15, 8.5), (15, -8), (5, -8)), *turns))


def _question() -> Sheet:
    return Sheet("", (
        _path((6, 4), (7, 7), (10, 8), (13, 7), (14, 4), (13, 2), (10, 0), (10, -3)),
        _path((9.5, -6.5), (10.5, -6.5), (10.5, -7.5), (9.5, -7.5), (9.5, -6.5)),
    ))  # fmt: skip


# ---- signs

_FIXED = _from_the_side(
    _male(1, 9, 5, 5), _bar(9, 14, 7.5), _bar(14, 19, 3), hexagon=Hexagon(9, 14, 7.5)
)
_SIGNS: dict[tuple[Feature, str], Callable[[], Sheet]] = {
    (Feature.GENDER, "male"): _FIXED,
    (Feature.GENDER, "female"): _cut_through(_female(1, 11, 4.5, 4.5, 8), _bar(11, 19, 3)),
    (Feature.GENDER, "flange"): _from_the_side(_bar(1, 5, 8.5), _bar(5, 19, 4)),
    (Feature.GENDER, "eye"): _with(
        lambda: moved(_into_the_end(6.5, 3.0)(), (-3.0, 0.0)),
        _path((13, 2.5), (19, 2.5)), _path((13, -2.5), (19, -2.5)),
    ),
    (Feature.GENDER, "washer"): _into_the_end(8, 5),
    (Feature.GENDER, "plug"): _from_the_side(
        _body([(1, 0), (1, 3), (3, 4), (12, 4)]), _bar(7, 12, 4.3), _bar(12, 19, 7)
    ),
    (Feature.GENDER, "socket"): _cut_through(_hole(1, 13, 4.5, 8), _bar(13, 19, 3)),
    (Feature.GENDER, "none"): _question,
    (Feature.MOUNT, "swivel"): _with(
        _from_the_side(_male(1, 9, 5, 5), _bar(9, 11, 6.5), _bar(13, 19, 3)), *_TURNS
    ),
    (Feature.MOUNT, "fixed"): _FIXED,
    (Feature.MOUNT, "port"): _cut_through(_female(1, 12, 4.5, 4.5, 9), _bar(12, 19, 9)),
    (Feature.MOUNT, "stud"): _from_the_side(
        _male(1, 8, 5, 5), _bar(8, 11, 3.8), _bar(11, 15, 8), _bar(15, 19, 4), ring=(9.5, 5.6)
    ),
    (Feature.MOUNT, "none"): _question,
    (Feature.TAPER, "parallel"): _from_the_side(_male(1, 13, 5.5, 5.5), _bar(13, 19, 8)),
    (Feature.TAPER, "tapered"): _from_the_side(_male(1, 13, 3, 6.5), _bar(13, 19, 8)),
    (Feature.HAND, "right"): partial(_upright, 1.2),
    (Feature.HAND, "left"): partial(_upright, -1.2),
    (Feature.SEAT_SHAPE, "convex"): _from_the_side(_cone(37)),
    (Feature.SEAT_SHAPE, "concave"): _cut_through(
        _body([(2, 7), (19, 7)], [(2, 6), (10, 2), (19, 2)])
    ),
    (Feature.SEAT_SHAPE, "flat"): _cut_through(_hole(2, 19, 2.5, 7)),
    (Feature.SEAT_SHAPE, "ball"): _from_the_side(_ball()),
    (Feature.SEAT_SHAPE, "none"): _from_the_side(_male(1, 19, 5.5, 5.5)),
    **{
        (Feature.SEAT_ANGLE, word): _from_the_side(_cone(half))
        for word, half in (
            ("24 deg included", 12), ("60 deg included", 30), ("82 deg included", 41),
            ("12 deg half", 12), ("30 deg half", 30), ("37 deg half", 37), ("45 deg half", 45),
        )
    },
    (Feature.O_RING, "none"): _from_the_side(_male(1, 10, 5, 5), _bar(10, 19, 8)),
    (Feature.O_RING, "face"): _cut_through(_hole(2, 19, 2.5, 7), ring=(2.5, 4.7)),
    (Feature.O_RING, "nose"): _from_the_side(_cone(25), ring=(6, 4)),
    (Feature.O_RING, "boss"): _from_the_side(
        _male(1, 8, 4.5, 4.5), _bar(8, 11, 3.3), _bar(11, 19, 8), ring=(9.5, 5.3)
    ),
    (Feature.O_RING, "captive"): _from_the_side(
        _male(1, 9, 4, 4), _bar(9, 19, 8.5), ring=(9.0, 6), square=True
    ),
    (Feature.O_RING, "flange"): _cut_through(
        _hole(2, 6, 2.5, 8.5), _hole(6, 19, 2.5, 4), ring=(2.5, 5.5)
    ),
    (Feature.PORT_RIDGE, "yes"): _into_the_end(8.4, 7.2, 4.5, 0.0),
    (Feature.PORT_RIDGE, "no"): _into_the_end(4.5, 0.0),
}  # fmt: skip
_INSIDE: dict[tuple[Feature, str], Callable[[], Sheet]] = {
    (Feature.MOUNT, "swivel"): _with(
        _cut_through(_female(1, 10, 4.5, 4.5, 7.2), _bar(12, 19, 3)), *_TURNS
    ),
    (Feature.MOUNT, "fixed"): _cut_through(_female(1, 10, 4.5, 4.5, 7.2), _bar(10, 19, 7.2)),
    (Feature.TAPER, "parallel"): _cut_through(_female(1, 17, 4.5, 4.5, 8.5)),
    (Feature.TAPER, "tapered"): _cut_through(_female(1, 17, 5.8, 2.5, 8.5)),
}
