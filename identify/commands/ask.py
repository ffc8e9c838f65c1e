"""`whichend ask`: the interview, on the full screen or as a dialogue of lines."""

from __future__ import annotations

import os
import sys

from identify.commands.options import (
    add_knowledge_options,
    add_learn_option,
    engine_of,
    learning,
)
from identify.commands.settings import THEMES, UNITS, origins, tools_of
from identify.errors import ReadingError
from identify.frozen import TYPE_CHECKING
from identify.interview.habits import Habits
from identify.jobs.folders import interviews_folder
from identify.jobs.reference import meant_as_reference
from identify.jobs.saving import Autosave
from identify.reasoning.engine import Engine
from identify.transliterate import speaks_utf8

if TYPE_CHECKING:
    import argparse

    from identify.jobs.journal import Saved
    from identify.model.rule import Tool
    from identify.plain.console import Console


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Ask for one measurement after another until the end is identified. "
        "Every answer is saved as it is given."
    )
    add_face_options(parser)
    which = parser.add_mutually_exclusive_group()
    which.add_argument(
        "--new", action="store_true", help="begin a new interview without asking about a saved one"
    )
    which.add_argument(
        "--resume", action="store_true", help="go on with the last unfinished interview"
    )


def add_face_options(parser: argparse.ArgumentParser) -> None:
    """Declare the options of an interview, whichever it is."""
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
    parser.add_argument(
        "--tools", type=tools_typed, metavar="LIST",
        help="what is to hand, so that it is not asked: caliper,rule,metric_gauge,inch_gauge,"
        "seat_gauge,protractor,combs,known_ends",
    )  # fmt: skip
    parser.add_argument(
        "--label-size", metavar="WxH", help="label stock in mm, such as 62x29, for the key l"
    )
    parser.add_argument("--units", choices=UNITS, help="what a bare number is taken for first")
    parser.add_argument(
        "--region", choices=origins(),
        help="where most machines come from; it counts as the answer to that question",
    )  # fmt: skip
    parser.add_argument(
        "--guess", action="store_true",
        help="for practice: tell nothing of what an end is before you have said what you think",
    )  # fmt: skip
    add_learn_option(parser)
    add_knowledge_options(parser)


def tools_typed(text: str) -> frozenset[Tool]:
    """Return the tools that `--tools` names.

    Raises:
        ReadingError: One of them is none.
    """
    try:
        return tools_of(text)
    except ValueError as error:
        raise ReadingError(f"--tools: {error}") from None


def run(args: argparse.Namespace) -> int:
    """Hold the interview on the face that fits the terminal."""
    return hold(args, resume=False if args.new else True if args.resume else None)


def hold(args: argparse.Namespace, *, resume: bool | None, saved: Saved | None = None) -> int:
    """Hold an interview.

    Args:
        args: With the options of `add_face_options`.
        resume: True takes up the last interview that was broken off, False begins anew, None asks.
        saved: The interview to take up instead of the last one.
    """
    engine = learning(engine_of(args), args)
    folder = interviews_folder()
    habits = Habits(
        args.tools, args.units == "in", args.region or "", args.label_size or "", guess=args.guess
    )
    if habits.label:
        from identify.pages.label import label_size

        label_size(habits.label)  # said now, not when a label is wanted
    saved = _taken_up(engine, folder, resume, saved)
    if args.plain or not full_screen_fits():
        return _dialogue(engine, Autosave(folder, args.tables), saved, resume, habits)
    from identify.tui.run import run as full_screen  # slow to import, so only here

    spare = args.low_bandwidth
    theme = args.theme or (THEMES[2] if spare else THEMES[0])
    autosave = Autosave(folder, args.tables)
    return int(
        full_screen(engine, autosave, saved, habits, theme=theme, offer=resume is None, spare=spare)
    )


def _taken_up(
    engine: Engine, folder: str, resume: bool | None, saved: Saved | None = None
) -> Saved | None:
    """Return the interview to go on with, None for a new one; see `hold`."""
    wanted = resume or saved is not None
    if not wanted and (resume is False or not os.path.isdir(folder)):  # noqa: PTH112
        return None
    from identify.commands.jobs.shelves import reading_told
    from identify.jobs.folders import folder_path
    from identify.jobs.shelf import last_unfinished, weighable  # with them comes a database

    if saved:
        return weighable(engine, saved)
    return last_unfinished(engine, folder_path(folder), resume, reading_told)


def full_screen_fits() -> bool:
    """Tell whether a person looks at a terminal that can move its cursor and show UTF-8."""
    return (
        sys.stdin.isatty()
        and sys.stdout.isatty()
        and os.environ.get("TERM") != "dumb"
        and speaks_utf8(sys.stdout.encoding, os.environ)
    )


def _dialogue(
    engine: Engine, autosave: Autosave, saved: Saved | None, resume: bool | None, habits: Habits
) -> int:
    from identify.plain.console import Console, Stopped
    from identify.plain.dialogue import Dialogue

    console = Console(sys.stdin, sys.stdout)

    def word(line: str) -> str:
        from identify.plain.words import word_told

        return word_told(engine.catalogue, engine.book, "", line)

    def job(line: str) -> str:
        if not meant_as_reference(line) or not autosave.folder:
            return ""
        from identify.plain.jobs import job_told  # with it comes a database

        return job_told(console, autosave.folder, engine.book, line)

    console.finders += [word, job]
    try:
        while saved and not resume and (chosen := _chosen(console, saved, engine)) != "on":
            saved = _after_discarding(engine, saved) if chosen == "discard" else None
    except Stopped:
        return 0
    dialogue = Dialogue(engine, console, autosave, saved, habits)
    try:
        dialogue.hold()
    except KeyboardInterrupt:
        console.say()
        console.say(dialogue.farewell())
        return 130
    return 0


def _chosen(console: Console, saved: Saved, engine: Engine) -> str:
    from identify.plain.opening import choose

    return choose(console, saved, engine.book)


def _after_discarding(engine: Engine, saved: Saved) -> Saved | None:
    """Discard an interview that was broken off; return the next that is offered."""
    from identify.jobs.journal import read_job
    from identify.jobs.shelf import discard

    if kept := read_job(saved.path):
        discard(kept)
    return _taken_up(engine, interviews_folder(), None)
