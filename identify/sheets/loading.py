"""All that sheets are worked out with, read from tables and rules."""

from pathlib import Path

from identify.knowledge.assembly_tables import load_assembly_rules
from identify.knowledge.fingerprint import fingerprints, hose_fingerprint
from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.loading import load_knowledge
from identify.reasoning.hose_knowledge import hose_knowledge
from identify.sheets.known import MadeWith, SheetKnowledge
from identify.version import version


def sheet_knowledge(tables: Path | None) -> SheetKnowledge:
    """Return all that sheets are worked out with."""
    known = load_knowledge(tables)
    hoses = hose_knowledge(load_hoses(tables), known.book)
    ends, rules = fingerprints(tables)
    made_with = MadeWith(ends, hose_fingerprint(tables), rules, version())
    return SheetKnowledge(known.catalogue, known.book, hoses, load_assembly_rules(), made_with)
