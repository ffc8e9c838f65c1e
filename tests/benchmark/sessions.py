"""Whole sessions over many parts: how long they take and how they end, by way of asking."""

from dataclasses import dataclass, field

from identify.knowledge.loading import Knowledge
from identify.model.verdict import VerdictKind
from identify.reasoning.hypotheses import NONE
from identify.simulation.parts import Part
from tests.benchmark.bench import Bench, Terms
from tests.benchmark.interviews import Choose, Course, adaptive, fixed_order, hold
from tests.benchmark.lookahead import two_step
from tests.benchmark.score import NAMED, Named, share


@dataclass
class Tally:
    """Counts of one observer asked in one way; `listed` of the parts are in the tables."""

    observer: str
    way: str
    sessions: int = 0
    listed: int = 0
    first: int = 0
    named: Named = field(default_factory=Named)
    abstained: int = 0
    questions: int = 0
    minutes: float = 0.0
    retakes: int = 0

    def add(self, course: Course, part: Part, bench: Bench) -> None:
        """Count one session."""
        self.sessions += 1
        self.listed += part.row != NONE
        self.first += course.leads(part.row)
        if course.kind is VerdictKind.IDENTIFIED:
            self.named.add(course.leads(part.row), bench.dangerous(part, course.groups[0]))
        self.abstained += course.kind is VerdictKind.ABSTAIN
        self.questions += course.questions
        self.minutes += course.minutes
        self.retakes += course.retakes


def run(knowledge: Knowledge, terms: Terms, ahead: int) -> list[Tally]:
    """Return tallies for each observer: as the product asks, by a fixed form, by looking ahead.

    More than one observer are also counted together.

    Args:
        knowledge: Tables and rules.
        terms: What to simulate.
        ahead: So many of the parts are also asked with two-step look-ahead, which is slow; beside
            it stands the product on the same parts.
    """
    bench, few = Bench(knowledge, terms), min(ahead, terms.parts)
    ways: list[tuple[str, Choose, int]] = [
        ("as asked", adaptive, terms.parts),
        ("fixed form", fixed_order, terms.parts),
    ]
    if few:
        ways += [
            (f"as asked, first {few}", adaptive, few),
            (f"two steps ahead, first {few}", two_step, few),
        ]
    everybody = [Tally("all", way) for way, _, _ in ways]
    found = []
    for name in terms.observers:
        person = bench.person(name)
        for (way, choose, parts), together in zip(ways, everybody, strict=True):
            tally = Tally(name, way)
            for number, (_, part) in enumerate(bench.draw(name, parts, way)):
                seed = f"{terms.seed} {name} {number}"
                course = hold(seed, bench.reasoning(name), part, person, choose)
                tally.add(course, part, bench)
                together.add(course, part, bench)
            found.append(tally)
    return found + (everybody if len(terms.observers) > 1 else [])


HEADER = (
    "", "asked", "sessions", "first", *NAMED, "abstain", "questions", "minutes", "retakes",
)  # fmt: skip


def line(tally: Tally) -> tuple[str, ...]:
    """Return one line of the table; shares in per cent, `danger` in 1,000 named."""
    each = tally.sessions
    return (
        tally.observer,
        tally.way,
        str(each),
        share(tally.first, tally.listed),
        *tally.named.cells(each),
        share(tally.abstained, each),
        f"{tally.questions / each:.2f}",
        f"{tally.minutes / each:.2f}",
        f"{tally.retakes / each:.2f}",
    )
