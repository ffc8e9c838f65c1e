"""The Bayes ceiling: the simulator turned round, knowing the observer and what parts are drawn.

Nothing of `reasoning` is used. The chance of a reading is worked out from how `parts` and `people`
make it: the true length is spread over a fine grid, everything else is summed exactly. The
reasoning lets what a person could not answer say nothing. So does the ceiling, unless it is told of
it: only then are its promises exact, because a feature that is not there often goes unanswered.
"""

import math
from collections.abc import Collection, Sequence
from functools import cache
from itertools import pairwise

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Angle, Basis, Choice, How, Length, Pitch, Reading, Slope
from identify.reasoning.hypotheses import NONE
from identify.simulation.blueprint import Cone, Figure, Options, Span
from identify.simulation.parts import Lot
from identify.simulation.people import (
    ANY_HALF,
    EYE_STEP_DEG,
    GROSS_COUNT,
    GROSS_RISE_MM,
    OVER_ERROR_MM,
    OVER_MM,
    Person,
    beside,
    slip_to,
    span_mm,
)
from identify.simulation.spread import GRID_MM, Grid, grids_of

IMPOSSIBLE = 1e-9  # so that a slip of the tongue about the gender leaves something standing
REMEMBERED = 2000  # readings whose chances are kept; the same words come again and again
Pair = tuple[float, float]  # chance on a new part, on a worn one


def phi(z: float) -> float:
    """Return the standard normal distribution function."""
    return 0.5 * math.erfc(-z / math.sqrt(2))


