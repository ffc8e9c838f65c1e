"""What two threads do when one is run into the other, from their limits of size alone.

The model, in the plane through the axis. A thread is a row of ridges, one pitch apart. At its pitch
diameter a ridge is half a pitch wide and gets narrower towards its crest at the flank angle. The
axial play between a ridge and the groove it enters is the groove's width less the ridge's, at the
diameter where they come closest:

    play = (female pitch - male pitch) / 2 + clearance * tan(half flank angle) - flank loss

`clearance` is female less male pitch diameter at the mouth. `flank loss` is zero for equal flank
angles; a 55 deg ridge in a 60 deg groove (or the reverse) touches at the end of its straight flank
before the pitch lines meet. Every turn uses up play: by the difference of the pitches, because a
ridge of n turns is wrong by n differences at its far end; and on a taper by the wedge, because each
turn brings larger diameters together. The thread stops where the play is used up, or where a crest
meets a root.

Assumptions. Parts are rigid, clean, coaxial, with full threads behind the chamfer; no force beyond
that of a hand. Roots lie at the basic form, shifted with the pitch diameter, but the rounded root
of a parallel 60 deg male lies up to H/6 deeper (ISO 965-1, d3). A female taper has its gauge plane
at the mouth. Turns count from the first full ridge. The tightest fit pairs the fattest male with
the narrowest female the standards allow, the loosest the reverse, the mean the middles. A taper
male of the right pitch that is stopped by its flanks or crests counts as wedged however soon: thin
crests crush under a spanner, and the thread goes on.

All values are calculated, none was tested on parts.
"""

import math

from identify.frozen import StrEnum, dataclass
from identify.model.thread import Limits, Thread

START_TURNS = 0.5  # less than half a turn is no start: the crests only nibble at each other
LOOSE_SHARE = 0.5  # common practice: below half the thread height a thread must be taken to strip
CATCH_SHARE = 0.1  # crests that overlap less than this slip past each other or strip at once
TIGHT_MM = 1e-6  # what rounding makes of a clearance of nothing


class ThreadVerdict(StrEnum):
    """What the hand feels, at the mean fit."""

    RUNS = "runs fully by hand"
    WEDGES = "runs until the taper wedges"
    BINDS = "starts, then binds"
    LOOSE = "runs loose"
    NO_START = "does not start"
    NO_CATCH = "slips past without catching"


class Stop(StrEnum):
    """What ends the run."""

    NOTHING = "nothing"
    PITCH = "pitch"
    TAPER = "taper"
    CREST = "crest against root"
    DIAMETER = "pitch diameter"
    HAND = "opposite hand"


@dataclass(frozen=True, slots=True)
class Spread:
    """One quantity at the loosest, the mean and the tightest fit the standards allow."""

    loosest: float
    mean: float
    tightest: float


@dataclass(frozen=True, slots=True)
class ThreadFit:
    """What happens when a male thread is run into a female one; calculated, never tested.

    `clearance_mm` is female less male pitch diameter at the mouth, `crest_room_mm` the least of
    male crest to female root and female crest to male root (both diametral; below 0 they
    interfere). `turns` run until it stops, infinite where nothing stops it. `available` is the
    number of turns a sound joint of this thread has: engagement of a parallel one, hand-tight place
    of a taper male. `share` [0..1] is the part of the thread height in which the two overlap.
    """

    verdict: ThreadVerdict
    stop: Stop
    clearance_mm: Spread
    crest_room_mm: Spread
    turns: Spread
    available: float
    share: Spread


def engagement_turns(thread: Thread) -> float:
    """Return how many turns a sound joint of this thread is engaged for.

    Of a taper thread the hand-tight turns, small end to gauge plane. Of a parallel one the middle
    (by ratio) of the "normal" group of lengths of engagement, 2.24 to 6.7 times P d^0.2: about 6
    turns at 10 mm, 8 at 50 mm. The tables hold no length of any part.

    Source:
        ISO 965-1, groups of thread engagement; the two factors are from memory.
    """
    if thread.taper and thread.gauge_length_mm:
        return thread.gauge_length_mm / thread.pitch_mm
    return math.sqrt(2.24 * 6.7) * math.pow(thread.major_mm, 0.2)


def fit(male: Thread, female: Thread) -> ThreadFit:
    """Work out what happens when `male` is run into `female`.

    Raises:
        ValueError: The one has no male limits or the other no female limits (Rc is never male).
    """
    if male.external is None or female.internal is None:
        lacking = male.designation if male.external is None else female.designation
        gender = "male" if male.external is None else "female"
        raise ValueError(f"{lacking} has no {gender} limits; choose the thread of that gender")
    limits = (male.external, female.internal)
    trials = [_trial(male, female, limits, tight) for tight in (0.0, 0.5, 1.0)]
    clearances, rooms, turns, shares, stops = zip(*trials, strict=True)
    available = engagement_turns(male)
    verdict, stop = _verdict(male, female, (turns[1], stops[1], shares[1]), available)
    spreads = (Spread(*each) for each in (clearances, rooms, turns, shares))
    clearance, room, run, share = spreads
    return ThreadFit(verdict, stop, clearance, room, run, available, share)


