"""A program on a pty, seen through a terminal in memory."""

import fcntl
import os
import pty
import select
import signal
import struct
import sys
import termios
import time
from pathlib import Path

import pyte

LEAVES_ALTERNATE = b"\x1b[?1049l"
ENTERS_ALTERNATE = b"\x1b[?1049h"
MOUSE_ON, MOUSE_OFF = b"\x1b[?1000h", b"\x1b[?1000l"
SHOWS_CURSOR = b"\x1b[?25h"
PATIENCE = 30.0  # seconds; a busy machine, not a measure of speed


class Terminal:
    """Runs `launch.py` on a pty of a given size, in the folder that holds its interviews."""

    def __init__(
        self, state: Path, *words: str, columns: int = 80, rows: int = 24, **environment: str
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.sent = bytearray()
        clean = {
            name: value
            for name, value in os.environ.items()
            if name not in ("NO_COLOR", "FORCE_COLOR", "COLORTERM", "COLUMNS", "LINES")
            and not name.startswith("TEXTUAL")
        }
        clean |= {
            "TERM": "xterm-256color",
            "LC_ALL": "C.UTF-8",
            "XDG_STATE_HOME": str(state),
            "PYTHONPATH": str(Path(__file__).parents[2]),
            **environment,
        }
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            launch = str(Path(__file__).with_name("launch.py"))
            os.chdir(state)  # a verdict is written where the program runs
            os.execve(sys.executable, [sys.executable, launch, *words], clean)
        self.resize(columns, rows)

    def resize(self, columns: int, rows: int) -> None:
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        self.screen.resize(rows, columns)

    def pump(self, seconds: float = 0.05) -> bool:
        """Feed what the program sent; False once it has gone."""
        ready, _, _ = select.select([self.fd], [], [], seconds)
        if not ready:
            return True
        try:
            data = os.read(self.fd, 65536)
        except OSError:
            return False
        if data:
            self.sent += data
            self.stream.feed(data)
        return bool(data)

    def text(self) -> str:
        return "\n".join(row.rstrip() for row in self.screen.display)

    def wait(self, words: str) -> str:
        """Read until `words` stand on the screen."""
        self.wait_any(words)
        return self.text()

    def wait_any(self, *several: str) -> str:
        """Read until one of several stands on the screen; return which."""
        deadline = time.monotonic() + PATIENCE
        while True:
            for words in several:
                if words in self.text():
                    return words
            alive = self.pump()
            if time.monotonic() > deadline or not alive:
                raise AssertionError(f"{several} did not come up; the screen:\n{self.text()}")

    def after(self) -> bytes:
        """Return what was sent after the alternate screen was left."""
        return bytes(self.sent).rpartition(LEAVES_ALTERNATE)[2]

    def end(self) -> None:
        """End the program if it still runs."""
        try:
            os.kill(self.pid, signal.SIGKILL)
            os.waitpid(self.pid, 0)
        except (ProcessLookupError, ChildProcessError):
            pass

    def press(self, keys: str | bytes) -> None:
        os.write(self.fd, keys.encode() if isinstance(keys, str) else keys)

    def cooked(self) -> bool:
        """Tell whether the terminal echoes and reads by lines, as a shell needs it."""
        wanted = termios.ECHO | termios.ICANON | termios.ISIG
        return termios.tcgetattr(self.fd)[3] & wanted == wanted

    def bytes_of(self, keys: str, words: str) -> int:
        """Return the bytes sent from pressing keys until `words` stand and nothing more comes."""
        before = len(self.sent)
        self.press(keys)
        self.wait(words)
        quiet = len(self.sent)
        while True:
            self.pump(0.3)
            if len(self.sent) == quiet:
                return quiet - before
            quiet = len(self.sent)

    def kill(self, number: signal.Signals) -> None:
        os.kill(self.pid, number)

    def stopped(self) -> None:
        """Wait until the program stands still."""
        os.waitpid(self.pid, os.WUNTRACED)

    def as_a_shell_sets_it(self) -> None:
        """Set line mode and echo, as a shell does when a job has stopped."""
        state = termios.tcgetattr(self.fd)
        state[3] |= termios.ECHO | termios.ICANON | termios.ISIG
        termios.tcsetattr(self.fd, termios.TCSANOW, state)

    def hang_up(self) -> None:
        """Close the master side, as a dropped line does."""
        os.close(self.fd)

    def status(self) -> int:
        """Return the exit status, reading to the end meanwhile."""
        deadline = time.monotonic() + PATIENCE
        while time.monotonic() < deadline:
            try:
                self.pump()
            except (OSError, ValueError):
                time.sleep(0.02)
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                try:
                    while self.pump(0.1) and select.select([self.fd], [], [], 0.1)[0]:
                        pass
                except (OSError, ValueError):
                    pass
                return os.waitstatus_to_exitcode(status)
        os.kill(self.pid, signal.SIGKILL)
        raise AssertionError(f"the program did not end; the screen:\n{self.text()}")

    def restored(self) -> bool:
        """Tell whether alternate screen and mouse are off and the cursor is shown at the end."""
        sent = bytes(self.sent)
        return (
            sent.rfind(LEAVES_ALTERNATE) > sent.rfind(ENTERS_ALTERNATE) >= 0
            and sent.rfind(MOUSE_OFF) > sent.rfind(MOUSE_ON)
            and SHOWS_CURSOR in sent[sent.rfind(ENTERS_ALTERNATE) :]
        )


def prepared(terminal: Terminal) -> Terminal:
    """Return a terminal in which the first question stands."""
    terminal.wait("What have you to hand")
    terminal.press("\r")
    terminal.wait("How is the end now")
    terminal.press("1")
    terminal.wait("Question 1")
    return terminal
