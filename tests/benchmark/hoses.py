"""How many lines are read right, are left open, or are read wrong, by class of damage."""

import csv
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
UNSEEN = Path(__file__).parent.parent / "references" / "hoses" / "unseen.csv"
ROUNDING = 1.025  # two roundings of one class of pressure


class Read(NamedTuple):
    """A line with what was made of it."""

    line: Line
    verdict: HoseVerdict

    @property
    def outcome(self) -> str:
        """One of read, wrong, ranked, abstained."""
        if self.verdict.kind is VerdictKind.IDENTIFIED:
            return "read" if self.verdict.readings[0].hose is self.line.hose else "wrong"
        if self.verdict.refused:
            return "abstained"
        return "ranked" if self.verdict.kind is VerdictKind.SHORTLIST else "abstained"

    @property
    def among(self) -> bool:
        """Whether a shortlist holds the true hose."""
        return self.outcome == "ranked" and any(
            each.hose is self.line.hose for each in self.verdict.readings
        )

    @property
    def date_wrong(self) -> bool:
        """Whether one date was said and it is another than that printed, or part of it."""
        if self.line.hose is None:
            return False
        return self.verdict.date not in (None, self.line.date, self.line.date[:4])

    @property
    def too_high(self) -> bool:
        """Whether an identified hose was given a pressure above what it carries."""
        if self.verdict.kind is not VerdictKind.IDENTIFIED:
            return False
        bar = self.verdict.readings[0].pressure.bar
        of_table = self.line.hose.rating_bar if self.line.hose else None
        known = [each for each in (self.line.bar, of_table) if each]
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


def composed(knowledge: Knowledge) -> list[Read]:
    """Read the lines that nobody saw while the reader was made: `unseen.csv`."""
    known = hose_knowledge(load_hoses(), knowledge.book)
    by_id = {hose.id: hose for hose in known.tables.hoses}
    with UNSEEN.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    made = []
    for row in rows:
        hose = by_id[f"{row['type']}:{row['dn']}"] if row["type"] else None
        bar = float(row["printed_bar"]) if row["printed_bar"] else None
        made.append(Line(row["line"], row["damage"], hose, bar, row["date"]))
    return read_all(made, known)


def measured(count: int, seed: int, knowledge: Knowledge, extra: Path | None) -> list[Read]:
    """Make lines of the shipped hoses and those of a user's folder, and read them all."""
    known = hose_knowledge(load_hoses(extra), knowledge.book)
    return read_all(lines(known.tables.hoses, count, seed), known)
