"""Keeps the answers on the disk, and goes on without where that cannot be."""

from collections.abc import Callable

from identify.errors import RecordError
from identify.session import Event
from identify.store.journal import Journal


class Keeper:
    """The file of one interview, opened at the first answer.

    Args:
        open_journal: Opens the file.
        complain: Told once, in a sentence, why answers cannot be kept.
    """

    def __init__(
        self, open_journal: Callable[[], Journal], complain: Callable[[str], None]
    ) -> None:
        self.open_journal, self.complain = open_journal, complain
        self.journal: Journal | None = None
        self.failed = False

    def add(self, event: Event) -> None:
        """Keep an event."""
        self._write(lambda journal: journal.add(event))

    def back(self) -> None:
        """Keep that the last event was taken back."""
        self._write(lambda journal: journal.back())

    def finish(self) -> None:
        """Keep that the interview came to its end."""
        self._write(lambda journal: journal.finish())

    def close(self) -> None:
        """Let go of the file."""
        if self.journal:
            self.journal.close()

    def _write(self, record: Callable[[Journal], None]) -> None:
        if self.failed:
            return
        try:
            self.journal = self.journal or self.open_journal()
            record(self.journal)
        except RecordError as error:
            self.failed = True
            self.complain(f"Your answers cannot be saved: {error} The interview goes on without.")
