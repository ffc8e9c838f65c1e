"""Two lookalikes laid over each other: the candidate solid, the lookalike dashed."""

import math

from identify.drawing.ends import Sort, drawn_of, sort_of
from identify.drawing.flanges import flange_pattern
from identify.drawing.outline import (
    Fill,
    Kind,
    Line,
    Note,
    Point,
    Region,
    Sheet,
    Side,
    ThreadRun,
)
from identify.drawing.proportions import sizes
from identify.drawing.revolved import axis, joined, moved
from identify.drawing.seat_words import angle_words, is_cone, main_seat
from identify.drawing.views import section
from identify.frozen import replace
from identify.light import Iterable
from identify.model.connection import Across, EndConnection, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread

PITCHES_SHOWN = 6


def seat_detail(
    end_a: EndConnection,
    thread_a: Thread | None,
    end_b: EndConnection,
    thread_b: Thread | None,
    told_apart: Iterable[str] = (),
) -> Sheet:
    """Lay a lookalike over a candidate where they differ most visibly.

    Flanges: heads and bolt patterns on one centre. Seats: both cones from one apex. Where the
    seats are alike: both threads from one crest. Two that have nothing to lay over each other, a
    cone and a port or a cone out and a cone in, stand side by side.

    Args:
        end_a: The candidate, drawn solid.
        thread_a: Its thread.
        end_b: The lookalike, drawn dashed.
        thread_b: Its thread.
        told_apart: What tells the two apart, in sentences, for the words of the sheet.
    """
    title = f"{end_a.title} (solid) and {end_b.title} (dashed)"
    sorts = {sort_of(end_a), sort_of(end_b)}
    if sorts == {Sort.FLANGE}:
        sheet, told = _flanges(end_a, end_b), "Heads and bolt patterns on one centre."
    elif not _can_be_laid_over(end_a, end_b):
        sheet = _beside(end_a, thread_a, end_b, thread_b)
        title = f"{end_a.title} (left) and {end_b.title} (right)"
        told = f"{_why_beside(end_a, end_b)}, so they stand side by side at one scale."
    elif _seats_differ(end_a, end_b) or thread_a is None or thread_b is None:
        sheet, told = (
            _cones(end_a, thread_a, end_b, thread_b),
            "Both cones are drawn with their points together on the axis.",
        )
    else:
        sheet, told = (
            _threads(thread_a, thread_b),
            "The seats are alike; the threads begin at the same crest.",
        )
    words = [
        f"{title}. {told}",
        *told_apart,
        "Drawn to scale; lengths without a figure in the tables are proportions.",
    ]
    if "(dashed)" in title:
        words.append("Where both lines run together the picture cannot tell the two apart.")
    return replace(sheet, title=title, words=tuple(words))


def _can_be_laid_over(end_a: EndConnection, end_b: EndConnection) -> bool:
    """Tell whether the two have seats or threads that can be drawn from one point."""
    if {sort_of(end_a), sort_of(end_b)} - {Sort.MALE, Sort.SWIVEL, Sort.PORT}:
        return False
    if not _both_cones(end_a, end_b):
        return sort_of(end_a) is sort_of(end_b)
    meet = end_a.gender != end_b.gender  # a cone in a funnel lies in it as it does in a joint
    return meet or _is_concave(end_a) is _is_concave(end_b)


def _both_cones(end_a: EndConnection, end_b: EndConnection) -> bool:
    seats = main_seat(end_a), main_seat(end_b)
    return all(is_cone(seat) and seat.shape is not Shape.CHAMFER for seat in seats)


def _why_beside(end_a: EndConnection, end_b: EndConnection) -> str:
    if _both_cones(end_a, end_b):
        return "One cone points out and the other is cut in"
    return "Too unlike to be laid over each other"


def _beside(
    end_a: EndConnection, thread_a: Thread | None, end_b: EndConnection, thread_b: Thread | None
) -> Sheet:
    """Return both cut, side by side on one axis."""
    one, other = section(drawn_of(end_a, thread_a).part), section(drawn_of(end_b, thread_b).part)
    apart = 0.1 * (one.bounds()[3] - one.bounds()[1])
    right = moved(other, (one.bounds()[2] + apart - other.bounds()[0], 0.0))
    return joined(one, right)


def _seats_differ(end_a: EndConnection, end_b: EndConnection) -> bool:
    first, second = main_seat(end_a), main_seat(end_b)
    return first.shape is not second.shape or first.half_angle_deg != second.half_angle_deg


