"""Keeps every answer on the disk, and says in a word whether that went well."""

import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from identify.errors import RecordError
from identify.interview.journal import Journal, Saved, interview_path
from identify.interview.session import Event

SAVED, NOT_SAVED = "saved", "NOT saved"


class Keeper:
    """The file of the running interview; it is made with the first answer.

    Where nothing can be written the interview goes on: `trouble` then holds the sentence to show.

    Args:
        folder: Where interviews are kept.
        now: The clock, in local time to the second.
    """

    def __init__(
        self, folder: Path, now: Callable[[], datetime] = lambda: datetime.now().astimezone()
    ) -> None:
        self.folder, self.now = folder, now
        self.trouble = ""
        self._journal: Journal | None = None

    def keep(self, event: Event) -> str:
        """Keep an event; return "saved" only when it is on the disk."""
        return self._do(lambda journal: journal.add(event))

    def back(self) -> str:
        """Keep that the last event was undone."""
        return self._do(Journal.back)

    def take_up(self, saved: Saved) -> str:
        """Go on in the file of a saved interview."""
        self.let_go()
        return self._do(lambda _: None, lambda: Journal(saved.path, saved.begun))

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
            deed(self._journal)
        except RecordError as error:
            self.trouble = f"Answers are not kept: {error}"
            return NOT_SAVED
        return SAVED

    def _fresh(self) -> Journal:
        begun = self.now().strftime("%Y-%m-%dT%H:%M:%S")
        first = path = interview_path(self.folder, begun, os.getpid())
        number = 1
        while path.exists():  # two begun within one second
            number += 1
            path = first.with_stem(f"{first.stem}-{number}")
        return Journal(path, begun)
