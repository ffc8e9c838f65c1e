"""What the application does with jobs: find, open, go on with, discard, say a fact of one."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from identify.errors import WhichendError
from identify.frozen import replace
from identify.interview.session import Equipped, Reached
from identify.jobs.course import onward
from identify.jobs.facts import noted
from identify.jobs.journal import Kept, read_job
from identify.jobs.listing import Listed
from identify.jobs.shelf import Shelf, discard, unfinished, weighable, written
from identify.jobs.taking import taken
from identify.pages.written import write_handed
from identify.tui.messages import (
    HandWanted,
    JobDiscarded,
    JobOpened,
    JobTaken,
    JobTold,
    SheetWanted,
    StartedAgain,
)
from identify.tui.screens.base import Face
from identify.tui.screens.jobs import JobScreen

if TYPE_CHECKING:
    from identify.tui.app import Interview
    from identify.tui.holding import Holding

MOST_FOUND = 99  # on the screen; more words find the others


def jobs_found(app: "Holding", words: str) -> Sequence[Listed]:
    """Return the jobs that bear some words, the latest first; without words those begun last."""
    if app.autosave.folder is None:
        return ()
    shelf = Shelf(app.autosave.folder)
    found = shelf.search(words, MOST_FOUND)
    shelf.close()
    return found


def open_job(app: "Interview", message: JobOpened) -> None:
    """Show a job as it stands in its file."""
    folder = app.autosave.folder
    if folder and (kept := read_job(folder / message.job)):
        app.push_screen(JobScreen(app.engine, app.snapshot, kept))
    else:
        _say(app, f"{message.job} is gone, or cannot be read.")


def tell_job(app: "Interview", message: JobTold) -> None:
    """Keep a fact, and show the job with it."""
    kept = message.kept
    try:
        fact = noted(message.field, message.value)
        if app.autosave.is_open(kept.path):
            app.autosave.keep(fact, place=message.place)
        else:
            with written(read_job(kept.path) or kept) as journal:
                journal.add(fact, place=message.place)
    except WhichendError as error:
        _say(app, str(error))
        return
    app.pop_screen()
    open_job(app, JobOpened(str(kept.path)))


def hand_job(app: "Interview", message: HandWanted) -> None:
    """Write slip, label or report of a job; of the running one with the verdict as it is now."""
    kept, autosave = message.kept, app.autosave
    if kept is None or autosave.is_open(kept.path):
        autosave.conclude(app.snapshot.verdict, app.engine.catalogue)
    _say(app, write_handed(app.engine, autosave, message.what, kept, app.course.habits.label))


def open_sheet(app: "Interview", message: SheetWanted) -> None:
    """Show the sheet of a hose, begun with what is kept of its job."""
    from identify.sheets.desk import Desk  # with the tables of hoses; wanted only here
    from identify.sheets.kept import Texts, read_texts
    from identify.sheets.loading import sheet_knowledge
    from identify.sheets.of_job import sheet_of_job
    from identify.tui.screens.sheet import DeskScreen

    autosave, kept = app.autosave, message.kept
    if kept is None or autosave.is_open(kept.path):
        autosave.conclude(app.snapshot.verdict, app.engine.catalogue)
    path = kept.path if kept else autosave.path
    kept = read_job(path) if path else None  # as it stands now
    if kept is None or autosave.folder is None:
        _say(app, "Nothing is kept of this job yet; measure something first.")
        return
    try:
        number = message.hose or autosave.place.hose
        hose = sheet_of_job(kept.job, number, autosave.folder, app.engine, autosave.tables)
        before = read_texts(hose.path) if hose.path.exists() else Texts({}, {}, None)
        texts = hose.still_entered(before.kept, before.texts)
        app.desk = Desk(sheet_knowledge(autosave.tables), texts, hose, before.kept)
    except WhichendError as error:
        _say(app, str(error))
        return
    app.desk.keep()
    app.push_screen(DeskScreen(app.desk, app.engine, app.snapshot, app.style))


def open_sheet_page(app: "Holding", pick: str) -> Face | None:
    """Return a page of the open sheet, or write its page and say where it lies."""
    from identify.pages.written import write_sheet
    from identify.tui.screens.sheet import sheet_screen

    if app.desk is None:
        return None
    page = sheet_screen(app.desk, app.engine, app.snapshot, app.style, pick)
    if page is None:
        _say(app, write_sheet(app.desk, pick.rpartition(" ")[2]))
    return page


def discard_job(app: "Interview", message: JobDiscarded) -> None:
    """Discard a job that is not the running one, and show the list without it."""
    if app.autosave.is_open(message.kept.path):
        _say(app, "This is the job that is measured now; begin a new one first.")
    elif _discarded(app, message.kept):
        app.pop_screen()


def discard_broken_off(app: "Interview") -> None:
    """Discard the interview that is offered, and offer the next, if there is one."""
    kept = read_job(app.saved.path) if app.saved else None
    if kept is None or _discarded(app, kept):
        found = unfinished(app.autosave.folder, 1)
        app.saved = weighable(app.engine, found[0]) if found else None
        app.pop_screen()
        app.offer_or_begin()


def go_on(app: "Interview", message: StartedAgain) -> None:
    """Begin the next end of the job, or the next job."""
    app.to_interview()
    app.become(onward(app.course, app.snapshot, message.way))


def take_job(app: "Interview", message: JobTaken) -> None:
    """Go on with an end of a job; the running interview is kept, and can be opened again.

    An end of which nothing was measured begins with the tools and access of the one before.
    """
    kept, place, before = message.kept, message.place, app.snapshot.state
    app.to_interview()
    try:
        after = taken(app.course, app.snapshot, kept, place, finished=not app.unfinished)
    except WhichendError as error:
        app.become(app.course.begin(app.snapshot))
        _say(app, str(error))
        return
    app.become(after)
    if not after.state.events:
        app.prepare(Equipped(before.tools, before.care), Reached(before.access))


def _discarded(app: "Interview", kept: Kept) -> bool:
    try:
        discard(kept)
    except WhichendError as error:
        _say(app, str(error))
        return False
    return True


def _say(app: "Holding", sentence: str) -> None:
    app.snapshot = replace(app.snapshot, note=sentence)