def _cones(
    end_a: EndConnection, thread_a: Thread | None, end_b: EndConnection, thread_b: Thread | None
) -> Sheet:
    size_a, size_b = sizes(end_a, thread_a, Across.BODY), sizes(end_b, thread_b, Across.BODY)
    rim, bore = min(size_a.root_r, size_b.root_r), min(size_a.bore_r, size_b.bore_r)
    tip_a, tip_b = _rim_point(end_a, rim), _rim_point(end_b, rim)
    right = max(tip_a[0], tip_b[0]) + 0.35 * rim
    apex = (0.0, 0.0)
    lines = [
        Line(Kind.OUTLINE, (apex, tip_a)),
        Line(Kind.HIDDEN, (apex, tip_b)),
    ]
    regions = [_metal(end_a, tip_a, bore, right, Fill.CUT)]
    notes = [
        Note(_share(tip_a, 0.8), Side.TOP, f"solid {_seat_label(end_a)}", asked=True),
        Note(_share(tip_b, 0.55), Side.BOTTOM, f"dashed {_seat_label(end_b)}", asked=True),
    ]
    edge = Line(Kind.OUTLINE, (tip_a, (right, rim)))
    if main_seat(end_a).shape is Shape.CONCAVE:
        edge = Line(Kind.HATCH, (tip_a, _top_left(tip_a, rim)))
    lines.append(edge)
    if _is_concave(end_a) != _is_concave(end_b):
        regions.append(_metal(end_b, tip_b, bore, right, Fill.CUT_OTHER))
    bare = Sheet("", tuple(lines), tuple(regions), (), (), tuple(notes))
    return joined(bare, axis(-0.15 * rim, right))


def _is_concave(end: EndConnection) -> bool:
    return main_seat(end).shape is Shape.CONCAVE


def _seat_label(end: EndConnection) -> str:
    seat = main_seat(end)
    angle = angle_words(seat).split(",")[0]
    if angle:
        return f"{angle}, {seat.shape}"
    return "flat face" if seat.shape is Shape.FLAT else "no cone, plain nose"


def _rim_point(end: EndConnection, rim: float) -> Point:
    """Return where the seat line reaches the rim; a flat face is square to the axis."""
    seat = main_seat(end)
    angle = seat.half_angle_deg if is_cone(seat) and seat.half_angle_deg else 90.0
    return (rim / math.tan(math.radians(angle)) if angle < 90 else 0.0), rim


def _share(point: Point, share: float) -> Point:
    return point[0] * share, point[1] * share


def _top_left(tip: Point, rim: float) -> Point:
    return tip[0], 1.35 * rim


def _metal(end: EndConnection, tip: Point, bore: float, right: float, fill: Fill) -> Region:
    """Return the metal of a seat: inside its cone if it points out, round it if it is cut in."""
    foot = (tip[0] * bore / tip[1], bore)
    if _is_concave(end):
        high = 1.35 * tip[1]
        return Region(fill, (foot, tip, (tip[0], high), (foot[0], high)))
    return Region(fill, (foot, tip, (right, tip[1]), (right, bore)))


def _threads(thread_a: Thread, thread_b: Thread) -> Sheet:
    """Return both threads from one crest, solid and dashed, crests at their true heights."""
    low = min(thread_a.major_mm, thread_b.major_mm) / 2
    base = 2 * max(thread_a.height_mm, thread_b.height_mm)
    length = PITCHES_SHOWN * max(thread_a.pitch_mm, thread_b.pitch_mm)
    runs, notes = [], []
    for thread, kind, name, side in (
        (thread_b, Kind.HIDDEN, "dashed", Side.BOTTOM),
        (thread_a, Kind.OUTLINE, "solid", Side.TOP),
    ):
        crest = base + thread.major_mm / 2 - low
        teeth = round(length / thread.pitch_mm)
        start, end = -thread.pitch_mm / 2, (teeth - 0.5) * thread.pitch_mm
        # Both runs begin half a pitch before x = 0, so that the first crests coincide there.
        slope = thread.taper / 2 * (end - start)
        cut = Fill.CUT if kind is Kind.OUTLINE else None
        runs.append(
            ThreadRun((start, crest), (end, crest + slope), thread.pitch_mm, thread.height_mm,
                      male=True, flank_angle_deg=thread.flank_angle_deg, cut=cut, kind=kind)
        )  # fmt: skip
        at = (end - thread.pitch_mm / 2, crest if side is Side.TOP else crest - thread.height_mm)
        notes.append(Note(at, side, f"{name} {thread.designation}", asked=True))
    right = max(run.end[0] for run in runs)
    floor = Line(Kind.HATCH, ((-thread_a.pitch_mm, 0.4 * base), (right, 0.4 * base)))
    return Sheet("", (floor,), (), tuple(runs), (), tuple(notes))


def _flanges(end_a: EndConnection, end_b: EndConnection) -> Sheet:
    solid = flange_pattern(end_a, Kind.OUTLINE)
    dashed = flange_pattern(end_b, Kind.HIDDEN)
    _, _, right, top = joined(solid, dashed).bounds()
    upright = Sheet("", (Line(Kind.CENTRE, ((0.0, -top - 2.0), (0.0, top + 2.0))),))
    notes = []
    for end, name, side in ((end_a, "solid", Side.TOP), (end_b, "dashed", Side.BOTTOM)):
        long, short = (
            end.sizes.get(Feature.BOLT_SPACING_LONG),
            end.sizes.get(Feature.BOLT_SPACING_SHORT),
        )
        head = (end.sizes.get(Feature.FLANGE_HEAD_OD) or 0.0) / 2
        up = 1 if side is Side.TOP else -1
        at = (long / 2 * up, short / 2 * up) if long and short else (0.0, up * head)
        pattern = f"{long:g} x {short:g}" if long and short else f"head {2 * head:g}"
        notes.append(Note(at, side, f"{name} {pattern} mm", asked=True))
    return replace(
        joined(dashed, solid, axis(-right - 2.0, right + 2.0), upright), notes=tuple(notes)
    )
