"""Lengths that may be read once more, by numpy: the sums of `answers_again`, many at once.

Which mistakes there may be, and on what a reading leans, comes from there; only what is the same
formula for every cell is worked out as arrays.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING
from identify.model.reading import Length, Reading
from identify.reasoning.answers import Answers
from identify.reasoning.answers_again import LengthAgain
from identify.reasoning.density_arrays import normal
from identify.reasoning.information_arrays import Rows, normalised, run
from identify.reasoning.length_shapes import Shape, Shapes, densities
from identify.reasoning.repeated import Lean, leans_on

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from identify.reasoning.traits import Trait

Floats = Any  # arrays


class LengthAgainArrays(LengthAgain):
    """See `LengthAgain`; several traits are best foreseen together."""

    def foresee(self, traits: Iterable[Trait]) -> None:
        """Work out the answers expected of some traits, into `known`."""
        traits = list(traits)
        rows = read_again([(Shapes(self.feature, self.how, self.model), self, traits)])
        starts = rows.sizes.cumsum() - rows.sizes
        for row, (trait, start, size) in enumerate(zip(traits, starts, rows.sizes, strict=True)):
            self.known[trait] = None
            if size:
                own = slice(start, start + size)
                cells, first = rows.cells[own], int(rows.cells[start])
                chances: Floats = np.zeros(int(cells[-1]) - first + 1)
                chances[cells - first] = rows.chances[own]
                known = float(rows.silent[row]), float(rows.sharpness[row])
                self.known[trait] = Answers(first, memoryview(chances), None, *known)


def read_again(asked: Sequence[tuple[Shapes, LengthAgain, Sequence[Trait]]]) -> Rows:
    """Return the answers expected of some traits when lengths are read once more.

    Args:
        asked: Lengths that were read equally often, each with what the traits of its feature look
            like to the tool that reads, and with the traits that may be there.
    """
    of: list[int] = []
    found: list[Shape | None] = []
    runs: list[tuple[int, int, int]] = []
    for number, (shapes, again, traits) in enumerate(asked):
        for trait in traits:
            if shape := shapes.of(trait):
                near = [*again.near, shape.cells] if shape.cells else again.near
                runs += [(len(of), start, stop - start) for start, stop in merged(near)]
            found.append(shape)
            of.append(number)
    row, start, size = np.array(runs, dtype=np.intp).reshape(-1, 3).T
    cells = run(start, size)
    rows = row.repeat(size)
    sizes = np.bincount(rows, minlength=len(of))
    looks = [each or _NOTHING for each in found]
    chances = Again([each[:2] for each in asked]).chances(
        looks, np.array(of, dtype=np.intp), rows, cells
    )
    return normalised(chances, cells, sizes)


def _next(again: LengthAgain) -> Lean:
    """Return on what a further reading leans; how likely it is goes by what it says."""
    one = Reading(again.feature, Length(1.0), again.how, "", again.other_person)
    return Lean(*leans_on(again.before, one, again.model), 0.0)


def _pooled(points: Floats, sigmas: Floats) -> tuple[Floats, Floats, Floats]:
    """Return readings of one size as one, a column each; see `weigh_length.pooled`."""
    sharp = 1 / sigmas**2
    total = sharp.sum(axis=0)
    middle = (sharp * points).sum(axis=0) / total
    apart = (sharp * (points - middle) ** 2).sum(axis=0)
    factor = np.exp(-0.5 * apart) / np.sqrt(total) / sigmas.prod(axis=0)
    return middle, 1 / np.sqrt(total), factor * (2 * math.pi) ** (-(len(points) - 1) / 2)


_NOTHING = Shape(1.0, anyhow=False, cells=None, made=[], guessed=[])


def merged(runs: Iterable[range]) -> Iterator[tuple[int, int]]:
    """Yield start and stop of the runs of whole numbers that lie in any of some ranges."""
    start = stop = -1
    for each in sorted(runs, key=lambda cells: cells.start):
        if each.start > stop:
            if stop > start:
                yield start, stop
            start, stop = each.start, each.stop
        elif each.stop > stop:
            stop = each.stop
    if stop > start:
        yield start, stop


class Again:
    """What several lengths were read as so far, a column each, and how they are read once more.

    Args:
        asked: Lengths, read equally often, and what their traits look like to the tool that reads.
    """

    def __init__(self, asked: Sequence[tuple[Shapes, LengthAgain]]) -> None:
        self._model, self.ways = asked[0][0].model, asked[0][1].ways
        sizes = [again.sizes for _, again in asked]
        columns = [(each.points, each.sigmas, each.broad, each.gross) for each in sizes]
        self._points, self._sigmas, self._broad, self._gross = np.array(columns).transpose(1, 2, 0)
        self._tools: Floats = np.array([shapes.figures for shapes, _ in asked]).T
        leans = [(*again.leans, _next(again)) for _, again in asked]
        before = [[-1 if one.before is None else one.before for one in each] for each in leans]
        self._before: Floats = np.array(before).T
        self._shares: Floats = np.array([[one.share for one in each] for each in leans]).T
        self._nears: Floats = np.array([[one.near for one in each] for each in leans]).T

    def chances(self, looks: Sequence[Shape], of: Floats, rows: Floats, cells: Floats) -> Floats:
        """Return the chance of each cell.

        Args:
            looks: What the traits look like.
            of: The number of the length of each trait.
            rows: The number of the trait of each cell.
            cells: Their numbers.
        """
        wish = of[rows]
        step, error, share, gross, low, span = self._tools[:, wish]
        mm = (cells + 0.5) * step
        sigma = np.sqrt(error**2 + (share * mm) ** 2)
        broad = 1.0 / (np.maximum(mm, low) * span)
        centres: Floats = np.array([each.centre for each in looks])
        anyhow: Floats = np.array([each.anyhow for each in looks])
        slips = self._slips(mm, centres[rows], broad, gross, anyhow[rows])
        before = [
            self._slips(mm_, centres, broad_, gross_, anyhow)
            for mm_, broad_, gross_ in zip(
                self._points[:, of], self._broad[:, of], self._gross[:, of], strict=True
            )
        ]
        leant, lean = self._before[-1], self._shares[-1][wish]
        there = np.arange(len(leant))
        spread = np.hypot(self._sigmas[leant, there][wish], sigma)
        near = normal((mm - self._points[leant, there][wish]) / spread) / spread
        total, known = np.zeros(len(mm)), np.zeros(len(of))
        for wrong, (alone, density) in zip(
            self.ways, self._densities(looks, of, rows, mm, sigma), strict=True
        ):
            chance: Floats = 1.0
            for at, slip in enumerate(before):
                chance = chance * self._own(at, wrong, of, slip)
            again = self._repeats(-1, wrong)[wish]
            sound = (1 - lean) * (1 - gross) + lean - again
            mistake = again * near + (1 - lean) * slips
            total += (chance * alone)[rows] * mistake + chance[rows] * sound * density
            known += chance * alone
        return step * total / known[rows]

    def _own(self, at: int, wrong: Sequence[bool], of: Floats, slip: Floats) -> Floats:
        """Return the weight of an earlier reading, as a mistake or not; see `sound_or_slip`."""
        again, lean = self._repeats(at, wrong)[of], self._shares[at][of]
        if wrong[at]:
            return again * self._nears[at][of] + (1 - lean) * slip
        return (1 - lean) * (1 - self._gross[at][of]) + lean - again

    def _repeats(self, at: int, wrong: Sequence[bool]) -> Floats:
        """Return how often a reading says a mistake again, of those before it that are some."""
        slipped: Floats = np.array((*wrong, False))  # the last for those that lean on nothing
        return np.where(slipped[self._before[at]], self._shares[at], 0.0)

    def _slips(
        self, mm: Floats, centres: Floats, broad: Floats, gross: Floats, anyhow: Floats
    ) -> Floats:
        """Weigh readings as plain mistakes, as `Sizes.slips` does."""
        reach, often = self._model.near_reach, self._model.near_gross
        near = 0.5 / (reach * mm) * (np.abs(np.log(mm / centres)) < reach)
        return gross * np.where(anyhow, broad, often * near + (1 - often) * broad)

    def _densities(
        self, looks: Sequence[Shape], of: Floats, rows: Floats, mm: Floats, sigma: Floats
    ) -> list[tuple[Floats, Floats]]:
        """Return the densities of the sound earlier readings, by trait, and with one more, by cell.

        A pair for each way in which some of the earlier readings are mistakes.
        """
        pooled, wish = [], of[rows]
        for wrong in self.ways:
            sound = [at for at, slipped in enumerate(wrong) if not slipped]
            points, sigmas = self._points[sound], self._sigmas[sound]
            alone = (points[:, of], sigmas[:, of]) if sound else (np.ones((1, len(of))),) * 2
            more = ((old[:, wish], [new]) for old, new in ((points, mm), (sigmas, sigma)))
            pooled += [_pooled(*alone), _pooled(*map(np.concatenate, more))]
        numbers = [np.arange(len(of)), rows] * len(self.ways)
        middles, spreads, _ = (np.concatenate(each) for each in zip(*pooled, strict=True))
        found = densities(looks, np.concatenate(numbers), middles, spreads)
        cuts = np.cumsum([len(each) for each in numbers])[:-1]
        each = [one * p[2] for one, p in zip(np.split(found, cuts), pooled, strict=True)]
        if all(self.ways[-1]):
            each[-2] = np.ones(len(of))  # no sound one is left
        return list(zip(each[::2], each[1::2], strict=True))
