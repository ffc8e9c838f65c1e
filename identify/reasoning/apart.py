"""Can two ends be told apart? What an instrument resolves, and the three ways the question is put.

`separated`: does this one measurement do it. `alike`: does a first measurement fail to, so that the
two are lookalikes. `Twins`: does every measurement fail to, so that the two are one answer. Which
measurement does it best is answered by `differences`. All go by `resolves`.
"""

from itertools import pairwise

from identify.frozen import NamedTuple
from identify.light import Callable, Iterator, Mapping, cache, lru_cache
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Shape
from identify.model.feature import FEATURES, SIZES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import Angle, Basis, How
from identify.reasoning.answers import Answers, shared
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.traits import ABSENT, Cone, Interval, ThreadPitch, Trait
from identify.reasoning.weigh_angle import OVER_MM
from identify.reasoning.weigh_pitch import COUNTED
from identify.reasoning.weight import instrument_of, spread_deg

LOOKALIKE_DEG = 37.0  # half angle of the flare that is most often told from others
MOST = 0.5  # of the narrower of two spans, or of the answers given of two ends: so much is "alike"
_FIRST_SIZES = tuple(feature for feature in SIZES if FEATURES[feature].turn == 1)


def resolves(feature: Feature, how: How, model: ObservationModel) -> float:
    """Return how far two new parts must be apart to be told apart by one reading each [mm, deg].

    `model.resolves` errors of the instrument. A pitch gauge tells two pitches apart from half the
    usual step between its leaves on: closer ones both seem to fit one leaf on a few threads.

    Args:
        feature: A length, a pitch or an angle.
        how: The instrument.
        model: Its error.
    """
    kind = FEATURES[feature].kind
    tool = instrument_of(kind, how, model)
    error = tool.sigma
    if kind is Kind.ANGLE and how is How.CALIPER:
        error = spread_deg(Angle(LOOKALIKE_DEG, Basis.HALF, OVER_MM), LOOKALIKE_DEG, tool)
    if kind is Kind.PITCH and not error:  # called, not counted
        return _half_step(model.leaves_mm, *model.hose_pitches)
    return model.resolves * (error / COUNTED if kind is Kind.PITCH else error)


