"""Whole programs from launch to answer, each against the bare interpreter or an empty app."""

import tempfile
from collections.abc import Callable, Iterator, Sequence

from tests.benchmark.stopwatch import (
    COMMAND,
    EMPTY_APP,
    first_frame,
    first_words,
    interleaved,
    python,
)

SAMPLE = (
    "gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "seat_shape=concave",
    "seat_angle=60 deg included",
)  # fmt: skip
ENDS = ("flare37:-8:male", "bspp60:G1/2:male")
Figure = tuple[str, str, str, str]
"""What was measured, the figure, what it is held against, the aim."""
COMMANDS: tuple[tuple[str, tuple[str, ...], float], ...] = (
    ("rank, five readings", ("rank", *SAMPLE), 5),
    ("rank gender=male", ("rank", "gender=male"), 5),
    ("rank --json", ("rank", "--json", *SAMPLE), 5.5),
    ("show", ("show", ENDS[0]), 6),
    ("compare", ("compare", *ENDS), 6),
    ("--help", ("--help",), 4),
)
"""Commands, and how many bare starts each may take."""
QUESTION = b"Question 1"
FIGURES = len(COMMANDS) + 4


def starts(runs: int) -> Iterator[Figure]:
    """Yield the time of every kind of start; `runs` is how often each program is started."""
    memory: list[float] = []

    def command(words: Sequence[str]) -> Callable[[], float]:
        def run() -> float:
            lap = python(*COMMAND, *words)
            memory.append(lap.memory)
            return lap.processor

        return run

    bare, plain, *taken = interleaved(
        runs,
        lambda: python("-c", "pass").processor,
        lambda: first_words(b"\n\n", QUESTION, *COMMAND, "ask", "--plain", "--new"),
        *(command(words) for _, words, _ in COMMANDS),
    )
    named = [(*each[::2], time) for each, time in zip(COMMANDS, taken, strict=True)]
    for name, most, time in [*named, ("--plain to its first question", 8, plain)]:
        against = f"{time / bare:.1f} times the bare interpreter ({ms(bare)})"
        yield name, ms(time), against, f"under {most:g} times"
    yield "most memory of these commands", f"{max(memory):.0f} MB", "", ""
    empty, ours = interleaved(
        max(3, runs // 3), lambda: first_frame(*EMPTY_APP), lambda: first_frame(*COMMAND)
    )
    against = f"{ours / empty:.2f} times an empty Textual app ({ms(empty)})"
    yield "first frame of the interview", ms(ours), against, "under 1.3 times"
    yield "first run, nothing in the cache", ms(first_run()), "from a checkout", "under 300 ms"


def first_run() -> float:
    """Return the processor time of a ranking by somebody who never ran the program [s]."""
    with tempfile.TemporaryDirectory() as home:
        return python(*COMMAND, "rank", *SAMPLE, XDG_CACHE_HOME=home).processor


def ms(seconds: float) -> str:
    """Return a time as it stands in the table."""
    return f"{seconds * 1e3:.1f} ms"
