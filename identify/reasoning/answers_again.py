"""Which answers to expect when something is read once more, given what was read before.

The chance of an answer is the weight of all readings with it over the weight of those before it,
as `repeated` weighs them. That weight is not summed anew for every answer: what does not depend on
what is there is worked out once for all traits, and of answers that may only be said again the sum
over mistakes is one of two terms, said again or said afresh.
"""

import math
from itertools import product

from identify.frozen import NamedTuple, replace
from identify.light import Collection, Iterable, Iterator, Sequence
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import Choice, How, Length, Reading, Value
from identify.model.rule import Tool
from identify.reasoning.answers import Answers, answers_of
from identify.reasoning.likelihood import weigh
from identify.reasoning.repeated import (
    Lean,
    lean_of,
    leans_of,
    mistakes,
    said_again,
    sound_or_slip,
)
from identify.reasoning.traits import Interval, Missing, Trait
from identify.reasoning.weigh_angle import angle_said, angles_said
from identify.reasoning.weigh_length import WIDE, Pooled, Sizes, shape, sizes_of, step_mm
from identify.reasoning.weigh_pitch import STEP_MM, counted_said, leaves_at_hand
from identify.reasoning.weigh_taper import STEP, growth_said
from identify.reasoning.weight import instrument_of


class Called:
    """The answers to a question that has no length for an answer, numbered as at first.

    Args:
        feature: What is read: no length, origin, mark or trial.
        how: In which way.
        model: Errors and habits.
        gauges: The pitch gauges in the bag.
    """

    def __init__(
        self, feature: Feature, how: How, model: ObservationModel, gauges: Collection[Tool]
    ) -> None:
        self.model = model
        found = list(_said(feature, how, model, gauges))
        self.first = found[0][0] if found else 0
        self.readings = [Reading(feature, value, how, "") for _, value, _ in found]
        self.wide = [wide for _, _, wide in found]
        self._alone: dict[Trait, list[float]] = {}

    def alone(self, trait: Trait) -> list[float]:
        """Return the chance of each answer when the feature is read for the first time."""
        if trait not in self._alone:
            self._alone[trait] = [
                wide * weigh(reading, trait, self.model).likelihood
                for reading, wide in zip(self.readings, self.wide, strict=True)
            ]
        return self._alone[trait]


class CalledAgain:
    """What may be called a second time: what was said before, again, or an answer afresh.

    `again` is the chance of each answer as what is said again, `fresh` that of any said afresh.
    """

    def __init__(
        self, called: Called, before: tuple[Reading, ...], *, other_person: bool = False
    ) -> None:
        self.called, said = called, called.readings
        if other_person:
            said = [replace(each, other_person=True) for each in said]
        self.again, self.fresh = [0.0] * len(said), 1.0
        if said:  # values of one sort, so that all lean on the same earlier one
            lean = lean_of(len(before), (*before, said[0]), called.model)
            if lean.before is not None:
                earlier, self.fresh = before[lean.before], 1 - lean.share
                self.again = [
                    lean.share * said_again(earlier, each, called.model) * wide
                    for each, wide in zip(said, called.wide, strict=True)
                ]
        self._known: dict[Trait, Answers | None] = {}

    def all(self, traits: Collection[Trait]) -> list[Answers | None]:
        """Return the answers expected of some traits, None if nothing is known."""
        for trait in traits:
            if trait not in self._known:
                self._known[trait] = self._answers(trait)
        return [self._known[trait] for trait in traits]

    def _answers(self, trait: Trait) -> Answers | None:
        if isinstance(trait, Missing) or not self.again:
            return None
        new, alone = self.fresh, self.called.alone(trait)
        chances = [again + new * chance for again, chance in zip(self.again, alone, strict=True)]
        return _told(self.called.first, chances)


class _Cell(NamedTuple):
    """A length as it may be read once more, how it leans on the earlier ones, and its mistakes.

    `sound[n]` is it together with the sound ones of the earlier readings, of the n-th way in which
    some of them are mistakes.
    """

    lean: Lean
    size: Sizes
    sound: tuple[Pooled, ...]


