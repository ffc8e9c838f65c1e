"""A length that may be read once more, by numpy: the sums of `answers_again`, all cells at once.

Which mistakes there may be, on what a reading leans and where a trait lies comes from there; only
what is the same formula for every cell is worked out as arrays.
"""

from collections.abc import Iterable, Sequence
from math import erf
from typing import Any

import numpy as np

from identify.model.feature import FEATURES, Kind
from identify.model.reading import Length, Reading
from identify.reasoning.answers import Answers
from identify.reasoning.answers_again import LengthAgain, told
from identify.reasoning.density import REACH
from identify.reasoning.repeated import Lean, lean_of, sound_or_slip
from identify.reasoning.traits import Missing, OilBore, Trait
from identify.reasoning.weigh_length import Guessed, Made, Part, shape
from identify.reasoning.weight import instrument, instrument_of, sigma_of

Floats = Any  # arrays
_ROOT_2, _ROOT_2PI = np.sqrt(2), np.sqrt(2 * np.pi)
_NARROW = 1e-3  # of its error: limits closer than this are weighed one by one


class Cells:
    """The cells of a length, and what each is together with sound ones of the earlier readings.

    `middle`, `sigma` and `factor` are those of `Pooled`, a row for each way in which some of the
    earlier readings are mistakes; a last column stands for those readings without a further one.
    """

    def __init__(self, again: LengthAgain, numbers: Sequence[int]) -> None:
        feature, model, sizes = again.feature, again.model, again.sizes
        info, tool = FEATURES[feature], instrument_of(Kind.LENGTH, again.how, model)
        self.numbers = numbers
        mm = self.mm = (np.array(numbers) + 0.5) * again.step
        self.gross, variance = tool.gross, tool.sigma**2 + (tool.share * mm) ** 2
        self.broad: Floats = 1.0 / (np.maximum(mm, info.low) * np.log(info.high / info.low))
        near = 0.5 / (model.near_reach * mm)
        self._slips = (
            self.gross * (model.near_gross * near + (1 - model.near_gross) * self.broad),
            self.gross * ((1 - model.near_gross) * self.broad),
        )
        self._reach = model.near_reach
        one = Reading(feature, Length(float(mm[0])), again.how, "", again.other_person)
        lean = lean_of(len(again.before), (*again.before, one), model)
        if lean.before is not None:
            earlier = again.before[lean.before]
            spread = np.sqrt(sigma_of(earlier.value, instrument(earlier, model)) ** 2 + variance)  # type: ignore[arg-type]
            lean = lean._replace(near=_normal((mm - sizes.points[lean.before]) / spread) / spread)
        self.lean: Lean = lean
        rows = [self._pooled(again, wrong, variance) for wrong in again.ways]
        self.middle, self.sigma, self.factor = (np.array(each) for each in zip(*rows, strict=True))

    def _pooled(
        self, again: LengthAgain, wrong: Sequence[bool], variance: Floats
    ) -> tuple[Floats, Floats, Floats]:
        """Return the cells pooled with the sound earlier readings, and these alone; see `pooled`."""
        sound = [i for i, slipped in enumerate(wrong) if not slipped]
        points, sharp = [again.sizes.points[i] for i in sound], [1 / again.sizes.sigmas[i] ** 2 for i in sound]
        own = 1 / variance
        total = sum(sharp) + own
        middle = (sum(w * x for w, x in zip(sharp, points, strict=True)) + own * self.mm) / total
        apart = sum(w * (x - middle) ** 2 for w, x in zip(sharp, points, strict=True))
        apart = apart + own * (self.mm - middle) ** 2
        factor = np.exp(-0.5 * apart) / np.sqrt(total) * np.sqrt(own)
        for each in sharp:
            factor = factor * np.sqrt(each)
        factor = factor * (2 * np.pi) ** (-len(points) / 2)
        alone = again.sizes.pooled(sound) if sound else (1.0, 1.0, 0.0)
        return (
            np.append(middle, alone[0]),
            np.append(1 / np.sqrt(total), alone[1]),
            np.append(factor, alone[2]),
        )

    def slips(self, trait: Trait, centre: float) -> Floats:
        """Weigh each cell as a plain mistake about a trait with its middle at `centre` [mm]."""
        if isinstance(trait, OilBore):
            return self.gross * self.broad
        return np.where(np.abs(np.log(self.mm / centre)) < self._reach, *self._slips)


