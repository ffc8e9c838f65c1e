"""The screen library's way to the terminal, made steady: strange bytes, keys faster than a person.

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
    from textual.app import App
    from textual.driver import Driver
    from textual.message import Message
    from textual.message_pump import MessagePump

try:
    import termios
except ImportError:  # Windows
    termios = None  # type: ignore[assignment]

HEEDED_S, HEEDED_TRIES = 0.05, 40  # between two looks whether the program ends; looks
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
    from concurrent.futures import CancelledError

    from textual.drivers import linux_driver
    from textual.events import Key, Paste

    # What stands beside a strange byte is kept so; without this seam the loop below still holds.
    linux_driver.__dict__["getincrementaldecoder"] = _forgiving

    class SteadyDriver(linux_driver.LinuxDriver):
        """Passes over strange bytes, lets each key have its way, comes back after SIGSTOP."""

        _loop_of_app: asyncio.AbstractEventLoop | None = None

        def run_input_thread(self) -> None:
            """Read keys; what a strange byte came with is dropped, as noise on a line is."""
            while True:
                with suppress(UnicodeDecodeError):
                    super().run_input_thread()
                    return

        def send_message(self, message: "Message") -> None:
            """Hand on what was read; after a key nothing more before it has done what it does.

            A scanner types faster than a screen is changed, and its next key is for the new one.
            """
            super().send_message(message)
            if not isinstance(message, Key | Paste) or self._loop_of_app is None:
                return
            heeded = asyncio.run_coroutine_threadsafe(_heeded(self._app), self._loop_of_app)
            for _ in range(HEEDED_TRIES):
                if self.exit_event.is_set():
                    break
                with suppress(TimeoutError, CancelledError):
                    heeded.result(HEEDED_S)
                    return
            heeded.cancel()

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
            if self._loop_of_app is not None:
                self._loop_of_app.call_soon_threadsafe(self._again)

        def _again(self) -> None:
            self._app.screen.refresh(layout=True)

    return SteadyDriver


async def _heeded(app: "App[Any]") -> None:
    """Wait until a key that was posted has reached its screen, and what that reports the app."""
    await _passed(app)
    screen = app.screen
    for each in (screen, screen, app):
        await _passed(each)


async def _passed(pump: "MessagePump") -> None:
    """Wait until all that is posted so far was handled."""
    passed = asyncio.Event()
    if pump.call_later(passed.set):
        await passed.wait()
