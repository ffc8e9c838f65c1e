"""A list that is narrowed by typing; Enter ends typing, then a digit chooses."""

from textual.app import ComposeResult
from textual.events import Paste

from identify.tui.screens.paged import PagedScreen
from identify.tui.widgets.entry import Entry
from identify.tui.widgets.pane import Pane


class SearchScreen(PagedScreen):
    """Typing comes first, so that sizes such as 1/4 can be typed; a subclass gives the blocks."""

    typing = True

    def body(self) -> ComposeResult:
        """The line to type on, and the list."""
        entry = Entry(id="entry")
        entry.opened = True
        yield entry
        yield Pane(id="body")

    @property
    def wanted(self) -> str:
        """What was typed."""
        return self.query_one(Entry).typed

    def hint_words(self) -> str:
        """Return the keys of this mode."""
        if self.typing:
            return "type words or a size   Enter choose   Backspace back"
        return "1-9 choose   n next page   b search again   q quit"

    def press(self, key: str, character: str | None) -> None:
        """Type, or choose."""
        entry = self.query_one(Entry)
        if not self.typing:
            if key == "backspace" or character == "b":
                self._type(True)
            else:
                super().press(key, character)
        elif key == "enter":
            self._type(False)
        elif key == "backspace":
            if not entry.typed:
                self.leave()
            entry.typed = entry.typed[:-1]
            self._again()
        elif key in ("down", "pagedown", "up", "pageup"):
            super().press(key, character)
        elif character and character.isprintable():
            entry.typed += character
            self._again()

    def on_paste(self, event: Paste) -> None:
        """Take pasted text as typed."""
        self.query_one(Entry).typed += " ".join(event.text.split())[:80]
        self._again()

    def _again(self) -> None:
        self.at = 0
        self.redraw()

    def _type(self, typing: bool) -> None:
        self.typing = typing
        self.query_one(Entry).opened = typing
        self.redraw()
