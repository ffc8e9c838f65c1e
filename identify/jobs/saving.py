"""Keeps every answer on the disk, and says in a word whether that went well."""

from __future__ import annotations

import os

from identify.errors import RecordError, TableError
from identify.frozen import TYPE_CHECKING
from identify.interview.session import Equipped, Event, Reached
from identify.jobs.facts import FIRST, MOST_HOSES, Back, Finished, Place, Step
from identify.jobs.locks import InUseError
from identify.jobs.reference import reference_of
from identify.light import suppress

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime
    from pathlib import Path

    from identify.jobs.job import Entry
    from identify.jobs.journal import Journal, Saved
    from identify.model.catalogue import Catalogue
    from identify.model.verdict import Verdict

SAVED, NOT_SAVED = "saved", "NOT saved"


def _now() -> datetime:
    import datetime as clock  # not before something is kept

    return clock.datetime.now(clock.UTC)


def _drawn() -> int:
    return int.from_bytes(os.urandom(8), "big")


class Autosave:
    """The file of the running job; it is made with the first step.

    Where nothing can be written the interview goes on: `trouble` then holds the sentence to show.
    `note` is a sentence to show once, such as that the interview goes on in another file.
    `reference` and `path` are those of the job that was written last, `place` is the end that is
    answered about.

    Args:
        folder: Where jobs are kept; None or "" where this machine has no place for them.
        tables: The user's own folder of tables, whose state is kept with a verdict.
        now: The clock.
        draw: Chooses the reference of a new job, see `reference_of`.
    """

    def __init__(
        self,
        folder: Path | str | None,
        tables: Path | None = None,
        now: Callable[[], datetime] = _now,
        draw: Callable[[], int] = _drawn,
    ) -> None:
        self._folder, self.tables, self.now, self.draw = folder, tables, now, draw
        self.trouble = self.note = self.reference = ""
        self.path: Path | None = None
        self.place = FIRST
        self._journal: Journal | None = None

    @property
    def folder(self) -> Path | None:
        """Where jobs are kept; None where this machine has no place for them."""
        from pathlib import Path  # slow to import, and asked for when something is kept

        return Path(self._folder) if self._folder else None

    def keep(self, *steps: Step, place: Place | None = None) -> str:
        """Keep steps, of the present end if not told; return "saved" only when on the disk."""
        of = place or self.place
        if self._journal is None:  # a file is made with what is the first in it
            first = tuple([(of, step) for step in steps])
            later = all(isinstance(step, Equipped | Reached) for step in steps)
            return self._do(lambda _: None, lambda: self._fresh(first, later=later))
        return self._do(lambda journal: journal.add(*steps, place=of))

    def is_open(self, path: Path) -> bool:
        """Tell whether this is the file that answers go to now."""
        return self._journal is not None and self._journal.path == path

    @property
    def running(self) -> bool:
        """Whether there is a file that answers go to."""
        return self._journal is not None

    def take_up(self, saved: Saved) -> str:
        """Go on in the file of a saved interview, or in a new one where that cannot be done."""
        self.let_go()
        self.place = saved.place
        return self._do(lambda _: None, lambda: self._resumed(saved))

    def conclude(self, verdict: Verdict, catalogue: Catalogue) -> None:
        """Keep the verdict on the present end; nothing where nothing of it was measured."""
        if self._journal and verdict.readings:
            from identify.jobs.concluding import concluded

            with suppress(TableError):  # they went away while this ran: the answers are kept anyway
                self.keep(concluded(verdict, catalogue, self.tables, utc(self.now())))

    def finish(self) -> None:
        """Mark the interview as done, so that it is not offered again."""
        if self._journal:
            self.keep(Finished())
        self.let_go()

    def next_place(self, *, hose: bool = False) -> Place | None:
        """Return the next end of the job that has no answers yet, None where it can have no more.

        Args:
            hose: The first end of the next hose, though the other end of this one has none.
        """
        from identify.jobs.journal import read_job

        kept = read_job(self._journal.path) if self._journal else None
        place = self.place.after(hose=hose)
        while kept and kept.job.end(place).answered:
            place = place.after(hose=hose)
        return place if place.hose <= MOST_HOSES else None

    def go_on(self, place: Place) -> None:
        """Mark the present end as done, and go to another end of the job."""
        if self._journal:
            self.keep(Finished())
        self.place = place

    def let_go(self) -> None:
        """Close the file; an interview that is not finished is offered at the next start."""
        if self._journal:
            self._journal.close()
        self._journal = None
        self.place = FIRST

    def _do(
        self, deed: Callable[[Journal], None], make: Callable[[], Journal] | None = None
    ) -> str:
        if self.trouble:
            return NOT_SAVED
        try:
            if self._journal is None:
                self._journal = (make or self._fresh)()
            deed(self._journal)
            self._warn_unlocked(self._journal)
        except RecordError as error:
            self.trouble = f"Answers are not kept: {error}"
            return NOT_SAVED
        return SAVED

    def _resumed(self, saved: Saved) -> Journal:
        from identify.jobs.journal import Journal

        try:
            journal = Journal.go_on(saved)
            self.reference, self.path = saved.reference, saved.path
        except InUseError:
            journal = self._fresh(_carried(saved))
            self.note = (
                "This interview is open in another window; what is answered here goes to a new "
                f"file, {journal.path}."
            )
        except RecordError as error:
            journal = self._fresh(_carried(saved), saved.reference)
            self.note = (
                f"{error} It is kept as {_set_aside(saved.path)}; the interview goes on in a new "
                f"file, {journal.path}."
            )
        return journal

    def _fresh(
        self, entries: tuple[Entry, ...] = (), reference: str = "", *, later: bool = False
    ) -> Journal:
        from identify.jobs.journal import Journal

        folder = self.folder
        if folder is None:
            raise RecordError("no home folder is known; set HOME, or XDG_STATE_HOME.")
        begun = utc(self.now())
        given, drawn, number = reference, self.draw(), 0
        while True:  # a reference that is taken, or a job whose file could not be written on
            reference = given or reference_of(drawn + number)
            try:
                path = job_path(folder, begun, reference, number + 2 if given else 0)
                journal = Journal.begin(path, begun, entries, reference, later=later)
            except FileExistsError:
                number += 1
                continue
            self.reference, self.path = reference, path
            return journal

    def _warn_unlocked(self, journal: Journal) -> None:
        if journal.unlocked:
            self.note = (
                f"{journal.path} cannot be locked ({journal.unlocked}): open this interview in "
                "one window only."
            )


