"""Screens of the sheet of a hose: its sections, the entries of one, what was found, drawn, read."""

from collections.abc import Callable, Sequence
from typing import ClassVar

from identify.drawing.style import Style
from identify.errors import WhichendError
from identify.frozen import replace
from identify.interview.snapshot import Snapshot
from identify.pages.blocks import BLANK, Block, Line, Picture, Rows, Table
from identify.pages.sheet import drawing_of, sheet_blocks
from identify.pages.sheet_changes import difference_blocks
from identify.pages.sheet_checks import MARKS, check_blocks
from identify.pages.sheet_desk import (
    SECTION,
    desk_blocks,
    desk_key_blocks,
    entry_blocks,
    findings_blocks,
    section_blocks,
    tally,
)
from identify.pages.sheet_order import order_blocks_of
from identify.pages.text import text_of
from identify.reasoning.engine import Engine
from identify.sheets.answers import LONGEST_TEXT
from identify.sheets.asking import SECTIONS, section_entries
from identify.sheets.desk import Desk
from identify.sheets.entries import Entry
from identify.tui.messages import Opened
from identify.tui.pane import Pane
from identify.tui.screens.base import Face
from identify.tui.screens.paged import PagedScreen
from identify.tui.screens.search import SearchScreen

DRAWN_ROWS = 60  # a drawing takes what the window has
PAGE = "sheet_page"
"""What `Opened` names for every page of the sheet; its `end` is one of the picks."""

Shown = list[Block | Picture | Rows]


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
        return (_with_tally(line, self.desk, width),)

    def press(self, key: str, character: str | None) -> None:
        """Show the keys of the sheet; the rest is as on every page."""
        if character == "?":
            self.post_message(Opened(PAGE, "keys"))
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Open what was picked."""
        self.post_message(Opened(PAGE, pick))


def _with_tally(line: Line, desk: Desk, width: int) -> Line:
    """Return a title with the findings before its page number, where there is room."""
    found = tally(desk.draft)
    text = line.text.rstrip()
    left, gap, right = text.partition(" page ")
    room = width - len(left.rstrip()) - len(gap + right) - 3
    if not found or len(found) > room:
        return line
    tail = f"{found} {gap}{right} " if gap else f"{found} "
    return Line(left.rstrip().ljust(width - len(tail)) + tail, line.tone)


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


class SectionScreen(SearchScreen):
    """The entries of a section; one that is picked is asked, then the next that is open."""

    typing = False
    longest = LONGEST_TEXT
    entry: Entry | None = None

    def __init__(
        self, desk: Desk, engine: Engine, snapshot: Snapshot, style: Style, section: str
    ) -> None:
        super().__init__(engine, snapshot)
        self.desk, self.style, self.section = desk, style, section

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The entries as they are now: an answer brings others."""
        draft = self.desk.draft
        return tuple(section_entries(self.section, draft.filled.sheet, draft.known))

    def heading_words(self) -> str:
        """Return the section, or the entry that is asked."""
        return self.entry.title if self.entry else SECTIONS[self.section]

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return heading, findings, page number."""
        (line,) = super().title_lines(snapshot, width)
        return (_with_tally(line, self.desk, width),)

    def hint_words(self) -> str:
        """Return the keys of this mode."""
        if self.typing:
            return "Enter takes it, empty leaves it blank   Esc list"
        if self.entry:
            return "1-9 choose   0 leave it blank   b list   ? keys"
        return "1-9 choose   Space next page   b back   ? keys"

    def redraw(self) -> None:
        """Show the line only where something is typed."""
        self.query_one("#entry", Pane).display = self.typing
        super().redraw()

    def blocks(self, snapshot: Snapshot) -> Shown:
        """Return the entries and what was found, or the question of one of them."""
        draft = self.desk.draft
        if self.entry:
            return [*entry_blocks(self.entry, self.wanted, draft)]
        return [*section_blocks(draft, self.section), BLANK, *findings_blocks(draft)]

    def press(self, key: str, character: str | None) -> None:
        """Type an entry, or choose."""
        if self.typing and key == "enter":
            self._take(self.wanted)
        elif self.entry and (key == "escape" or (character == "b" and not self.typing)):
            self._ask(None)
        elif not self.typing and character == "?":
            self.post_message(Opened(PAGE, "keys"))
        elif self.typing or character != "s":
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Ask the entry, or take the answer."""
        if self.entry:
            self._take(pick)
        else:
            self._ask(next((each for each in self.entries if each.path == pick), None))

    def zero(self) -> None:
        """Leave a question with answers to pick blank."""
        if self.entry:
            self._take("")

    def take_what_is_typed(self) -> None:
        """Take the line as it stands, where it can be read: somebody leaves."""
        if self.typing and self.entry and self.wanted.strip():
            self._take(self.wanted)

    def _take(self, text: str) -> None:
        """Take an answer and go on to the next entry that is open; say what it brought."""
        entry = self.entry
        if entry is None:
            return
        try:
            fresh = self.desk.tell(entry.path, text)
        except WhichendError:
            self.redraw()  # why it cannot be read stands below the line
            return
        said = " ".join(f"{MARKS[each.grade].strip()} {each.what}" for each in fresh)
        self.snapshot = replace(self.snapshot, note=self.desk.trouble or said)
        self._ask(self._after(entry.path))

    def _after(self, path: str) -> Entry | None:
        entries = self.entries
        at = next((n for n, each in enumerate(entries) if each.path == path), -1)
        texts = self.desk.draft.texts
        return next((each for each in entries[at + 1 :] if each.path not in texts), None)

    def _ask(self, entry: Entry | None) -> None:
        self.entry, self.at = entry, 0
        self.typing = bool(entry and not entry.choices)
        self.wanted = self.desk.draft.texts.get(entry.path, "") if entry and self.typing else ""
        self.redraw()


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
