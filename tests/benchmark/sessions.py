"""Whole sessions over many parts: how long they take and how they end, by way of asking."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, fields

from identify.knowledge.loading import Knowledge
from identify.model.verdict import Hazard, VerdictKind
from identify.reasoning.hypotheses import NONE
from identify.simulation.parts import Part
from tests.benchmark.accuracy import Judge, Terms
from tests.benchmark.interviews import Choose, Course, adaptive, fixed_order, hold
from tests.benchmark.lookahead import two_step
from tests.benchmark.score import share


@dataclass
class Tally:
    """Counts of one observer asked in one way; `listed` of the parts are in the tables."""

    observer: str
    way: str
    sessions: int = 0
    listed: int = 0
    first: int = 0
    identified: int = 0
    right: int = 0
    dangerous: int = 0
    abstained: int = 0
    questions: int = 0
    minutes: float = 0.0
    retakes: int = 0

    def add(self, course: Course, part: Part, dangerous: bool) -> None:
        """Count one session."""
        named = course.kind is VerdictKind.IDENTIFIED
        self.sessions += 1
        self.listed += part.row != NONE
        self.first += course.leads(part.row)
        self.identified += named
        self.right += named and course.leads(part.row)
        self.dangerous += dangerous
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
    judge = Judge(knowledge, terms)
    found = [tally for name in terms.observers for tally in _observer(judge, name, ahead)]
    ways = list(dict.fromkeys(each.way for each in found))
    if len(terms.observers) == 1:
        return found
    return found + [_together(way, [each for each in found if each.way == way]) for way in ways]


def _together(way: str, tallies: list[Tally]) -> Tally:
    out = Tally("all", way)
    for each in fields(Tally):
        if each.name not in ("observer", "way"):
            setattr(out, each.name, sum(getattr(tally, each.name) for tally in tallies))
    return out


def _observer(judge: Judge, name: str, ahead: int) -> Iterator[Tally]:
    yield _asked(judge, name, "as asked", adaptive, judge.terms.parts)
    yield _asked(judge, name, "fixed form", fixed_order, judge.terms.parts)
    if ahead:
        few = min(ahead, judge.terms.parts)
        yield _asked(judge, name, f"as asked, first {few}", adaptive, few)
        yield _asked(judge, name, f"two steps ahead, first {few}", two_step, few)


def _asked(judge: Judge, name: str, way: str, choose: Choose, parts: int) -> Tally:
    engine, person = judge.engine, judge.person(name)
    rng = random.Random(f"{judge.terms.seed} {name}")
    tally = Tally(name, way)
    for number in range(parts):
        part = judge.lot.draw(rng)
        course = hold(f"{judge.terms.seed} {name} {number}", engine, part, person, choose)
        tally.add(course, part, _dangerous(judge, course, part))
    return tally


def _dangerous(judge: Judge, course: Course, part: Part) -> bool:
    if course.kind is not VerdictKind.IDENTIFIED or course.leads(part.row) or part.row == NONE:
        return False
    ends, risk = judge.catalogue.ends, judge.engine.risk
    taken = ends[course.groups[0][0]]
    return risk is not None and risk.hazard(ends[part.row], taken) is Hazard.HIGH


HEADER = (
    "", "asked", "sessions", "first", "named", "right", "danger", "abstain", "questions",
    "minutes", "retakes",
)  # fmt: skip


def session_line(tally: Tally) -> tuple[str, ...]:
    """Return one line of the table; shares in per cent, `danger` in 1,000 named."""
    each = tally.sessions
    return (
        tally.observer,
        tally.way,
        str(each),
        share(tally.first, tally.listed),
        share(tally.identified, each),
        share(tally.right, tally.identified, 2),
        f"{1000 * tally.dangerous / tally.identified:.1f}" if tally.identified else "-",
        share(tally.abstained, each),
        f"{tally.questions / each:.2f}",
        f"{tally.minutes / each:.2f}",
        f"{tally.retakes / each:.2f}",
    )
