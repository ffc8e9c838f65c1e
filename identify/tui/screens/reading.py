"""Screens that are read: help, reasons, one row of the tables, verdict, lookalikes, the example."""

from identify.interview.snapshot import Snapshot, ask_of
from identify.model.connection import EndConnection
from identify.model.rule import Moment
from identify.model.verdict import Verdict
from identify.pages.blocks import BLANK, Block
from identify.pages.claim import claims_blocks
from identify.pages.end import end_blocks
from identify.pages.guide import STEPS, step_blocks
from identify.pages.pair import lookalike_blocks
from identify.pages.question import help_blocks, key_blocks
from identify.pages.reasons import WhyNot, why_blocks, why_not_blocks
from identify.pages.verdict import verdict_blocks
from identify.reasoning.engine import Engine
from identify.reasoning.lookalikes import Lookalike
from identify.reasoning.mating import Mates
from identify.tui.messages import Asked, HandWanted, Opened, WriteWanted
from identify.tui.screens.paged import PagedScreen


class HelpScreen(PagedScreen):
    """How to measure what is asked, and all keys."""

    heading = "Help"
    about = "b back   q quit"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return help on the open question and the keys."""
        ask = ask_of(snapshot, self.engine.book)
        return [*(help_blocks(ask) if ask else ()), *((BLANK,) if ask else ()), *key_blocks()]


class WhyScreen(PagedScreen):
    """The ranking with reasons; a digit shows that end."""

    heading = "Why: every reading, + for, - against"
    about = "1-9 that end   b back   ? help"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the candidates with their evidence."""
        return why_blocks(snapshot.verdict)

    def picked(self, pick: str) -> None:
        """Show the end."""
        self.post_message(Opened("end", pick))


class WhyNotScreen(PagedScreen):
    """What speaks against an end that was picked."""

    heading = "Why not this one?"
    about = "b back   ? help   q quit"

    def __init__(self, engine: Engine, snapshot: Snapshot, found: WhyNot) -> None:
        super().__init__(engine, snapshot)
        self.found = found

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the evidence against it first."""
        return why_not_blocks(self.found)


class EndScreen(PagedScreen):
    """One row of the tables."""

    heading = "From the tables"
    about = "d drawing   b back   ? help"

    def __init__(
        self, engine: Engine, snapshot: Snapshot, end: EndConnection, mates: Mates
    ) -> None:
        super().__init__(engine, snapshot)
        self.end, self.mates = end, mates

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return figures and sources."""
        cautions = self.engine.book.cautions_at(Moment.VERDICT, Moment.RATING)
        return end_blocks(self.engine.catalogue, self.end, self.mates, cautions)

    def press(self, key: str, character: str | None) -> None:
        """One key shows the drawing of this end."""
        if character == "d":
            self.post_message(Opened("picture", self.end.id))
        else:
            super().press(key, character)


class VerdictScreen(PagedScreen):
    """The verdict in full."""

    heading = "Verdict"

    def __init__(self, engine: Engine, snapshot: Snapshot, mates: Mates | None) -> None:
        super().__init__(engine, snapshot)
        self.mates = mates

    def hint_words(self) -> str:
        """Return the keys; r only where there is a suspect."""
        retake = "r retake   " if self.snapshot.verdict.suspects else ""
        return f"{self.turning}{retake}l label   n next end or job   b go on   w write   q quit"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the verdict."""
        told = verdict_blocks(self.engine, snapshot.verdict, self.mates)
        said = claims_blocks(self.engine, snapshot.state, snapshot.verdict)
        return [*told, *([BLANK, *said] if said else [])]

    def picked(self, pick: str) -> None:
        """Show the end, or its mate."""
        self.post_message(Opened("end", pick))

    def press(self, key: str, character: str | None) -> None:
        """One key retakes the suspect, writes the verdict or the label, or asks what comes next."""
        suspects = self.snapshot.verdict.suspects
        if character == "n":
            self.post_message(Opened("onward"))
        elif character == "r" and suspects:
            self.post_message(Asked(suspects[0].reading.feature))
        elif character == "w":
            self.post_message(WriteWanted())
        elif character == "l":
            self.post_message(HandWanted("label"))
        else:
            super().press(key, character)


class LookalikesScreen(PagedScreen):
    """What may be taken for the leading end."""

    heading = "Lookalikes"
    about = "1-9 lay it over   b back   ? help   i lessons"

    def __init__(
        self,
        engine: Engine,
        snapshot: Snapshot,
        end: EndConnection,
        found: tuple[Lookalike, ...],
    ) -> None:
        super().__init__(engine, snapshot)
        self.end, self.found = end, found

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the lookalikes."""
        return lookalike_blocks(snapshot.verdict, self.end, self.found, self.engine.book)

    def picked(self, pick: str) -> None:
        """Lay it over the leading end."""
        self.post_message(Opened("overlay", f"{self.end.id} {pick}"))


class GuideScreen(PagedScreen):
    """Shows what the engine makes of each answer of the example."""

    def __init__(self, engine: Engine, snapshot: Snapshot, verdicts: tuple[Verdict, ...]) -> None:
        super().__init__(engine, snapshot)
        self.verdicts = verdicts
        self.step = 0

    def heading_words(self) -> str:
        """Return the step."""
        return f"Guided example, all of it invented: step {self.step} of {len(STEPS)}"

    def hint_words(self) -> str:
        """Return the keys."""
        step = "Space next   " if self.step < len(STEPS) else ""
        return f"{step}Up step back   b leave   q quit"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the step."""
        return step_blocks(self.step, self.verdicts)

    def turn(self, step: int) -> None:
        """Turn the page within a step, then go to the next step."""
        if 0 <= self.at + step < len(self.pages):
            self.at += step
        elif 0 <= self.step + step <= len(STEPS):
            self.step += step
            self.at = 0
        self.redraw()

    def press(self, key: str, character: str | None) -> None:
        """Enter goes on too."""
        if key == "enter":
            self.turn(1)
        else:
            super().press(key, character)
