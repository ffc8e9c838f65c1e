"""A list narrowed by typing: the tables, to read a row or to ask why it is not the answer."""

from textual.app import ComposeResult
from textual.events import Paste

from identify.interview.snapshot import Snapshot
from identify.pages.blocks import Block
from identify.pages.tables import search_blocks
from identify.tui.messages import Opened
from identify.tui.pane import Pane
from identify.tui.question_pane import Typing, entry_lines
from identify.tui.screens.paged import PagedScreen


class SearchScreen(PagedScreen):
    """Typing comes first, so that sizes such as 1/4 can be typed; a subclass gives the blocks."""

    DEFAULT_CSS = "SearchScreen > #entry { height: 1; }"

    typing = True
    wanted = ""
    longest = 80  # characters of what is pasted

    def body(self) -> ComposeResult:
        """The line to type on, and the list."""
        yield Pane(id="entry")
        yield Pane(id="body")

    def redraw(self) -> None:
        """Draw the line too."""
        typing = Typing(self.wanted, self.typing)
        self.query_one("#entry", Pane).show(lambda width, _: tuple(entry_lines(typing, width)))
        super().redraw()

    def hint_words(self) -> str:
        """Return the keys of this mode."""
        if self.typing:
            return "type words or a size   Enter then choose   Esc back"
        return "1-9 choose   Space next page   s search again   b back"

    def press(self, key: str, character: str | None) -> None:
        """Type, or choose."""
        if not self.typing:
            if character == "s":
                self.wanted = ""
                self._type(True)
            else:
                super().press(key, character)
        elif key == "enter":
            self._type(False)
        elif key == "escape":
            self.leave()
        elif key == "backspace":
            self.wanted = self.wanted[:-1]
            self._again()
        elif key in ("down", "pagedown", "up", "pageup"):
            super().press(key, character)
        elif character and character.isprintable():
            self.wanted += character
            self._again()

    def on_paste(self, event: Paste) -> None:
        """Take pasted text as typed."""
        if self.small:
            return
        self.wanted += " ".join(event.text.split())[: self.longest]
        self._again()

    def _again(self) -> None:
        self.at = 0
        self.redraw()

    def _type(self, typing: bool) -> None:
        self.typing = typing
        self.redraw()


class TablesScreen(SearchScreen):
    """The tables; a digit shows a family or a row with its sources."""

    heading = "Tables"
    opens = "end"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return what bears the words typed."""
        return search_blocks(self.engine.catalogue, self.wanted)

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
