"""Jobs on their way to another machine: one JSON object a line, or a table for a spreadsheet.

Both hold every step of a job, so that what comes back is equal to what was sent. The table has a
row an end; its last column holds the steps of the whole job, on the first row of the job, and is
the one that is read when a table comes back. All other columns are for people.
"""

import csv
import io
import json
from collections.abc import Iterable, Iterator
from typing import Any

from identify.errors import ReadingError, RecordError
from identify.frozen import dataclass
from identify.interview.session import replay
from identify.jobs.fact_records import entry_of, line_of
from identify.jobs.facts import Place
from identify.jobs.job import End, Entry, Job, job_of
from identify.jobs.journal import FORMAT, Kept, moment
from identify.jobs.reference import reference_said
from identify.transliterate import inert

COLUMNS = (
    "reference", "begun", "customer", "machine", "bag", "measured_by", "checked_by", "notes",
    "hose", "quantity", "printed", "end", "shape", "readings", "verdict", "sentence", "first",
    "first_title", "thread", "probability", "claims", "outcome", "why", "steps",
)  # fmt: skip
LONGEST_JOB = 20_000_000  # characters of one line
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


@dataclass(frozen=True, slots=True)
class Sent:
    """A job as it was exported: all its steps."""

    reference: str
    begun: str
    entries: tuple[Entry, ...]

    @property
    def job(self) -> Job:
        """What they add up to."""
        return job_of(self.reference, self.begun, self.entries)


def sent(kept: Kept) -> Sent:
    """Return a job to be exported."""
    return Sent(kept.job.reference, kept.job.begun, kept.entries)


def job_record(job: Sent) -> dict[str, Any]:
    """Return a job as a JSON object."""
    steps = [line_of(*entry) for entry in job.entries]
    return {"format": FORMAT, "reference": job.reference, "begun": job.begun, "steps": steps}


def job_from(record: object) -> Sent:
    """Return the job of a JSON object.

    Raises:
        RecordError: It is none; says what does not fit.
    """
    if not isinstance(record, dict) or record.get("format") != FORMAT:
        raise RecordError(f'is no job; each has "format": "{FORMAT}".')
    steps, begun = record.get("steps"), record.get("begun")
    if not isinstance(begun, str) or moment(begun) is None:
        raise RecordError('does not say when it was begun, such as "2026-11-26T08:30:00Z".')
    if not isinstance(steps, list) or not all(isinstance(each, dict) for each in steps):
        raise RecordError('has no list of "steps".')
    try:
        reference = reference_said(str(record.get("reference")))
    except ReadingError as error:
        raise RecordError(error.problem) from None
    return Sent(reference, begun, tuple(map(entry_of, steps)))


def lines_of(jobs: Iterable[Sent]) -> Iterator[str]:
    """Yield jobs as JSON Lines."""
    for job in jobs:
        yield json.dumps(job_record(job), ensure_ascii=False, separators=(",", ":")) + "\n"


def table_of(jobs: Iterable[Sent]) -> Iterator[str]:
    """Yield jobs as rows of a table, its header first; no cell of it is a formula."""
    yield _row(COLUMNS)
    for job in jobs:
        for row in _rows(job):
            yield _row(row.get(column, "") for column in COLUMNS)


def jobs_in_lines(lines: Iterable[str]) -> Iterator[Sent | RecordError]:
    """Yield the job of each line that is not blank, or why it has none."""
    for line in lines:
        if line.strip():
            yield _job_in(line)


def jobs_in_table(lines: Iterable[str]) -> Iterator[Sent | RecordError]:
    """Yield the job of each row that has one, or why it cannot be read."""
    usual = csv.field_size_limit(LONGEST_JOB)  # of the whole program, hence put back
    rows = csv.DictReader(lines)
    try:
        for row in rows:
            if steps := row.get("steps"):
                yield _job_in(steps)
    except csv.Error as error:
        yield RecordError(f"is no table ({error}).")
    finally:
        csv.field_size_limit(usual)


def _job_in(text: str) -> Sent | RecordError:
    if len(text) > LONGEST_JOB:
        return RecordError(f"is longer than {LONGEST_JOB} characters.")
    try:
        return job_from(json.loads(text))
    except (ValueError, RecursionError) as error:
        return RecordError(f"is not JSON ({error}).")
    except RecordError as error:
        return error


def _row(cells: Iterable[object]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerow([cell_of(str(cell)) for cell in cells])
    return text.getvalue()


def cell_of(text: str) -> str:
    """Return text as a cell that a spreadsheet shows and does not reckon with."""
    plain = inert(text)
    return f"'{plain}" if plain.startswith(_FORMULA) else plain


def _rows(sent_job: Sent) -> Iterator[dict[str, object]]:
    job = sent_job.job
    shown = [(place, end) for place, end in job.ends if end != End()] or [(Place(), End())]
    whole = json.dumps(job_record(sent_job), separators=(",", ":"))
    for number, (place, end) in enumerate(shown):
        hose = job.hoses[place.hose - 1]
        yield {
            "reference": job.reference, "begun": job.begun, "customer": job.customer,
            "machine": job.machine, "bag": job.bag, "measured_by": job.measured_by,
            "checked_by": job.checked_by, "notes": "; ".join(job.notes),
            "hose": place.hose, "quantity": hose.quantity, "printed": hose.printed,
            "end": place.side, "shape": end.shape, **_end_cells(end),
            "steps": "" if number else whole,
        }  # fmt: skip


def _end_cells(end: End) -> dict[str, object]:
    readings = replay(end.events).readings
    cells: dict[str, object] = {
        "readings": "; ".join(f"{each.feature}={each.entered}" for each in readings),
        "claims": "; ".join(each.words for each in end.claims),
    }
    if end.outcome:
        cells |= {"outcome": end.outcome.fate, "why": end.outcome.why}
    if end.verdict:
        cells |= {"verdict": end.verdict.kind, "sentence": end.verdict.sentence}
        for first in end.verdict.ends[:1]:
            cells |= {"first": first.id, "first_title": first.title, "thread": first.thread}
            cells["probability"] = first.probability
    return cells
