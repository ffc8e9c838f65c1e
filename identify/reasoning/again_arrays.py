"""A length that may be read once more, by numpy: the sums of `answers_again`, all cells at once.

Which mistakes there may be, on what a reading leans and where a trait lies comes from there; only
what is the same formula for every cell is worked out as arrays.
"""

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from identify.model.feature import FEATURES
from identify.model.observation import ObservationModel
from identify.model.reading import Length, Reading
from identify.reasoning.answers import Answers
from identify.reasoning.answers_again import LengthAgain
from identify.reasoning.density_arrays import densities, normal
from identify.reasoning.repeated import Lean, lean_of, sound_or_slip
from identify.reasoning.traits import OilBore, Trait
from identify.reasoning.weigh_length import shape

Floats = Any  # arrays


class Cells:
    """A row of cells of a length, and what each is together with sound ones of earlier readings.

    `middle`, `sigma` and `factor` are those of `Pooled`, a row for each way in which some of the
    earlier readings are mistakes; a last column stands for those readings without a further one.

    Args:
        again: Whose cells.
        first: Number of the first.
        last: Number of the last.
    """

    def __init__(self, again: LengthAgain, first: int, last: int) -> None:
        self._again, info, tool = again, FEATURES[again.feature], again.tool
        mm = self.mm = (np.arange(first, last + 1) + 0.5) * again.step
        self.gross, variance = tool.gross, tool.sigma**2 + (tool.share * mm) ** 2
        self.broad: Floats = 1.0 / (np.maximum(mm, info.low) * np.log(info.high / info.low))
        self.lean = self._lean(variance)
        size = len(again.ways), len(mm) + 1
        self.middle, self.sigma, self.factor = np.empty(size), np.empty(size), np.empty(size)
        for row, wrong in enumerate(again.ways):
            self._pool(row, wrong, 1 / variance)

    def _lean(self, variance: Floats) -> Lean:
        """Return on what all cells lean, and how likely each then is."""
        again, model = self._again, self._again.model
        one = Reading(again.feature, Length(float(self.mm[0])), again.how, "", again.other_person)
        lean = lean_of(len(again.before), (*again.before, one), model)
        if lean.before is None:
            return lean
        spread = np.sqrt(again.sizes.sigmas[lean.before] ** 2 + variance)
        off = (self.mm - again.sizes.points[lean.before]) / spread
        return lean._replace(near=normal(off) / spread)

    def _pool(self, row: int, wrong: Sequence[bool], own: Floats) -> None:
        """Pool the cells with the sound earlier readings; `own` is 1 over the square of sigma."""
        sizes = self._again.sizes
        sound = [i for i, slipped in enumerate(wrong) if not slipped]
        alone = sizes.pooled(sound) if sound else (1.0, 1.0, 0.0)
        pairs = [(1 / sizes.sigmas[i] ** 2, sizes.points[i]) for i in sound]
        total = own + sum([sharp for sharp, _ in pairs])
        middle = (own * self.mm + sum([sharp * mm for sharp, mm in pairs])) / total
        apart = own * (self.mm - middle) ** 2
        share = 1.0
        for sharp, mm in pairs:
            apart += sharp * (mm - middle) ** 2
            share *= math.sqrt(sharp / (2 * math.pi))
        found = middle, 1 / np.sqrt(total), share * np.sqrt(own / total) * np.exp(-0.5 * apart)
        for column, cells, last in zip(
            (self.middle, self.sigma, self.factor), found, alone, strict=True
        ):
            column[row, :-1], column[row, -1] = cells, last


class LengthAgainArrays(LengthAgain):
    """See `LengthAgain`; several traits are best foreseen together."""

    def foresee(self, traits: Iterable[Trait]) -> None:
        """Work out the answers expected of some traits, into `known`."""
        runs = {trait: self.cells(trait) for trait in traits}
        self.known.update(dict.fromkeys(traits))
        told = [trait for trait, cells in runs.items() if cells]
        if not told:
            return
        first = min([cells.start for trait in told for cells in runs[trait]])
        last = max([cells.stop for trait in told for cells in runs[trait]]) - 1
        looked: Floats = np.zeros((len(told), last - first + 1))
        for row, trait in enumerate(told):
            for cells in runs[trait]:
                looked[row, cells.start - first : cells.stop - first] = 1.0
        chances = looked * self._chances(told, Cells(self, first, last))
        chances /= np.maximum(1.0, chances.sum(axis=1))[:, None]
        silent = np.maximum(0.0, 1 - chances.sum(axis=1)).tolist()
        logs = np.log2(chances, out=np.zeros(chances.shape), where=chances > 0)
        sharp = (chances * logs).sum(axis=1).tolist()
        for row, trait in enumerate(told):
            own = memoryview(chances[row])
            self.known[trait] = Answers(first, own, None, silent[row], sharp[row])

    def _chances(self, traits: Sequence[Trait], cells: Cells) -> Floats:
        """Return the chance of each cell, a row for each trait that may be there."""
        shapes = [shape(self.feature, trait, self.model) for trait in traits]
        centres: Floats = np.array([[centre] for centre, _ in shapes])
        anyhow: Floats = np.array([[isinstance(trait, OilBore)] for trait in traits])
        inside = densities([parts for _, parts in shapes], cells.middle, cells.sigma)
        density = cells.factor * inside
        slips = slips_about(cells.mm, centres, cells.broad, cells.gross, self.model, anyhow)
        before = [
            slips_about(mm, centres, broad, gross, self.model, anyhow)
            for mm, broad, gross in zip(
                self.sizes.points, self.sizes.broad, self.sizes.gross, strict=True
            )
        ]
        total, known = np.zeros(slips.shape), np.zeros(centres.shape)
        for place, wrong in enumerate(self.ways):
            chance: Floats = 1.0
            for at, lean in enumerate(self.leans):
                own = sound_or_slip(lean, _repeats(lean, wrong), self.sizes.gross[at], before[at])
                chance = chance * own[wrong[at]]
            alone = np.ones(centres.shape) if all(wrong) else density[:, place, -1:]
            right, mistake = sound_or_slip(
                cells.lean, _repeats(cells.lean, wrong), cells.gross, slips
            )
            total += chance * (mistake * alone + right * density[:, place, :-1])
            known += chance * alone
        return self.step * total / known


def _repeats(lean: Lean, wrong: Sequence[bool]) -> bool:
    return lean.before is not None and wrong[lean.before]


def slips_about(
    mm: Floats,
    centres: Floats,
    broad: Floats,
    gross: float,
    model: ObservationModel,
    anyhow: Floats,
) -> Floats:
    """Weigh readings as plain mistakes, as `Sizes.slips` does; where `anyhow`, as one anywhere.

    Args:
        mm: The readings [mm].
        centres: Middles of the traits [mm], one a row.
        broad: Density of a mistake that may be anything [1/mm].
        gross: Share of mistakes.
        model: Errors and habits.
        anyhow: Whether mistakes about a trait lie anywhere, one a row.
    """
    near = 0.5 / (model.near_reach * mm) * (np.abs(np.log(mm / centres)) < model.near_reach)
    about = model.near_gross * near + (1 - model.near_gross) * broad
    return gross * np.where(anyhow, broad, about)
