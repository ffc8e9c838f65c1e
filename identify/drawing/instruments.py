"""What an instrument shows, drawn: leaves over a thread for ten pitches with a rule, an angle."""

import math
from collections.abc import Sequence

from identify.drawing.outline import Fill, Kind, Line, Note, Point, Region, Sheet, Side, ThreadRun
from identify.drawing.revolved import arc
from identify.drawing.thread_profile import thread_lines
from identify.frozen import NamedTuple
from identify.model.thread import Thread

TEN = 10  # pitches over which a wrong leaf drifts far enough to be seen
_LIFT, _BACK, _BETWEEN = 0.35, 0.5, 1.1  # of the height of a tooth: gap, back of a leaf, lanes
_SEEN = 0.1  # of a pitch: what the eye sees of a drift


class Lane(NamedTuple):
    """One leaf laid on the thread: what is stamped on it, its pitch [mm]."""

    label: str
    pitch_mm: float


def combs_over(thread: Thread, lanes: Sequence[Lane]) -> Sheet:
    """Return a real thread of ten pitches under each of some leaves, and a rule below.

    Every leaf has a tooth in the first gap of the thread; a wrong one drifts off to the right or
    to the left. Pitches and flanks are to scale. The rule has a line every millimetre.
    """
    pitch, depth = thread.pitch_mm, thread.height_mm
    step = depth * (2 + _LIFT + _BACK + _BETWEEN)
    lines: list[Line] = []
    regions: list[Region] = []
    notes: list[Note] = []
    for place, lane in enumerate(lanes):
        y = step * (len(lanes) - place)
        for drawn, cut in _lane(thread, lane, y):
            lines += drawn
            regions += cut
        notes.append(Note((0.0, y + 0.5 * depth), Side.LEFT, lane.label))
    ruled, figures = _rule(TEN * pitch, 0.0)
    words = ["A thread over ten pitches, with a tooth of each leaf in its first gap."]
    words += [_drift_words(lane, pitch) for lane in lanes]
    return Sheet("", (*lines, *ruled), tuple(regions), notes=(*notes, *figures), words=tuple(words))


def _lane(thread: Thread, lane: Lane, y: float) -> list[tuple[Sequence[Line], Sequence[Region]]]:
    """Return the profile of a thread with its crests at `y`, and of a leaf over it."""
    depth, flank = thread.height_mm, thread.flank_angle_deg
    own = ThreadRun(
        (0.0, y), (TEN * thread.pitch_mm, y), thread.pitch_mm, depth, True, flank, Fill.CUT
    )
    start, crest = -lane.pitch_mm / 2, y - depth * (1 - _LIFT)
    end = start + (TEN + 1) * lane.pitch_mm
    leaf = ThreadRun((start, crest), (end, crest), lane.pitch_mm, depth, False, flank)
    (profile, *_), _none = thread_lines(leaf, teeth=True)
    back = crest + depth * (1 + _BACK)
    outline: tuple[Point, ...] = (
        (start, back), *profile.points, (end, back), (start, back),
    )  # fmt: skip
    return [thread_lines(own, teeth=True), ((Line(Kind.OUTLINE, outline),), ())]


def _rule(length_mm: float, y: float) -> tuple[list[Line], list[Note]]:
    """Return a rule from 0 to a whole centimetre beyond a length, with its figures."""
    marks = 10 * math.ceil(length_mm / 10)
    lines = [Line(Kind.OUTLINE, ((0.0, y), (float(marks), y)))]
    notes = []
    for mm in range(marks + 1):
        tall = 1.6 if mm % 10 == 0 else 1.2 if mm % 5 == 0 else 0.7
        lines.append(Line(Kind.OUTLINE, ((float(mm), y), (float(mm), y + tall))))
        if mm % 10 == 0:
            notes.append(Note((float(mm), y), Side.BOTTOM, f"{mm} mm"))
    return lines, notes


def _drift_words(lane: Lane, pitch_mm: float) -> str:
    """Return where a leaf has drifted after ten pitches, as the eye sees it."""
    drift = TEN * (lane.pitch_mm - pitch_mm) / pitch_mm
    if abs(drift) < _SEEN:
        return f"Leaf {lane.label}: it fits all along."
    where = "beyond" if drift > 0 else "short of"
    return f"Leaf {lane.label}: at the tenth it is {abs(drift):.1f} of a pitch {where} the gap."


def angle_on_display(half_deg: float, number_deg: float, *, across: bool) -> Sheet:
    """Return a cone with the angle that a digital protractor shows.

    Args:
        half_deg: Half angle of the cone [deg].
        number_deg: What the display says [deg].
        across: It lies from side to side of the cone; else from the axis to one side.
    """
    half, side = half_deg, 30.0
    tip = (0.0, 0.0)
    rays = [(side * math.cos(math.radians(a)), side * math.sin(math.radians(a)))
            for a in (half, -half)]  # fmt: skip
    bow = arc(tip, 0.6 * side, -half if across else 0.0, half, 16)
    lines = [Line(Kind.OUTLINE, (tip, ray)) for ray in rays]
    lines += [Line(Kind.OUTLINE, (rays[0], rays[1])), Line(Kind.HATCH, bow)]
    lines.append(Line(Kind.CENTRE, ((-0.15 * side, 0.0), (1.1 * side, 0.0))))
    where = "from side to side" if across else "from the axis to one side"
    note = Note(bow[len(bow) * 3 // 4], Side.RIGHT, f"{number_deg:g}°")
    words = (f"The display says {number_deg:g} degrees, measured {where} of the cone.",)
    return Sheet("", tuple(lines), notes=(note,), words=words)
