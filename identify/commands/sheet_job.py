"""What a kept job gives to the sheet of one of its hoses, and where that sheet is kept."""

import argparse
import json
from pathlib import Path
from typing import Any

from identify.commands.jobs.shelves import shelf
from identify.commands.options import engine_of
from identify.errors import ReadingError, RecordError
from identify.files import reason
from identify.frozen import NamedTuple
from identify.jobs.concluding import verdict_that_holds
from identify.jobs.facts import Place
from identify.jobs.handover import handover_folder, lay_down
from identify.jobs.saving import now_utc
from identify.sheets.starting import end_of_job, entries_of_job

OF_JOB = "of_job"
"""The field of a kept sheet that tells what the job gave, so that what it takes back goes too."""


class JobSheet(NamedTuple):
    """A hose of a job: what the job says of it by path, and the file of its sheet."""

    entries: dict[str, str]
    folder: Path
    name: str

    @property
    def path(self) -> Path:
        """Where the sheet is kept."""
        return handover_folder(self.folder) / self.name

    def still_entered(self, kept: dict[str, Any] | None, texts: dict[str, str]) -> dict[str, str]:
        """Return entries of a kept sheet with those of the job as it is now.

        Args:
            kept: The object, None for a sheet that nobody kept.
            texts: What was entered in it.
        """
        found = (kept or {}).get(OF_JOB)
        gone = found.items() if isinstance(found, dict) else ()
        return {path: text for path, text in texts.items() if (path, text) not in gone} | (
            self.entries
        )

    def keep(self, sheet: dict[str, Any]) -> Path:
        """Write the object of the sheet, in place of the one before.

        Raises:
            RecordError: It cannot be written.
        """
        text = json.dumps({**sheet, OF_JOB: self.entries}, ensure_ascii=False) + "\n"
        try:
            return lay_down(self.folder, self.name, text)
        except OSError as error:
            raise RecordError(
                f"{self.path} cannot be written ({reason(error)}). Keep the sheet with --keep."
            ) from None


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
    count = len(job.hoses)
    number = args.hose or (1 if count == 1 else 0)
    if not 1 <= number <= count:
        which = "--hose 1" if count == 1 else f"--hose 1 to --hose {count}"
        raise ReadingError(f"Job {job.reference} has {count} hose{'s' * (count > 1)}; say {which}.")
    engine, at = engine_of(args), now_utc()
    a, b = (
        end_of_job(end, verdict_that_holds(end, engine, args.tables, at))
        for end in (job.end(Place(number, side)) for side in "AB")
    )
    name = f"{job.reference}-sheet{'' if number == 1 else f'-{number}'}.json"
    return JobSheet(entries_of_job(job, number, a, b), jobs.folder, name)
