"""`whichend jobs import FILE`: take in jobs that were exported."""

import argparse
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

from identify.commands.jobs.shelves import shelf
from identify.errors import RecordError
from identify.files import reason
from identify.jobs.exchange import LONGEST_JOB, jobs_in_lines, jobs_in_table
from identify.pages.words import several


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Take in jobs that export wrote, as JSON Lines or as a table. A job that is here already "
        "is left as it is."
    )
    parser.epilog = "Exit status: 0 all are here now, 1 some could not be taken in."
    parser.add_argument("file", help="what export wrote; - is standard input")


def run(args: argparse.Namespace) -> int:
    """Take them in, and say what became of them; what cannot be taken in is named."""
    jobs, taken, there, bad = shelf(), 0, 0, 0
    with _opened(args.file) as file:
        first = next(_lines(file), "")
        read = jobs_in_lines if first.lstrip("\ufeff ").startswith("{") else jobs_in_table
        for number, job in enumerate(read(_again(first, file)), 1):
            try:
                if isinstance(job, RecordError):
                    raise job
                fresh = jobs.take_in(job.reference, job.begun, job.entries)
                taken, there = taken + fresh, there + (not fresh)
            except RecordError as error:
                bad += 1
                print(f"job {number}: {error}", file=sys.stderr)
    told = f"{several(taken, 'job')} taken in, {there} here already"
    print(f"{told}, {bad} could not be taken in." if bad else f"{told}.")
    return 1 if bad else 0


@contextmanager
def _opened(name: str) -> Iterator[TextIO]:
    if name == "-":
        yield sys.stdin
        return
    try:
        with Path(name).open(encoding="utf-8", errors="replace", newline="") as file:
            yield file
    except OSError as error:
        raise RecordError(f"{name}: cannot be read ({reason(error)}).") from None


def _lines(file: TextIO) -> Iterator[str]:
    """Yield lines; one that is longer than any job in pieces, so that none fills the memory."""
    while line := file.readline(LONGEST_JOB + 2):
        yield line


def _again(first: str, file: TextIO) -> Iterator[str]:
    yield first.removeprefix("\ufeff")
    yield from _lines(file)
