"""`whichend ask`: the interview, on the full screen or as a dialogue of lines."""

from __future__ import annotations

import os
import sys

from identify.commands.options import add_knowledge_options, engine_of
from identify.frozen import TYPE_CHECKING
from identify.interview.saving import Autosave, interviews_folder, last_unfinished
from identify.plain.console import Console, Stopped
from identify.plain.dialogue import Dialogue
from identify.plain.opening import choose
from identify.reasoning.engine import Engine
from identify.transliterate import speaks_utf8

if TYPE_CHECKING:
    import argparse


THEMES = ("dark", "sunlight", "terminal")  # as in `tui.themes`, which is slow to import


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Ask for one measurement after another until the end is identified. "
        "Every answer is saved as it is given."
    )
    parser.add_argument(
        "--plain",
        action="store_true",
        help="a dialogue of lines for a screen reader or a script; it starts by itself where the "
        "terminal cannot show the full screen or the input is no terminal",
    )
    parser.add_argument(
        "--theme", choices=THEMES, help=f"colours of the full screen; {THEMES[0]} if not said"
    )
    parser.add_argument(
        "--low-bandwidth",
        action="store_true",
        help="for a slow line: the terminal's own colours, and no picture until d is pressed",
    )
    which = parser.add_mutually_exclusive_group()
    which.add_argument(
        "--new", action="store_true", help="begin a new interview without asking about a saved one"
    )
    which.add_argument(
        "--resume", action="store_true", help="go on with the last unfinished interview"
    )
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Hold the interview on the face that fits the terminal."""
    engine = engine_of(args)
    resume = False if args.new else True if args.resume else None
    if args.plain or not full_screen_fits():
        return _dialogue(engine, resume)
    from identify.tui.run import run as full_screen  # slow to import, so only here

    spare = args.low_bandwidth
    theme = args.theme or (THEMES[2] if spare else THEMES[0])
    return int(full_screen(engine, theme=theme, resume=resume, spare=spare))


def full_screen_fits() -> bool:
    """Tell whether a person looks at a terminal that can move its cursor and show UTF-8."""
    return (
        sys.stdin.isatty()
        and sys.stdout.isatty()
        and os.environ.get("TERM") != "dumb"
        and speaks_utf8(sys.stdout.encoding, os.environ)
    )


def _dialogue(engine: Engine, resume: bool | None) -> int:
    folder = interviews_folder()
    saved = last_unfinished(engine, folder, resume)
    console = Console(sys.stdin, sys.stdout)
    try:
        if saved and not resume and not choose(console, saved, engine.book):
            saved = None
    except Stopped:
        return 0
    dialogue = Dialogue(engine, console, Autosave(folder), saved)
    try:
        dialogue.hold()
    except KeyboardInterrupt:
        console.say()
        console.say(dialogue.farewell())
        return 130
    return 0
