"""The full screen on a real terminal: noise on the line, windows of any size, every signal."""

import contextlib
import os
import random
import signal
from collections.abc import Callable
from pathlib import Path

from identify.tui.run import ending_signals
from tests.tui.terminal import Terminal, prepared

KEYS = "0123456789abdlmnprstuvwxy?\r\x7f ./"
LEAVES = (b"\x03", b"\x11", b"q")


def _ended(terminal: Terminal, expected: int, what: str) -> str | None:
    """Return what is wrong with how a program left its terminal."""
    try:
        status = terminal.status()
    except AssertionError:
        return f"{what}: did not end"
    finally:
        cooked = terminal.cooked()
        terminal.end()
    if status != expected:
        return f"{what}: ended with {status} instead of {expected}"
    if not terminal.restored():
        return f"{what}: left the screen or the mouse on"
    return None if cooked else f"{what}: left the terminal raw"


def noise(folder: Path, seed: int) -> str | None:
    """Send bytes that are no text among keys, then leave; return what went wrong."""
    draw = random.Random(seed)
    terminal = prepared(Terminal(folder, "--new"))
    for _ in range(60):
        if draw.random() < 0.5:
            terminal.press(bytes(draw.randrange(0x80, 0x100) for _ in range(draw.randrange(1, 6))))
        else:
            terminal.press(draw.choice(KEYS))
        terminal.pump(0.01)
        if draw.random() < 0.1:
            terminal.press(
                bytes(draw.randrange(0x100) for _ in range(8)).translate(None, b"\x03\x11q")
            )
    return _left(terminal, f"noise, seed {seed}")


def windows(folder: Path, seed: int) -> str | None:
    """Press keys while the window takes any size; return what went wrong."""
    draw = random.Random(seed)
    terminal = prepared(Terminal(folder, "--new"))
    for _ in range(25):
        terminal.resize(
            draw.choice((1, 5, 20, 35, 36, 45, 80, 200)), draw.choice((1, 3, 15, 16, 24, 60))
        )
        for _ in range(draw.randrange(6)):
            terminal.press(draw.choice(KEYS))
        terminal.pump(0.02)
    terminal.resize(80, 24)
    return _left(terminal, f"windows, seed {seed}")


def _left(terminal: Terminal, what: str) -> str | None:
    for _ in range(4):
        terminal.pump(0.2)
    with contextlib.suppress(OSError):  # it may have left already
        terminal.press(b"\x1b[201~\x11")  # end of a paste that noise may have begun; then leave
    return _ended(terminal, 0, what)


def signalled(folder: Path, number: int) -> str | None:
    """Send one signal; return what went wrong."""
    terminal = prepared(Terminal(folder, "--new"))
    os.kill(terminal.pid, number)
    return _ended(terminal, 128 + number, f"signal {number}")


def stopped(folder: Path, number: int) -> str | None:
    """Stop by one signal, let a shell set the terminal, go on and leave."""
    terminal = prepared(Terminal(folder, "--new"))
    os.kill(terminal.pid, number)
    terminal.stopped()
    terminal.as_a_shell_sets_it()
    os.kill(terminal.pid, signal.SIGCONT)
    terminal.press("v")
    terminal.wait("Verdict")
    terminal.press(b"\x11")
    return _ended(terminal, 0, f"stop by signal {number}")


def cases(count: int, seed: int) -> list[tuple[Callable[[Path, int], str | None], int]]:
    """Return all that is tried: `count` of noise and windows each, every signal."""
    many: list[tuple[Callable[[Path, int], str | None], int]] = []
    many += [(noise, seed + place) for place in range(count)]
    many += [(windows, seed + place) for place in range(count)]
    many += [(signalled, number) for number in ending_signals()]
    many += [(stopped, int(number)) for number in (signal.SIGSTOP, signal.SIGTSTP)]
    return many
