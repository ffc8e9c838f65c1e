"""What every exercise is made with: the engine, the parts, the people, the pairs."""

import random
from functools import cached_property

from identify.drawing.bench import Look
from identify.drawing.ends import bench_view
from identify.frozen import replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.model.rule import Tool
from identify.practice.exercise import CANNOT_TELL, Exercise, Option, Pair, Shown
from identify.practice.pairs import pairs_of
from identify.reasoning.engine import Engine
from identify.reasoning.hazards import Hazards
from identify.reasoning.hypotheses import row_weights
from identify.simulation.blueprint import blueprint_of
from identify.simulation.measuring import asked_of, observe
from identify.simulation.parts import Make, Part, make_part
from identify.simulation.people import Person

PEOPLE = ("careful", "ordinary", "ordinary", "hurried")
"""Who measured what is shown, level by level."""
HARDEST = len(PEOPLE) - 1
SURE = 0.95  # of the ends in the tables: so much must stand behind an answer that the readings give
_NEW = 0.9  # condition from which a part is as good as new
_TIMES = 60  # so often a new part is looked for, and a reading tried
_EVERY_TOOL = frozenset(Tool) - {Tool.COMBS, Tool.KNOWN_ENDS, Tool.RULE, Tool.NONE}


class Room:
    """One set of tables and rules to practise on."""

    def __init__(self, engine: Engine, hazards: Hazards) -> None:
        self.engine, self.hazards = engine, hazards
        self.catalogue, self.book = engine.catalogue, engine.book

    @cached_property
    def pairs(self) -> tuple[Pair, ...]:
        """All pairs, the gravest and most usual first."""
        found = pairs_of(self.catalogue, self.book, self.hazards)
        return tuple(pair for pair in found if self._apart(pair))

    def _apart(self, pair: Pair) -> bool:
        """Tell whether any example of a pair is two answers, and not one under two names."""
        same = self.engine.one_answer.same
        return any(not same(min(rows), max(rows)) for rows in pair.examples)

    @cached_property
    def by_key(self) -> dict[str, Pair]:
        """All pairs by their names in a file."""
        return {pair.key: pair for pair in self.pairs}

    @cached_property
    def common(self) -> list[float]:
        """How usual every row is."""
        return row_weights(self.catalogue, self.book.priors)

    @cached_property
    def exact(self) -> Person:
        """Somebody with every tool who never slips: what a whole measurement gives."""
        careful = self.book.people.observers["careful"].scaled(0.0)
        careful = replace(careful, tools=_EVERY_TOOL, inches=0.0, unsaid=0.0, missing=0.0)
        return Person(careful, self.book)

    def person(self, level: int) -> Person:
        """Return who measured what is shown on a level."""
        return Person(self.book.people.observers[PEOPLE[level]], self.book)

    def part(self, rng: random.Random, row: int, level: int) -> Part:
        """Return a part made as a row says; as good as new on the first level."""
        end = self.catalogue.ends[row]
        seat = rng.choices(end.seats, [each.share for each in end.seats])[0]
        make = Make(row, blueprint_of(end, seat, self.catalogue, self.book), 1.0)
        part = make_part(rng, make, self.book)
        for _ in range(_TIMES):
            if level or part.condition > _NEW:
                break
            part = make_part(rng, make, self.book)
        return part

    def whole(self, rng: random.Random, part: Part) -> tuple[Reading, ...]:
        """Return what a whole measurement without a slip gives of a part."""
        found = (self.read(rng, part, each, self.exact, tool)
                 for each, tool in asked_of(part, self.exact))  # fmt: skip
        return tuple(reading for reading in found if reading)

    def picture(self, end: EndConnection, part: Part) -> Shown:
        """Return a part as it lies there, with its wear; its words do not say what it is."""
        thread = self.catalogue.thread_of(end)
        worn = self.worn_mm(end, part)
        return "", bench_view(end, thread, Look.BENCH, worn_mm=worn, name="The part")

    def worn_mm(self, end: EndConnection, part: Part) -> float:
        """Return how far the crests of a part lie beyond the limits when new, on the radius [mm].

        0 where the thread is not worn as far as can be measured.
        """
        thread, true = self.catalogue.thread_of(end), part.truth.get(crest_feature(end))
        new = thread.crest(end.gender) if thread else None
        if new is None or not isinstance(true, float):
            return 0.0
        beyond = true - new.high_mm if end.gender == "female" else new.low_mm - true
        return max(0.0, beyond) / 2

    def read(
        self, rng: random.Random, part: Part, feature: Feature, person: Person, tool: Tool
    ) -> Reading | None:
        """Return a reading of a feature; None only where there is nothing to read."""
        for _ in range(_TIMES):
            if found := observe(rng, part, feature, person, tool):
                return found
        return None

    def told(self, options: tuple[Option, ...], readings: tuple[Reading, ...]) -> str:
        """Return which option the readings leave no other for, in the engine's judgement.

        Ends that no option names, and ends in no table, are left aside.
        """
        rows = self.engine.posterior(readings).rows
        shares = {each.key: sum(rows[row] for row in each.rows) for each in options if each.rows}
        best = max(shares, key=lambda key: shares[key])
        whole = sum(shares.values())
        return best if whole and shares[best] >= SURE * whole else CANNOT_TELL

    def answer(self, exercise: Exercise) -> str:
        """Return the right answer to an exercise, as the engine finds it from what is shown."""
        return self.told(exercise.options, exercise.judged)

    def right(self, exercise: Exercise) -> str:
        """Return the option that names the end which lies there, worked out from its row."""
        row = self.catalogue.row_of[exercise.truth.id]
        return next((each.key for each in exercise.options if row in each.rows), "")

    def thread_rows(self, designation: str, gender: str) -> frozenset[int]:
        """Return the rows of a gender that are made with one thread alone."""
        return frozenset(row for row, end in enumerate(self.catalogue.ends)
                         if end.gender == gender and end.threads == (designation,))  # fmt: skip


def crest_feature(end: EndConnection) -> Feature:
    """Return the feature under which the crests of an end are measured."""
    return Feature.THREAD_ID if end.gender == "female" else Feature.THREAD_OD
