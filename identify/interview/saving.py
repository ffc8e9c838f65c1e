"""Keeps every answer on the disk, and says in a word whether that went well."""

import os
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from identify.errors import RecordError
from identify.interview.folder import interview_path
from identify.interview.journal import Journal, Saved
from identify.interview.locks import InUseError
from identify.interview.session import Event

SAVED, NOT_SAVED = "saved", "NOT saved"


class Keeper:
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
        first = path = interview_path(self.folder, begun, os.getpid())
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
