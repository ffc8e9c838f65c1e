"""The Bayes ceiling: the simulator turned round, knowing the observer and what parts are drawn.

The chance of a reading is worked out from how the simulated people make it, not from how the
reasoning weighs it: the true length is spread over a fine grid, everything else is summed exactly.
The reasoning lets what a person could not answer say nothing. So does the ceiling, unless it is
told of it: only then are its promises exact, because a feature that is not there often goes
unanswered.
"""

from collections.abc import Collection, Sequence
from itertools import pairwise

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Angle, Choice, How, Length, Pitch, Reading, Slope
from identify.reasoning.hypotheses import NONE
from identify.simulation.angles import chance_of_angle, silence_about_angle
from identify.simulation.blueprint import Figure, Span
from identify.simulation.lengths import chance_of_length
from identify.simulation.lots import Lot
from identify.simulation.people import Person
from identify.simulation.pitches import chance_of_pitch
from identify.simulation.spread import NOWHERE, Grid, grids_of
from identify.simulation.words import chance_of_slope, chance_of_word

IMPOSSIBLE = 1e-9  # so that a slip of the tongue about the gender leaves something standing
REMEMBERED = 2000  # readings whose chances are kept; the same words come again and again
Pair = tuple[float, float]  # chance on a new part, on a worn one


class Ceiling:
    """Inverts one lot and one person."""

    def __init__(self, lot: Lot, person: Person, rows: int) -> None:
        self.lot, self.person, self.rows = lot, person, rows
        self.book = person.book
        self._grids: dict[tuple[Feature, Figure], tuple[Grid, Grid]] = {}
        self._tables: dict[Reading, dict[Figure | None, Pair]] = {}

    def posterior(
        self, readings: Sequence[Reading], silent: Collection[Feature] = ()
    ) -> tuple[list[float], float]:
        """Return the probability of every row, and of a stranger.

        Args:
            readings: What was said.
            silent: What was asked and not answered; empty to let silence say nothing.
        """
        rows, strange = self.joint(readings, silent)
        whole = sum(rows) + strange
        return [each / whole for each in rows], strange / whole

    def joint(
        self, readings: Sequence[Reading], silent: Collection[Feature]
    ) -> tuple[list[float], float]:
        """Return how often every row, and a stranger, is drawn and all this said of it."""
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
        return rows, strange

    def chance(self, reading: Reading, figure: Figure | None) -> Pair:
        """Return how often exactly this is said of a new and of a worn part with this figure."""
        new, old = self._chance(reading, figure)
        return max(new, IMPOSSIBLE), max(old, IMPOSSIBLE)

    def silence(self, feature: Feature, figure: Figure | None) -> float:
        """Return how often nothing is said of a feature with this figure, or of one not there."""
        answers, kind = self.person.answers(feature), FEATURES[feature].kind
        if kind is Kind.LENGTH:
            nothing = 1 - self.person.gross(Kind.LENGTH, How.CALIPER)
            there = figure.chance if isinstance(figure, Span) else float(figure is not None)
            return there * (1 - answers) + (1 - there) * nothing
        if kind is Kind.ANGLE:
            return silence_about_angle(figure, self.person)
        return 1.0 if figure is None else 1 - answers

    def share_worn(self, feature: Feature) -> float:
        """Return the share of parts that are worn where this feature is measured."""
        if feature is Feature.SEAT_ANGLE:
            return self.book.people.seat_worn
        slack = self.book.observation.tolerances.get(feature)
        return slack.worn if slack and feature is not Feature.HOSE_BORE else 0.0

    def _chance(self, reading: Reading, figure: Figure | None) -> Pair:
        feature, how, person = reading.feature, reading.how, self.person
        match reading.value:
            case Length() as value:
                inch = reading.entered.endswith("in")
                grids = self._where(feature, figure)
                new, old = (
                    chance_of_length(value, how, inch, feature, figure, person, grid)
                    for grid in grids
                )
                return new, old
            case Angle() as value:
                return chance_of_angle(value, how, figure, person)
            case Pitch() as value:
                return (chance_of_pitch(value, how, figure, person),) * 2
            case Slope() as value:
                return (chance_of_slope(value, figure, person),) * 2
            case Choice() as value:
                return (chance_of_word(value, feature, figure, person),) * 2
            case _:  # what nobody in the simulation says
                return 0.0, 0.0

    def _where(self, feature: Feature, figure: Figure | None) -> tuple[Grid, Grid]:
        """Return where a length lies on new and on worn parts."""
        if figure is None:
            return NOWHERE, NOWHERE
        if (feature, figure) not in self._grids:
            self._grids[feature, figure] = grids_of(self.book, feature, figure)
        return self._grids[feature, figure]