class LengthAgain:
    """What a length may be read as once more: every reading has its own error of one size.

    Args:
        feature: A length.
        how: In which way it is read this time.
        model: Errors and habits.
        before: The readings so far.
        other_person: Somebody else reads it this time.
    """

    def __init__(
        self,
        feature: Feature,
        how: How,
        model: ObservationModel,
        before: tuple[Reading, ...],
        *,
        other_person: bool = False,
    ) -> None:
        self.feature, self.how, self.model, self.before = feature, how, model, before
        self.other_person = other_person
        self.step, self.sizes = step_mm(feature, how), sizes_of(before, model)
        self.tool = instrument_of(Kind.LENGTH, how, model)
        self.leans = leans_of(before, model)
        self.near = tuple(self._near_before())
        """Cells near an earlier reading."""
        self.ways = tuple(product((False, True), repeat=len(before)))
        """Which of the earlier readings may be mistakes."""
        self._cells: dict[int, _Cell] = {}
        self.known: dict[Trait, Answers | None] = {}

    def all(self, traits: Collection[Trait]) -> list[Answers | None]:
        """Return the answers expected of some traits, None if nothing is known.

        What lies further off than a sound reading would is left out, as silence.
        """
        self.foresee([trait for trait in traits if trait not in self.known])
        return [self.known[trait] for trait in traits]

    def foresee(self, traits: Iterable[Trait]) -> None:
        """Work out the answers expected of some traits, into `known`."""
        for trait in traits:
            self.known[trait] = self._answers(trait)

    def _answers(self, trait: Trait) -> Answers | None:
        numbers = self.numbers(trait)
        if not numbers or isinstance(trait, Missing):
            return None
        centre, parts = shape(self.feature, trait, self.model)

        def density(size: Pooled) -> float:
            return size.factor * sum([part.density(size.middle, size.sigma) for part in parts])

        slips = self.sizes.slips(trait, centre, self.model)
        chances = dict(mistakes(self.leans, slips, self.sizes.gross))
        ways = []
        for place, wrong in enumerate(self.ways):
            sound = [i for i, slipped in enumerate(wrong) if not slipped]
            alone = density(self.sizes.pooled(sound)) if sound else 1.0
            ways.append((place, wrong, chances.get(wrong, 0.0), alone))
        whole = sum([chance * alone for _, _, chance, alone in ways])
        found = {}
        for number in numbers:
            lean, size, together = self._cells.get(number) or self._cell(number)
            slip, total = size.slips(trait, centre, self.model)[0], 0.0
            for place, wrong, chance, alone in ways:
                repeated = lean.before is not None and wrong[lean.before]
                right, mistake = sound_or_slip(lean, repeated, size.gross[0], slip)
                total += chance * (mistake * alone + right * density(together[place]))
            found[number] = self.step * total / whole
        first, last = numbers[0], numbers[-1]
        return _told(first, [found.get(number, 0.0) for number in range(first, last + 1)])

    def _cell(self, number: int) -> _Cell:
        reading = Reading(
            self.feature, Length((number + 0.5) * self.step), self.how, "", self.other_person
        )
        size, sound = sizes_of((reading,), self.model), []
        for wrong in self.ways:
            chosen = [i for i, slipped in enumerate(wrong) if not slipped]
            sound.append(self.sizes.pooled(chosen, (size.points[0], size.sigmas[0])))
        lean = lean_of(len(self.before), (*self.before, reading), self.model)
        self._cells[number] = _Cell(lean, size, tuple(sound))
        return self._cells[number]

    def numbers(self, trait: Trait) -> list[int]:
        """Return the cells near what was read before and near what is there, from the first."""
        return sorted({number for cells in self.cells(trait) for number in cells})

    def cells(self, trait: Trait) -> list[range]:
        """Return the same in runs; none where nothing is known."""
        if isinstance(trait, Missing):
            return []
        found = list(self.near)
        if isinstance(trait, Interval):
            middle, parts = shape(self.feature, trait, self.model)
            wide = WIDE * math.hypot(self.tool.sigma, self.tool.share * middle)
            found += [part.cells(self.step, wide) for part in parts]
        return found

    def _near_before(self) -> Iterator[range]:
        """Yield the cells near each earlier reading."""
        step, tool = self.step, self.tool
        for reading, mm in zip(self.before, self.sizes.points, strict=True):
            old = instrument_of(Kind.LENGTH, reading.how, self.model)
            wide = WIDE * math.hypot(tool.sigma, old.sigma, (tool.share + old.share) * mm)
            yield range(max(0, math.floor((mm - wide) / step)), math.ceil((mm + wide) / step))


def _said(
    feature: Feature, how: How, model: ObservationModel, gauges: Collection[Tool]
) -> Iterator[tuple[int, Value, float]]:
    """Yield number, value and width of every answer that is no length."""
    kind = FEATURES[feature].kind
    if kind is Kind.PITCH and how in (How.GAUGE, How.COMBS):
        for number, leaf in enumerate(leaves_at_hand(model, gauges)):
            yield number, leaf, 1.0
    elif kind is Kind.PITCH:
        low, high = FEATURES[feature].low, FEATURES[feature].high
        for number in range(math.floor(low / STEP_MM), math.ceil(high / STEP_MM)):
            yield number, counted_said(number), STEP_MM
    elif kind is Kind.ANGLE:
        for number, (deg, wide) in enumerate(angles_said(how, model)):
            yield number, angle_said(deg, how), wide
    elif kind is Kind.TAPER and how is not How.EYE:
        half = round(model.growth_span / STEP / 2)
        for number in range(-half, 2 * half):
            yield number, growth_said(number), STEP
    else:
        for number, word in enumerate(FEATURES[feature].choices):
            yield number, Choice(word), 1.0


def _told(first: int, chances: Sequence[float]) -> Answers:
    """Return answers of these chances; what lacks of 1 is silence."""
    whole = max(1.0, sum(chances))
    chances = [chance / whole for chance in chances]
    return answers_of(first, chances, silent=max(0.0, 1 - sum(chances)))