def _verdict(
    male: Thread, female: Thread, mean: tuple[float, Stop, float], available: float
) -> tuple[ThreadVerdict, Stop]:
    turns, stop, share = mean
    if share < CATCH_SHARE:
        return ThreadVerdict.NO_CATCH, Stop.NOTHING
    if male.left_hand != female.left_hand:
        return ThreadVerdict.NO_START, Stop.HAND
    if turns < START_TURNS:
        return ThreadVerdict.NO_START, stop
    wedged = male.taper > 0 and male.pitch_mm == female.pitch_mm
    if turns < available and not wedged:
        return ThreadVerdict.BINDS, stop
    if share < LOOSE_SHARE:
        return ThreadVerdict.LOOSE, stop
    if male.taper:
        return ThreadVerdict.WEDGES, stop
    return ThreadVerdict.RUNS, Stop.NOTHING


def _trial(
    male: Thread, female: Thread, limits: tuple[Limits, Limits], tight: float
) -> tuple[float, float, float, float, Stop]:
    """Run one male and one female of definite size; `tight` goes from 0 (loosest) to 1 (tightest).

    Returns clearance and room [mm], turns until it stops, the share of the thread height that
    overlaps, and what stops it. Diameters are those at the mouth: of a taper male its small end.
    """
    external, internal = limits
    male_pitch = _between(external.pitch.low_mm, external.pitch.high_mm, tight)
    female_pitch = _between(internal.pitch.high_mm, internal.pitch.low_mm, tight)
    female_crest = _between(internal.crest.high_mm, internal.crest.low_mm, tight)
    highest = external.crest.high_mm
    if male.taper:
        male_pitch -= male.taper * (male.gauge_length_mm or 0.0)
        at_end = external.pitch.high_mm - male.pitch_diameter_mm
        highest = (male.small_end_mm or male.major_mm) + at_end
    male_crest = _between(external.crest.low_mm, highest, tight)
    # Roots follow the flanks: one tool cuts both.
    female_root = female_pitch + female.major_mm - female.pitch_diameter_mm
    male_root = male_pitch - male.pitch_diameter_mm + male.minor_mm
    room = min(
        female_root - male_crest, female_crest - male_root + (1 - tight) * _deeper_root(male)
    )
    turns, stop = _turns(male, female, _play(male, female, female_pitch - male_pitch), room)
    depth = min(turns, engagement_turns(male)) * (male.pitch_mm + female.pitch_mm) / 2
    overlap = male_crest - female_crest + max(male.taper, female.taper) * depth
    share = overlap / 2 / min(male.height_mm, female.height_mm)
    return female_pitch - male_pitch, room, turns, min(1.0, max(0.0, share)), stop


def _turns(male: Thread, female: Thread, play: float, room: float) -> tuple[float, Stop]:
    """Return how many turns it runs at a play and a room [mm], and what stops it."""
    if play < -TIGHT_MM:
        return 0.0, Stop.DIAMETER
    if room < -TIGHT_MM:
        return 0.0, Stop.CREST
    play, room = max(0.0, play), max(0.0, room)
    pitch, taper = (male.pitch_mm + female.pitch_mm) / 2, max(male.taper, female.taper)
    wedge = pitch * _slope(male, female)
    error = abs(male.pitch_mm - female.pitch_mm)
    # Both ends of the engaged length share the play; a wedge takes it at its own end only.
    shared = error + wedge * (male.taper + female.taper) / 2
    ways = []
    if shared > 0:
        ways.append((play / shared, Stop.PITCH if error >= shared / 2 else Stop.TAPER))
    if taper:
        ways.append((play / (wedge * taper), Stop.TAPER))
        ways.append((room / (pitch * taper), Stop.CREST))
    return min(ways, default=(math.inf, Stop.NOTHING))


def _between(loose: float, tight: float, share: float) -> float:
    return loose + (tight - loose) * share


def _slope(male: Thread, female: Thread) -> float:
    """Return axial play per diametral clearance: the mean tangent of the half flank angles."""
    return (_tangent(male) + _tangent(female)) / 2


def _tangent(thread: Thread) -> float:
    return math.tan(math.radians(thread.flank_angle_deg / 2))


def _play(male: Thread, female: Thread, clearance: float) -> float:
    """Return the axial play [mm] at a pitch diameter clearance [mm], below 0 where metal foils."""
    steeper = _tangent(female) - _tangent(male)
    if steeper > 0:  # the groove narrows faster than the ridge: they meet at the ridge's crest
        reach = min(_flank_above(male), _flank_above(female))
    else:
        reach = min(_flank_below(male), _flank_below(female))
    return (
        (female.pitch_mm - male.pitch_mm) / 2
        + clearance * _slope(male, female)
        - abs(steeper) * reach
    )


def _flank_above(thread: Thread) -> float:
    """Return how far the straight flank stands above the pitch line [mm on the diameter]."""
    return thread.major_mm - thread.pitch_diameter_mm - _rounding(thread)


def _flank_below(thread: Thread) -> float:
    return thread.pitch_diameter_mm - thread.minor_mm - _rounding(thread)


def _deeper_root(male: Thread) -> float:
    """Return how far the root may lie below the basic minor diameter [mm]: H/6, ISO 60 deg form."""
    if male.flank_angle_deg != 60 or male.taper:
        return 0.0
    return 2 * 0.866025 * male.pitch_mm / 12


def _rounding(thread: Thread) -> float:
    """Return what the rounded crest of a 55 deg thread takes off its flank [mm on the diameter].

    The radius 0.137329 P of the Whitworth form touches the flank r (1 - sin 27.5 deg) below the
    crest. Flat crests of 60 deg threads take nothing.
    """
    if thread.flank_angle_deg != 55:
        return 0.0
    return 2 * 0.137329 * thread.pitch_mm * (1 - math.sin(math.radians(27.5)))
