"""A thread in profile: teeth where there is room for them, else simplified as in ISO 6410."""

import math

from identify.drawing.outline import BROKEN, Kind, Line, Point, Region, ThreadRun

MOST_GONE = 0.9  # of the height of a tooth
DOTS_FOR_TEETH = 6.0  # below this many dots a pitch, teeth blur with the hatching
DOTS_OUTSIDE = 3.2  # the same where the thread is seen from outside, with nothing behind it
DOTS_FOR_CRESTS = 1.9  # below this many dots a pitch, not even the crests can be drawn one by one


def dots_for_teeth(run: ThreadRun) -> float:
    """Return how many dots a pitch needs for teeth that can be seen."""
    outside = run.cut is None and run.kind is Kind.THREAD
    return DOTS_OUTSIDE if outside else DOTS_FOR_TEETH


def thread_lines(
    run: ThreadRun, teeth: bool, crests: bool = False
) -> tuple[tuple[Line, ...], tuple[Region, ...]]:
    """Return the lines and the cut region of a run of thread.

    Args:
        run: The thread.
        teeth: Draw every tooth; else crest line solid and root line dashed.
        crests: Where teeth are not drawn and the thread is seen from outside: draw its crests.

    Returns:
        Lines and regions [mm]; regions only where the thread is cut.
    """
    root = _root_line(run)
    profile = _teeth(run) if teeth else _crest_line(run)
    regions: tuple[Region, ...] = ()
    if run.cut is not None:
        regions = (Region(run.cut, (*profile, *reversed(root))),)
    if teeth:
        lines = [Line(run.kind, profile)]
        if run.cut is None and run.kind is Kind.THREAD:
            lines += [Line(Kind.HATCH, piece) for piece in _crests_outside(run)]
        return tuple(lines), regions
    if run.cut is None and run.kind is Kind.THREAD:
        across = _crests_outside(run) if crests else [root]
        kind = Kind.HATCH if crests else Kind.HIDDEN
        ends = [Line(run.kind, (root[at], profile[at])) for at in (0, -1)]
        along = (profile,) if crests else _whole_crests(run)
        lines = [Line(run.kind, piece) for piece in along]
        return (*lines, *ends, *(Line(kind, piece) for piece in across)), regions
    return (Line(run.kind, profile), Line(Kind.HIDDEN, root)), regions


def tooth_count(run: ThreadRun) -> int:
    """Return how many whole teeth the run holds (at least one)."""
    return max(1, round(abs(run.end[0] - run.start[0]) / run.pitch_mm))


def crest_points(run: ThreadRun) -> tuple[Point, ...]:
    """Return the middle of every crest [mm], from start to end."""
    return tuple(_along(run, (tooth + 0.5) * run.pitch_mm) for tooth in range(tooth_count(run)))


def _away(run: ThreadRun) -> float:
    """Return the signed step [mm] from the crest line to the root line."""
    outwards = 1.0 if run.start[1] > 0 else -1.0
    return run.depth_mm * (-outwards if run.male else outwards)


def _along(run: ThreadRun, distance: float) -> Point:
    (x1, y1), (x2, y2) = run.start, run.end
    share = distance / abs(x2 - x1)
    return x1 + (x2 - x1) * share, y1 + (y2 - y1) * share


def _root_line(run: ThreadRun) -> tuple[Point, Point]:
    step = _away(run)
    return (run.start[0], run.start[1] + step), (run.end[0], run.end[1] + step)


def _teeth(run: ThreadRun) -> tuple[Point, ...]:
    """Return root, flank, crest, flank of every tooth, with flanks at their true angle."""
    step, pitch = _away(run), run.pitch_mm
    flank = min(0.5, run.depth_mm / pitch * math.tan(math.radians(run.flank_angle_deg / 2)))
    crest = (1 - 2 * flank) * _crest_share(run)
    points: list[Point] = [_root_line(run)[0]]
    for tooth in range(tooth_count(run)):
        gone = _gone(run, tooth)
        top, side = crest + 2 * flank * gone, flank * (1 - gone)
        for place, lower in (
            (0.5 - top / 2 - side, 1.0), (0.5 - top / 2, gone),
            (0.5 + top / 2, gone), (0.5 + top / 2 + side, 1.0),
        ):  # fmt: skip
            x, y = _along(run, (tooth + place) * pitch)
            points.append((x, y + step * lower))
    points.append(_root_line(run)[1])
    return tuple(points)


def _gone(run: ThreadRun, tooth: int) -> float:
    """Return what share of the height of a tooth is worn away [0..1]."""
    if _broken(run, tooth):
        return MOST_GONE
    return min(run.worn_mm / run.depth_mm, MOST_GONE)


def _broken(run: ThreadRun, tooth: int) -> bool:
    return run.worn_mm > 0 and tooth % BROKEN == 0


def _crest_line(run: ThreadRun) -> tuple[Point, ...]:
    """Return the line along the crests, let in where a tooth is broken."""
    if not run.worn_mm:
        return run.start, run.end
    step, points, count = _away(run), list[Point](), tooth_count(run)
    length = abs(run.end[0] - run.start[0])
    for tooth in range(count):
        after = (tooth + 1) * run.pitch_mm if tooth + 1 < count else length
        for place in (tooth * run.pitch_mm, after):
            x, y = _along(run, place)
            points.append((x, y + step * _gone(run, tooth)))
    return tuple(points)


def _whole_crests(run: ThreadRun) -> tuple[tuple[Point, Point], ...]:
    """Return the line along the crests in pieces, where broken teeth interrupt it."""
    if not run.worn_mm:
        return ((run.start, run.end),)
    count, step = tooth_count(run), _away(run) * _gone(run, 1)
    pieces = []
    for tooth in range(0, count, BROKEN):  # half a tooth beside a gap is left out, to be seen
        ends = [(tooth + 1.5) * run.pitch_mm, (min(tooth + BROKEN, count) - 0.5) * run.pitch_mm]
        if ends[0] < ends[1]:
            one, other = ((x, y + step) for x, y in (_along(run, end) for end in ends))
            pieces.append((one, other))
    return tuple(pieces)


def _crest_share(run: ThreadRun) -> float:
    """Return what part of the flats lies at the crest.

    Basic profile of ISO 68-1: an eighth of the pitch at the major, a quarter at the minor diameter.
    A 55 deg thread is rounded alike at both.
    """
    if run.flank_angle_deg != 60:
        return 0.5
    return 1 / 3 if run.male else 2 / 3


def _crests_outside(run: ThreadRun) -> list[tuple[Point, Point]]:
    """Return the crest edges across the visible flank, down to the axis.

    On the side that is seen a right-hand helix runs to the right as it goes down.
    """
    lean = run.pitch_mm / 4 * (1 if run.start[1] > 0 else -1) * (-1 if run.left_hand else 1)
    return [
        ((x, y), (x + lean, 0.0))
        for tooth, (x, y) in enumerate(crest_points(run))
        if not _broken(run, tooth)
    ]
