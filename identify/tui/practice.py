"""Practice on the full screen: each pick becomes the next page."""

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from typing import ClassVar

from textual.binding import Binding, BindingType

from identify.drawing.style import Style
from identify.errors import OutputError, WhichendError
from identify.frozen import replace
from identify.interview.snapshot import Snapshot
from identify.pages.exercise import ANSWER
from identify.practice.making import PracticeError
from identify.practice.sitting import Sitting
from identify.tui import messages, themes
from identify.tui.run import Guard, run_guarded, tell_crash
from identify.tui.screens.base import Face
from identify.tui.screens.practice import ExerciseScreen, screen_after
from identify.tui.screens.practice_lists import (
    BenchScreen,
    KeysScreen,
    NameScreen,
    PairsScreen,
    ProgressScreen,
)
from identify.tui.screens.words import WordScreen, WordsScreen

_OVER: dict[str, Callable[[Sitting, Snapshot, Style], Face]] = {
    "bench": BenchScreen,
    "name": NameScreen,
    "pairs": PairsScreen,
    "progress": ProgressScreen,
    "keys": KeysScreen,
}


class Practice(Guard):
    """The app of one sitting."""

    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c", "leave", show=False, priority=True),
        Binding("ctrl+q", "leave", show=False, priority=True),
        Binding("ctrl+z", "suspend_process", show=False, priority=True),
    ]
    CSS = "Screen { background: $background; color: $foreground; }"

    def __init__(self, sitting: Sitting, theme: str = themes.DARK.name) -> None:
        self.colourless = bool(os.environ.get("NO_COLOR"))
        super().__init__(ansi_color=True if self.colourless else None)
        for each in themes.THEMES:
            self.register_theme(each)
        self.theme = themes.TERMINAL.name if self.colourless else theme
        self.sitting = sitting

    @property
    def style(self) -> Style:
        """The strokes of drawings: heavy ones for sunlight."""
        return Style.BLOCKS if self.theme == themes.SUNLIGHT.name else Style.BRAILLE

    @property
    def said(self) -> Snapshot:
        """What pages show beside their own: a note where nothing can be kept."""
        return replace(Snapshot(), note=self.sitting.logbook.trouble)

    def on_mount(self) -> None:
        """Show the open exercise."""
        self.push_screen(ExerciseScreen(self.sitting, self.said, self.style))

    def on_opened(self, message: messages.Opened) -> None:
        """Show a page over the present one, or what a pick leads to."""
        if message.screen in _OVER:
            self.push_screen(_OVER[message.screen](self.sitting, self.said, self.style))
        elif message.screen in ("words", "word"):
            self.push_screen(self._words(message.end))
        elif message.screen == "named":
            self._named(message.end)
        elif message.screen == "pick":
            self._go(message.end)

    def _go(self, pick: str) -> None:
        """Do what a pick stands for and show what comes of it; an exercise lies under all else."""
        try:
            page = screen_after(pick, self.sitting, self.said, self.style)
        except PracticeError as error:
            if isinstance(self.screen, Face):
                self.screen.snapshot = replace(self.said, note=str(error))
            return
        if isinstance(page, ExerciseScreen):
            while len(self.screen_stack) > 2:
                self.pop_screen()
            self.switch_screen(page)
        else:
            self.push_screen(page)

    def _named(self, words: str) -> None:
        """Choose the answer that words mean; where they mean none, their page says so."""
        page = self.screen_stack[-2]
        if isinstance(page, ExerciseScreen):
            with suppress(WhichendError):
                pick = f"{ANSWER}{self.sitting.name(words)}"
                self.pop_screen()
                page.choose(pick)

    def _words(self, pick: str) -> Face:
        """Return the list of words and lessons, or the page of one."""
        from identify.knowledge.glossary_tables import load_glossary  # read when first asked for

        engine = self.sitting.room.engine
        if pick:
            return WordScreen(engine, self.said, load_glossary(), pick, self.style)
        return WordsScreen(engine, self.said, load_glossary())

    def on_went_back(self) -> None:
        """Show the page under the present one."""
        if len(self.screen_stack) > 2:
            self.pop_screen()

    def on_theme_wanted(self) -> None:
        """Change the colours, and with them the strokes of drawings."""
        if not self.colourless:
            self.theme = themes.after(self.theme)
            for screen in self.screen_stack:
                if isinstance(screen, Face):
                    screen.restyle(self.style)

    def action_leave(self) -> None:
        """Leave; the open exercise is put again next time."""
        self.exit(0)

    on_left = action_leave


def run_practice(sitting: Sitting, theme: str) -> int:
    """Hold a sitting on the full screen and return the exit status of the process."""
    app = Practice(sitting, theme)
    try:
        status = run_guarded(app)
    finally:
        sitting.logbook.close()
    with suppress(OSError, OutputError):  # the terminal may be gone
        tell_crash(app)
        trouble = sitting.logbook.trouble
        words = trouble or f"practice of {sitting.logbook.history.name} is saved."
        print(f"whichend: {words}", file=sys.stderr if status or trouble else sys.stdout)
    return status
