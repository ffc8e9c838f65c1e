"""The application: the one place where a message becomes a new state."""

from identify.frozen import replace
from identify.interview.session import (
    FIRST_TOOLS,
)
from identify.interview.snapshot import EMPTY_VERDICT
from identify.jobs.journal import Saved
from identify.tui import messages, themes
from identify.tui.answering import Answering
from identify.tui.screens.base import Face
from identify.tui.screens.choosing import ResumeScreen, ToolsScreen


class Interview(Answering):
    """The full-screen interview; the arguments are those of `Holding`."""

    def on_mount(self) -> None:
        """Show what comes before the interview; it is made, and anything concluded, after that."""
        self._begin_warming()
        if self.saved and not self.offer:
            self._take_up(self.saved)
        else:
            self.offer_or_begin()

    def offer_or_begin(self) -> None:
        """Offer an interview that was broken off; where there is none, begin with the tools."""
        if self.saved:
            self.push_screen(ResumeScreen(self.engine, self.snapshot, self.saved))
        else:
            self._ask_first_tools()

    def _ask_first_tools(self) -> None:
        tools, care = self.course.habits.tools, self.course.engine.care
        known = tools is not None
        screen = ToolsScreen(self.engine, self.snapshot, tools or FIRST_TOOLS, care, known=known)
        self.push_screen(screen)

    # Screens.

    def on_opened(self, message: messages.Opened) -> None:
        """Show a screen over the present one."""
        self.snapshot = replace(self.snapshot, note="")
        self._open(message.screen, message.end)

    def on_went_back(self) -> None:
        """Show the screen under the present one as things stand now."""
        if len(self.screen_stack) > 2:
            self.snapshot = replace(self.snapshot, note="")
            self.pop_screen()
            self.watch_snapshot(self.snapshot)
        elif self.snapshot.verdict is EMPTY_VERDICT:
            self._conclude_first()
            self.to_interview()

    def on_theme_wanted(self) -> None:
        """Change the colours, and with them the strokes of drawings."""
        if self.colourless:
            note = "The colours stay: NO_COLOR is set. Unset it and start again to choose."
            self.snapshot = replace(self.snapshot, note=note)
            return
        self.theme = themes.after(self.theme)
        for screen in self.screen_stack:
            if isinstance(screen, Face):
                screen.restyle(self.style)

    def on_write_wanted(self) -> None:
        """Write the verdict beside where the program was started, and say where it lies."""
        from identify.pages.written import write_verdict

        self._conclude_first()
        note = write_verdict(self.engine, self.snapshot.state, self.snapshot.verdict)
        self.snapshot = replace(self.snapshot, note=note)

    def on_hand_wanted(self, message: messages.HandWanted) -> None:
        """Write slip, label or report, and say where it lies."""
        from identify.tui import keeping  # after the first frame

        keeping.hand_job(self, message)

    def on_sheet_wanted(self, message: messages.SheetWanted) -> None:
        """Show the sheet of a hose."""
        from identify.tui import keeping  # after the first frame

        self._conclude_first()
        keeping.open_sheet(self, message)

    # Beginning and end.

    def on_go_on(self, message: messages.GoOn) -> None:
        """Take up the interview that was broken off, or leave it."""
        self.pop_screen()
        if message.resume and self.saved:
            self._take_up(self.saved)
        else:
            self._ask_first_tools()

    def _take_up(self, saved: Saved) -> None:
        self.to_interview()
        self.become(self.course.take_up(saved))

    def on_broken_off_discarded(self) -> None:
        """Discard the interview that is offered."""
        from identify.tui import keeping  # after the first frame

        keeping.discard_broken_off(self)

    def on_job_opened(self, message: messages.JobOpened) -> None:
        """Show a job."""
        from identify.tui import keeping  # after the first frame

        keeping.open_job(self, message)

    def on_job_told(self, message: messages.JobTold) -> None:
        """Keep a fact of a job."""
        from identify.tui import keeping  # after the first frame

        keeping.tell_job(self, message)

    def on_job_discarded(self, message: messages.JobDiscarded) -> None:
        """Discard a job."""
        from identify.tui import keeping  # after the first frame

        keeping.discard_job(self, message)

    def on_job_taken(self, message: messages.JobTaken) -> None:
        """Go on with an end of a job."""
        from identify.tui import keeping  # after the first frame

        keeping.take_job(self, message)

    def on_started_again(self, message: messages.StartedAgain) -> None:
        """Begin the next end or job; what was answered stays on the disk."""
        from identify.tui import keeping  # after the first frame

        keeping.go_on(self, message)

    def action_leave(self) -> None:
        """Leave; a finished interview is not offered again."""
        if isinstance(self.screen, Face):
            self.screen.take_what_is_typed()
        self.course.close(self.snapshot, finished=not self.unfinished)
        self.exit(0)

    on_left = action_leave
