"""Run programs side by side and tell how long they took; only ratios within one run mean much."""

import fcntl
import json
import os
import pty
import select
import signal
import statistics
import struct
import subprocess
import sys
import tempfile
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

import identify
from identify.errors import WhichendError

COMMAND = ("-c", "import sys; from identify.entry import main; sys.exit(main())")
LAUNCHER = """
import json, os, subprocess, sys, time
start = time.perf_counter()
child = subprocess.Popen([sys.executable, *sys.argv[1:]], stdout=subprocess.DEVNULL)
_, status, used = os.wait4(child.pid, 0)
child.returncode = os.waitstatus_to_exitcode(status)
wall = time.perf_counter() - start
print(json.dumps([child.returncode, wall, used.ru_utime + used.ru_stime, used.ru_maxrss]))
"""
"""A small process between: the peak memory of a child counts that of the process it comes from."""
EMPTY_APP = ("-c", "from textual.app import App; App().run()")
ROWS, COLUMNS = 24, 80
PATIENCE_S = 30.0
T = TypeVar("T")


class StopwatchError(WhichendError):
    """A program that was to be measured failed."""


@dataclass(frozen=True, slots=True)
class Lap:
    """One run of a program: wall time and processor time [s], most memory it held [MB]."""

    wall: float
    processor: float
    memory: float


def python(*words: str, stdin: bytes = b"", **surroundings: str) -> Lap:
    """Run a Python of ours with these words and return what it took.

    Args:
        words: Of the command line.
        stdin: What it reads.
        surroundings: Variables of its environment.

    Raises:
        StopwatchError: It ended with an error.
    """
    done = subprocess.run(
        [sys.executable, "-c", LAUNCHER, *words], input=stdin, stdout=subprocess.PIPE, check=True,
        env=_surroundings(**surroundings),
    )  # fmt: skip
    status, wall, processor, memory = json.loads(done.stdout)
    if status:
        raise StopwatchError(f"{' '.join(words)[-60:]}: ended with status {status}.")
    return Lap(wall, processor, memory / (1e6 if sys.platform == "darwin" else 1e3))


def first_frame(*words: str) -> float:
    """Return the processor time of a full-screen program until a screenful of output [s].

    It runs in a terminal of 80 by 24 of its own, with nothing saved from before, and is ended then.

    Raises:
        StopwatchError: It wrote no screenful.
    """
    outer, inner = pty.openpty()
    fcntl.ioctl(inner, termios.TIOCSWINSZ, struct.pack("HHHH", ROWS, COLUMNS, 0, 0))
    return _until(words, inner, inner, outer, b"", lambda seen: len(seen) >= ROWS * COLUMNS)


def first_words(typed: bytes, wanted: bytes, *words: str) -> float:
    """Return the processor time of a program of lines until it says what is wanted [s].

    Args:
        typed: What is typed at once, before it asks.
        wanted: Of its output.
        words: The program. It is ended then, its input still open.

    Raises:
        StopwatchError: It never said so.
    """
    read, write = os.pipe()
    said, says = os.pipe()
    os.write(write, typed)
    try:
        return _until(words, read, says, said, wanted, lambda seen: wanted in seen)
    finally:
        os.close(write)


def _until(
    words: Sequence[str], stdin: int, stdout: int, heard: int, what: bytes,
    done: Callable[[bytes], bool],
) -> float:  # fmt: skip
    with tempfile.TemporaryDirectory() as home:
        child = subprocess.Popen(
            [sys.executable, *words], stdin=stdin, stdout=stdout, stderr=stdout,
            env=_surroundings(TERM="xterm-256color", XDG_STATE_HOME=home), start_new_session=True,
        )  # fmt: skip
        for number in {stdin, stdout}:
            os.close(number)
        seen = b""
        try:
            while not done(seen):
                ready, _, _ = select.select([heard], [], [], PATIENCE_S)
                more = _read(heard) if ready else b""
                if not more:
                    name = " ".join(words)[-60:]
                    raise StopwatchError(f"{name}: never wrote {what.decode() or 'a screen'}.")
                seen += more
        finally:
            child.kill()
            _, _, used = os.wait4(child.pid, 0)
            child.returncode = -signal.SIGKILL
            os.close(heard)
        return used.ru_utime + used.ru_stime


def _read(terminal: int) -> bytes:
    try:
        return os.read(terminal, 65536)
    except OSError:  # the program has gone
        return b""


def _surroundings(**more: str) -> Mapping[str, str]:
    """Return an environment in which a start is that of an installed command.

    With PYTHONDONTWRITEBYTECODE set a checkout never gets its bytecode, and every start compiles.
    """
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    root = str(Path(identify.__path__[0]).parent)
    return {**kept, "PYTHONPATH": root, **more}


def interleaved(runs: int, *sides: Callable[[], float]) -> list[float]:
    """Return the median time of each side [s], run by turns so that a busy moment hits all."""
    times: list[list[float]] = [[] for _ in sides]
    for side in sides:  # once unmeasured: caches and compiled files
        side()
    for _ in range(runs):
        for taken, side in zip(times, sides, strict=True):
            taken.append(side())
    return [statistics.median(taken) for taken in times]


def each(work: Callable[[T], object], items: Sequence[T]) -> float:
    """Return the median processor time of `work` over some items [s]."""
    taken = []
    for item in items:
        start = time.process_time()
        work(item)
        taken.append(time.process_time() - start)
    return statistics.median(taken)
