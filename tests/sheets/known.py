"""What the tests of sheets work with: shipped tables, and one whole sheet to change."""

from pathlib import Path
from typing import Any

from identify.knowledge.assembly_tables import build_assembly_rules
from identify.knowledge.hose_loading import build_hoses
from identify.knowledge.sheet_file import read_sheet_file
from identify.reasoning.hose_knowledge import hose_knowledge
from identify.sheets.belonging import findings
from identify.sheets.desk import Desk
from identify.sheets.filling import fill
from identify.sheets.finding import Finding
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import Worked, work_out
from tests.shipped import knowledge

KNOWN = SheetKnowledge(
    knowledge().catalogue,
    knowledge().book,
    hose_knowledge(build_hoses(), knowledge().book),
    build_assembly_rules(),
)
GOOD, _ = read_sheet_file(
    (Path(__file__).parent / "goldens" / "two-elbows.yaml").read_text(encoding="utf-8"), "good"
)
"""Entries of an invented scenario in which everything belongs together."""


def worked_with(**changed: str) -> Worked:
    """Return the good sheet with some entries changed; `a__end` stands for "a.end"."""
    texts = GOOD | {path.replace("__", "."): text for path, text in changed.items()}
    filled = fill(texts, KNOWN)
    assert not filled.faults
    return work_out(filled.sheet, KNOWN)


def found_with(**changed: str) -> dict[str, Finding]:
    """Return what does not belong together on the good sheet with some entries changed."""
    return {each.key: each for each in findings(worked_with(**changed), KNOWN)}


class Unkept:
    """Keeps nothing, and counts how often it was asked to."""

    def __init__(self) -> None:
        self.kept: list[dict[str, Any]] = []

    def keep(self, sheet: dict[str, Any]) -> Path:
        self.kept.append(sheet)
        return Path("nowhere.json")


def desk_with(**changed: str) -> Desk:
    """Return the good sheet at work, with some entries changed."""
    texts = GOOD | {path.replace("__", "."): text for path, text in changed.items()}
    return Desk(KNOWN, {path: text for path, text in texts.items() if text}, Unkept())
