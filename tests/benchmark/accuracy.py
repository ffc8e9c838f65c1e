"""How often the answer is right when a person fills in the whole sheet, against the ceiling."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field, replace

from identify.knowledge.loading import Knowledge
from identify.model.reading import Reading
from identify.model.verdict import VerdictKind
from identify.reasoning.engine import Engine, Group
from identify.reasoning.hypotheses import NONE
from identify.reasoning.posterior import Posterior, standing_in
from identify.simulation.ceiling import Ceiling
from identify.simulation.measuring import asked_of
from identify.simulation.parts import Part
from tests.benchmark.bench import Bench, Terms
from tests.benchmark.chart import chart_ranking
from tests.benchmark.score import NAMED, Calibration, Hits, Named, share

IN_TABLE = 3  # groups that are looked at
ON_A_CHART = 40  # rows of the chart that are looked at; groups of it are smaller


@dataclass(frozen=True, slots=True)
class Judged:
    """What was made of one part.

    Places of the truth count from 0, None beyond the third: `ours`, the `ceiling`, the ceiling
    `told` of what went unanswered, and the `chart`. `promise` is the probability of the leading
    group. With the part's family taken out of the tables it was `held` in abstain or shortlist,
    or identified as its `twin`, an end that no measurement tells from it.
    """

    row: int
    ours: int | None
    promise: float
    named: bool
    dangerous: bool
    ceiling: int | None = None
    told: int | None = None
    chart: int | None = None
    held: bool = False
    twin: bool = False


@dataclass
class Score:
    """All counts of one observer or one family.

    `parts` are rows of the tables, `strangers` ends in no table; the rest as in `Judged`.
    """

    name: str
    parts: int = 0
    strangers: int = 0
    strangers_named: int = 0
    ours: Hits = field(default_factory=Hits)
    ceiling: Hits = field(default_factory=Hits)
    told: Hits = field(default_factory=Hits)
    chart: Hits = field(default_factory=Hits)
    named: Named = field(default_factory=Named)
    promise: Calibration = field(default_factory=Calibration)
    held: int = 0
    twin: int = 0

    def add(self, found: Judged) -> None:
        """Count one part."""
        self.promise.add(found.promise, found.ours == 0)
        if found.named:
            self.named.add(found.ours == 0, found.dangerous)
        if found.row == NONE:
            self.strangers += 1
            self.strangers_named += found.named
            return
        self.parts += 1
        self.ours.add(found.ours)
        self.ceiling.add(found.ceiling)
        self.told.add(found.told)
        self.chart.add(found.chart)
        self.held += found.held
        self.twin += found.twin


class Judge:
    """Runs the reasoning, the ceiling and the chart on one person's readings of one part."""

    def __init__(self, bench: Bench, engine: Engine) -> None:
        self.bench, self.engine = bench, engine
        self._without: dict[str, Engine] = {}
        self._row = {end.id: row for row, end in enumerate(bench.catalogue.ends)}

    def judge(self, part: Part, readings: Sequence[Reading], ceiling: Ceiling) -> Judged:
        """Return what was made of a part."""
        groups, named = _answer(self.engine, readings)
        danger = named and self.bench.dangerous(part, groups[0])
        chance = groups[0][1] if groups else 0.0  # all but none-of-these may be ruled out
        ours = Judged(part.row, _place(part.row, groups), chance, named, danger)
        if part.row == NONE:
            return ours
        said = {reading.feature for reading in readings}
        silent = [f for f, _ in asked_of(part, ceiling.person) if f not in said]
        held, twin = self._without_its_family(part.row, readings)
        return replace(
            ours,
            ceiling=self._placed(part.row, *ceiling.posterior(readings)),
            told=self._placed(part.row, *ceiling.posterior(readings, silent)),
            chart=self._on_a_chart(part.row, readings),
            held=held,
            twin=twin,
        )

    def without(self, family: str) -> Engine:
        """Return an engine whose tables lack a family."""
        if family not in self._without:
            ends = tuple(end for end in self.bench.catalogue.ends if end.family != family)
            tables = replace(self.bench.catalogue, ends=ends)
            self._without[family] = Engine(
                tables, self.bench.book, self.bench.hazards, care=self.engine.care
            )
        return self._without[family]

    def _without_its_family(self, row: int, readings: Sequence[Reading]) -> tuple[bool, bool]:
        engine = self.without(self.bench.catalogue.ends[row].family)
        groups, named = _answer(engine, readings)
        if not named:
            return True, False
        taken = self._row[engine.catalogue.ends[groups[0][0]].id]
        return False, self.engine.twins.same(row, taken)

    def _placed(self, row: int, rows: list[float], strange: float) -> int | None:
        """Return the place of the truth in a ceiling's ranking, in groups made up as ours are."""
        standing = standing_in(rows, self.engine.space)
        state = Posterior(self.engine.space, (), (), rows, strange, standing, ())
        return _place(row, self.engine.groups(state, IN_TABLE))

    def _on_a_chart(self, row: int, readings: Sequence[Reading]) -> int | None:
        """Return the place of the truth on the chart, in groups made up as ours are."""
        left = chart_ranking(readings, self.bench.catalogue)[:ON_A_CHART]
        for place in range(IN_TABLE):
            if not left:
                break
            group = {each for each in left if self.engine.twins.same(left[0], each)} | {left[0]}
            if row in group:
                return place
            left = [each for each in left if each not in group]
        return None


