"""`whichend practice`: exercises made from the tables, and how far a trainee is."""

from __future__ import annotations

import sys

from identify.commands.ask import full_screen_fits
from identify.commands.options import add_tables_option, path_of, terminal_style
from identify.commands.output import deliver
from identify.commands.settings import THEMES
from identify.drawing.style import STYLES
from identify.frozen import TYPE_CHECKING
from identify.jobs.folders import folder_path, interviews_folder, state_folder
from identify.jobs.shelf import Shelf
from identify.knowledge.loading import load_knowledge
from identify.plain.console import Console, Stopped
from identify.practice.exercise import Kind
from identify.practice.real import with_real
from identify.practice.record import History, Logbook, clean_name, histories
from identify.practice.room import Room
from identify.practice.sitting import Sitting
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    import argparse

FIRST_NAME = "trainee"  # of who is alone on a machine and gave none


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.description = (
        "Practise to tell ends apart that are confused: exercises made from the tables, judged by "
        "the engine. What you do is kept on this machine, so that each pair comes again in time. "
        "What you think an end of a job is, asked by whichend --guess, counts too once it is known."
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
    told = parser.add_mutually_exclusive_group()
    told.add_argument("--progress", action="store_true", help="print how far a trainee is")
    told.add_argument("--page", type=path_of, metavar="FILE", help="write that as an HTML page")
    told.add_argument(
        "--export",
        type=path_of,
        metavar="FILE",
        help="write the progress of all trainees as comma separated values; - for this terminal",
    )
    parser.add_argument("--no-names", action="store_true", help="number the trainees in the export")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Practise, on the face that fits the terminal, or tell how far somebody is."""
    known = load_knowledge(args.tables)
    engine = Engine(known.catalogue, known.book, known.hazards, layout=known.layout)
    room = Room(engine, known.hazards)
    state = folder_path(state_folder())
    folder = state / "practice" if state else None
    everybody = histories(folder)
    if args.export:
        from identify.pages.progress import progress_table

        known_here = everybody or (History(FIRST_NAME),)
        counted = [_with_jobs(room, each, everybody) for each in known_here]
        table = progress_table(room, counted, named=not args.no_names)
        if deliver([table], args.export, "--export"):
            print(f"Written: {args.export}")
        return 0
    try:
        name = clean_name(args.name) if args.name else _who(everybody)
    except Stopped:
        return 0
    if args.progress or args.page:
        known_ones = [each for each in everybody if each.name == name]
        history = known_ones[0] if known_ones else History(name)
        return _tell(args, room, _with_jobs(room, history, everybody))
    logbook = Logbook(folder, name)
    logbook.history = _with_jobs(room, logbook.history, everybody)
    return _practise(args, room, logbook)


def _who(everybody: tuple[History, ...]) -> str:
    """Return who practises: the only trainee of this machine, or who says so."""
    if len(everybody) < 2:
        return everybody[0].name if everybody else FIRST_NAME
    console = Console(sys.stdin, sys.stdout)
    console.say("Who practises?")
    for number, each in enumerate(everybody, 1):
        console.say(each.name, f"{number}  ")
    console.say("Type a number, or a new name.")
    while not (line := console.hear()):
        console.say("Type a number, or a new name.")
    if line.isdecimal() and 1 <= int(line) <= len(everybody):
        return everybody[int(line) - 1].name
    return clean_name(line)


def _with_jobs(room: Room, history: History, everybody: tuple[History, ...]) -> History:
    """Return a history with what the trainee thought in real jobs of this machine."""
    folder = folder_path(interviews_folder())
    if folder is None or not folder.is_dir():
        return history
    others = any(each.name != history.name for each in everybody)
    shelf = Shelf(folder)
    try:
        return with_real(room, shelf, history, alone=not others)
    finally:
        shelf.close()


def _tell(args: argparse.Namespace, room: Room, history: History) -> int:
    from identify.pages.progress import progress_blocks, progress_page
    from identify.pages.text import text_of

    if args.progress:
        print(text_of(progress_blocks(room, history)), end="")
        return 0
    if deliver([progress_page(room, history)], args.page, "--page"):
        print(f"Written: {args.page}")
    return 0


def _practise(args: argparse.Namespace, room: Room, logbook: Logbook) -> int:
    sitting = Sitting(room, logbook, only=Kind(args.only) if args.only else None)
    if not args.plain and full_screen_fits():
        from identify.tui.practice import run_practice  # slow to import

        return run_practice(sitting, args.theme or THEMES[0])
    from identify.plain.practice import Trainer

    style = (args.drawing or terminal_style()).removeprefix("none")
    Trainer(sitting, Console(sys.stdin, sys.stdout), style).hold()
    return 0
