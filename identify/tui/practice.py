"""Practice on the full screen: each pick becomes the next page."""

import sys
from collections.abc import Callable
from contextlib import suppress

from identify.drawing.style import Style
from identify.errors import OutputError, WhichendError
from identify.frozen import replace
from identify.interview.snapshot import Snapshot
from identify.pages.exercise import ANSWER
from identify.practice.making import PracticeError
from identify.practice.sitting import Sitting
from identify.tui import messages, themes
from identify.tui.aside import Aside
from identify.tui.run import run_guarded, tell_crash
from identify.tui.screens.base import Face
from identify.tui.screens.practice import ExerciseScreen, screen_after
from identify.tui.screens.practice_lists import (
    BenchScreen,
    KeysScreen,
    NameScreen,
    PairsScreen,
    ProgressScreen,
)

_OVER: dict[str, Callable[[Sitting, Snapshot, Style], Face]] = {
    "bench": BenchScreen,
    "name": NameScreen,
    "pairs": PairsScreen,
    "progress": ProgressScreen,
    "keys": KeysScreen,
}


class Practice(Aside):
    """The app of one sitting; the open exercise is put again next time."""

    def __init__(self, sitting: Sitting, theme: str = themes.DARK.name) -> None:
        super().__init__(sitting.room.engine, theme)
        self.sitting = sitting

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
            self.push_screen(self.words(message.end))
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
