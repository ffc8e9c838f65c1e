"""Jobs in the dialogue of lines: the list, and a reference that is scanned or typed anywhere."""

from pathlib import Path

from identify.errors import RecordError
from identify.jobs.job import Job
from identify.jobs.reference import SCANNED, meant_as_reference
from identify.jobs.shelf import Shelf
from identify.model.rulebook import RuleBook
from identify.pages.blocks import BLANK, Block
from identify.pages.jobs import job_blocks, jobs_table, none_found
from identify.pages.text import text_of
from identify.plain.console import Console

LISTED = 10
HOW = "Type a reference, such as K7M-3P4, to see a job and go on with it."
OTHERS = f"{HOW} Others are found from the shell with: whichend jobs find WORDS."


def job_told(console: Console, folder: Path, book: RuleBook, line: str) -> str:
    """Return the job whose reference was scanned or typed where something else was asked.

    What can be typed to go on with it is offered on the console. A line that may be an answer, and
    is no reference of a job in the folder, gives "".
    """
    if not meant_as_reference(line):
        return ""
    shelf = Shelf(folder)
    try:
        if found := shelf.search(line, 1):
            kept = shelf.kept(found[0])
            console.offers = {f"go {place}".lower(): (kept, place) for place, _ in kept.job.ends}
            on = Block(f"{_offers(kept.job)} Or answer what was asked.")
            return text_of([*job_blocks(kept, book), BLANK, on])
    except RecordError as error:
        return f"{error}\n"
    finally:
        shelf.close()
    return f"{none_found(line)}\n" if line.upper().startswith(SCANNED) else ""


def _offers(job: Job) -> str:
    """Return what can be typed, an end each."""
    return " ".join(
        f"go {place} goes on with end {place}." if end.answered else f"go {place} measures it."
        for place, end in job.ends
    )


def list_jobs(console: Console, folder: Path | None) -> None:
    """Tell the jobs begun last, and how to find others."""
    found = []
    if folder is not None and folder.is_dir():
        shelf = Shelf(folder)
        found = shelf.search("", LISTED)
        shelf.close()
    if found:
        console.tell(text_of([jobs_table(found)]))
        console.say(OTHERS)
    else:
        console.say("No job is kept yet.")
