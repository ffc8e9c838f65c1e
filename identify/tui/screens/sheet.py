"""Screens of the sheet of a hose: its sections, the entries of one, what was found, drawn, read."""

from collections.abc import Callable, Sequence
from typing import ClassVar

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot
from identify.pages.blocks import Block, Line, Picture, Rows, Table
from identify.pages.sheet import drawing_of, sheet_blocks
from identify.pages.sheet_changes import difference_blocks
from identify.pages.sheet_checks import check_blocks
from identify.pages.sheet_desk import (
    SECTION,
    desk_blocks,
    desk_key_blocks,
)
from identify.pages.sheet_order import order_blocks_of
from identify.pages.text import text_of
from identify.reasoning.engine import Engine
from identify.sheets.desk import Desk
from identify.tui.messages import Opened
from identify.tui.pane import Pane
from identify.tui.screens.base import Face
from identify.tui.screens.paged import PagedScreen
from identify.tui.screens.sheet_section import PAGE, SectionScreen, Shown, with_tally

DRAWN_ROWS = 60  # a drawing takes what the window has


class SheetPage(PagedScreen):
    """A page of the sheet; the title tells how many findings there are."""

    about = "b back   ? keys   q quit"

    def __init__(self, desk: Desk, engine: Engine, snapshot: Snapshot, style: Style) -> None:
        super().__init__(engine, snapshot)
        self.desk, self.style = desk, style

    def on_screen_resume(self) -> None:
        """Draw what was entered on the page above."""
        self.redraw()

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return heading, findings, page number."""
        (line,) = super().title_lines(snapshot, width)
        return (with_tally(line, self.desk, width),)

    def press(self, key: str, character: str | None) -> None:
        """Show the keys of the sheet; the rest is as on every page."""
        if character == "?":
            self.post_message(Opened(PAGE, "keys"))
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Open what was picked."""
        self.post_message(Opened(PAGE, pick))


class DeskScreen(SheetPage):
    """The sheet: how far it is, its sections, and what can be read, drawn or written."""

    heading = "Sheet of a hose"
    KEYS: ClassVar[dict[str, str]] = {
        "f": "checks", "d": "drawing", "r": "whole", "o": "order", "w": "write a4",
    }  # fmt: skip

    def heading_words(self) -> str:
        """Return whose sheet it is."""
        reference = self.desk.draft.texts.get("job.reference", "")
        return f"Sheet: {reference}" if reference else self.heading

    def hint_words(self) -> str:
        """Return the keys."""
        return "1-9 choose   Space more   d drawing   r read   w write   ? keys   q quit"

    def blocks(self, snapshot: Snapshot) -> Shown:
        """Return the page."""
        return [*desk_blocks(self.desk.draft, len(self.desk.since))]

    def press(self, key: str, character: str | None) -> None:
        """Some pages have a letter too."""
        if character and character in self.KEYS:
            self.picked(self.KEYS[character])
        else:
            super().press(key, character)


class ToldScreen(SheetPage):
    """A page of the sheet that is only read."""

    def __init__(
        self, desk: Desk, engine: Engine, snapshot: Snapshot, style: Style,
        heading: str, make: Callable[[Desk], Sequence[Block | Table | Picture]],
    ) -> None:  # fmt: skip
        super().__init__(desk, engine, snapshot, style)
        self.heading, self.make = heading, make

    def blocks(self, snapshot: Snapshot) -> Shown:
        """Return the page; a table is set for the room there is."""
        width = min(max(self.query_one("#body", Pane).size.width - 2, 20), 100)
        return [
            Rows(tuple(text_of([each], width).splitlines())) if isinstance(each, Table) else each
            for each in self.make(self.desk)
        ]


def _whole(desk: Desk) -> Sequence[Block | Table | Picture]:
    draft = desk.draft
    return sheet_blocks(
        draft.worked, draft.found, draft.known, lambda sheet: Picture(sheet, DRAWN_ROWS)
    )


def _since(desk: Desk) -> Sequence[Block | Table | Picture]:
    return difference_blocks(
        desk.since, "as it was kept", "now, with the tables of today",
        other_tables=desk.other_tables,
    )  # fmt: skip


_TOLD: dict[str, tuple[str, Callable[[Desk], Sequence[Block | Table | Picture]]]] = {
    "checks": (
        "What was found",
        lambda desk: tuple(check_blocks(desk.draft.worked, desk.draft.found)),
    ),
    "drawing": (
        "Both ends on the hose",
        lambda desk: [Picture(drawing_of(desk.draft.worked, desk.draft.known), DRAWN_ROWS)],
    ),
    "whole": ("The whole sheet", _whole),
    "order": (
        "To order by telephone",
        lambda desk: order_blocks_of(desk.draft.worked, desk.draft.found),
    ),
    "since": ("Since it was kept", _since),
    "keys": ("Keys of the sheet", lambda _: tuple(desk_key_blocks())),
}


def sheet_screen(
    desk: Desk, engine: Engine, snapshot: Snapshot, style: Style, pick: str
) -> Face | None:
    """Return the page that a pick of the sheet names; None for one that is no page."""
    what, _, name = pick.partition(" ")
    if what == SECTION:
        return SectionScreen(desk, engine, snapshot, style, name)
    if what in _TOLD:
        return ToldScreen(desk, engine, snapshot, style, *_TOLD[what])
    return None
