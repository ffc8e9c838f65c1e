"""What the apps beside the interview share: colours, words, going back, leaving."""

import os
from typing import ClassVar

from textual.binding import Binding, BindingType

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot
from identify.reasoning.engine import Engine
from identify.tui import messages, themes
from identify.tui.run import Guard
from identify.tui.screens.base import Face
from identify.tui.screens.words import WordScreen, WordsScreen


class Aside(Guard):
    """An app of pages over one first page.

    Args:
        engine: Tables and rules, for the words and lessons.
        theme: Name of a set of colours; with NO_COLOR set it is "terminal".
    """

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c", "leave", show=False, priority=True),
        Binding("ctrl+q", "leave", show=False, priority=True),
        Binding("ctrl+z", "suspend_process", show=False, priority=True),
    ]
    CSS = "Screen { background: $background; color: $foreground; }"

    def __init__(self, engine: Engine, theme: str) -> None:
        self.colourless = bool(os.environ.get("NO_COLOR"))
        super().__init__(ansi_color=True if self.colourless else None)
        for each in themes.THEMES:
            self.register_theme(each)
        self.theme = themes.TERMINAL.name if self.colourless else theme
        self.engine = engine

    @property
    def style(self) -> Style:
        """The strokes of drawings: heavy ones for sunlight."""
        return Style.BLOCKS if self.theme == themes.SUNLIGHT.name else Style.BRAILLE

    @property
    def said(self) -> Snapshot:
        """What pages show beside their own; a subclass has a note where nothing can be kept."""
        return Snapshot()

    def words(self, pick: str) -> Face:
        """Return the list of words and lessons, or the page of one."""
        from identify.knowledge.glossary_tables import load_glossary  # read when first asked for

        if pick:
            return WordScreen(self.engine, self.said, load_glossary(), pick, self.style)
        return WordsScreen(self.engine, self.said, load_glossary())

    def on_went_back(self) -> None:
        """Show the page under the present one."""
        if len(self.screen_stack) > 2:
            self.pop_screen()

    def on_theme_wanted(self, _: messages.ThemeWanted) -> None:
        """Change the colours, and with them the strokes of drawings."""
        if not self.colourless:
            self.theme = themes.after(self.theme)
            for screen in self.screen_stack:
                if isinstance(screen, Face):
                    screen.restyle(self.style)

    def action_leave(self) -> None:
        """Leave; what was done is on the disk, and what stands on an open line is taken."""
        if isinstance(self.screen, Face):
            self.screen.take_what_is_typed()
        self.exit(0)

    on_left = action_leave
