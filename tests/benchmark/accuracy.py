"""How often the answer is right when a person fills in the whole sheet, against the ceiling."""

import random
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from identify.interview.session import Observed, apply, start
from identify.knowledge.loading import Knowledge
from identify.model.reading import Reading
from identify.model.verdict import Hazard, VerdictKind
from identify.reasoning.engine import Engine
from identify.reasoning.hypotheses import NONE
from identify.reasoning.posterior import Posterior
from identify.simulation.ceiling import Ceiling
from identify.simulation.parts import Lot, Part
from identify.simulation.people import Person, asked_of, fill_sheet
from tests.benchmark.chart import chart_ranking
from tests.benchmark.score import Score, share

IN_TABLE = 3  # groups that are looked at


@dataclass(frozen=True, slots=True)
class Terms:
    """What a run is to simulate: `errors` multiplies every observer's errors and mistakes.

    `region` draws parts by the prevalence of that origin, `even` every row alike; the reasoning
    keeps its usual prior, and nobody tells it the origin.
    """

    parts: int
    seed: int
    observers: tuple[str, ...]
    errors: float = 1.0
    region: str = ""
    even: bool = False
    families: bool = False


class Judge:
    """Runs the reasoning, the ceiling and the chart on one person's readings of one part."""

    def __init__(self, knowledge: Knowledge, terms: Terms) -> None:
        self.knowledge, self.terms = knowledge, terms
        self.catalogue, self.book = knowledge.catalogue, knowledge.book
        self.lot = Lot(self.catalogue, self.book, even=terms.even, region=terms.region)
        self.engine = Engine(self.catalogue, self.book, knowledge.hazards)
        self._without: dict[str, Engine] = {}

    def person(self, name: str) -> Person:
        """Return one of the named observers, with errors as the run asks for."""
        return Person(self.book.people.observers[name].scaled(self.terms.errors), self.book)

    def without(self, family: str) -> Engine:
        """Return an engine whose tables lack a family."""
        if family not in self._without:
            ends = tuple(end for end in self.catalogue.ends if end.family != family)
            tables = replace(self.catalogue, ends=ends)
            self._without[family] = Engine(tables, self.book, self.knowledge.hazards)
        return self._without[family]

    def judge(
        self, part: Part, readings: Sequence[Reading], ceiling: Ceiling, scores: Iterable[Score]
    ) -> None:
        """Count one part in every score."""
        engine, ends = self.engine, self.catalogue.ends
        state = engine.posterior(readings)
        groups = engine.groups(state, IN_TABLE)
        kind, _, _ = engine.settle(state, groups)
        ours = [{head, *joined} for head, _, joined in groups]
        said = {reading.feature for reading in readings}
        silent = [f for f, _ in asked_of(part, ceiling.person) if f not in said]
        place = _place(part.row, ours)
        top = self._ceiling(part, *ceiling.posterior(readings))
        told = self._ceiling(part, *ceiling.posterior(readings, silent))
        chart = _place(part.row, self._chart(readings))
        named = kind is VerdictKind.IDENTIFIED
        danger = (
            named and place != 0 and part.row != NONE and engine.risk is not None
            and engine.risk.hazard(ends[part.row], ends[groups[0][0]]) is Hazard.HIGH
        )  # fmt: skip
        for score in scores:
            score.identified += named
            score.identified_right += named and place == 0
            score.dangerous += danger
            if groups:
                score.ours_promise.add(groups[0][1], place == 0)
            if part.row == NONE:
                score.strangers += 1
                score.strangers_named += named
                continue
            score.parts += 1
            score.ours.add(place)
            score.ceiling.add(top)
            score.told.add(told)
            score.chart.add(chart)
        if part.row != NONE:
            self._judge_without(part, readings, scores)

    def _judge_without(
        self, part: Part, readings: Sequence[Reading], scores: Iterable[Score]
    ) -> None:
        end = self.catalogue.ends[part.row]
        engine = self.without(end.family)
        state = engine.posterior(readings)
        groups = engine.groups(state, IN_TABLE)
        named = engine.settle(state, groups)[0] is VerdictKind.IDENTIFIED
        twin = False
        if named:
            said = engine.catalogue.ends[groups[0][0]].id
            row = next(i for i, each in enumerate(self.catalogue.ends) if each.id == said)
            twin = self.engine.twins.same(part.row, row)
        for score in scores:
            score.removed += 1
            score.held += not named
            score.twin += twin

    def _ceiling(self, part: Part, rows: list[float], strange: float) -> int | None:
        """Return the place of the truth in a ceiling's ranking, in groups made up as ours are."""
        state = Posterior(self.engine.space, (), (), tuple(rows), strange, ())
        groups = self.engine.groups(state, IN_TABLE)
        return _place(part.row, [{head, *joined} for head, _, joined in groups])

    def _chart(self, readings: Sequence[Reading]) -> list[set[int]]:
        """Return the groups of the chart's first rows, made up as ours are."""
        left = chart_ranking(readings, self.catalogue)[:40]
        out: list[set[int]] = []
        while left and len(out) < IN_TABLE:
            head = left[0]
            group = {head, *(row for row in left[1:] if self.engine.twins.same(head, row))}
            out.append(group)
            left = [row for row in left if row not in group]
        return out


