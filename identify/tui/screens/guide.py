"""The guided example, one step a page."""

from identify.interview.snapshot import Reference, Snapshot
from identify.tui.screens.paged import PagedScreen
from identify.tui.view.guide import STEPS, step_blocks
from identify.tui.view.lines import Block


class GuideScreen(PagedScreen):
    """Shows what the engine makes of each answer of the example."""

    def __init__(
        self, reference: Reference, snapshot: Snapshot, snapshots: tuple[Snapshot, ...]
    ) -> None:
        super().__init__(reference, snapshot)
        self.snapshots = snapshots
        self.step = 0

    def heading_words(self) -> str:
        """Return the step."""
        return f"Guided example, all of it invented: step {self.step} of {len(STEPS)}"

    def hint_words(self) -> str:
        """Return the keys."""
        return ("n next   " if self.step < len(STEPS) else "") + "p step back   b leave   q quit"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the step."""
        return step_blocks(self.step, self.snapshots)

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
