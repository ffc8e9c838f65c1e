"""Keeps every answer on the disk, says in a word whether that went well, and finds it again."""

import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from identify.errors import ReadingError, RecordError
from identify.frozen import replace
from identify.interview.journal import Journal, Saved, unfinished
from identify.interview.locks import InUseError
from identify.interview.session import Event, Observed, conclude, replay
from identify.model.reading import Trial
from identify.reasoning.engine import Engine

SAVED, NOT_SAVED = "saved", "NOT saved"


class Autosave:
    """The file of the running interview; it is made with the first answer.

    Where nothing can be written the interview goes on: `trouble` then holds the sentence to show.
    `note` is a sentence to show once, such as that the interview goes on in another file.

    Args:
        folder: Where interviews are kept; None where this machine has no place for them.
        now: The clock.
    """

    def __init__(
        self, folder: Path | None, now: Callable[[], datetime] = lambda: datetime.now(UTC)
    ) -> None:
        self.folder, self.now = folder, now
        self.trouble = self.note = ""
        self._journal: Journal | None = None

    def keep(self, event: Event) -> str:
        """Keep an event; return "saved" only when it is on the disk."""
        return self._do(lambda journal: journal.add(event))

    def back(self) -> str:
        """Keep that the last event was undone."""
        return self._do(Journal.back)

    def take_up(self, saved: Saved) -> str:
        """Go on in the file of a saved interview, or in a new one where that cannot be done."""
        self.let_go()
        return self._do(lambda _: None, lambda: self._resumed(saved))

    def finish(self) -> None:
        """Mark the interview as done, so that it is not offered again."""
        if self._journal:
            self._do(Journal.finish)
        self.let_go()

    def let_go(self) -> None:
        """Close the file; the interview is offered at the next start."""
        if self._journal:
            self._journal.close()
        self._journal = None

    def _do(
        self, deed: Callable[[Journal], None], make: Callable[[], Journal] | None = None
    ) -> str:
        if self.trouble:
            return NOT_SAVED
        try:
            if self._journal is None:
                self._journal = (make or self._fresh)()
                self._warn_unlocked(self._journal)
            deed(self._journal)
        except RecordError as error:
            self.trouble = f"Answers are not kept: {error}"
            return NOT_SAVED
        return SAVED

    def _resumed(self, saved: Saved) -> Journal:
        try:
            return Journal.go_on(saved)
        except InUseError:
            journal = self._fresh(saved.events)
            self.note = (
                "This interview is open in another window; what is answered here goes to a new "
                f"file, {journal.path}."
            )
        except RecordError as error:
            journal = self._fresh(saved.events)
            self.note = (
                f"{error} It is kept as {_set_aside(saved.path)}; the interview goes on in a new "
                f"file, {journal.path}."
            )
        return journal

    def _fresh(self, events: tuple[Event, ...] = ()) -> Journal:
        if self.folder is None:
            raise RecordError("no home folder is known; set HOME, or XDG_STATE_HOME.")
        begun = self.now().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        stamp = begun.replace(":", "").replace("-", "")
        first = path = self.folder / f"interview-{stamp}-{os.getpid()}.jsonl"
        number = 1
        while True:  # two begun within one second
            try:
                return Journal.begin(path, begun, events)
            except FileExistsError:
                number += 1
                path = first.with_stem(f"{first.stem}-{number}")

    def _warn_unlocked(self, journal: Journal) -> None:
        if journal.unlocked:
            self.note = (
                f"{journal.path} cannot be locked ({journal.unlocked}): open this interview in "
                "one window only."
            )


def _set_aside(path: Path) -> Path:
    """Give a file that cannot be written on a name under which it is no more offered."""
    aside = path.with_name(f"{path.name}.kept")
    try:
        if not aside.exists():
            return path.rename(aside)
    except OSError:
        pass
    return path


def state_folder() -> Path | None:
    """Return the folder for what must outlive a run, by the custom of the system.

    None where there is none: no home is known, or a variable names a folder that is not absolute.
    """
    from platformdirs import user_state_path  # comes with the screen library; slow to import

    try:
        folder = user_state_path("whichend", appauthor=False)
    except RuntimeError:  # no home, and no entry of this user in the system's list
        return None
    return folder if folder.is_absolute() else None


def interviews_folder() -> Path | None:
    """Return the folder of saved interviews, None where there is no place for them."""
    folder = state_folder()
    return folder / "interviews" if folder else None


def last_unfinished(engine: Engine, folder: Path | None, resume: bool | None) -> Saved | None:
    """Return the last interview that was broken off, None if there is none.

    Args:
        engine: Tables and rules of today.
        folder: Where interviews are kept.
        resume: True if one must be there, False if none is wanted, None if one is to be offered.

    Raises:
        RecordError: One must be there and is not.
    """
    found = () if resume is False else unfinished(folder)
    if resume and not found:
        raise RecordError("There is no unfinished interview to go on with; leave out --resume.")
    return weighable(engine, found[0]) if found else None


def weighable(engine: Engine, saved: Saved) -> Saved:
    """Return a saved interview without trials on parts that these tables do not name.

    They count as lines that could not be read, so that nothing is written behind them.
    """
    kept = tuple(event for event in saved.events if not _trial(event))
    if len(kept) == len(saved.events):
        return saved
    try:
        conclude(engine, replay(saved.events))
    except ReadingError:
        return replace(saved, events=kept, unread=saved.unread + len(saved.events) - len(kept))
    return saved


def _trial(event: Event) -> bool:
    return isinstance(event, Observed) and isinstance(event.reading.value, Trial)
