"""Runs the interview on the real terminal: signals, exit status, crash, what is said at the end."""

import asyncio
import os
import signal
import sys
import threading
import traceback
from contextlib import suppress

from textual.app import App
from textual.driver import Driver

from identify.errors import OutputError, WhichendError
from identify.interview.habits import Habits
from identify.jobs.folders import folder_path, state_folder
from identify.jobs.journal import Saved
from identify.jobs.saving import Autosave
from identify.pages.jobs import how_to_make, where_kept
from identify.reasoning.engine import Engine
from identify.tui.app import Interview
from identify.tui.driver import Terminal, driver_class
from identify.tui.themes import NAMES

SIGNAL_BASE = 128  # exit status of a process ended by a signal is this plus its number
GRACE_S = 3.0  # after a signal, for the terminal to be put right


def run(
    engine: Engine,
    autosave: Autosave,
    saved: Saved | None = None,
    habits: Habits = Habits(),  # noqa: B008 - it is frozen
    *,
    theme: str = "dark",
    offer: bool = True,
    spare: bool = False,
) -> int:
    """Run the full-screen interview and return the exit status of the process.

    Args:
        engine: Reasons over tables and rules.
        autosave: Keeps the answers.
        saved: An interview that was broken off.
        habits: What need not be asked.
        theme: Name of a set of colours.
        offer: Ask whether to go on with it; else it is taken up at once.
        spare: Show no picture until it is asked for.

    Returns:
        0 after leaving, 128 and its number after a signal, 1 after a bug.

    Raises:
        WhichendError: There are no such colours.
    """
    if theme not in NAMES:
        raise WhichendError(f'"{theme}" is no set of colours; write {", ".join(NAMES)}.')
    app = Guarded(engine, autosave, habits, saved=saved, offer=offer, theme=theme, spare=spare)
    try:
        status = run_guarded(app)
    finally:
        autosave.let_go()
    _farewell(app, autosave, status)
    return status


class Guard(App[int]):
    """An app with a crash that names a file instead of showing its insides."""

    crash: str = ""

    def get_driver_class(self) -> type[Driver]:
        """Return the way to the terminal; a steady one where the system has one."""
        return driver_class() or super().get_driver_class()

    def panic(self, *renderables: object) -> None:
        """Keep the traceback, without the values in it, and leave."""
        self.crash = self.crash or _told(renderables)
        self._fatal_error()

    def _fatal_error(self) -> None:
        self.crash = self.crash or traceback.format_exc()
        self._close_messages_no_wait()


class Guarded(Guard, Interview):
    """The interview, guarded."""


def run_guarded(app: Guard) -> int:
    """Run an app on the real terminal, leave that as it was, and return the exit status."""
    terminal = Terminal()
    try:
        return asyncio.run(_with_signals(app, terminal))
    finally:
        terminal.restore()


def _told(renderables: tuple[object, ...]) -> str:
    """Return what a fault in another thread says, which hands over a drawn traceback only."""
    if sys.exception() is not None:
        return ""
    lines = []
    for drawn in renderables:
        for stack in getattr(getattr(drawn, "trace", None), "stacks", ()):
            lines += [f"{each.filename}:{each.lineno} in {each.name}" for each in stack.frames]
            lines.append(f"{stack.exc_type}: {stack.exc_value}")
    return "\n".join(lines) or "A fault of which nothing is told."


def ending_signals() -> list[int]:
    """Return the signals that would end the program at once, except those nobody can catch.

    Not those that a fault of the machine raises: a handler would return into the fault.
    """
    names = (
        "SIGHUP", "SIGINT", "SIGQUIT", "SIGTERM", "SIGABRT", "SIGALRM", "SIGUSR1", "SIGUSR2",
        "SIGVTALRM", "SIGPROF", "SIGXCPU", "SIGPOLL", "SIGPWR", "SIGSTKFLT", "SIGTRAP", "SIGSYS",
    )  # fmt: skip
    numbers = {int(number) for name in names if (number := getattr(signal, name, None))}
    if hasattr(signal, "SIGRTMIN"):
        numbers |= set(range(int(signal.SIGRTMIN), int(signal.SIGRTMAX) + 1))
    return sorted(numbers)


async def _with_signals(app: Guard, terminal: Terminal) -> int:
    loop = asyncio.get_running_loop()
    last_resort: list[threading.Timer] = []

    def give_up(status: int) -> None:
        terminal.restore(wholly=True)
        os._exit(status)

    def leave(number: int) -> None:
        status = SIGNAL_BASE + number
        app.exit(return_code=status)
        # A terminal that is gone can hold the screen library up; all answers are on the disk.
        last_resort.append(threading.Timer(GRACE_S, give_up, (status,)))
        last_resort[-1].daemon = True
        last_resort[-1].start()

    for number in ending_signals():
        with suppress(NotImplementedError, ValueError, OSError, RuntimeError):  # as on Windows
            loop.add_signal_handler(number, leave, number)
    await app.run_async()
    for timer in last_resort:
        timer.cancel()
    return (1 if app.crash else 0) or app.return_code or 0


def _farewell(app: Guarded, autosave: Autosave, status: int) -> None:
    with suppress(OSError, OutputError):  # the terminal may be gone
        tell_crash(app)
        if autosave.trouble:
            print(f"whichend: {autosave.trouble}", file=sys.stderr)
        elif app.snapshot.state.answers and status:
            print("whichend: saved.", file=sys.stderr)
        elif app.snapshot.state.answers:
            print(app.snapshot.verdict.sentence)
            print(where_kept(autosave.reference, autosave.path))
            print(how_to_make(autosave.reference))
            if app.unfinished:
                print("whichend: saved. The next start offers to go on.")
            else:
                print("whichend: saved.")


def tell_crash(app: Guard) -> None:
    """Say where a fault of the program is written, if there was one."""
    if app.crash:
        print(f"whichend: a fault in the program. {_log(app.crash)}", file=sys.stderr)


def _log(crash: str) -> str:
    folder = folder_path(state_folder())
    if folder is None:
        return "No home folder is known, so nothing more is kept of it."
    path = folder / "crash.log"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(crash, encoding="utf-8")
    except OSError as error:
        return f"{path} cannot be written ({error.strerror}), so nothing more is known of it."
    return f"What happened is written in {path}; please report it with that file."
