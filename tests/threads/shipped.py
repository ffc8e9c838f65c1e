"""The shipped thread tables and ways to address their figures in tests."""

from functools import cache
from pathlib import Path

from identify.knowledge.fields import Faults
from identify.knowledge.thread_tables import read_threads
from identify.model.source import Provenance, Support
from identify.model.thread import Thread
from identify.threads import metric, unified
from identify.threads.designation import parse
from identify.threads.profile import MM_PER_INCH

ROOT = Path(__file__).resolve().parents[2]
TABLES = sorted((ROOT / "thread_tables" / "threads").glob("*.yaml"))
REFERENCES = Path(__file__).parent / "references"
NOBODY = Provenance("test", Support.COMPUTED)


@cache
def shipped() -> dict[str, Thread]:
    """Return every shipped thread by designation."""
    faults = Faults()
    threads = {}
    for path in TABLES:
        for thread in read_threads(path.read_text(encoding="utf-8"), path.name, faults):
            assert thread.designation not in threads
            threads[thread.designation] = thread
    assert not faults.found
    return threads


def thread_of(designation: str) -> Thread:
    """Return the shipped thread, else one computed from its designation alone."""
    if designation in shipped():
        return shipped()[designation]
    said = parse(designation)
    if said.system == "M":
        return metric.thread(designation, float(said.size), said.pitch_mm or 0, NOBODY)
    return unified.thread(designation, float(said.size), said.tpi or 0, said.letters, NOBODY)


def limit(thread: Thread, name: str) -> float:
    """Return one limit of size [mm] by its name in tables, such as "external_crest_max"."""
    gender, diameter, end = name.split("_")
    limits = getattr(thread, gender)
    return getattr(getattr(limits, diameter), {"min": "low_mm", "max": "high_mm"}[end])


def inch(value_mm: float) -> float:
    """Return inches."""
    return value_mm / MM_PER_INCH
