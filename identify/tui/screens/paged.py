"""A screen of numbered paragraphs on pages: a digit chooses, Space turns the page."""

from collections.abc import Sequence

from identify.interview.snapshot import Snapshot
from identify.pages.blocks import Block, Line, Picture, Rows, Tone
from identify.tui.lines import Page, cut, paginate
from identify.tui.pane import Pane
from identify.tui.screens.base import Face


class PagedScreen(Face):
    """Shows blocks; a subclass gives them and says what a pick does."""

    heading = ""
    about = "b back   ? help   q quit"

    def __init__(self, *args: object, **more: object) -> None:
        super().__init__(*args, **more)  # type: ignore[arg-type]
        self._blocks: Sequence[Block | Picture | Rows] = ()
        self._set: tuple[object, tuple[Page, ...]] | None = None
        self.at = 0

    def blocks(self, snapshot: Snapshot) -> Sequence[Block | Picture | Rows]:
        """Return what is to be read, in order."""
        raise NotImplementedError

    def picked(self, pick: str) -> None:
        """Do what a chosen block stands for."""

    @property
    def pages(self) -> tuple[Page, ...]:
        """The blocks as they stand now, set for the room there is now; a key acts on no others."""
        width, height = self.query_one("#body", Pane).size
        if not width or not height:
            return (Page((), ()),)
        now = self._blocks, width, height, self.style
        if self._set is None or self._set[0] != now:
            self._set = now, paginate(self._blocks, min(width - 2, 100), height, self.style)
        return self._set[1]

    @property
    def page(self) -> Page:
        """The page that is shown."""
        return self.pages[min(self.at, len(self.pages) - 1)]

    def redraw(self) -> None:
        """Set the blocks on pages and show one of them."""
        self._blocks = self.blocks(self.snapshot)
        self.query_one("#body", Pane).show(
            lambda width, _: tuple(Line(f" {line.text}", line.tone) for line in self.page.lines)
        )
        super().redraw()

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return heading and page number."""
        many = len(self.pages)
        right = f"page {min(self.at, many - 1) + 1} of {many} " if many > 1 else ""
        left = cut(f" {self.heading_words()}", max(width - len(right), 1))
        return (Line(left + right, Tone.TITLE),)

    def heading_words(self) -> str:
        """Return the title of the screen."""
        return self.heading

    def hint_words(self) -> str:
        """Return the keys of this page."""
        return self.turning + self.about

    @property
    def turning(self) -> str:
        """The key for the next page, where there are several."""
        return "Space next page   " if len(self.pages) > 1 else ""

    def turn(self, step: int) -> None:
        """Show another page; after the last comes the first."""
        self.at = (min(self.at, len(self.pages) - 1) + step) % len(self.pages)
        self.redraw()

    def press(self, key: str, character: str | None) -> None:
        """Turn pages and choose; the rest is as everywhere."""
        if key in ("n", "space", "down", "pagedown", "right"):
            self.turn(1)
        elif key in ("p", "up", "pageup", "left"):
            self.turn(-1)
        elif character and character.isdigit():
            number = int(character)
            if 1 <= number <= len(self.page.picks):
                self.picked(self.page.picks[number - 1])
            elif number == 0:
                self.zero()
        else:
            super().press(key, character)

    def zero(self) -> None:
        """Do what 0 stands for here; nothing unless a subclass says so."""
