"""Where the true length of a simulated part lies, as shares of a fine grid; normal errors."""

import math
from collections.abc import Sequence
from functools import cached_property
from itertools import accumulate

from identify.frozen import dataclass
from identify.model.feature import Feature
from identify.model.rulebook import RuleBook
from identify.reasoning.weigh_length import bores_beside
from identify.simulation.blueprint import Figure, Hexagons, Options, Span, options

GRID_MM = 0.01


@dataclass(frozen=True)
class Grid:
    """Shares of the cells of a grid; the first cell's middle lies at `first_mm`."""

    first_mm: float
    shares: tuple[float, ...]

    @cached_property
    def below(self) -> tuple[float, ...]:
        """Share below each cell, and last the whole."""
        return (0.0, *accumulate(self.shares))

    def between(self, low_mm: float, high_mm: float) -> float:
        """Return the share of lengths between two."""
        low, high = (round((mm - self.first_mm) / GRID_MM + 0.5) for mm in (low_mm, high_mm))
        last = len(self.shares)
        return self.below[min(max(high, 0), last)] - self.below[min(max(low, 0), last)]

    def even(self, low_mm: float, high_mm: float) -> "Grid":
        """Return this length with something spread evenly from `low_mm` to `high_mm` added."""
        cells = max(1, round((high_mm - low_mm) / GRID_MM))
        out, total, old = [], 0.0, [*self.shares, *([0.0] * (cells - 1))]
        for place, share in enumerate(old):
            total += share - (old[place - cells] if place >= cells else 0.0)
            out.append(max(0.0, total) / cells)
        middle = (low_mm + high_mm) / 2
        return Grid(self.first_mm + middle - (cells - 1) * GRID_MM / 2, tuple(out))


NOWHERE = Grid(0.0, ())  # of a length that is not there


def phi(z: float) -> float:
    """Return the standard normal distribution function."""
    return 0.5 * math.erfc(-z / math.sqrt(2))


def rounded_to(value: float, step: float, true: float, sigma: float) -> float:
    """Return how often a normal reading of `true` is rounded to `value`."""
    return phi((value + step / 2 - true) / sigma) - phi((value - step / 2 - true) / sigma)


def grids_of(book: RuleBook, feature: Feature, figure: Figure) -> tuple[Grid, Grid]:
    """Return where a length lies on new parts, and on parts worn there."""
    slack = book.observation.tolerances[feature]
    if isinstance(figure, Options):  # a hose
        new = mixed([(share, _hose(book, dn)) for dn, share in options(figure, float)])
        return new, new
    if isinstance(figure, Span):
        new = _log_even(figure.low, figure.high)
        return new, new
    if isinstance(figure, Hexagons):
        new = _hexagon(book, figure)
    else:
        half = (figure.high - figure.low) / 2
        new = Grid(figure.low, (1.0,)).even(0, half).even(0, half)
        new = new.even(-figure.below, figure.above)
    worn = new.even(-slack.wear_mm, 0) if slack.shrinks else new.even(0, slack.wear_mm)
    return new, worn


def mixed(parts: Sequence[tuple[float, Grid]]) -> Grid:
    """Return one grid for several with shares, all laid on the raster of the first."""
    first = min(grid.first_mm for _, grid in parts)
    last = max(grid.first_mm + len(grid.shares) * GRID_MM for _, grid in parts)
    cells = [0.0] * (round((last - first) / GRID_MM) + 1)
    for share, grid in parts:
        start = round((grid.first_mm - first) / GRID_MM)
        for place, each in enumerate(grid.shares):
            cells[start + place] += share * each
    return Grid(first, tuple(cells))


def _hose(book: RuleBook, dn: float) -> Grid:
    below, above = bores_beside(dn)
    off = book.observation.near_bore / 2
    slack = book.observation.tolerances[Feature.HOSE_BORE]
    return mixed(
        [
            (share, Grid(bore, (1.0,)).even(-slack.below_mm, slack.above_mm))
            for bore, share in ((dn, 1 - 2 * off), (below, off), (above, off))
        ]
    )


def _hexagon(book: RuleBook, figure: Hexagons) -> Grid:
    model = book.observation
    known = figure.known_mm
    middle = sum(known) / len(known) if known else figure.thread_mm * model.hex_of_thread
    other = book.observation.other_hex if known else 1.0
    below = model.tolerances[Feature.HEX].below_mm
    parts = [((1 - other) / len(known), Grid(mm, (1.0,)).even(-below, 0)) for mm in known]
    return mixed([*parts, (other, _log_normal(middle, model.hex_spread))])


def _log_normal(middle: float, spread: float) -> Grid:
    low, high = middle * math.exp(-4 * spread), middle * math.exp(4 * spread)
    raw = []
    for cell in range(round((high - low) / GRID_MM)):
        length = low + cell * GRID_MM
        raw.append(math.exp(-0.5 * (math.log(length / middle) / spread) ** 2) / length)
    total = sum(raw)
    return Grid(low, tuple(each / total for each in raw))


def _log_even(low: float, high: float) -> Grid:
    raw = [1 / (low + (cell + 0.5) * GRID_MM) for cell in range(round((high - low) / GRID_MM))]
    total = sum(raw)
    return Grid(low + GRID_MM / 2, tuple(each / total for each in raw))