def utc(moment: datetime) -> str:
    """Return a moment as files say it."""
    from datetime import UTC

    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def now_utc() -> str:
    """Return this moment as files say it."""
    return utc(_now())


def job_path(folder: Path, begun: str, reference: str, number: int = 0) -> Path:
    """Return where a new job is kept: in a folder a month, so that none grows without end.

    Args:
        folder: Of all jobs.
        begun: As in `Journal.begin`.
        reference: Of the job.
        number: Told after the reference where another file has it, 0 where none has.
    """
    more = f"-{number}" if number else ""
    return folder / begun[:7] / f"job-{reference.replace('-', '')}{more}.jsonl"


def _carried(saved: Saved) -> tuple[Entry, ...]:
    """Return what a new file takes over of one that cannot be written on: all that was read."""
    from identify.jobs.journal import read_job

    kept = read_job(saved.path)
    told = [] if kept is None else [
        (place, step)
        for place, step in kept.entries
        if place != saved.place or not isinstance(step, Event | Back | Finished)
    ]  # fmt: skip
    return (*told, *((saved.place, event) for event in saved.events))


def _set_aside(path: Path) -> Path:
    """Give a file that cannot be written on a name under which it is no more offered."""
    aside = path.with_name(f"{path.name}.kept")
    try:
        if not aside.exists():
            return path.rename(aside)
    except OSError:
        pass
    return path