class Ceiling:
    """Inverts one lot and one person."""

    def __init__(self, lot: Lot, person: Person, rows: int) -> None:
        self.lot, self.person, self.rows = lot, person, rows
        self.book = person.book
        self._grids: dict[tuple[Feature, Figure], tuple[Grid, Grid]] = {}
        self._tables: dict[Reading, dict[Figure | None, Pair]] = {}
        self.weigh = {
            Kind.LENGTH: self._length,
            Kind.PITCH: self._pitch,
            Kind.ANGLE: self._angle,
            Kind.TAPER: self._taper,
            Kind.CHOICE: self._choice,
        }

    def posterior(
        self, readings: Sequence[Reading], silent: Collection[Feature] = ()
    ) -> tuple[list[float], float]:
        """Return the probability of every row, and of a stranger.

        Args:
            readings: What was said.
            silent: What was asked and not answered; empty to let silence say nothing.
        """
        if len(self._tables) > REMEMBERED:
            self._tables.clear()
        tables = [self._tables.setdefault(reading, {}) for reading in readings]
        worn = [self.share_worn(reading.feature) for reading in readings]
        cuts = sorted({0.0, 1.0, *worn})
        bands = [(high - low, low) for low, high in pairwise(cuts)]
        rows, strange = [0.0] * self.rows, 0.0
        for make in self.lot.makes:
            pairs = []
            for reading, table in zip(readings, tables, strict=True):
                figure = make.blueprint.figures.get(reading.feature)
                if figure not in table:
                    table[figure] = self.chance(reading, figure)
                pairs.append(table[figure])
            unsaid = make.weight
            for feature in silent:
                unsaid *= self.silence(feature, make.blueprint.figures.get(feature))
            total = 0.0
            for width, start in bands:
                for (new, old), share in zip(pairs, worn, strict=True):
                    width *= old if start < share else new
                total += width
            if make.row == NONE:
                strange += unsaid * total
            else:
                rows[make.row] += unsaid * total
        whole = sum(rows) + strange
        return [each / whole for each in rows], strange / whole

    def chance(self, reading: Reading, figure: Figure | None) -> Pair:
        """Return how often exactly this is said of a new and of a worn part with this figure."""
        new, old = self.weigh[FEATURES[reading.feature].kind](reading, figure)
        return max(new, IMPOSSIBLE), max(old, IMPOSSIBLE)

    def silence(self, feature: Feature, figure: Figure | None) -> float:
        """Return how often nothing is said of a feature with this figure, or of one not there."""
        answers, kind = self.person.answers(feature), FEATURES[feature].kind
        if kind is Kind.LENGTH:
            nothing = 1 - self.person.gross(Kind.LENGTH, How.CALIPER)
            there = figure.chance if isinstance(figure, Span) else float(figure is not None)
            return there * (1 - answers) + (1 - there) * nothing
        if kind is Kind.ANGLE:
            if figure is None:
                return 1 - answers * self.book.observation.no_cone_angled
            assert isinstance(figure, Options)
            seldom = self.book.observation.chamfer_angled
            return sum(
                share * (1 - answers * (seldom if isinstance(cone, Cone) and cone.chamfer else 1))
                for cone, share in zip(figure.values, figure.shares, strict=True)
            )
        return 1.0 if figure is None else 1 - answers

    def share_worn(self, feature: Feature) -> float:
        """Return the share of parts that are worn where this feature is measured."""
        if feature is Feature.SEAT_ANGLE:
            return self.book.people.seat_worn
        slack = self.book.observation.tolerances.get(feature)
        return slack.worn if slack and feature is not Feature.HOSE_BORE else 0.0

    def _length(self, reading: Reading, figure: Figure | None) -> Pair:
        feature, value, person = reading.feature, reading.value, self.person
        assert isinstance(value, Length)
        inch = reading.entered.endswith("in")
        step = 0.0254 if inch else person.step_mm(reading.how)
        unit = 1.0
        if reading.how is How.CALIPER:
            unit = person.observer.inches if inch else 1 - person.observer.inches
        gross, sigma = (f(Kind.LENGTH, reading.how) for f in (person.gross, person.sigma))
        low, high = span_mm(feature)
        least, most = max(low, value.mm - step / 2), min(high, value.mm + step / 2)
        broad = max(0.0, math.log(most / least) / math.log(high / low))
        if figure is None:
            return (unit * gross * broad,) * 2
        answers = unit * person.answers(feature)
        near = self.book.observation.near_gross
        reach = self.book.observation.near_reach
        out = []
        key = (feature, figure)
        if key not in self._grids:
            self._grids[key] = grids_of(self.book, feature, figure)
        for grid in self._grids[key]:
            good = _read(value.mm, step, sigma, grid)
            slip = _near(value.mm, step, reach, grid)
            out.append(answers * ((1 - gross) * good + gross * (near * slip + (1 - near) * broad)))
        if isinstance(figure, Span) and figure.chance < 1:
            return tuple(  # type: ignore[return-value]
                figure.chance * each + (1 - figure.chance) * unit * gross * broad for each in out
            )
        return out[0], out[1]

    def _pitch(self, reading: Reading, figure: Figure | None) -> Pair:
        if figure is None:
            return 0.0, 0.0
        assert isinstance(figure, Options)
        value, total = reading.value, 0.0
        assert isinstance(value, Pitch)
        for true, share in zip(figure.values, figure.shares, strict=True):
            assert isinstance(true, float)
            total += share * (
                self._counted(value, true, reading.how)
                if value.pitches
                else self._leaf(value, true, reading.how)
            )
        return total * self.person.answers(Feature.PITCH), total * self.person.answers(
            Feature.PITCH
        )

    def _fits(self, leaves: list[tuple[float, str]], true: float) -> tuple[float, ...]:
        spread = self.person.observer.leaf_error
        return _fits(tuple(mm for mm, _ in leaves), true, self.book.people.pitch_fits, spread)

    def _leaf(self, value: Pitch, true: float, how: How) -> float:
        leaves = self.person.leaves()
        said = min(range(len(leaves)), key=lambda i: (
            leaves[i][1].endswith("tpi") != value.inch, abs(leaves[i][0] - value.mm)
        ))  # fmt: skip
        chances = self._fits(leaves, true)
        gross, next_to = self.person.gross(Kind.PITCH, how), self.person.observer.neighbour_leaf
        called = (1 - next_to) * chances[said]
        for place, chance in enumerate(chances):
            for step in (-1, 1):
                if beside(leaves, place, step) == said:
                    called += next_to / 2 * chance
        return (1 - gross) * called + gross / len(leaves)

    def _counted(self, value: Pitch, true: float, how: How) -> float:
        person, count = self.person, value.pitches
        leaves = person.leaves()
        reached = 1.0
        if leaves:  # counts only because no leaf fits
            reached = (1 - person.gross(Kind.PITCH, How.GAUGE)) * (
                1 - sum(self._fits(leaves, true))
            )
        gross, sigma = person.gross(Kind.PITCH, how), person.sigma(Kind.PITCH, how)
        total, step = value.mm * count, 0.1 if how is How.COUNTED else 0.5
        slip = person.observer.miscount
        good = sum(
            share * _bin(total, step, true * (count + more), sigma)
            for more, share in ((0, 1 - 2 * slip), (1, slip), (-1, slip))
        )
        off = abs(math.log(total / (true * count)))
        broad = step / (2 * GROSS_COUNT * total) if off < GROSS_COUNT else 0.0
        return reached * ((1 - gross) * good + gross * broad)

    def _taper(self, reading: Reading, figure: Figure | None) -> Pair:
        if figure is None:
            return 0.0, 0.0
        assert isinstance(figure, Options)
        total = 0.0
        for true, share in zip(figure.values, figure.shares, strict=True):
            assert isinstance(true, float)
            if isinstance(reading.value, Slope):
                total += share * self._slope(reading.value, true)
            else:
                assert isinstance(reading.value, Choice)
                said = self.person.report(Feature.TAPER, "tapered" if true else "parallel")
                total += share * said[reading.value.word]
        return (total * self.person.answers(Feature.TAPER),) * 2

    def _slope(self, value: Slope, true: float) -> float:
        gross = self.person.gross(Kind.LENGTH, How.CALIPER)
        sigma = math.hypot(
            math.sqrt(2) * self.person.sigma(Kind.LENGTH, How.CALIPER), true * OVER_ERROR_MM
        )
        step = self.person.observer.resolution_mm
        if value.rise_mm < step / 2:
            good, broad = phi((step / 2 - true * OVER_MM) / sigma), step / 2 / GROSS_RISE_MM
        else:
            good = _bin(value.rise_mm, step, true * OVER_MM, sigma)
            broad = step / GROSS_RISE_MM
        return (1 - gross) * good + gross * broad

    def _choice(self, reading: Reading, figure: Figure | None) -> Pair:
        if figure is None:
            return 0.0, 0.0
        assert isinstance(figure, Options)
        assert isinstance(reading.value, Choice)
        total = sum(
            share * self.person.report(reading.feature, str(true))[reading.value.word]
            for true, share in zip(figure.values, figure.shares, strict=True)
        )
        return (total * self.person.answers(reading.feature),) * 2

    def _angle(self, reading: Reading, figure: Figure | None) -> Pair:
        if figure is None:
            return (self._odd_angle(reading),) * 2
        assert isinstance(figure, Options)
        assert isinstance(reading.value, Angle)
        new = old = 0.0
        for cone, share in zip(figure.values, figure.shares, strict=True):
            assert isinstance(cone, Cone)
            share *= self.book.observation.chamfer_angled if cone.chamfer else 1.0
            for place, wear in enumerate((False, True)):
                chance = share * self._said(reading.value, cone.half_deg, wear, reading.how)
                new, old = (new, old + chance) if place else (new + chance, old)
        answers = self.person.answers(Feature.SEAT_ANGLE)
        return answers * new, answers * old

    def _odd_angle(self, reading: Reading) -> float:
        """Return how often this angle is said of a seat without a cone; summed over any cone."""
        assert isinstance(reading.value, Angle)
        low, high = ANY_HALF
        cells = round(high - low)
        mean = sum(
            self._said(reading.value, low + cell + 0.5, None, reading.how) for cell in range(cells)
        )
        chance = self.book.observation.no_cone_angled * self.person.answers(Feature.SEAT_ANGLE)
        return chance * mean / cells

    def _said(self, value: Angle, nominal: float, wear: bool | None, how: How) -> float:
        """Sum over what was measured (half or included) and what word was put to it."""
        unsaid, mixed = self.person.observer.unsaid, self.person.observer.mix_up
        total = 0.0
        for as_half in (True, False):
            if value.basis is None:
                word = unsaid
            else:
                right = (value.basis is Basis.HALF) == as_half
                word = (1 - unsaid) * (1 - mixed if right else mixed)
            total += 0.5 * word * self._number(value.deg, as_half, nominal, wear, how)
        return total

    def _number(
        self, deg: float, as_half: bool, nominal: float, wear: bool | None, how: How
    ) -> float:
        person, people = self.person, self.book.people
        gross, sigma = person.gross(Kind.ANGLE, how), person.sigma(Kind.ANGLE, how)
        # None: no seat at all, and so nothing to vary but the half degree of the sum
        edge = (
            0.5 if wear is None else people.seat_tolerance_deg,
            people.seat_wear_deg if wear else 0.0,
        )
        if how in (How.GAUGE, How.COMBS):
            model = self.book.observation
            leaves = model.seat_leaves_deg
            said = [i for i, leaf in enumerate(leaves) if leaf * (1 if as_half else 2) == deg]
            if not said:
                return 0.0
            chances = _leaf_chances(
                leaves, self.book.observation.seat_fits_deg, nominal, sigma, edge
            )
            beside_it = person.observer.neighbour_leaf
            called = (1 - beside_it) * chances[said[0]]
            for place, chance in enumerate(chances):
                for step in (-1, 1):
                    if slip_to(leaves, place, step, model.seat_slip_deg) == said[0]:
                        called += beside_it / 2 * chance
            return (1 - gross) * called + gross / len(leaves)
        step = EYE_STEP_DEG if how is How.EYE else 1
        scale = 1 if as_half else 2
        low, high = (deg - step / 2) / scale, (deg + step / 2) / scale
        good = _cone_cdf(high, nominal, sigma, edge) - _cone_cdf(low, nominal, sigma, edge)
        least, most = ANY_HALF
        inside = max(0.0, min(high, most) - max(low, least)) / (most - least)
        return (1 - gross) * good + gross * inside


