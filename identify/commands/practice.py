"""`whichend practice`: exercises made from the tables, and how far a trainee is."""

from __future__ import annotations

import sys

from identify.commands.ask import THEMES, full_screen_fits
from identify.commands.options import STYLES, add_tables_option, terminal_style
from identify.frozen import TYPE_CHECKING
from identify.interview.saving import state_folder
from identify.knowledge.loading import load_knowledge
from identify.plain.console import Console
from identify.practice.exercise import Kind
from identify.practice.record import Logbook, clean_name
from identify.practice.room import Room
from identify.practice.sitting import Sitting
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.description = (
        "Practise to tell ends apart that are confused: exercises made from the tables, judged by "
        "the engine. What you do is kept on this machine, so that each pair comes again in time."
    )
    parser.add_argument("--name", metavar="NAME", help="who practises; each has a record")
    parser.add_argument("--only", choices=[*Kind], help="one kind of exercise alone")
    parser.add_argument("--plain", action="store_true", help="a dialogue of lines")
    parser.add_argument("--theme", choices=THEMES, help="colours of the full screen")
    parser.add_argument(
        "--drawing",
        choices=(*STYLES, "none"),
        help="how to draw in lines; none tells pictures in words",
    )
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Practise, on the face that fits the terminal."""
    known = load_knowledge(args.tables)
    engine = Engine(known.catalogue, known.book, known.hazards, layout=known.layout)
    room = Room(engine, known.hazards)
    state = state_folder()
    logbook = Logbook(state / "practice" if state else None, clean_name(args.name or "trainee"))
    only = Kind(args.only) if args.only else None
    sitting = Sitting(room, logbook, only=only)
    if not args.plain and full_screen_fits():
        from identify.tui.practice import run_practice  # slow to import

        return int(run_practice(sitting, args.theme or THEMES[0]))
    from identify.plain.practice import Trainer

    style = (args.drawing or terminal_style()).removeprefix("none")
    Trainer(sitting, Console(sys.stdin, sys.stdout), style).hold()
    return 0
