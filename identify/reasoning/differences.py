"""What tells two ends of one gender apart, and which instrument does it best."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, dataclass
from identify.light import Callable, Iterator
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import FEATURES, SIZES, SPACINGS, STATED, Feature
from identify.model.observation import ObservationModel
from identify.model.reading import How
from identify.reasoning.apart import between_sizes, gap, resolves
from identify.reasoning.traits import Interval

if TYPE_CHECKING:
    from typing import TypeVar

    T = TypeVar("T")

_WORD_TIMES = 4.0  # two words that differ count as so many times what a tool resolves
_ROUNDING = 1e-6  # two pitches nearer than this are one [mm]
_PLAIN_TIMES = 2.0  # a difference so many times what a tool resolves is looked at first


@dataclass(frozen=True, slots=True)
class Difference:
    """One feature in which two ends differ.

    `one` and `other` are the values in words. `size` is how far they are apart [mm or deg], the
    gap between the limits where both are a band; None where the answer is a word. `tool` resolves
    `resolves` of it, the spread of the parts reckoned in; `times` is the one by the other.
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
        return _WORD_TIMES if self.size is None else self.size / self.resolves

    @property
    def resolved(self) -> bool:
        """Tell whether the tool separates the two."""
        return self.times >= 1


def differences(
    catalogue: Catalogue, one: EndConnection, other: EndConnection, model: ObservationModel
) -> tuple[Difference, ...]:
    """Return every feature in which two ends differ, the best to look at first.

    Differences that are plain to the tool come first, then weaker ones, each by how little trouble
    they are; those that nothing resolves come last.
    """
    found = [
        *_stated_differences(one, other, model),
        *_seat_differences(one.seats, other.seats, model),
        *_thread_differences(catalogue, one, other, model),
        *_size_differences(one, other, model),
        *_hand(one, other),
    ]
    return tuple(sorted(found, key=_look_first))


def _look_first(difference: Difference) -> tuple[int, int]:
    strong = 0 if difference.times >= _PLAIN_TIMES else 1 if difference.resolved else 2
    return strong, FEATURES[difference.feature].turn


def _both(say: Callable[[T], str], one: T, other: T) -> tuple[str, str]:
    return say(one), say(other)


def _thread_differences(
    catalogue: Catalogue, one: EndConnection, other: EndConnection, model: ObservationModel
) -> Iterator[Difference]:
    thread, rival = catalogue.thread_of(one), catalogue.thread_of(other)
    if thread is None or rival is None or one.gender not in ("male", "female"):
        return
    crest, other_crest = thread.crest(one.gender), rival.crest(other.gender)
    if crest and other_crest and crest != other_crest:
        feature = Feature.THREAD_ID if one.gender == "female" else Feature.THREAD_OD
        spans = [Interval(each.low_mm, each.high_mm) for each in (crest, other_crest)]
        bands = _both(lambda span: f"{span.low:.2f} to {span.high:.2f} mm", *spans)
        finest = resolves(feature, How.CALIPER, model)
        yield Difference(feature, *bands, "caliper", gap(*spans), finest)
    step = abs(thread.pitch_mm - rival.pitch_mm)
    if step > _ROUNDING:
        how, tool = How.GAUGE, "pitch gauge"
        if step < resolves(Feature.PITCH, how, model):
            how, tool = How.COUNTED, "caliper over ten pitches"
        words = _both(lambda each: each.pitch_words, thread, rival)
        yield Difference(Feature.PITCH, *words, tool, step, resolves(Feature.PITCH, how, model))
    if thread.taper != rival.taper:
        words = _both(lambda each: "tapered" if each.taper else "parallel", thread, rival)
        yield Difference(Feature.TAPER, *words, "caliper on the first and the last full thread")
    if thread.flank_angle_deg != rival.flank_angle_deg:
        angles = _both(lambda each: f"{each.flank_angle_deg:g} deg", thread, rival)
        size = abs(thread.flank_angle_deg - rival.flank_angle_deg)
        yield Difference(
            Feature.FLANK_ANGLE,
            *angles,
            "thread form gauge, held to light",
            size,
            model.form_resolves_deg,
        )


def _seat_differences(
    ones: tuple[Seat, ...], others: tuple[Seat, ...], model: ObservationModel
) -> Iterator[Difference]:
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
            finest = resolves(Feature.SEAT_ANGLE, How.GAUGE, model)
            yield Difference(Feature.SEAT_ANGLE, *angles, "seat gauge", size, finest)


_SELDOM = 0.05  # a word that is answered more often in place of another tells nothing apart


def _stated_differences(
    one: EndConnection, other: EndConnection, model: ObservationModel
) -> Iterator[Difference]:
    """Yield what is seen at a glance: how the thread is held; a material is only a clue."""
    for feature in STATED:
        here, there = getattr(one, feature), getattr(other, feature)
        if here == there or FEATURES[feature].clue:
            continue
        said = model.reports[feature]
        if max(said[here][there], said[there][here]) <= _SELDOM:
            yield Difference(feature, here, there, "eye")


def _or(words: set[Shape] | set[str]) -> str:
    return " or ".join(sorted(str(word) for word in words))


def _size_differences(
    one: EndConnection, other: EndConnection, model: ObservationModel
) -> Iterator[Difference]:
    for feature in SIZES:
        here, there = one.sizes.get(feature), other.sizes.get(feature)
        if here is None or there is None or here == there:
            continue
        words = _both(lambda value: f"{value:g} mm", here, there)
        found = [
            Difference(
                feature, *words, str(how), abs(here - there), between_sizes(feature, how, model)
            )
            for how in ((How.RULE, How.CALIPER) if feature in SPACINGS else (How.CALIPER,))
        ]  # fmt: skip
        yield next((each for each in found if each.times >= _PLAIN_TIMES), found[-1])


def _hand(one: EndConnection, other: EndConnection) -> Iterator[Difference]:
    left, rival = one.left_hand > 0.5, other.left_hand > 0.5
    if left != rival:
        words = _both(lambda each: "left" if each else "right", left, rival)
        yield Difference(Feature.HAND, *words, "eye")