def run(knowledge: Knowledge, terms: Terms) -> list[Score]:
    """Return a score for each observer and for all of them together.

    With `families` there is one for each family over all observers instead.
    """
    judge = Judge(knowledge, terms)
    scores: dict[str, Score] = {}
    everybody = Score("all")
    for name in terms.observers:
        rng = random.Random(f"{terms.seed} {name}")
        person = judge.person(name)
        ceiling = Ceiling(judge.lot, person, len(judge.catalogue.ends))
        for _ in range(terms.parts):
            part = judge.lot.draw(rng)
            key = name
            if terms.families:
                ends = judge.catalogue.ends
                key = "strangers" if part.row == NONE else ends[part.row].family
            score = scores.setdefault(key, Score(key))
            judge.judge(part, counted(fill_sheet(rng, part, person)), ceiling, (score, everybody))
    if terms.families:
        return sorted(scores.values(), key=lambda each: -each.parts)
    return [*scores.values(), *([everybody] if len(scores) > 1 else [])]


def counted(sheet: Iterable[Reading]) -> tuple[Reading, ...]:
    """Return the readings of a sheet that an interview would count."""
    state = start()
    for reading in sheet:
        state = apply(state, Observed(reading))
    return state.readings


def _place(row: int, groups: list[set[int]]) -> int | None:
    return next((place for place, group in enumerate(groups) if row in group), None)


HEADER = (
    "", "parts", "first", "in 3", "ceiling", "ratio", "if told", "chart", "named", "right",
    "danger", "ECE", "by luck", "held", "twin", "strangers named",
)  # fmt: skip


def line(score: Score) -> tuple[str, ...]:
    """Return one line of the table; shares in per cent, `danger` in 1,000 named."""
    total = score.parts + score.strangers
    ratio = score.ours.first / score.ceiling.first if score.ceiling.first else 0.0
    return (
        score.name,
        str(total),
        share(score.ours.first, score.parts),
        share(score.ours.third, score.parts),
        share(score.ceiling.first, score.parts),
        f"{ratio:.3f}" if ratio else "-",
        share(score.told.first, score.parts),
        share(score.chart.first, score.parts),
        share(score.identified, total),
        share(score.identified_right, score.identified, 2),
        f"{1000 * score.dangerous / score.identified:.1f}" if score.identified else "-",
        f"{score.ours_promise.error:.3f}",
        f"{score.ours_promise.luck:.3f}",
        share(score.held, score.removed),
        share(score.twin, score.removed),
        f"{score.strangers_named}/{score.strangers}",
    )
