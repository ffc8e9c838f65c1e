"""Files that one key writes: verdicts beside the start, pages of a job or a sheet apart."""

from datetime import datetime
from pathlib import Path

from identify.errors import WhichendError
from identify.files import reason, write_new
from identify.frozen import TYPE_CHECKING
from identify.interview.session import SessionState
from identify.jobs.handover import lay_down, lay_in
from identify.jobs.journal import Kept, read_job
from identify.jobs.saving import Autosave, now_utc
from identify.model.feature import FEATURES
from identify.model.verdict import Verdict
from identify.pages.blocks import BLANK, Block, dashed
from identify.pages.claim import claims_blocks
from identify.pages.text import text_of
from identify.pages.verdict import verdict_text
from identify.pages.words import said
from identify.reasoning.engine import Engine
from identify.transliterate import inert

if TYPE_CHECKING:
    from identify.sheets.desk import Desk


def write_verdict(engine: Engine, state: SessionState, verdict: Verdict) -> str:
    """Write what was answered and what follows from it beside where the program was started.

    Returns:
        Where the new file lies, or why it could not be written, in a sentence.
    """
    now = datetime.now().astimezone()
    answers = [
        dashed(f"{FEATURES[each.feature].title}: {said(each, engine.book.question(each.feature))}")
        for each in state.readings
    ] or [dashed("none")]
    head = [Block(f"whichend, {now:%Y-%m-%d %H:%M}"), BLANK, Block("Answers"), *answers, BLANK]
    text = text_of(head) + verdict_text(engine, verdict, whole=True)
    if claims := claims_blocks(engine, state, verdict):
        text += "\n" + text_of(claims)
    first = path = Path.cwd() / f"whichend-{now:%Y%m%d-%H%M%S}.txt"
    number = 1
    while True:
        try:
            write_new(path, [inert(text)])
            return f"Written: {path}"
        except FileExistsError:
            number += 1
            path = first.with_stem(f"{first.stem}-{number}")
        except OSError as error:
            why = reason(error)
            return f"{path} cannot be written ({why}). Start whichend in a folder of your own."


def write_handed(
    engine: Engine, autosave: Autosave, what: str, kept: Kept | None = None, size: str = ""
) -> str:
    """Write slip, label or report of a job for a printer, in place of the one before.

    Args:
        engine: Tables and rules.
        autosave: Where jobs are kept, and the running one.
        what: "slip", "label" or "report".
        kept: The job; by default the running one.
        size: Label stock as typed, "" for the usual.

    Returns:
        Where it lies, or why it could not be written, in a sentence.
    """
    from identify.pages.handed import handed  # with the drawings; wanted only here
    from identify.pages.label import USUAL, label_page, label_size
    from identify.pages.report import report_page
    from identify.pages.slip import slip_page

    running, path = kept is None, kept.path if kept else autosave.path
    kept = read_job(path) if path else None  # as it stands now
    if kept is None or autosave.folder is None or (running and kept.job.empty):
        return "Nothing is kept of this job yet; measure something first."
    try:
        sheet = handed(kept.job, engine, autosave.tables, now_utc())
        if what == "label":
            page = label_page(sheet, label_size(size) if size else USUAL)
        else:
            slip = what == "slip"
            page = slip_page(sheet, engine.book) if slip else report_page(sheet, kept, engine)
        written = lay_down(autosave.folder, f"{kept.job.reference}-{what}.html", page)
    except WhichendError as error:
        return str(error)
    except OSError as error:
        return f"The {what} cannot be written ({reason(error)})."
    return f"Written, to be printed from a browser: {written}"


def write_sheet(desk: "Desk", paper: str) -> str:
    """Write the page of a sheet for a printer, beside where the sheet is kept.

    Args:
        desk: The sheet at work.
        paper: A key of `sheet_page.PAPERS`.

    Returns:
        Where it lies, or why it could not be written, in a sentence.
    """
    from identify.pages.sheet_page import sheet_page  # with the drawings; wanted only here

    desk.keep()
    if desk.path is None:
        return desk.trouble
    draft, name = desk.draft, f"{desk.path.stem}.html"
    page = sheet_page(draft.worked, draft.found, draft.known, paper)
    try:
        return f"Written, to be printed from a browser: {lay_in(desk.path.parent, name, page)}"
    except OSError as error:
        return f"The page cannot be written ({reason(error)})."
