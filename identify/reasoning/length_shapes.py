"""What the traits of lengths look like to a tool, laid out to be weighed many at once by numpy."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.reasoning.density import REACH
from identify.reasoning.density_arrays import made, normal
from identify.reasoning.information_arrays import run
from identify.reasoning.traits import Interval, Missing, OilBore, Trait
from identify.reasoning.weigh_length import WIDE, Made, shape, step_mm
from identify.reasoning.weight import instrument_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from identify.model.observation import ObservationModel

Floats = Any  # arrays


class Shape(NamedTuple):
    """What a trait looks like.

    `centre` is its middle [mm], `anyhow` tells that a mistake about it lies anywhere, `cells` are
    those on which a sound reading of a part made between limits may fall, none of other traits.
    Each of `made` is share, low and high of such a part [mm], the share of those that are worn, by
    how much at most [mm], and 1 if they shrink; each of `guessed` is share, middle and spread of a
    figure that is only usual.
    """

    centre: float
    anyhow: bool
    cells: range | None
    made: list[tuple[float, ...]]
    guessed: list[tuple[float, ...]]


class Shapes:
    """The traits of a length, each laid out once.

    Args:
        feature: A length.
        how: The tool.
        model: Errors and habits.
    """

    def __init__(self, feature: Feature, how: How, model: ObservationModel) -> None:
        self.model, info = model, FEATURES[feature]
        self.step, self.tool = step_mm(feature, how), instrument_of(Kind.LENGTH, how, model)
        tool = self.tool.sigma, self.tool.share, self.tool.gross
        self.figures = self.step, *tool, info.low, math.log(info.high / info.low)
        """Width of a cell [mm], error [mm, share], mistakes, lowest reading [mm], log of the span.
        """
        self._feature = feature
        self._known: dict[Trait, Shape | None] = {}

    def of(self, trait: Trait) -> Shape | None:
        """Return what a trait looks like, None where nothing is known."""
        if trait not in self._known:
            self._known[trait] = None if isinstance(trait, Missing) else self._lay_out(trait)
        return self._known[trait]

    def _lay_out(self, trait: Trait) -> Shape:
        middle, parts = shape(self._feature, trait, self.model)
        wide = WIDE * math.hypot(self.tool.sigma, self.tool.share * middle)
        cells: range | None = None
        made_: list[tuple[float, ...]] = []
        guessed: list[tuple[float, ...]] = []
        for part in parts:
            if isinstance(part, Made):
                wear = part.slack
                worn = wear.worn, wear.wear_mm if wear.worn else 0.0, float(wear.shrinks)
                made_.append((part.share, part.low, part.high, *worn))
                cells = part.cells(self.step, wide) if isinstance(trait, Interval) else None
            else:
                guessed.append((part.share, part.middle, part.spread))
        return Shape(middle, isinstance(trait, OilBore), cells, made_, guessed)


def densities(shapes: Sequence[Shape], of: Floats, mm: Floats, sigma: Floats) -> Floats:
    """Return the density of sound readings [1/mm].

    Args:
        shapes: What may be there.
        of: The number of the shape of each reading.
        mm: The readings [mm].
        sigma: Their spread [mm].
    """
    found: Floats = np.zeros(len(mm))
    for parts, weigh in (
        ([each.made for each in shapes], _of_made),
        ([each.guessed for each in shapes], _of_guessed),
    ):
        columns: Floats = np.array([part for several in parts for part in several]).T
        if len(columns):
            sizes: Floats = np.array(list(map(len, parts)))
            many = sizes[of]
            reading = np.arange(len(mm)).repeat(many)
            figures = columns[:, run((sizes.cumsum() - sizes)[of], many)]
            found += np.bincount(reading, weigh(mm[reading], sigma[reading], figures), len(mm))
    return found


def _of_made(mm: Floats, sigma: Floats, parts: Floats) -> Floats:
    _, low, high, worn, wear, shrinks = parts
    beside = REACH * sigma + wear
    reached = (mm >= low - beside) & (mm <= high + beside)
    found: Floats = np.zeros(len(mm))
    for kind in ((worn == 0), (worn > 0) & (shrinks > 0), (worn > 0) & (shrinks == 0)):
        some = (reached & kind).nonzero()[0]
        if len(some):
            own = parts[:5, some]
            found[some] = made(mm[some], sigma[some], *own, shrinks=bool(shrinks[some[0]]))
    return found


def _of_guessed(mm: Floats, _: Floats, parts: Floats) -> Floats:
    share, middle, spread = parts
    density: Floats = share * normal(np.log(mm / middle) / spread) / (mm * spread)
    return density
