"""How many lines are read right, are left open, or are read wrong, by class of damage."""

from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.loading import Knowledge
from identify.model.hose import HoseMeasures
from identify.model.hose_verdict import HoseVerdict
from identify.model.verdict import VerdictKind
from identify.reading.hose_line import read_hose_line
from identify.reasoning.hose_knowledge import HoseKnowledge, hose_knowledge
from identify.reasoning.hose_verdict import identify_hose
from tests.benchmark.hose_lines import Line, lines

HEADER = ("damage", "lines", "read", "wrong", "ranked", "true one among them", "abstained",
          "date wrong", "pressure above")  # fmt: skip
ROUNDING = 1.025  # two roundings of one class of pressure


class Read(NamedTuple):
    """A line with what was made of it."""

    line: Line
    verdict: HoseVerdict

    @property
    def outcome(self) -> str:
        """One of read, wrong, ranked, abstained."""
        if self.verdict.kind is VerdictKind.IDENTIFIED:
            right = self.verdict.readings[0].hose.id == self.line.hose.id
            return "read" if right else "wrong"
        return "ranked" if self.verdict.kind is VerdictKind.SHORTLIST else "abstained"

    @property
    def among(self) -> bool:
        """Whether a shortlist holds the true hose."""
        return self.outcome == "ranked" and any(
            each.hose.id == self.line.hose.id for each in self.verdict.readings
        )

    @property
    def date_wrong(self) -> bool:
        """Whether one date was said and it is another than that printed."""
        return self.verdict.date not in (None, self.line.date, self.line.date[:4])

    @property
    def too_high(self) -> bool:
        """Whether an identified hose was given a pressure above what it carries."""
        if self.verdict.kind is not VerdictKind.IDENTIFIED:
            return False
        bar = self.verdict.readings[0].pressure.bar
        known = [each for each in (self.line.bar, self.line.hose.rating_bar) if each]
        return bar is not None and bool(known) and bar > ROUNDING * max(known)


def read_all(made: Iterable[Line], known: HoseKnowledge) -> list[Read]:
    """Read every line."""
    nothing = HoseMeasures()
    return [Read(each, identify_hose(read_hose_line(each.text), nothing, known)) for each in made]


def table(reads: Sequence[Read]) -> list[tuple[str, ...]]:
    """Return a row for each class of damage, and one of all."""
    rows = []
    for damage in [*dict.fromkeys(each.line.damage for each in reads), "all"]:
        group = [each for each in reads if damage in ("all", each.line.damage)]
        found = Counter(each.outcome for each in group)
        rows.append(
            (
                damage, str(len(group)), str(found["read"]), str(found["wrong"]),
                str(found["ranked"]), str(sum(each.among for each in group)),
                str(found["abstained"]), str(sum(each.date_wrong for each in group)),
                str(sum(each.too_high for each in group)),
            )
        )  # fmt: skip
    return rows


def measured(count: int, seed: int, knowledge: Knowledge, extra: Path | None) -> list[Read]:
    """Make lines of the shipped hoses and those of a user's folder, and read them all."""
    known = hose_knowledge(load_hoses(extra), knowledge.book)
    return read_all(lines(known.tables.hoses, count, seed), known)
