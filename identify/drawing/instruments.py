"""What an instrument shows, drawn: leaves over a thread for ten pitches with a rule, an angle."""

import math

from identify.drawing.outline import Fill, Kind, Line, Note, Sheet, Side, ThreadRun
from identify.drawing.revolved import arc
from identify.drawing.thread_profile import thread_lines
from identify.frozen import NamedTuple
from identify.model.thread import Thread

TEN = 10  # pitches over which a wrong leaf drifts far enough to be seen
_LIFT = 0.7  # of the height of a tooth, by which a leaf is held off
_FRAME = (-0.1, 1.2)  # of ten pitches: what a strip shows
_TALL = 0.055  # of ten pitches: the line of a centimetre
_SEEN = 0.1  # of a pitch: what the eye sees of a drift


class Lane(NamedTuple):
    """One leaf laid on the thread: what is stamped on it, its pitch [mm]."""

    label: str
    pitch_mm: float


def comb_over(thread: Thread, lane: Lane) -> Sheet:
    """Return a real thread of ten pitches under a leaf, a strip that is as long for every leaf.

    The leaf has a tooth in the first gap of the thread; a wrong one drifts off. Pitches and flanks
    are to scale.
    """
    depth, flank, length = thread.height_mm, thread.flank_angle_deg, TEN * thread.pitch_mm
    y = thread.major_mm / 2
    own = ThreadRun((0.0, y), (length, y), thread.pitch_mm, depth, True, flank, Fill.CUT)
    start, crest = -lane.pitch_mm / 2, y - depth * (1 - _LIFT)
    end = start + (TEN + 1) * lane.pitch_mm
    leaf = ThreadRun((start, crest), (end, crest), lane.pitch_mm, depth, False, flank)
    (profile, *_), _none = thread_lines(leaf, teeth=True)
    lines, regions = thread_lines(own, teeth=True)
    left, right, back = _FRAME[0] * length, _FRAME[1] * length, crest + depth * (1 + _LIFT)
    leaf_lines = (
        Line(Kind.OUTLINE, profile.points),
        Line(Kind.OUTLINE, ((left, back), (right, back))),
    )
    return Sheet("", (*lines, *leaf_lines), regions, words=(_drift_words(lane, thread.pitch_mm),))


def rule_under(thread: Thread) -> Sheet:
    """Return a steel rule under the strips of `comb_over`, a line every millimetre, to scale."""
    length = TEN * thread.pitch_mm
    left, right = (share * length for share in _FRAME)
    top = _TALL * length / 2
    lines = [Line(Kind.OUTLINE, ((left, top), (right, top)))]
    for mm in range(math.floor(right) + 1):
        share = 1.0 if mm % 10 == 0 else 0.7 if mm % 5 == 0 else 0.4
        lines.append(Line(Kind.OUTLINE, ((float(mm), top), (float(mm), top * (1 - 2 * share)))))
    words = f"A rule beside it: ten pitches take {length:.1f} mm."
    return Sheet("", tuple(lines), words=(words,))


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
