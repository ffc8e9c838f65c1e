"""The sheets of no job that are kept: a new one, or one of them to go on with."""

from collections.abc import Sequence

from identify.interview.snapshot import Snapshot
from identify.pages.blocks import Block
from identify.pages.sheet_desk import kept_blocks
from identify.reasoning.engine import Engine
from identify.sheets.kept import KeptSheet
from identify.tui.messages import Opened
from identify.tui.screens.paged import PagedScreen


class KeptSheetsScreen(PagedScreen):
    """Asks which sheet to work at."""

    heading = "Sheets that are kept"
    about = "1-9 choose   q quit"

    def __init__(self, engine: Engine, snapshot: Snapshot, sheets: Sequence[KeptSheet]) -> None:
        super().__init__(engine, snapshot)
        self.sheets = sheets

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the list."""
        return [*kept_blocks(self.sheets)]

    def picked(self, pick: str) -> None:
        """Report the choice."""
        self.post_message(Opened("kept_sheet", pick))
