"""What is exported comes back equal; what is taken in is checked; a cell is never a formula."""

import csv
import io
import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.errors import RecordError
from identify.interview.session import Claimed
from identify.jobs.exchange import (
    COLUMNS,
    Sent,
    cell_of,
    job_from,
    job_record,
    jobs_in_lines,
    jobs_in_table,
    lines_of,
    sent,
    table_of,
)
from identify.jobs.facts import FIRST, Corrected, Fate, Field, Noted, Settled
from identify.jobs.names import without_names
from identify.jobs.reference import reference_of
from identify.jobs.shelf import Shelf
from tests.jobs.steps import entries

AT = "2026-11-26T08:30:00Z"
jobs = st.builds(Sent, st.integers(0, 10**9).map(reference_of), st.just(AT), entries)


@given(st.lists(jobs, max_size=3))
def test_jobs_come_back_equal_from_lines_and_from_a_table(many: list[Sent]) -> None:
    assert list(jobs_in_lines("".join(lines_of(many)).splitlines(keepends=True))) == many or any(
        character in "".join(lines_of(many)) for character in "\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029"
    )
    assert list(jobs_in_lines(io.StringIO("".join(lines_of(many)), newline="\n"))) == many
    assert list(jobs_in_table(io.StringIO("".join(table_of(many)), newline=""))) == many


@given(st.lists(jobs, max_size=3))
def test_no_cell_is_a_formula_or_moves_a_cursor(many: list[Sent]) -> None:
    text = "".join(table_of(many))
    rows = list(csv.reader(io.StringIO(text, newline="")))
    assert rows[0] == list(COLUMNS)
    for cell in (cell for row in rows for cell in row):
        assert not cell.startswith(("=", "+", "-", "@", "\t", "\r"))
        assert not any(character in cell for character in "\x1b\x9b\u202e\x00")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1"])
def test_a_formula_is_made_text(text: str) -> None:
    assert cell_of(text).startswith("'")


def test_a_job_on_the_disk_comes_back_equal_on_another_machine(tmp_path: Path) -> None:
    here, there = Shelf(tmp_path / "here"), Shelf(tmp_path / "there")
    steps = ((FIRST, Noted(Field.CUSTOMER, "Hill Farm")), (FIRST, Settled(Fate.FITTED, "", AT)))
    assert here.take_in("222-222", AT, steps)
    here.close()
    (out,) = [sent(here.kept(each)) for each in here.index.every()]
    assert there.take_in(out.reference, out.begun, out.entries)
    there.close()
    assert sent(there.called("222222")) == out
    there.close()
    assert not there.take_in(out.reference, out.begun, out.entries)
    with pytest.raises(RecordError, match="is another job here"):
        there.take_in(out.reference, out.begun, steps[:1])


def test_without_names_nobody_is_named() -> None:
    steps = (
        (FIRST, Noted(Field.CUSTOMER, "Ann")),
        (FIRST, Noted(Field.MACHINE, "Ann's")),
        (FIRST, Noted(Field.NOTE, "Ann")),
        (FIRST, Noted(Field.MEASURED_BY, "Ann")),
        (FIRST, Noted(Field.CHECKED_BY, "Ann")),
        (FIRST, Claimed("half inch", "Ann", AT, (), "Ann wants it")),
        (FIRST, Settled(Fate.CAME_BACK, "Ann said it leaked", AT)),
        (FIRST, Corrected("customer", "Ann", "Anne", "Ann", "Ann", AT)),
        (FIRST, Noted(Field.BAG, "7")),
    )
    text = json.dumps(job_record(Sent("222-222", AT, without_names(steps))))
    assert "Ann" not in text
    assert "half inch" in text
    kept = without_names(steps, shop=False)
    assert (FIRST, Noted(Field.MEASURED_BY, "Ann")) in kept
    assert (FIRST, Noted(Field.CUSTOMER, "Ann")) not in kept


GOOD = job_record(Sent("222-222", AT, ()))


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        ({"format": "whichend-job/2"}, "is no job"),
        ({"reference": "222-223"}, "is no reference"),
        ({"reference": "../../etc/passwd"}, "is no reference"),
        ({"begun": "yesterday"}, "does not say when"),
        ({"begun": "../../x"}, "does not say when"),
        ({"begun": 5}, "does not say when"),
        ({"steps": {}}, 'no list of "steps"'),
        ({"steps": [5]}, 'no list of "steps"'),
        ({"steps": [{"event": "sung"}]}, "unknown kind"),
        ({"steps": [{"event": "noted", "field": "bag", "value": "x" * 9999}]}, "cannot be read"),
    ],
)
def test_a_hostile_job_is_named_in_one_sentence(change: dict[str, object], fault: str) -> None:
    with pytest.raises(RecordError, match=fault):
        job_from(GOOD | change)


@pytest.mark.parametrize(
    "line",
    ["[" * 100_000, "{}", "5", "null", '{"format":' * 9, "\x1b[2J", f'{{"x": {"9" * 6000}}}'],
)
def test_a_line_that_is_no_job_is_told_and_the_rest_is_read(line: str) -> None:
    bad, good = jobs_in_lines([line, json.dumps(GOOD)])
    assert isinstance(bad, RecordError)
    assert good == job_from(GOOD)
