"""The entries of a section of the sheet: one that is picked is asked, then the next."""

from identify.drawing.style import Style
from identify.errors import WhichendError
from identify.frozen import replace
from identify.interview.snapshot import Snapshot
from identify.pages.blocks import BLANK, Block, Line, Picture, Rows
from identify.pages.sheet_checks import MARKS
from identify.pages.sheet_desk import entry_blocks, findings_blocks, section_blocks, tally
from identify.reasoning.engine import Engine
from identify.sheets.answers import LONGEST_TEXT
from identify.sheets.asking import SECTIONS, section_entries
from identify.sheets.desk import Desk
from identify.sheets.entries import Entry
from identify.tui.messages import Opened
from identify.tui.pane import Pane
from identify.tui.screens.search import SearchScreen

PAGE = "sheet_page"
"""What `Opened` names for every page of the sheet; its `end` is one of the picks."""

Shown = list[Block | Picture | Rows]


def with_tally(line: Line, desk: Desk, width: int) -> Line:
    """Return a title with the findings before its page number, where there is room."""
    found = tally(desk.draft)
    text = line.text.rstrip()
    left, gap, right = text.partition(" page ")
    room = width - len(left.rstrip()) - len(gap + right) - 3
    if not found or len(found) > room:
        return line
    tail = f"{found} {gap}{right} " if gap else f"{found} "
    return Line(left.rstrip().ljust(width - len(tail)) + tail, line.tone)


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
        return (with_tally(line, self.desk, width),)

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
