"""The screen library's way to the terminal, made steady: strange bytes, a stop from outside.

Where there is no POSIX terminal the library's own way is taken as it is.
"""

import asyncio
import codecs
import os
import sys
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from textual.driver import Driver

try:
    import termios
except ImportError:  # Windows
    termios = None  # type: ignore[assignment]

LEAVE = (
    "\x1b[?1000l\x1b[?1003l\x1b[?1015l\x1b[?1006l\x1b[?2004l\x1b[?1004l\x1b[<u"
    "\x1b[?7h\x1b[?1049l\x1b[?25h"
)
"""Mouse, paste marks, focus and key reports off, wrapping on, main screen, cursor shown."""


class Terminal:
    """The terminal as it was before the interview, to be left so in whatever way it ends."""

    def __init__(self) -> None:
        self._before: Any = None
        if termios and sys.__stdin__:
            with suppress(OSError, ValueError, termios.error):
                self._number = sys.__stdin__.fileno()
                self._before = termios.tcgetattr(self._number)

    def restore(self, *, wholly: bool = False) -> None:
        """Put line mode and echo right; `wholly` also the screen, where the library could not."""
        if termios and self._before is not None:
            with suppress(OSError, ValueError, termios.error):
                termios.tcsetattr(self._number, termios.TCSANOW, self._before)
        if wholly and sys.__stderr__:
            with suppress(OSError, ValueError):
                os.write(sys.__stderr__.fileno(), LEAVE.encode())


def _forgiving(encoding: str) -> Any:
    return partial(codecs.getincrementaldecoder(encoding), errors="ignore")


def driver_class() -> "type[Driver] | None":
    """Return the way to the terminal of this system, None for the library's own choice."""
    if termios is None:
        return None
    from textual.drivers import linux_driver

    # What stands beside a strange byte is kept so; without this seam the loop below still holds.
    linux_driver.__dict__["getincrementaldecoder"] = _forgiving

    class SteadyDriver(linux_driver.LinuxDriver):
        """Passes over bytes that are no UTF-8, and comes back after SIGSTOP as it left."""

        def run_input_thread(self) -> None:
            """Read keys; what a strange byte came with is dropped, as noise on a line is."""
            while True:
                with suppress(UnicodeDecodeError):
                    super().run_input_thread()
                    return

        def start_application_mode(self) -> None:
            """Take the terminal, and remember how it was set then."""
            super().start_application_mode()  # type: ignore[no-untyped-call]
            self._loop_of_app = asyncio.get_running_loop()
            self._set = None
            with suppress(termios.error):
                self._set = termios.tcgetattr(self.fileno)

        def _sigcont_application(self, *_: object) -> None:
            """Go on; after SIGSTOP, of which nobody was told, only the terminal is set again."""
            if self._must_signal_resume or self._writer_thread is None:
                super()._sigcont_application()
                return
            if self._set is not None:
                with suppress(termios.error):
                    termios.tcsetattr(self.fileno, termios.TCSANOW, self._set)
            self.write("\x1b[?1049h\x1b[?25l\x1b[?2004h\x1b[?7l")
            self._enable_mouse_support()
            self._loop_of_app.call_soon_threadsafe(self._again)

        def _again(self) -> None:
            self._app.screen.refresh(layout=True)

    return SteadyDriver
