"""Searching the tables: to read a row, or to ask why an end is not the answer."""

from identify.interview.snapshot import Snapshot
from identify.tui.messages import Opened
from identify.tui.screens.search import SearchScreen
from identify.tui.view.ends import list_blocks
from identify.tui.view.lines import Block


class TablesScreen(SearchScreen):
    """The tables; a digit shows a family or a row with its sources."""

    heading = "Tables"
    opens = "end"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return what bears the words typed."""
        return list_blocks(self.reference, self.wanted)

    def picked(self, pick: str) -> None:
        """Narrow to a family, or open a row."""
        if pick.startswith("family "):
            self.wanted = pick.removeprefix("family ") + ":"
            self.at = 0
            self.redraw()
        else:
            self.post_message(Opened(self.opens, pick))


class WhyNotSearchScreen(TablesScreen):
    """Picks the end that the person had expected."""

    heading = "Why not? Which end did you expect?"
    opens = "why_not_end"
