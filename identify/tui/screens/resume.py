"""Offers to go on with an interview that was broken off."""

from identify.interview.journal import Saved
from identify.interview.session import replay
from identify.interview.snapshot import Reference, Snapshot
from identify.model.feature import FEATURES
from identify.tui.messages import GoOn
from identify.tui.screens.paged import PagedScreen
from identify.tui.view.lines import Block, Tone


class ResumeScreen(PagedScreen):
    """Shows what was answered before and asks whether to go on."""

    heading = "An interview was broken off"
    about = "1 go on   2 begin anew   q quit"

    def __init__(self, reference: Reference, snapshot: Snapshot, saved: Saved) -> None:
        super().__init__(reference, snapshot)
        self.saved = saved

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return when it began and what was answered."""
        answers = replay(self.saved.events).answers
        when = self.saved.begun.replace("T", " at ")
        return (
            Block(f"Begun {when}, {len(answers)} answers, all kept.", Tone.HEAD),
            *(Block(f"{FEATURES[each.feature].title}: {each.entered}", mark="- ")
              for each in answers),
            Block(""),
            Block("Go on where it stopped", pick="on"),
            Block("Begin a new one; the old one stays on the disk", pick="new"),
        )  # fmt: skip

    def picked(self, pick: str) -> None:
        """Report the choice."""
        self.post_message(GoOn(pick == "on"))

    def leave(self) -> None:
        """There is no screen to go back to."""