def _answer(engine: Engine, readings: Sequence[Reading]) -> tuple[list[Group], bool]:
    """Return the leading groups, and whether the first is named as the answer."""
    state = engine.posterior(readings)
    groups = engine.groups(state, IN_TABLE)
    return groups, engine.settle(state, groups)[0] is VerdictKind.IDENTIFIED


def _place(row: int, groups: Collection[Group]) -> int | None:
    return next((n for n, (head, _, joined) in enumerate(groups) if row in (head, *joined)), None)


def run(knowledge: Knowledge, terms: Terms, *, families: bool = False) -> list[Score]:
    """Return a score for each observer and for all of them together.

    With `families` there is one for each family over all observers instead, and one of strangers.
    """
    bench = Bench(knowledge, terms)
    ends = bench.catalogue.ends
    scores: dict[str, Score] = {}
    judges: dict[str, Judge] = {}
    everybody = Score("all")
    for name in terms.observers:
        person = bench.person(name)
        ceiling, engine = bench.ceiling(person), bench.reasoning(name)
        judge = judges.setdefault(engine.care, Judge(bench, engine))
        for rng, part in bench.draw(name, terms.parts, "whole sheets"):
            found = judge.judge(part, bench.sheet(rng, part, person), ceiling)
            family = "strangers" if part.row == NONE else ends[part.row].family
            key = family if families else name
            for score in (scores.setdefault(key, Score(key)), everybody):
                score.add(found)
    if families:
        return sorted(scores.values(), key=lambda each: -each.parts)
    return [*scores.values(), *([everybody] if len(scores) > 1 else [])]


HEADER = (
    "", "parts", "first", "in 3", "ceiling", "ratio", "if told", "chart", *NAMED, "ECE", "by luck",
    "held", "twin", "strangers named",
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
        *score.named.cells(total),
        f"{score.promise.error:.3f}",
        f"{score.promise.luck:.3f}",
        share(score.held, score.parts),
        share(score.twin, score.parts),
        f"{score.strangers_named}/{score.strangers}",
    )


BINS_HEADER = ("", "promised", "answers", "mean promise", "right")


def bin_lines(score: Score) -> list[tuple[str, ...]]:
    """Return one line for every tenth of promised probability."""
    return [
        (score.name, name, str(number), f"{promise:.3f}", f"{right:.3f}")
        for name, number, promise, right in score.promise.lines()
    ]
