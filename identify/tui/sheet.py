"""The sheet of a hose on the full screen."""

import sys
from collections.abc import Callable, Sequence
from contextlib import suppress

from identify.errors import OutputError, WhichendError
from identify.frozen import replace
from identify.interview.snapshot import Snapshot
from identify.pages.sheet_checks import conclusion_block
from identify.pages.written import write_sheet
from identify.reasoning.engine import Engine
from identify.sheets.desk import Desk
from identify.sheets.kept import KeptSheet
from identify.tui import messages, themes
from identify.tui.aside import Aside
from identify.tui.run import run_guarded, tell_crash
from identify.tui.screens.base import Face
from identify.tui.screens.kept_sheets import KeptSheetsScreen
from identify.tui.screens.sheet import DeskScreen, sheet_screen
from identify.tui.screens.sheet_section import PAGE


class SheetApp(Aside):
    """The app of one sheet.

    Args:
        desk: The sheet at work.
        kept: Sheets that are kept, to choose from first; none begins at once.
        open_kept: Gives the desk of one of them.
        theme: Name of a set of colours.
    """

    def __init__(
        self,
        desk: Desk,
        kept: Sequence[KeptSheet] = (),
        open_kept: Callable[[KeptSheet], Desk] | None = None,
        theme: str = themes.DARK.name,
    ) -> None:
        super().__init__(Engine(desk.known.catalogue, desk.known.book), theme)
        self.desk, self.kept, self.open_kept = desk, kept, open_kept

    @property
    def said(self) -> Snapshot:
        """What pages show beside their own: a note where the sheet cannot be kept."""
        return replace(Snapshot(), note=self.desk.trouble)

    def on_mount(self) -> None:
        """Show the sheet, or ask which one."""
        if self.kept:
            self.push_screen(KeptSheetsScreen(self.engine, self.said, self.kept))
        else:
            self._show_desk()

    def _show_desk(self) -> None:
        self.push_screen(DeskScreen(self.desk, self.engine, self.said, self.style))

    def on_opened(self, message: messages.Opened) -> None:
        """Show a page over the present one."""
        if message.screen in ("words", "word"):
            self.push_screen(self.words(message.end))
        elif message.screen == "kept_sheet":
            self._open_kept(message.end)
        elif message.screen == PAGE:
            page = sheet_screen(self.desk, self.engine, self.said, self.style, message.end)
            if page:
                self.push_screen(page)
            else:
                self._say(write_sheet(self.desk, message.end.rpartition(" ")[2]))

    def _open_kept(self, name: str) -> None:
        found = next((each for each in self.kept if each.path.name == name), None)
        try:
            if found and self.open_kept:
                self.desk = self.open_kept(found)
        except WhichendError as error:
            self._say(str(error))
            return
        self._show_desk()

    def _say(self, sentence: str) -> None:
        if isinstance(self.screen, Face):
            self.screen.snapshot = replace(self.screen.snapshot, note=sentence)


def run_sheet(
    desk: Desk, kept: Sequence[KeptSheet], open_kept: Callable[[KeptSheet], Desk], theme: str
) -> int:
    """Work at a sheet on the full screen and return the exit status of the process."""
    app = SheetApp(desk, kept, open_kept, theme)
    status = run_guarded(app)
    desk = app.desk
    with suppress(OSError, OutputError):  # the terminal may be gone
        tell_crash(app)
        if desk.path or desk.trouble:
            print(conclusion_block(desk.draft.worked, desk.draft.found).text)
        if desk.trouble:
            print(f"whichend: {desk.trouble}", file=sys.stderr)
        elif desk.path:
            print(f"whichend: the sheet is kept in {desk.path}")
    return status
