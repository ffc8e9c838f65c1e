"""A list that is narrowed by typing; Enter ends typing, then a digit chooses."""

from textual.app import ComposeResult
from textual.events import Paste

from identify.tui.screens.paged import PagedScreen
from identify.tui.view.entry import Typing, entry_lines
from identify.tui.widgets.pane import Pane


class SearchScreen(PagedScreen):
    """Typing comes first, so that sizes such as 1/4 can be typed; a subclass gives the blocks."""

    DEFAULT_CSS = "SearchScreen > #entry { height: 1; }"

    typing = True
    wanted = ""

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
            return "type words or a size   Enter then choose   Backspace back"
        return "1-9 choose   n next page   s search again   b back"

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
            if not self.wanted:
                self.leave()
            self.wanted = self.wanted[:-1]
            self._again()
        elif key in ("down", "pagedown", "up", "pageup"):
            super().press(key, character)
        elif character and character.isprintable():
            self.wanted += character
            self._again()

    def on_paste(self, event: Paste) -> None:
        """Take pasted text as typed."""
        self.wanted += " ".join(event.text.split())[:80]
        self._again()

    def _again(self) -> None:
        self.at = 0
        self.redraw()

    def _type(self, typing: bool) -> None:
        self.typing = typing
        self.redraw()