@cache
def _fits(leaves: tuple[float, ...], true: float, reach: float, spread: float) -> tuple[float, ...]:
    """Return how often each leaf is the best and fits; the rest of 1 is that none fits."""
    order = sorted(range(len(leaves)), key=leaves.__getitem__)
    logs = [math.log(leaves[i] / true) for i in order]
    out = [0.0] * len(leaves)
    for place, number in enumerate(order):
        low, high = logs[place] - reach, logs[place] + reach
        if place:
            low = max(low, (logs[place - 1] + logs[place]) / 2)
        if place + 1 < len(logs):
            high = min(high, (logs[place + 1] + logs[place]) / 2)
        out[number] = max(0.0, phi(high / spread) - phi(low / spread))
    return tuple(out)


@cache
def _leaf_chances(
    leaves: tuple[float, ...], reach: float, nominal: float, sigma: float, edge: tuple[float, float]
) -> tuple[float, ...]:
    out = []
    for place, leaf in enumerate(leaves):
        low, high = leaf - reach, leaf + reach
        if place:
            low = max(low, (leaves[place - 1] + leaf) / 2)
        if place + 1 < len(leaves):
            high = min(high, (leaves[place + 1] + leaf) / 2)
        out.append(_cone_cdf(high, nominal, sigma, edge) - _cone_cdf(low, nominal, sigma, edge))
    return tuple(out)


