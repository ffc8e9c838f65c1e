"""Screens on which a line is typed and sent: readings in short, and what somebody says it is."""

from textual.message import Message

from identify.errors import ReadingError
from identify.interview.in_short import read_in_short
from identify.interview.session import SessionState
from identify.interview.snapshot import Snapshot
from identify.jobs.course import YOU
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.claim import claims_blocks, named_blocks
from identify.pages.short import forms_blocks, taken_blocks
from identify.tui.messages import Claims, GuessPassed, InShort, Unclaims
from identify.tui.screens.search import SearchScreen


class EntryScreen(SearchScreen):
    """A line that Enter sends; what it means so far stands below, and is wrong nowhere unseen."""

    def hint_words(self) -> str:
        """Return the keys of the line."""
        picking = "1-9 choose   Space next page   b back"
        return "Enter takes it   Esc back" if self.typing else picking

    def message(self, line: str) -> Message:
        """Return what a line reports; a subclass says."""
        raise NotImplementedError

    def press(self, key: str, character: str | None) -> None:
        """Send the line, or type on it."""
        if key == "enter" and self.typing and self.wanted.strip():
            self.post_message(self.message(self.wanted.strip()))
        else:
            super().press(key, character)


class ShortScreen(EntryScreen):
    """Readings in short; each token is told as it is typed."""

    heading = "In short: several readings on one line"

    def message(self, line: str) -> Message:
        """Report the line."""
        return InShort(line)

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return what each token is taken for, or why it is not; else what a line may hold."""
        if not self.wanted.strip():
            return forms_blocks()
        try:
            book, threads = self.engine.book, self.engine.catalogue.threads
            return taken_blocks(read_in_short(self.wanted, snapshot.state, book, threads), book)
        except ReadingError as error:
            return [Block(error.problem, Tone.WARN), BLANK, *forms_blocks()]


class ClaimScreen(EntryScreen):
    """What somebody says it is; Enter on an empty line leaves it, to take a claim back."""

    heading = "What is it called? Such as JIC 8 by the driver"
    by = ""

    def message(self, line: str) -> Message:
        """Report what was said."""
        return Claims(line, self.by)

    def watch_snapshot(self) -> None:
        """What was taken is no more on the line."""
        if self.is_mounted and self.wanted and _took(self.snapshot.state, self.wanted):
            self.wanted = ""
        super().watch_snapshot()

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return what the words name, or all that was said, held against the readings."""
        if self.wanted.strip():
            return named_blocks(self.engine.catalogue, self.wanted)
        said = claims_blocks(self.engine, snapshot.state, snapshot.verdict, picks=True)
        if not said:
            return [Block("Nobody has said yet what it is called.")]
        return [*said, BLANK, Block("Enter, then its number: takes a claim back.")]

    def picked(self, pick: str) -> None:
        """Take a claim back."""
        self.post_message(Unclaims(pick))


class GuessScreen(ClaimScreen):
    """Asks the person who measures what it is, before anything is told."""

    heading = "What do you think it is? Such as JIC 8"
    by = YOU

    def hint_words(self) -> str:
        """Return the keys."""
        return "Enter says it   Esc tell me"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return what the words name."""
        if self.wanted.strip():
            return named_blocks(self.engine.catalogue, self.wanted)
        return [Block("Nothing is told before you have said it, or passed with Esc.")]

    def leave(self) -> None:
        """Pass."""
        self.post_message(GuessPassed())


def _took(state: SessionState, line: str) -> bool:
    return bool(state.claims) and line.strip().startswith(state.claims[-1].words)
