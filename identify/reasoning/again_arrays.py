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
from identify.reasoning.answers_again import LengthAgain
from identify.reasoning.density import REACH
from identify.reasoning.information_arrays import sharpness_of
from identify.reasoning.repeated import Lean, lean_of, sound_or_slip
from identify.reasoning.traits import OilBore, Trait
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
        """Return the cells pooled with the sound earlier readings, then these alone."""
        sound = [i for i, slipped in enumerate(wrong) if not slipped]
        points, sharp = (
            [again.sizes.points[i] for i in sound],
            [1 / again.sizes.sigmas[i] ** 2 for i in sound],
        )
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

    def slips(self, traits: Sequence[Trait], centres: Floats) -> Floats:
        """Weigh each cell as a plain mistake about traits with their middles at `centres` [mm]."""
        near = np.abs(np.log(self.mm / centres[:, None])) < self._reach
        found: Floats = np.where(near, *self._slips)
        for place, trait in enumerate(traits):
            if isinstance(trait, OilBore):
                found[place] = self.gross * self.broad
        return found


class LengthAgainArrays(LengthAgain):
    """See `LengthAgain`; several traits are best foreseen together."""

    def foresee(self, traits: Iterable[Trait]) -> None:
        """Work out the answers expected of some traits, into `known`."""
        told_of = {trait: numbers for trait in traits if (numbers := self.numbers(trait))}
        for trait in traits:
            self.known.setdefault(trait, None)
        if not told_of:
            return
        cells = Cells(self, sorted({n for numbers in told_of.values() for n in numbers}))
        chances, places = self._chances(list(told_of), cells), np.array(cells.numbers)
        for (trait, numbers), each in zip(told_of.items(), chances, strict=True):
            own = np.array(numbers)
            found: Floats = np.zeros(numbers[-1] - numbers[0] + 1)
            found[own - numbers[0]] = each[np.searchsorted(places, own)]
            found /= max(1.0, float(found.sum()))
            silent = max(0.0, 1 - float(found.sum()))
            sharpness = sharpness_of(numbers[0], found, None)
            self.known[trait] = Answers(numbers[0], memoryview(found), None, silent, sharpness)

    def _chances(self, traits: Sequence[Trait], cells: Cells) -> Floats:
        """Return the chance of each cell, a row for each trait that may be there."""
        shapes = [shape(self.feature, trait, self.model) for trait in traits]
        density = cells.factor * densities(
            [parts for _, parts in shapes], cells.middle, cells.sigma
        )
        ways = [
            self.mistakes(trait, centre) for trait, (centre, _) in zip(traits, shapes, strict=True)
        ]
        chance: Floats = np.array([[chance for _, chance in each] for each in ways])
        slips, lean = cells.slips(traits, np.array([centre for centre, _ in shapes])), cells.lean
        total, known = np.zeros(slips.shape), np.zeros(len(traits))
        for place, wrong in enumerate(self.ways):
            alone = np.ones(len(traits)) if all(wrong) else density[:, place, -1]
            repeated = lean.before is not None and wrong[lean.before]
            right, mistake = sound_or_slip(lean, repeated, cells.gross, slips)
            term = mistake * alone[:, None] + right * density[:, place, :-1]
            total += chance[:, place, None] * term
            known += chance[:, place] * alone
        return self.step * total / known[:, None]


def densities(shapes: Sequence[Sequence[Part]], mm: Floats, sigma: Floats) -> Floats:
    """Return the sum of what `part.density` is of the parts of each shape, for many readings.

    Args:
        shapes: The parts of each.
        mm: Readings, in any arrangement.
        sigma: Their spread [mm], in the same.

    Returns:
        Densities [1/mm], the shapes in front.
    """
    out: Floats = np.zeros((len(shapes), *mm.shape))
    made: list[tuple[int, Made]] = []
    for place, parts in enumerate(shapes):
        for part in parts:
            if isinstance(part, Guessed):
                off = np.log(mm / part.middle) / part.spread
                out[place] += part.share * _normal(off) / (mm * part.spread)
            elif part.high - part.low < _NARROW * sigma.max():
                pairs = zip(mm.ravel().tolist(), sigma.ravel().tolist(), strict=True)
                out[place] += np.reshape([part.density(*each) for each in pairs], mm.shape)
            else:
                made.append((place, part))
    if made:
        _add_made(out, made, mm, sigma)
    return out


def _add_made(out: Floats, made: Sequence[tuple[int, Made]], mm: Floats, sigma: Floats) -> None:
    """Add the densities of parts made between limits; what is out of reach stays 0."""
    parts = [part for _, part in made]
    slack = parts[0].slack  # of one feature, or none of them wears
    columns: Floats = np.array([(part.low, part.high, part.share) for part in parts])
    low, high, share = columns.T.reshape(3, -1, *[1] * mm.ndim)
    wear = slack.wear_mm if slack.worn else 0.0
    beside = REACH * sigma + wear
    which = np.nonzero((mm >= low - beside) & (mm <= high + beside))
    where = which[1:]
    value, error = mm[where], sigma[where]
    low, high, share = columns[which[0]].T
    width, a, b = high - low, (value - low) / error, (value - high) / error
    if slack.worn:
        c, d = (-b, -a) if slack.shrinks else (a, b)
        off = wear / error
        sides = np.concatenate((a, b, c, d, c - off, d - off)).reshape(6, -1)
        below = _below(sides)
        area = sides[2:] * below[2:] + _normal(sides[2:])
        old = np.maximum(0.0, (area[0] - area[1] - area[2] + area[3]) * error / (width * wear))
        old = slack.worn * np.where((c >= -REACH) & (d - off <= REACH), old, 0.0)
    else:
        below, old = _below(np.array((a, b))), 0.0
    new = np.where((a >= -REACH) & (b <= REACH), below[0] - below[1], 0.0) / width
    rows = np.array([place for place, _ in made])[which[0]]
    np.add.at(out, (rows, *where), share * ((1 - slack.worn) * new + old))


def _below(z: Floats) -> Floats:
    """Return the standard normal distribution function."""
    found: Floats = np.array([erf(each) for each in (z / _ROOT_2).ravel().tolist()])
    return 0.5 * (1.0 + found.reshape(z.shape))


def _normal(z: Floats) -> Floats:
    return np.exp(-0.5 * z * z) / _ROOT_2PI
