"""What a kept job gives to the sheet of one of its hoses, and where that sheet is kept."""

import json
from pathlib import Path
from typing import Any

from identify.errors import ReadingError, RecordError
from identify.files import reason
from identify.frozen import NamedTuple
from identify.jobs.concluding import verdict_that_holds
from identify.jobs.facts import Place
from identify.jobs.handover import handover_folder, lay_down
from identify.jobs.job import Job
from identify.jobs.saving import now_utc
from identify.reasoning.engine import Engine
from identify.sheets.filling import whose
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

        What somebody entered in place of what the job gave stands until the job gives another.

        Args:
            kept: The object, None for a sheet that nobody kept.
            texts: What was entered in it.
        """
        found = (kept or {}).get(OF_JOB)
        gave = found if isinstance(found, dict) else {}
        left = {path: text for path, text in texts.items() if gave.get(path) != text}
        own = {path for path in left if path in gave and gave[path] == self.entries.get(path)}
        return left | {
            path: text for path, text in self.entries.items()
            if path not in own and not (path.endswith("known") and whose(path) in own)
        }  # fmt: skip

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


def sheet_of_job(
    job: Job, number: int, folder: Path, engine: Engine, tables: Path | None
) -> JobSheet:
    """Return what a job gives to the sheet of one of its hoses.

    Args:
        job: As it is kept.
        number: Of the hose, from 1; 0 for the only one.
        folder: Of all jobs.
        engine: Concludes on answers that came after a verdict.
        tables: The user's own folder, None where there is none.

    Raises:
        ReadingError: The job has no such hose, or an answer cannot be weighed with these tables.
    """
    count = len(job.hoses)
    number = number or (1 if count == 1 else 0)
    if not 1 <= number <= count:
        which = "--hose 1" if count == 1 else f"--hose 1 to --hose {count}"
        raise ReadingError(f"Job {job.reference} has {count} hose{'s' * (count > 1)}; say {which}.")
    at = now_utc()
    a, b = (
        end_of_job(end, verdict_that_holds(end, engine, tables, at))
        for end in (job.end(Place(number, side)) for side in "AB")
    )
    name = f"{job.reference}-sheet{'' if number == 1 else f'-{number}'}.json"
    return JobSheet(entries_of_job(job, number, a, b), folder, name)
