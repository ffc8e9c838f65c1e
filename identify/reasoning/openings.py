"""Measurements that are open: which stand first, without working out those that cannot.

No answer tells more than there is to be told, so the entropy over what a feature may show bounds
its question. Taken in the order of what each could tell at best, most are never worked out.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, NamedTuple, dataclass
from identify.light import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from identify.model.connection import Shape
from identify.model.feature import CLUES, Feature
from identify.model.reading import Choice, How, Reading
from identify.model.rule import QuestionText, Tool
from identify.reasoning.posterior import ROUNDING
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

AT_ONCE = 4  # openings of which is asked at once what they would tell
Key = tuple[Feature, How, frozenset[Tool], bool, tuple[str, str] | None]
Place = tuple[bool, bool, bool, float, str]
_NO_CONE = (Choice(Shape.FLAT), Choice(Shape.NONE))


class Wish(NamedTuple):
    """The wish to know what a measurement would tell; see `Chooser.gain`.

    `known` is the part for a trial fit: its gender, and its thread.
    """

    feature: Feature
    how: How
    mass: Mapping[int, float]
    gauges: frozenset[Tool] = GAUGES
    before: tuple[Reading, ...] = ()
    other_person: bool = False
    known: tuple[str, str] | None = None

    @property
    def key(self) -> Key:
        """What tells it from other wishes about the same state of what is known."""
        return self.feature, self.how, self.gauges, self.other_person, self.known


Told = Iterator[tuple[Wish, float]]


@dataclass(frozen=True, slots=True)
class Offer:
    """A measurement with a tool, and what it is expected to tell [bits] in how long [min].

    `known` names the part to try it on, for a trial fit; `gauges` are the pitch gauges in the bag;
    `before` are the readings of the feature that this one would be added to; `put_off` tells that
    it could not be told when it was asked first.
    """

    text: QuestionText
    tool: Tool
    how: How
    bits: float
    minutes: float
    known: str = ""
    gauges: frozenset[Tool] = GAUGES
    before: tuple[Reading, ...] = ()
    put_off: bool = False

    @property
    def rate(self) -> float:
        """Expected information per minute [bits/min]."""
        return self.bits / self.minutes

    @property
    def place(self) -> Place:
        """Place among offers: male or female before all, as every question goes by it."""
        return _place(self.text.feature, self.put_off, self.rate)


class Opening(NamedTuple):
    """A feature that may be asked for, before it is worked out what that would tell.

    `mass` returns the probability of each trait, by its number; `share` of people can answer;
    `worth` [bits] is what it must tell to be offered. `tools` can be had, the quickest takes
    `quickest` [min]; `most` [bits] is what no answer exceeds. The rest as in `Offer`.
    """

    text: QuestionText
    mass: Callable[[], Mapping[int, float]]
    share: float
    worth: float
    tools: tuple[Tool, ...]
    quickest: float
    most: float
    gauges: frozenset[Tool]
    before: tuple[Reading, ...]
    put_off: bool

    @property
    def at_best(self) -> Place:
        """Return the place of the best offer that this could become; see `Offer.place`."""
        rate = ROUNDING * self.most / self.quickest
        return (*_place(self.text.feature, self.put_off, rate)[:4], "")


class Openings:
    """All that may be asked, each worked out when it is looked at.

    Args:
        found: At most one a feature.
        wishes: Returns what is to be known of one, tool by tool or part by part, to work it out.
        work_out: Returns the offer that becomes of one, None if it is not worth making; given what
            was wished for, each with its bits.
        read: What was read so far.
        remembered: What is known of wishes; it grows.
    """

    def __init__(
        self,
        found: Iterable[Opening],
        wishes: Callable[[Opening], Sequence[Wish]],
        work_out: Callable[[Opening, Told], Offer | None],
        read: Mapping[Feature, Sequence[Reading]],
        remembered: dict[Key, float],
    ) -> None:
        shapes = [each.value for each in read.get(Feature.SEAT_SHAPE, ())]
        no_cone = bool(shapes) and all(value in _NO_CONE for value in shapes)
        self.by_feature = {
            each.text.feature: each
            for each in found
            if not (no_cone and each.text.feature is Feature.SEAT_ANGLE)
        }
        self._shape_read, self._wishes, self._work_out = bool(shapes), wishes, work_out
        self._told: dict[Feature, Told] = {}
        self._remembered = remembered
        self._offers: dict[Feature, Offer | None] = {}

    def offer(self, feature: Feature) -> Steps[Offer | None]:
        """Return what a feature is offered as, None if it is not.

        The angle of a seat is not asked for while its shape is still to be seen, nor where it
        shows no cone.
        """
        if feature not in self._offers:
            opening = self.by_feature.get(feature)
            hidden = feature is Feature.SEAT_ANGLE and not self._shape_read
            if opening is None or (hidden and (yield from self.offer(Feature.SEAT_SHAPE))):
                self._offers[feature] = None
            else:
                yield from self.look_at((feature,))
                self._offers[feature] = self._work_out(opening, self._told[feature])
        return self._offers[feature]

    def look_at(self, features: Iterable[Feature]) -> Steps[None]:
        """Wish to know what is needed to work out several features."""
        new = [each for each in features if each in self.by_feature and each not in self._told]
        if new:
            wishes = [self._wishes(self.by_feature[each]) for each in new]
            told = yield from wished(wishes, self._remembered)
            self._told.update(zip(new, told, strict=True))

    def all(self) -> Steps[list[Offer]]:
        """Return every offer, best first."""
        found = []
        yield from self.look_at(self.by_feature)
        for feature in self.by_feature:
            found.append((yield from self.offer(feature)))
        return sorted(filter(None, found), key=lambda offer: offer.place)

    def first(self, among: Collection[Feature | None] | None = None) -> Steps[Offer | None]:
        """Return the best offer, as `all` has it, of some features or of any; None if none is."""
        left = [
            (each.at_best, feature)
            for feature, each in self.by_feature.items()
            if among is None or feature in among
        ]
        left.sort()
        best: Offer | None = None
        for number, (at_best, feature) in enumerate(left):
            if best and best.place < at_best:
                break
            if number % AT_ONCE == 0:
                yield from self.look_at([each for _, each in left[number : number + AT_ONCE]])
            offer = yield from self.offer(feature)
            if offer and (best is None or offer.place < best.place):
                best = offer
        return best


def wished(several: Sequence[Sequence[Wish]], remembered: dict[Key, float]) -> Steps[list[Told]]:
    """Return wishes with their bits; what is remembered is not asked again.

    Args:
        several: Wishes about one state of what is known.
        remembered: Bits of such wishes; each is added when it is looked at.
    """
    keys = [[each.key for each in wishes] for wishes in several]
    new = [
        [each for each, key in zip(wishes, own, strict=True) if key not in remembered]
        for wishes, own in zip(several, keys, strict=True)
    ]
    told: Sequence[Iterable[float]] = [()] * len(new)
    if any(new):
        told = yield new
    return [_told(*each, remembered) for each in zip(several, keys, new, told, strict=True)]


def _told(
    wishes: Sequence[Wish],
    keys: Sequence[Key],
    new: Sequence[Wish],
    bits: Iterable[float],
    remembered: dict[Key, float],
) -> Told:
    """Yield wishes with their bits, each asked for only when it is looked at."""
    answers, left = iter(bits), iter(new)
    following = next(left, None)
    for wish, key in zip(wishes, keys, strict=True):
        if wish is following:
            remembered[key], following = next(answers), next(left, None)
        yield wish, remembered[key]


def _place(feature: Feature, put_off: bool, rate: float) -> Place:
    return feature is not Feature.GENDER, put_off, feature in CLUES, -rate, feature
