"""Screens that are read: help, reasons, one row of the tables, verdict, lookalikes."""

from identify.interview.snapshot import Reference, Snapshot
from identify.model.connection import EndConnection
from identify.reasoning.lookalikes import Lookalike
from identify.reasoning.mating import Mates
from identify.tui.messages import Opened, RetakeWanted, WriteWanted
from identify.tui.screens.paged import PagedScreen
from identify.tui.view.ends import end_blocks
from identify.tui.view.help import help_blocks
from identify.tui.view.lines import Block
from identify.tui.view.lookalikes import lookalike_blocks
from identify.tui.view.verdict import verdict_blocks
from identify.tui.view.why import WhyNot, why_blocks, why_not_blocks


class HelpScreen(PagedScreen):
    """How to measure what is asked, and all keys."""

    heading = "Help"
    about = "b back   q quit"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return help on the open question and the keys."""
        return help_blocks(snapshot, self.reference)


class WhyScreen(PagedScreen):
    """The ranking with reasons; a digit shows that end."""

    heading = "Why: every reading, + for, - against"
    about = "1-9 that end   b back   ? help"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the candidates with their evidence."""
        return why_blocks(snapshot, self.reference)

    def picked(self, pick: str) -> None:
        """Show the end."""
        self.post_message(Opened("end", pick))


class WhyNotScreen(PagedScreen):
    """What speaks against an end that was picked."""

    heading = "Why not this one?"
    about = "b back   ? help   q quit"

    def __init__(self, reference: Reference, snapshot: Snapshot, found: WhyNot) -> None:
        super().__init__(reference, snapshot)
        self.found = found

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the evidence against it first."""
        return why_not_blocks(self.found, self.reference)


class EndScreen(PagedScreen):
    """One row of the tables."""

    heading = "From the tables"
    about = "d drawing   b back   ? help"

    def __init__(self, reference: Reference, snapshot: Snapshot, end: EndConnection) -> None:
        super().__init__(reference, snapshot)
        self.end = end

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return figures and sources."""
        return end_blocks(self.reference, self.end)

    def press(self, key: str, character: str | None) -> None:
        """One key shows the drawing of this end."""
        if character == "d":
            self.post_message(Opened("picture", self.end.id))
        else:
            super().press(key, character)


class VerdictScreen(PagedScreen):
    """The verdict in full."""

    heading = "Verdict"
    about = "b back   n next page   q quit"

    def __init__(self, reference: Reference, snapshot: Snapshot, mates: Mates | None) -> None:
        super().__init__(reference, snapshot)
        self.mates = mates

    def hint_words(self) -> str:
        """Return the keys; r only where there is a suspect."""
        retake = "r retake   " if self.snapshot.verdict.suspects else ""
        return f"n next page   {retake}w write   b go on   q quit"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the verdict."""
        return verdict_blocks(snapshot, self.reference, self.mates)

    def picked(self, pick: str) -> None:
        """Show the end, or its mate."""
        self.post_message(Opened("end", pick))

    def press(self, key: str, character: str | None) -> None:
        """One key retakes the suspect, one writes the verdict to a file."""
        if character == "r":
            self.post_message(RetakeWanted())
        elif character == "w":
            self.post_message(WriteWanted())
        else:
            super().press(key, character)


class LookalikesScreen(PagedScreen):
    """What may be taken for the leading end."""

    heading = "Lookalikes"
    about = "1-9 lay it over   b back   ? help"

    def __init__(
        self,
        reference: Reference,
        snapshot: Snapshot,
        end: EndConnection,
        found: tuple[Lookalike, ...],
    ) -> None:
        super().__init__(reference, snapshot)
        self.end, self.found = end, found

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the lookalikes."""
        return lookalike_blocks(snapshot, self.end, self.found)

    def picked(self, pick: str) -> None:
        """Lay it over the leading end."""
        self.post_message(Opened("overlay", f"{self.end.id} {pick}"))
