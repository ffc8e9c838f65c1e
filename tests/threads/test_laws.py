"""Laws of the shipped threads that need their files or the formulas behind them.

The laws of threads as such stand in `tests/laws/threads.py`.
"""

import re

import pytest

from identify.threads import whitworth_pipe
from tests.threads.shipped import TABLES, shipped


def test_every_thread_names_its_file():
    assert {thread.provenance.file for thread in shipped().values()} <= {p.name for p in TABLES}


def test_class_of_a_g_thread_leaves_its_crest_alone():
    """ISO 228-1: class B doubles the pitch diameter tolerance of the male, nothing else."""
    for thread in (thread for thread in shipped().values() if thread.system == "G"):
        (a, female_a), (b, female_b) = (
            whitworth_pipe.limits_g(thread.major_mm, thread.tpi or 0, grade) for grade in "AB"
        )
        assert a.crest == b.crest
        assert female_a == female_b
        width_a, width_b = (x.pitch.high_mm - x.pitch.low_mm for x in (a, b))
        assert width_b == pytest.approx(2 * width_a, abs=1e-9)


def test_no_row_is_dropped():
    """Every row written in a table gives at least one thread."""
    written = sum(len(re.findall("designation:", path.read_text("utf-8"))) for path in TABLES)
    said = [thread.provenance for thread in shipped().values()]
    assert len({(each.file, each.line) for each in said}) == written
