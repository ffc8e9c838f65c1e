"""`whichend sheet`: the sheet of a hose that is to be made, of a file, a job or answers."""

import argparse
import os
import sys
from typing import Any

from identify.commands.ask import full_screen_fits
from identify.commands.options import add_knowledge_options, path_of
from identify.commands.output import deliver, print_json
from identify.commands.settings import THEMES
from identify.commands.sheet_job import add_job_options, job_sheet
from identify.drawing.render import render
from identify.errors import TableError
from identify.frozen import TYPE_CHECKING
from identify.knowledge.sheet_file import sheet_file
from identify.model.sheet import HoseSheet
from identify.pages.blocks import Rows
from identify.pages.sheet import sheet_blocks
from identify.pages.sheet_changes import difference_blocks
from identify.pages.sheet_order import order_blocks_of
from identify.pages.sheet_page import PAPERS, sheet_page
from identify.pages.text import WIDTH, text_of
from identify.plain.console import Console
from identify.plain.sheet import ask_sheet
from identify.sheets.belonging import findings
from identify.sheets.conclusion import Conclusion, conclusion
from identify.sheets.desk import Desk, Draft
from identify.sheets.filling import fill
from identify.sheets.kept import (
    KeptSheet,
    SheetFile,
    Texts,
    kept_sheets,
    new_sheet_file,
    read_texts,
    sheets_folder,
)
from identify.sheets.known import SheetKnowledge
from identify.sheets.loading import sheet_knowledge
from identify.sheets.of_job import JobSheet
from identify.sheets.results import changes, made_with_other, sheet_object
from identify.sheets.starting import KnownEnd, entries_of_hose
from identify.sheets.working import work_out
from identify.transliterate import speaks_utf8

if TYPE_CHECKING:
    from pathlib import Path

    from identify.drawing.outline import Sheet

