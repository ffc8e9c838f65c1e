"""Which ends no measurement can tell apart: one group, one probability."""

from functools import lru_cache

from identify.model.feature import Feature
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.subject import Subject, trait
from identify.reasoning.traits import ABSENT, Cone, Interval, Trait

_LENGTHS = (
    Feature.THREAD_OD, Feature.THREAD_ID, Feature.TUBE_OD, Feature.TUBE_BORE, Feature.PLUG_OD,
    Feature.SOCKET_BORE,
    Feature.FLANGE_HEAD_OD, Feature.FLANGE_HEAD_THICKNESS, Feature.BOLT_SPACING_LONG,
    Feature.BOLT_SPACING_SHORT, Feature.EYE_BORE, Feature.RING_ID, Feature.RING_OD,
    Feature.RING_THICKNESS,
)  # fmt: skip
COMMON_SHARE = 0.35  # ends made alike in at least this share of cases cannot be told apart
ANGLE_APART_DEG = 2.5  # closer half angles than this no seat gauge separates on a worn part
PITCH_APART = 0.015  # relative; ten counted pitches do not show less


class Twins:
    """Answers whether two rows can be told apart by any measurement of the end itself.

    Hose bore, material, marks, origin and trial fits do not count: they are clues, not
    measurements of the end. The relation is symmetric but not transitive; a group is therefore
    gathered under its most probable member.
    """

    def __init__(self, space: Hypotheses) -> None:
        self.space, self.model = space, space.model
        self.same = lru_cache(maxsize=100_000)(self._same)

    def _same(self, a: int, b: int) -> bool:
        """Tell whether rows `a` and `b` of the catalogue are one to every instrument."""
        if a == b:
            return True
        subjects = self.space.subjects
        ways_a, ways_b = ([subjects[way] for way in self.space.ways[row]] for row in (a, b))
        if ways_a[0].gender != ways_b[0].gender:
            return False
        shared = 0.0
        for one in ways_a:
            for other in ways_b:
                if self._alike(one, other):
                    shared += min(one.seat.share, other.seat.share)  # type: ignore[union-attr]
        return shared >= COMMON_SHARE

    def _alike(self, one: Subject, other: Subject) -> bool:
        threaded = one.gender in ("male", "female")  # an eye or a washer only names its thread
        if threaded and (one.thread is None) != (other.thread is None):
            return False
        if threaded and one.thread and other.thread:
            if one.thread.taper != other.thread.taper:
                return False
            if one.thread.flank_angle_deg != other.thread.flank_angle_deg:
                return False
            if abs(one.thread.pitch_mm / other.thread.pitch_mm - 1) > PITCH_APART:
                return False
        if not _seats_alike(
            trait(Feature.SEAT_ANGLE, one, self.model), trait(Feature.SEAT_ANGLE, other, self.model)
        ):
            return False
        if trait(Feature.O_RING, one, self.model) != trait(Feature.O_RING, other, self.model):
            return False
        if one.end.left_hand != other.end.left_hand:  # type: ignore[union-attr]
            return False
        sizes = [(trait(f, one, self.model), trait(f, other, self.model)) for f in _LENGTHS]
        known = (threaded and one.thread is not None) or any(
            isinstance(a, Interval) and isinstance(b, Interval) for a, b in sizes
        )  # a row without a single figure is like nothing, not like everything
        return known and all(overlap(a, b) for a, b in sizes)


def _seats_alike(a: Trait, b: Trait) -> bool:
    assert isinstance(a, Cone)
    assert isinstance(b, Cone)
    if a.shape != b.shape:
        return False
    if a.half_deg is None or b.half_deg is None:
        return True
    return abs(a.half_deg - b.half_deg) < ANGLE_APART_DEG


def overlap(a: Trait, b: Trait) -> bool:
    """Tell whether two length traits share most of the narrower one; an unknown shares all."""
    if not isinstance(a, Interval) or not isinstance(b, Interval):
        return not (isinstance(a, Interval) and b is ABSENT) and not (
            isinstance(b, Interval) and a is ABSENT
        )
    common = min(a.high, b.high) - max(a.low, b.low)
    return common >= 0.5 * min(a.high - a.low, b.high - b.low)
