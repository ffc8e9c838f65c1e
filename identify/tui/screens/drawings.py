"""Screens that show a drawing as large as the window allows."""

from identify.drawing.style import FEWEST_COLUMNS, FEWEST_ROWS, Style
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.connection import EndConnection
from identify.pages.blocks import Line, Tone
from identify.pages.words import end_words
from identify.reasoning.engine import Engine
from identify.tui.lines import cut
from identify.tui.pane import Pane
from identify.tui.panes import drawn, overlay_lines
from identify.tui.screens.base import Face


class PictureScreen(Face):
    """The half-section of one end."""

    hints = "b back   ? help   c colours   q quit"

    def __init__(
        self, engine: Engine, snapshot: Snapshot, end: EndConnection, style: Style
    ) -> None:
        super().__init__(engine, snapshot)
        self.end, self.style = end, style

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return whose picture it is."""
        return (Line(cut(f" Drawing: {end_words(self.end)}", width), Tone.TITLE),)

    def redraw(self) -> None:
        """Draw the picture, nothing where there is no room."""
        lead = self.snapshot.verdict.ranking
        leads = bool(lead) and lead[0].end.id == self.end.id
        ask = ask_of(self.snapshot, self.engine.book) if leads else None
        feature = ask.text.feature if ask else None

        def draw(width: int, height: int) -> tuple[Line, ...]:
            if width < FEWEST_COLUMNS or height < FEWEST_ROWS:
                return ()
            rows = drawn(self.engine, self.end, feature, self.style, width, height)
            return tuple(Line(row) for row in rows)

        self.query_one("#body", Pane).show(draw)
        super().redraw()


class OverlayScreen(Face):
    """A lookalike laid over the leading end, with the difference in words."""

    hints = "b back   ? help   c colours   q quit"

    def __init__(
        self, engine: Engine, snapshot: Snapshot, end: str, rival: str, style: Style
    ) -> None:
        super().__init__(engine, snapshot)
        self.end, self.rival, self.style = end, rival, style

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return which two they are."""
        by_id = self.engine.catalogue.by_id
        text = f" {end_words(by_id[self.end])} and {end_words(by_id[self.rival])}"
        return (Line(cut(text, width), Tone.TITLE),)

    def redraw(self) -> None:
        """Draw both, and say how they differ."""
        self.query_one("#body", Pane).show(
            lambda width, height: overlay_lines(
                self.engine, self.end, self.rival, self.style, width, height
            )
        )
        super().redraw()
