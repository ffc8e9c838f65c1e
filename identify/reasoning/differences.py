"""What tells two ends of one gender apart, and which instrument resolves it.

What an instrument resolves is twice its usual error on a part in use: less than that apart and two
readings may be exchanged. The errors are common practice; `rules/instruments.yaml` holds the same.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import Feature
from identify.model.thread import Band, Thread

T = TypeVar("T")

CALIPER_MM = 0.12
RULE_MM = 1.0
LEAF_MM = 0.12  # closer pitches than this both seem to fit a leaf on a few threads
COUNTED_MM = 0.03  # ten pitches under a caliper
SEAT_GAUGE_DEG = 3.0

_SIZES = (
    Feature.PLUG_OD, Feature.SOCKET_BORE, Feature.FLANGE_HEAD_OD, Feature.BOLT_SPACING_LONG,
    Feature.BOLT_SPACING_SHORT,
    Feature.FLANGE_HEAD_THICKNESS, Feature.EYE_BORE, Feature.RING_ID, Feature.RING_OD,
    Feature.RING_THICKNESS, Feature.TUBE_BORE, Feature.TUBE_OD,
)  # fmt: skip
_BY_RULE = (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)
# Least trouble first: what the eye sees, then one jaw setting, then the slower ones.
_EASE = (
    Feature.SEAT_SHAPE, Feature.O_RING, Feature.TAPER, Feature.THREAD_OD, Feature.THREAD_ID,
    *_SIZES, Feature.PITCH, Feature.SEAT_ANGLE, Feature.HAND, Feature.FLANK_ANGLE,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Difference:
    """One feature in which two ends differ.

    `one` and `other` are the values in words. `size` is how far they are apart [mm or deg], the
    gap between the limits where both are a band; None where the answer is a word. `tool` resolves
    `resolves` of it; `times` is the one by the other, 0 where the bands overlap.
    """

    feature: Feature
    one: str
    other: str
    tool: str
    size: float | None = None
    resolves: float = 0.0

    @property
    def times(self) -> float:
        """How many times what the tool resolves the difference is."""
        return 4.0 if self.size is None else self.size / self.resolves

    @property
    def resolved(self) -> bool:
        """Tell whether the tool separates the two."""
        return self.times >= 1


def differences(
    catalogue: Catalogue, one: EndConnection, other: EndConnection
) -> tuple[Difference, ...]:
    """Return every feature in which two ends differ, the best to look at first.

    Differences that are twice what the tool resolves come first, then weaker ones, each by how
    little trouble they are; those that nothing resolves come last.
    """
    found = [
        *_seat_differences(one.seats, other.seats),
        *_thread_differences(catalogue, one, other),
        *_size_differences(one, other),
        *_hand(one, other),
    ]
    return tuple(sorted(found, key=_rank))


def _rank(difference: Difference) -> tuple[int, int]:
    strong = 0 if difference.times >= 2 else 1 if difference.resolved else 2
    return strong, _EASE.index(difference.feature)


def apart(one: Band, other: Band) -> float:
    """Return the gap between two bands [mm], 0 where they overlap."""
    return max(0.0, one.low_mm - other.high_mm, other.low_mm - one.high_mm)


def crest_of(end: EndConnection, thread: Thread) -> Band | None:
    """Return what a caliper reads on the thread of this end [mm], None where it has no limits."""
    limits = thread.internal if end.gender == "female" else thread.external
    return limits.crest if limits else None


def _both(say: Callable[[T], str], one: T, other: T) -> tuple[str, str]:
    return say(one), say(other)


def _thread_differences(
    catalogue: Catalogue, one: EndConnection, other: EndConnection
) -> Iterator[Difference]:
    thread, rival = catalogue.thread_of(one), catalogue.thread_of(other)
    if thread is None or rival is None or one.gender not in ("male", "female"):
        return
    crest, other_crest = crest_of(one, thread), crest_of(other, rival)
    if crest and other_crest and crest != other_crest:
        feature = Feature.THREAD_ID if one.gender == "female" else Feature.THREAD_OD
        bands = _both(
            lambda band: f"{band.low_mm:.2f} to {band.high_mm:.2f} mm", crest, other_crest
        )
        yield Difference(feature, *bands, "caliper", apart(crest, other_crest), CALIPER_MM)
    step = abs(thread.pitch_mm - rival.pitch_mm)
    if step > 1e-6:
        by_leaf = step >= LEAF_MM
        yield Difference(
            Feature.PITCH,
            thread.pitch_words,
            rival.pitch_words,
            "pitch gauge" if by_leaf else "caliper over ten pitches",
            step,
            LEAF_MM if by_leaf else COUNTED_MM,
        )
    if thread.taper != rival.taper:
        words = _both(lambda each: "tapered" if each.taper else "parallel", thread, rival)
        yield Difference(Feature.TAPER, *words, "caliper on the first and the last full thread")
    if thread.flank_angle_deg != rival.flank_angle_deg:
        angles = _both(lambda each: f"{each.flank_angle_deg:g} deg", thread, rival)
        size = abs(thread.flank_angle_deg - rival.flank_angle_deg)
        yield Difference(
            Feature.FLANK_ANGLE, *angles, "thread form gauge, held to light", size, 4.0
        )


def _seat_differences(ones: tuple[Seat, ...], others: tuple[Seat, ...]) -> Iterator[Difference]:
    shapes, rivals = ({seat.shape for seat in seats} for seats in (ones, others))
    if not shapes & rivals:
        yield Difference(Feature.SEAT_SHAPE, _or(shapes), _or(rivals), "eye")
    rings, other_rings = ({seat.o_ring for seat in seats} for seats in (ones, others))
    if not rings & other_rings:
        yield Difference(Feature.O_RING, _or(rings), _or(other_rings), "eye")
    cones = [
        (abs(one.half_angle_deg - other.half_angle_deg), one, other)
        for one in ones
        for other in others
        if one.half_angle_deg and other.half_angle_deg and Shape.CHAMFER is not one.shape
    ]
    if cones and len(cones) == len(ones) * len(others):
        size, one, other = min(cones, key=lambda cone: cone[0])
        if size:
            angles = _both(lambda seat: f"{seat.half_angle_deg:g} deg half", one, other)
            yield Difference(Feature.SEAT_ANGLE, *angles, "seat gauge", size, SEAT_GAUGE_DEG)


def _or(words: set[Shape] | set[str]) -> str:
    return " or ".join(sorted(str(word) for word in words))


def _size_differences(one: EndConnection, other: EndConnection) -> Iterator[Difference]:
    for feature in _SIZES:
        here, there = one.sizes.get(feature), other.sizes.get(feature)
        if here is not None and there is not None and here != there:
            tool = ("rule", RULE_MM) if feature in _BY_RULE else ("caliper", 2 * CALIPER_MM)
            words = _both(lambda value: f"{value:g} mm", here, there)
            yield Difference(feature, *words, tool[0], abs(here - there), tool[1])


def _hand(one: EndConnection, other: EndConnection) -> Iterator[Difference]:
    left, rival = one.left_hand > 0.5, other.left_hand > 0.5
    if left != rival:
        words = _both(lambda each: "left" if each else "right", left, rival)
        yield Difference(Feature.HAND, *words, "eye")
