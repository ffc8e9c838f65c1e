"""Other simulated people: the same kinds, with errors of another shape than the reasoning believes.

The rules say normal errors, slips that fall on each reading alone, an instrument that is right on
the mean, and one step of reading. Here errors have heavier tails, some readings are rounded to half
a millimetre, a caliper is held too tight or too loose for a whole part, and an eye that slips once
on a part slips more often on it. Every figure is a factor on the observer's own, so there is one
table of habits; what a factor is was chosen for its shape, and no figure of the rules was fitted.
"""

import random
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import product

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Choice, How, Length, Reading, Slope
from identify.model.rule import HOW_TAKEN, Tool
from identify.simulation.blueprint import Figure
from identify.simulation.ceiling import Ceiling, Pair
from identify.simulation.lots import Lot
from identify.simulation.measuring import asked_of, observe
from identify.simulation.parts import Part
from identify.simulation.people import Person


@dataclass(frozen=True, slots=True)
class Day:
    """How one part is handled: `eye` times as many slips, calipers off by `bias_mm` at errors 1."""

    share: float
    eye: float
    bias_mm: float


@dataclass(frozen=True, slots=True)
class Mood:
    """How one reading is taken: `errors` times the spread; read to `step_mm`, 0 for as usual."""

    share: float
    errors: float
    step_mm: float


DAYS = tuple(
    Day(looks * holds, eye, bias)
    for (looks, eye), (holds, bias) in product(
        ((0.75, 0.6), (0.25, 2.2)), ((0.25, -0.04), (0.5, 0.0), (0.25, 0.04))
    )
)
MOODS = tuple(
    Mood(held * read, errors, step)
    for (held, errors), (read, step) in product(((0.9, 0.75), (0.1, 2.5)), ((0.9, 0.0), (0.1, 0.5)))
)


def in_mood(person: Person, mood: Mood) -> Person:
    """Return a person as one reading is taken."""
    own = person.observer
    errors, step = own.errors * mood.errors, mood.step_mm or own.resolution_mm
    return replace(person, observer=replace(own, errors=errors, resolution_mm=step))


def looking(person: Person, eye: float) -> Person:
    """Return a person whose eye slips so many times as often."""
    return replace(person, observer=replace(person.observer, eye=person.observer.eye * eye))


def moody_sheet(rng: random.Random, part: Part, person: Person) -> list[Reading]:
    """Return what such a person says who is asked for everything; see `fill_sheet`."""
    day = rng.choices(DAYS, [each.share for each in DAYS])[0]
    said = (
        observe_on(rng, day, part, feature, person, tool)
        for feature, tool in asked_of(part, person)
    )
    return [reading for reading in said if reading]


def observe_on(
    rng: random.Random, day: Day, part: Part, feature: Feature, person: Person, tool: Tool
) -> Reading | None:
    """Return what such a person says of one feature on one day; see `observe`."""
    mood = rng.choices(MOODS, [each.share for each in MOODS])[0]
    truth = part.truth.get(feature)
    if _by_caliper(feature, HOW_TAKEN[tool]) and isinstance(truth, float):
        off = day.bias_mm * person.observer.errors
        part = replace(part, truth=part.truth | {feature: truth + off})
    return observe(rng, part, feature, in_mood(looking(person, day.eye), mood), tool)


def _by_caliper(feature: Feature, how: How) -> bool:
    return FEATURES[feature].kind is Kind.LENGTH and how is How.CALIPER


class MoodyCeiling(Ceiling):
    """Inverts one lot and one such person: sums over how the part was handled, and each reading."""

    def __init__(self, lot: Lot, person: Person, rows: int) -> None:
        super().__init__(lot, person, rows)
        moods = [(each, Ceiling(lot, in_mood(person, each), rows)) for each in MOODS]
        self._days = [(each.share, _OnDay(lot, person, rows, each, moods)) for each in DAYS]

    def chance(self, reading: Reading, figure: Figure | None) -> Pair:
        """Return how often exactly this is said of a new and of a worn part, on any day."""
        return _mean([(share, day.chance(reading, figure)) for share, day in self._days])

    def joint(
        self, readings: Sequence[Reading], silent: Collection[Feature]
    ) -> tuple[list[float], float]:
        """Return what `Ceiling.joint` does, the days summed by how often they are."""
        rows, strange = [0.0] * self.rows, 0.0
        for share, day in self._days:
            own, other = day.joint(readings, silent)
            rows = [total + share * one for total, one in zip(rows, own, strict=True)]
            strange += share * other
        return rows, strange


class _OnDay(Ceiling):
    def __init__(
        self, lot: Lot, person: Person, rows: int, day: Day, moods: list[tuple[Mood, Ceiling]]
    ) -> None:
        super().__init__(lot, person, rows)
        self._off, self._moods = day.bias_mm * person.observer.errors, moods
        self._eye = Ceiling(lot, looking(person, day.eye), rows)

    def chance(self, reading: Reading, figure: Figure | None) -> Pair:
        if isinstance(reading.value, Choice):
            return self._eye.chance(reading, figure)
        shifted = reading
        if isinstance(reading.value, Length) and _by_caliper(reading.feature, reading.how):
            value = replace(reading.value, mm=reading.value.mm - self._off)
            shifted = replace(reading, value=value)
        return _mean(
            [
                (mood.share, each.chance(shifted, figure))
                for mood, each in self._moods
                if _read_in(reading, mood)
            ]
        )


def _read_in(reading: Reading, mood: Mood) -> bool:
    """Tell whether a reading lies on the steps in which it is read in a mood."""
    match reading.value:
        case Length(mm) if reading.how is How.CALIPER and not reading.entered.endswith("in"):
            number = mm
        case Slope(rise):
            number = rise
        case _:
            return True
    steps = number / mood.step_mm if mood.step_mm else 0.0
    return abs(steps - round(steps)) < 1e-6


def _mean(pairs: Sequence[tuple[float, Pair]]) -> Pair:
    new, old = (sum(share * pair[place] for share, pair in pairs) for place in (0, 1))
    return new, old
