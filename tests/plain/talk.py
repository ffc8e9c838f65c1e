"""Holds a dialogue in memory: lines in, everything that was said out."""

import io
from functools import cache
from pathlib import Path

from identify.jobs.journal import Saved
from identify.jobs.saving import Autosave
from identify.plain.console import Console
from identify.plain.dialogue import Dialogue
from identify.reasoning.engine import Engine
from tests.shipped import knowledge

CALIPER, ALL = "1", "1 3 4 5"  # answers to the question for tools
IN_HAND = "1"  # answer to the question how the end is


@cache
def engine() -> Engine:
    """Return the engine of the commands, hazards included."""
    known = knowledge()
    return Engine(known.catalogue, known.book, known.hazards)


def hold(folder: Path, *lines: str, saved: Saved | None = None) -> tuple[str, Dialogue]:
    """Return what was said in answer to lines, and the dialogue as it ended."""
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    dialogue = Dialogue(engine(), console, Autosave(folder, draw=lambda: 0), saved)
    dialogue.hold()
    return spoken.getvalue(), dialogue


def after(said: str, line: str) -> str:
    """Return what was said between a line that was typed and the next prompt."""
    return said.split(f"\n> {line}\n", 1)[1].split("\n> ", 1)[0]
