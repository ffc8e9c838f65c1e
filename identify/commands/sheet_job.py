"""The options that name the hose of a job whose sheet is wanted."""

import argparse

from identify.commands.jobs.shelves import shelf
from identify.commands.options import engine_of
from identify.errors import ReadingError
from identify.sheets.of_job import JobSheet, sheet_of_job


def add_job_options(parser: argparse.ArgumentParser) -> None:
    """Declare `--job REFERENCE` and `--hose N`."""
    parser.add_argument(
        "--job", default="", metavar="REFERENCE",
        help="begin with what is kept of this job, and keep the sheet beside its slip",
    )  # fmt: skip
    parser.add_argument(
        "--hose", type=int, default=0, metavar="N", help="which hose of the job, from 1"
    )


def job_sheet(args: argparse.Namespace) -> JobSheet | None:
    """Return the hose that the options name, None where they name no job.

    Raises:
        ReadingError: It is no reference, it is not said which hose, or an answer that came after
            the verdict cannot be weighed with these tables.
        RecordError: No job has it.
    """
    if not args.job:
        if args.hose:
            raise ReadingError("--hose is a hose of a job; name the job with --job REFERENCE.")
        return None
    jobs = shelf()
    job = jobs.called(args.job).job
    return sheet_of_job(job, args.hose, jobs.folder, engine_of(args), args.tables)