DRAWING_ROWS = 20
_TYPED = "the command line"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Draw up the sheet of a hose: on the full screen, from a job that is kept (it counts "
        "before the file) or from nothing; a file is printed. Where there is no full screen it is "
        "asked line by line. Each entry is kept as it is made. "
        "The file is YAML as --keep writes it, or an object that --json printed; of that it is "
        "said what has changed since."
    )
    parser.epilog = (
        "Exit status: 0 nothing that was checked speaks against the hose, 3 a check forbids it or "
        "something is open; 2 bad input."
    )
    parser.add_argument("file", nargs="?", type=path_of, metavar="FILE", help="the sheet")
    for side in "ab":
        parser.add_argument(
            f"--{side}", default="", metavar="END", help=f"begin with this end {side.upper()}"
        )
    parser.add_argument("--line", default="", help="begin with this line printed on the hose")
    parser.add_argument(
        "--ask", action="store_true", help="ask line by line for what is not entered yet"
    )
    parser.add_argument("--screen", action="store_true", help="work at the file on the full screen")
    parser.add_argument("--plain", action="store_true", help="lines, not the full screen")
    parser.add_argument(
        "--theme", choices=THEMES, default=THEMES[0], help="colours of the full screen"
    )
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print one JSON object")
    form.add_argument("--order", action="store_true", help="print what to say on the telephone")
    form.add_argument(
        "--html", type=path_of, metavar="PAGE",
        help='write a page to print to a new file; "-" writes to standard output',
    )  # fmt: skip
    form.add_argument(
        "--compare", type=path_of, metavar="OTHER", help="print what differs from another sheet"
    )
    parser.add_argument("--paper", choices=tuple(PAPERS), default="a4", help="paper of the page")
    parser.add_argument(
        "--keep", type=path_of, metavar="NEW", help="keep what was entered in a new YAML file"
    )
    add_job_options(parser)
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Work at the sheet, or print it in the form asked for.

    Returns:
        0, or 3 where no hose is to be made yet.
    """
    known = sheet_knowledge(args.tables)
    hose = job_sheet(args)
    begun = entries_of_hose(KnownEnd(args.a), KnownEnd(args.b), args.line, {})
    blank = not (args.file or begun or hose)
    of_file = _of_file(args, hose)
    if hose:
        texts = {**hose.still_entered(of_file.kept, of_file.texts), **begun}
        places = {**of_file.places, **dict.fromkeys(hose.entries, f"job {args.job}")}
        places |= dict.fromkeys(begun, _TYPED)
    else:
        texts = {**begun, **of_file.texts}
        places = {**dict.fromkeys(begun, _TYPED), **of_file.places}
    _filled(texts, places, known)
    desk = Desk(known, texts, hose or _file_of(args.file), of_file.kept)
    if _on_screen(args):
        from identify.tui.sheet import run_sheet  # slow to import

        def opened(sheet: KeptSheet) -> Desk:
            again = read_texts(sheet.path)
            return Desk(known, again.texts, SheetFile(sheet.path), again.kept)

        return run_sheet(desk, kept_sheets(sheets_folder()) if blank else [], opened, args.theme)
    if args.ask or blank:
        console = Console(sys.stdin, sys.stderr if args.json else sys.stdout)
        try:
            ask_sheet(desk, console)
        except KeyboardInterrupt:
            console.say()
            console.tell(_where(desk))  # a path is not broken
            return 130
    if hose:
        desk.keep()
    if where := _where(desk):
        print(where, file=sys.stderr)
    draft = desk.draft
    entered = dict(draft.filled.sheet.entered)
    if args.keep is not None and deliver(sheet_file(entered), args.keep, "--keep"):
        print(f"Kept: {args.keep}", file=sys.stderr)
    _show(args, draft, of_file.kept)
    return 0 if conclusion(draft.worked, draft.found) is Conclusion.NOTHING_FOUND else 3


def _of_file(args: argparse.Namespace, hose: JobSheet | None) -> Texts:
    """Return what the file says, or what is kept of the sheet of a job."""
    path = hose.path if hose and args.file is None and hose.path.exists() else args.file
    return read_texts(path) if path else Texts({}, {}, None)


def _file_of(path: "Path | None") -> SheetFile:
    """Return where entries are kept: in a sheet kept before, else in a file of their own."""
    folder = sheets_folder()
    ours = path is not None and folder is not None and path.resolve().parent == folder.resolve()
    return SheetFile(path) if ours else new_sheet_file(folder)


def _on_screen(args: argparse.Namespace) -> bool:
    printed = args.json or args.order or args.html or args.compare or args.keep
    if args.plain or args.ask or printed or not (args.screen or args.file is None):
        return False
    return full_screen_fits()


def _where(desk: Desk) -> str:
    """Return where the sheet is kept, or why it is not; "" where nothing was entered."""
    return desk.trouble or (f"Kept: {desk.path}" if desk.path else "")


def _show(args: argparse.Namespace, draft: Draft, before: dict[str, Any] | None) -> None:
    worked, found, known = draft.worked, draft.found, draft.known
    now = sheet_object(worked, found, known.made_with)
    if args.json:
        print_json(now)
    elif args.order:
        print(text_of(order_blocks_of(worked, found)), end="")
    elif args.compare is not None:
        other = read_texts(args.compare)
        theirs = work_out(_filled(other.texts, other.places, known), known)
        that = sheet_object(theirs, findings(theirs, known), known.made_with)
        print(
            text_of(
                difference_blocks(
                    changes(now, that, worked),
                    str(args.job or args.file or "this sheet"),
                    str(args.compare),
                )
            ),
            end="",
        )
    elif args.html is not None:
        page = sheet_page(worked, found, known, args.paper)
        if deliver([page], args.html, "--html"):
            print(f"{args.html}: print it, or open it in a browser.")
    else:
        if before is not None:
            old = difference_blocks(
                changes(before, now, worked), "as it was kept", "now, with the tables of today",
                other_tables=made_with_other(before, now),
            )  # fmt: skip
            print(text_of(old))
        print(text_of(sheet_blocks(worked, found, known, _drawn)), end="")


def _drawn(drawing: "Sheet") -> Rows:
    dots = speaks_utf8(sys.stdout.encoding, os.environ)
    return Rows(render(drawing, WIDTH, DRAWING_ROWS, "braille" if dots else "ascii"))


def _filled(texts: dict[str, str], places: dict[str, str], known: SheetKnowledge) -> HoseSheet:
    """Return the sheet of entries; a `TableError` says of each fault the place of its entry."""
    filled = fill(texts, known)
    if filled.faults:
        raise TableError(*(f"{places[at]}: {at}: {why}" for at, why in filled.faults))
    return filled.sheet