class LengthAgainArrays(LengthAgain):
    """See `LengthAgain`; several traits are best foreseen together."""

    def foresee(self, traits: Iterable[Trait]) -> None:
        """Work out the answers expected of some traits."""
        new = {trait: self.numbers(trait) for trait in traits}
        cells = sorted({number for numbers in new.values() for number in numbers})
        if cells:
            self._together(new, Cells(self, cells))
        for trait in new:
            self.known.setdefault(trait, None)

    def _together(self, new: dict[Trait, list[int]], cells: Cells) -> None:
        places = {number: place for place, number in enumerate(cells.numbers)}
        for trait, numbers in new.items():
            if numbers and not isinstance(trait, Missing):
                chances = self._chances(trait, cells)[[places[number] for number in numbers]]
                whole = np.zeros(numbers[-1] - numbers[0] + 1)
                whole[np.array(numbers) - numbers[0]] = chances
                self.known[trait] = told(numbers[0], whole.tolist())

    def _chances(self, trait: Trait, cells: Cells) -> Floats:
        """Return the chance of each cell if that trait is there."""
        centre, parts = shape(self.feature, trait, self.model)
        density = cells.factor * sum(
            _density(part, cells.middle, cells.sigma) for part in parts
        )
        slips, total, known = cells.slips(trait, centre), 0.0, 0.0
        for place, (wrong, chance) in enumerate(self.mistakes(trait, centre)):
            alone = 1.0 if all(wrong) else float(density[place, -1])
            lean = cells.lean
            repeated = lean.before is not None and wrong[lean.before]
            right, mistake = sound_or_slip(lean, repeated, cells.gross, slips)
            total = total + chance * (mistake * alone + right * density[place, :-1])
            known += chance * alone
        return self.step * total / known


def _density(part: Part, mm: Floats, sigma: Floats) -> Floats:
    """Return what `part.density` does, for many readings."""
    if isinstance(part, Guessed):
        return part.share * _normal(np.log(mm / part.middle) / part.spread) / (mm * part.spread)
    return _made(part, mm, sigma)


def _made(part: Made, mm: Floats, sigma: Floats) -> Floats:
    low, high, slack = part.low, part.high, part.slack
    width = high - low
    out: Floats = np.zeros(mm.shape)
    beside = REACH * sigma + (slack.wear_mm if slack.worn else 0.0)
    near = np.nonzero((mm >= low - beside) & (mm <= high + beside))
    value, error = mm[near], sigma[near]
    if not len(value):
        return out
    if width < _NARROW * error.max():
        out[near] = [part.density(*each) for each in zip(value.tolist(), error.tolist())]
        return out
    a, b = (value - low) / error, (value - high) / error
    if not slack.worn:
        below = _below(np.concatenate((a, b))).reshape(2, -1)
        out[near] = part.share * np.where(_reached(a, b), below[0] - below[1], 0.0) / width
        return out
    c, d = (-b, -a) if slack.shrinks else (a, b)
    off = slack.wear_mm / error
    sides = np.concatenate((a, b, c, d, c - off, d - off))
    below = _below(sides).reshape(6, -1)
    area = (sides.reshape(6, -1) * below + _normal(sides).reshape(6, -1))[2:]
    old = np.maximum(0.0, (area[0] - area[1] - area[2] + area[3]) * error / (width * slack.wear_mm))
    new = np.where(_reached(a, b), below[0] - below[1], 0.0) / width
    old = np.where(_reached(c, d - off), old, 0.0)
    out[near] = part.share * ((1 - slack.worn) * new + slack.worn * old)
    return out


def _reached(above_low: Floats, above_high: Floats) -> Floats:
    return (above_low >= -REACH) & (above_high <= REACH)


def _below(z: Floats) -> Floats:
    """Return the standard normal distribution function."""
    return 0.5 * (1.0 + np.array([erf(each) for each in (z / _ROOT_2).tolist()]))


def _normal(z: Floats) -> Floats:
    return np.exp(-0.5 * z * z) / _ROOT_2PI
