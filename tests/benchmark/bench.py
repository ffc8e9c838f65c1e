"""What a benchmark runs on: the reasoning, the parts that are drawn, the people who measure."""

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from identify.interview.session import Observed, replay
from identify.knowledge.loading import Knowledge
from identify.model.observer import CARES
from identify.model.reading import Reading
from identify.model.verdict import Hazard
from identify.reasoning.engine import Engine, Group
from identify.reasoning.hypotheses import NONE
from identify.simulation.ceiling import Ceiling
from identify.simulation.lots import Lot
from identify.simulation.measuring import fill_sheet
from identify.simulation.parts import Part
from identify.simulation.people import Person
from tests.benchmark.moods import MoodyCeiling, moody_sheet
from tests.benchmark.progress import shown


@dataclass(frozen=True, slots=True)
class Terms:
    """What a run is to simulate: `errors` multiplies every observer's errors and mistakes.

    `region` draws parts by the prevalence of that origin, `even` every row alike; the reasoning
    keeps its usual prior, and nobody tells it the origin. With `care` it is told who measures (no
    gauges: an ordinary fitter). With `moody` whole sheets are filled in by the people of `moods`.
    """

    parts: int
    seed: int
    observers: tuple[str, ...]
    errors: float = 1.0
    region: str = ""
    even: bool = False
    care: bool = False
    moody: bool = False


class Bench:
    """Engine, lot and people of one run."""

    def __init__(self, knowledge: Knowledge, terms: Terms) -> None:
        self.terms, self.hazards = terms, knowledge.hazards
        self.catalogue, self.book = knowledge.catalogue, knowledge.book
        self.lot = Lot(self.catalogue, self.book, even=terms.even, region=terms.region)
        self.engine = Engine(self.catalogue, self.book, self.hazards)

    def person(self, name: str) -> Person:
        """Return one of the named observers, with errors as the run asks for."""
        return Person(self.book.people.observers[name].scaled(self.terms.errors), self.book)

    def reasoning(self, name: str) -> Engine:
        """Return what reasons on the readings of one of the observers."""
        if not self.terms.care:
            return self.engine
        return self.engine.measured_by(name if name in CARES else "ordinary")

    def sheet(self, rng: random.Random, part: Part, person: Person) -> tuple[Reading, ...]:
        """Return the readings of a whole sheet that an interview would count."""
        return counted((moody_sheet if self.terms.moody else fill_sheet)(rng, part, person))

    def ceiling(self, person: Person) -> Ceiling:
        """Return what inverts the people of this run."""
        kind = MoodyCeiling if self.terms.moody else Ceiling
        return kind(self.lot, person, len(self.catalogue.ends))

    def draw(self, name: str, number: int, what: str) -> Iterator[tuple[random.Random, Part]]:
        """Yield so many parts for an observer, the same in every run, each with what draws on.

        Args:
            name: The observer.
            number: How many parts.
            what: Is done with them; stands before the bar.
        """
        rng = random.Random(f"{self.terms.seed} {name}")
        for _ in shown(range(number), number, f"{name}, {what}"):
            yield rng, self.lot.draw(rng)

    def dangerous(self, part: Part, leading: Group) -> bool:
        """Tell whether it is a high hazard to take a part for the end that leads."""
        ends, risk = self.catalogue.ends, self.engine.risk
        head, _, joined = leading
        if risk is None or part.row in (NONE, head, *joined):
            return False
        return risk.hazard(ends[part.row], ends[head]) is Hazard.HIGH


def counted(sheet: Iterable[Reading]) -> tuple[Reading, ...]:
    """Return the readings of a sheet that an interview would count."""
    return replay(map(Observed, sheet)).readings