@lru_cache(maxsize=8)
def _half_step(leaves: tuple[float, ...], low: float, high: float) -> float:
    """Return half the usual step between the leaves from `low` to `high`."""
    usual = sorted(leaf for leaf in leaves if low <= leaf <= high)
    steps = sorted(more - less for less, more in pairwise(usual))
    return (steps[(len(steps) - 1) // 2] + steps[len(steps) // 2]) / 4


def between_sizes(feature: Feature, how: How, model: ObservationModel) -> float:
    """Return how far apart two figures of the tables must be, to be told apart on parts [mm]."""
    slack = model.tolerances[feature]
    return slack.below_mm + slack.above_mm + resolves(feature, how, model)


def gap(one: Interval, other: Interval) -> float:
    """Return the gap between two spans [mm], 0 where they overlap."""
    return max(0.0, one.low - other.high, other.low - one.high)


def overlap(one: Trait, other: Trait) -> bool:
    """Tell whether two length traits share most of the narrower one; an unknown shares all."""
    if not isinstance(one, Interval):
        return one is not ABSENT or not isinstance(other, Interval)
    if not isinstance(other, Interval):
        return other is not ABSENT
    low, high = one.low, one.high
    other_low, other_high = other.low, other.high
    common = (high if high < other_high else other_high) - (low if low > other_low else other_low)
    return common >= MOST * min(high - low, other_high - other_low)


def separated(
    feature: Feature,
    how: How,
    one: Trait,
    other: Trait,
    model: ObservationModel,
    expected: Callable[[Trait], Answers | None],
) -> bool:
    """Tell whether one measurement should tell two traits apart.

    Args:
        feature: What would be measured.
        how: With what.
        one: A trait.
        other: The other.
        model: Errors.
        expected: Returns the answers expected of a trait, None where none can be foreseen.
    """
    if isinstance(one, Interval) and isinstance(other, Interval):
        return gap(one, other) >= resolves(feature, how, model)
    ours, theirs = expected(one), expected(other)
    if ours is None or theirs is None:
        return False
    match one, other:
        case ThreadPitch(here_mm), ThreadPitch(there_mm):
            return abs(here_mm - there_mm) >= resolves(feature, how, model)
        case Cone(float(here_deg)), Cone(float(there_deg)):
            return abs(here_deg - there_deg) >= resolves(feature, how, model)
    return shared(ours, theirs) < MOST


class Nears(NamedTuple):
    """How near two ends may be and look alike to a first measurement.

    `pitch` [mm] is to a gauge, `crest` [mm] to a caliper, `sizes` [mm] to a rule.
    """

    pitch: float
    crest: float
    sizes: Mapping[Feature, float]


def rivals_of(
    catalogue: Catalogue, end: EndConnection, nears: Nears
) -> Iterator[tuple[EndConnection, str]]:
    """Yield the lookalikes of an end in table order, each with the measurement that fails."""
    found: list[tuple[int, str]] = []
    pitches, threaded = catalogue.pitches_mm, end.gender in ("male", "female")
    for (gender, thread, _), rows in catalogue.kinds.items():
        if gender != end.gender:
            continue
        if thread and end.thread and threaded:  # one answer for all on a thread
            if abs(pitches[thread] - pitches[end.thread]) > nears.pitch:
                continue
            same = alike(catalogue, end, catalogue.ends[rows[0]], nears)
            found += [(row, same) for row in rows]
        else:
            others = ((row, catalogue.ends[row]) for row in rows)
            found += [(row, alike(catalogue, end, other, nears)) for row, other in others]
    own = catalogue.row_of[end.id]
    for row, same in sorted(found):
        if same and row != own:
            yield catalogue.ends[row], same


def alike(catalogue: Catalogue, one: EndConnection, other: EndConnection, nears: Nears) -> str:
    """Return the first measurement that does not separate two ends of one gender, empty if none.

    On a thread that is a caliper across the crests and a pitch gauge; on a plug, an eye, a washer
    or a flange a rule on one of its sizes.
    """
    thread, rival = catalogue.thread_of(one), catalogue.thread_of(other)
    if thread and rival and one.gender in ("male", "female"):
        if thread is rival:
            return "same thread"
        if abs(thread.pitch_mm - rival.pitch_mm) > nears.pitch:
            return ""
        here, there = thread.crest(one.gender), rival.crest(one.gender)
        if here is None or there is None:
            return ""
        apart = max(here.low_mm - there.high_mm, there.low_mm - here.high_mm)
        return "caliper on the crests and a pitch gauge" if apart <= nears.crest else ""
    for feature, near in nears.sizes.items():
        size = one.sizes.get(feature)
        if size is None:
            continue
        rival_size = other.sizes.get(feature)
        if rival_size is not None and abs(size - rival_size) <= near:
            return f"{FEATURES[feature].label} by rule"
    return ""


def nears_of(model: ObservationModel) -> Nears:
    """Return how near two ends may be and look alike."""
    return Nears(
        resolves(Feature.PITCH, How.GAUGE, model),
        resolves(Feature.THREAD_OD, How.CALIPER, model),
        {
            feature: max(between_sizes(feature, How.RULE, model), model.alike_mm.get(feature, 0.0))
            for feature in _FIRST_SIZES
        },
    )


_TOLD = (Feature.SEAT_ANGLE, Feature.THREAD_OD, Feature.THREAD_ID, *SIZES)
"""Features that instruments tell apart, beside the thread and the kind of seat."""


class Shown(NamedTuple):
    """What instruments meet on one way to make a row, kept because rows are compared by the many.

    `thread` is pitch [mm], taper and flank angle [deg]; `seat` its shape and ring; all None where
    there is none. `crest` is what a caliper reads of the thread, as in `sizes`: where the crests of
    two lie apart nothing else need be looked at.
    """

    thread: tuple[float, float, float] | None
    seat: tuple[Shape, str] | None
    cone_deg: float | None
    sizes: tuple[Trait, ...]
    crest: Trait


class Twins:
    """Answers whether two rows can be told apart by any measurement of the end itself.

    Hose bore, material, marks, origin and trial fits do not count: they are clues, not
    measurements of the end. The relation is symmetric but not transitive; a group is therefore
    gathered under its most probable member.
    """

    def __init__(self, space: Hypotheses) -> None:
        self.space, self.model = space, space.model
        self.finest_mm = resolves(Feature.PITCH, How.COUNTED, self.model)
        self.finest_deg = resolves(Feature.SEAT_ANGLE, How.GAUGE, self.model)
        self.same = lru_cache(maxsize=100_000)(self._same)
        self.made = cache(self._made)

    def _same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one to every instrument."""
        if a == b:
            return True
        kin = self.space.kin
        if kin[a] != kin[b]:
            return False
        common = 0.0
        for share, one in self.made(a):
            for other_share, other in self.made(b):
                if self._alike(one, other):
                    common += min(share, other_share)
        return common >= self.model.made_alike

    def pitch_alike(self, one: Trait, other: Trait) -> bool:
        """Tell whether no instrument tells two pitches apart, or there is none on either."""
        if isinstance(one, ThreadPitch) and isinstance(other, ThreadPitch):
            return abs(one.mm - other.mm) < self.finest_mm
        return one == other

    def _alike(self, one: Shown, other: Shown) -> bool:
        if one.crest is not other.crest and not overlap(one.crest, other.crest):
            return False
        if one.thread is None or other.thread is None:
            if one.thread is not other.thread:
                return False
        else:
            if abs(one.thread[0] - other.thread[0]) >= self.finest_mm:
                return False
            if one.thread[1:] != other.thread[1:]:
                return False
        if one.seat is None or one.seat != other.seat:
            return False
        here, there = one.cone_deg, other.cone_deg
        if here is not None and there is not None and abs(here - there) >= self.finest_deg:
            return False
        known = one.thread is not None or any(
            isinstance(a, Interval) and isinstance(b, Interval)
            for a, b in zip(one.sizes, other.sizes, strict=True)
        )  # a row without a single figure is like nothing, not like everything
        return known and all(map(overlap, one.sizes, other.sizes))

    def _made(self, row: int) -> list[tuple[float, Shown]]:
        """Return the ways in which a row is made, with their shares."""
        return [(self.space.subjects[way].share, self._shown(way)) for way in self.space.ways[row]]

    def _shown(self, way: int) -> Shown:
        subject = self.space.subjects[way]
        thread, seat = subject.thread, subject.seat
        if subject.gender not in ("male", "female"):  # an eye or a washer only names its thread
            thread = None
        cone, od, id_, *sizes = (
            spread.traits[spread.at(way)] for spread in map(self.space.spread, _TOLD)
        )
        return Shown(
            (thread.pitch_mm, thread.taper, thread.flank_angle_deg) if thread else None,
            (seat.shape, seat.o_ring) if seat else None,
            cone.half_deg if isinstance(cone, Cone) else None,
            (od, id_, *sizes),
            id_ if subject.gender == "female" else od,
        )
