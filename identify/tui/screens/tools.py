"""Tools first, then access; both answered by digits."""

from identify.interview.snapshot import Reference, Snapshot
from identify.model.rule import Access, Moment, Tool
from identify.tui.messages import Opened, Prepared
from identify.tui.screens.paged import PagedScreen
from identify.tui.view.lines import Block
from identify.tui.view.tools import access_blocks, tool_blocks


class ToolsScreen(PagedScreen):
    """Asks what is to hand, then how much of the end can be reached."""

    def __init__(self, reference: Reference, snapshot: Snapshot, chosen: frozenset[Tool]) -> None:
        super().__init__(reference, snapshot)
        self.chosen = chosen
        self.done = False

    def heading_words(self) -> str:
        """Return which of the two is asked."""
        return "How is the end now?" if self.done else "Tools"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the tools, or the access."""
        if not self.done:
            return tool_blocks(self.chosen)
        return access_blocks(
            tuple(
                caution.sentence
                for caution in self.reference.book.cautions
                if Moment.BEFORE in caution.when
            )
        )

    def hint_words(self) -> str:
        """Return the keys of the step."""
        return (
            "1-3 choose   b tools   ? help   q quit"
            if self.done
            else ("1-8 tick   Enter go on   ? help   q quit")
        )

    def press(self, key: str, character: str | None) -> None:
        """Enter ends the ticking."""
        if key == "enter" and not self.done:
            self._step(True)
        elif character == "g":
            self.post_message(Opened("guide"))
        else:
            super().press(key, character)

    def leave(self) -> None:
        """Back from access to tools; from tools to where it was called."""
        if self.done:
            self._step(False)
        else:
            super().leave()

    def picked(self, pick: str) -> None:
        """Tick a tool, or end with the access."""
        if self.done:
            self.post_message(Prepared(self.chosen, Access(pick)))
            return
        self.chosen = self.chosen ^ {Tool(pick)}
        self.redraw()

    def zero(self) -> None:
        """Nothing to hand."""
        if not self.done:
            self.chosen = frozenset()
            self._step(True)

    def _step(self, done: bool) -> None:
        self.done, self.at = done, 0
        self.redraw()