@cache
def _cone_cdf(deg: float, nominal: float, sigma: float, edge: tuple[float, float]) -> float:
    """Return how often a seat reads below `deg`: two even spreads, averaged, and a normal error."""
    parts = 20
    total = 0.0
    for i in range(parts):
        first = edge[0] * ((2 * i + 1) / parts - 1)
        for j in range(parts if edge[1] else 1):
            second = edge[1] * ((2 * j + 1) / parts - 1) if edge[1] else 0.0
            total += phi((deg - nominal - first - second) / sigma)
    return total / parts / (parts if edge[1] else 1)


def _bin(value: float, step: float, true: float, sigma: float) -> float:
    return phi((value + step / 2 - true) / sigma) - phi((value - step / 2 - true) / sigma)


def _read(value: float, step: float, sigma: float, grid: Grid) -> float:
    """Return how often a length spread over a grid is read as `value`."""
    first, shares = grid.first_mm, grid.shares
    reach = 6 * sigma + step
    low = max(0, math.floor((value - reach - first) / GRID_MM))
    high = min(len(shares), math.ceil((value + reach - first) / GRID_MM) + 1)
    return sum(shares[i] * _bin(value, step, first + i * GRID_MM, sigma) for i in range(low, high))


def _near(value: float, step: float, reach: float, grid: Grid) -> float:
    """Return how often a slip that stays near the truth lands on `value`."""
    inside = grid.between(value * math.exp(-reach), value * math.exp(reach))
    return inside * step / (2 * reach * value)
