"""`whichend sheet`: the sheet of a hose that is to be made, of a file, a job or answers."""

import argparse
import json
import os
import sys
from typing import Any

from identify.commands.options import add_knowledge_options, path_of
from identify.commands.output import deliver, print_json
from identify.commands.sheet_job import add_job_options, job_sheet
from identify.drawing.render import render
from identify.errors import RecordError, TableError
from identify.files import read_regular, reason
from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.knowledge.assembly_tables import load_assembly_rules
from identify.knowledge.fingerprint import fingerprints, hose_fingerprint
from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.loading import load_knowledge
from identify.knowledge.sheet_file import read_sheet_file, sheet_file
from identify.model.sheet import HoseSheet
from identify.pages.blocks import Rows
from identify.pages.sheet import sheet_blocks
from identify.pages.sheet_changes import difference_blocks
from identify.pages.sheet_order import order_blocks_of
from identify.pages.sheet_page import PAPERS, sheet_page
from identify.pages.text import WIDTH, text_of
from identify.plain.console import Console
from identify.plain.sheet import ask_sheet, ask_where_to_keep
from identify.reasoning.hose_knowledge import hose_knowledge
from identify.sheets.belonging import findings
from identify.sheets.conclusion import Conclusion, conclusion
from identify.sheets.filling import fill
from identify.sheets.finding import Finding
from identify.sheets.known import MadeWith, SheetKnowledge
from identify.sheets.results import changes, made_with_other, sheet_object
from identify.sheets.starting import KnownEnd, entries_of_hose
from identify.sheets.working import Worked, work_out
from identify.transliterate import speaks_utf8
from identify.version import version

if TYPE_CHECKING:
    from pathlib import Path

    from identify.drawing.outline import Sheet

MOST_BYTES_OF_A_SHEET = 500_000
DRAWING_ROWS = 20
_TYPED = "the command line"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Draw up the sheet of a hose: from a file, from a job that is kept (it counts before the "
        "file), or asked line by line where neither is named. "
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
    parser.add_argument("--ask", action="store_true", help="ask for what is not entered yet")
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
    """Print the sheet in the form asked for; return 0, or 3 where no hose is to be made yet."""
    known = sheet_knowledge(args.tables)
    hose = job_sheet(args)
    if hose and args.file is None and hose.path.exists():
        args.file = hose.path
    of_file = read_texts(args.file) if args.file else Texts({}, {}, None)
    begun = entries_of_hose(KnownEnd(args.a), KnownEnd(args.b), args.line, {})
    if hose:
        texts = {**hose.still_entered(of_file.kept, of_file.texts), **begun}
        places = {**of_file.places, **dict.fromkeys(hose.entries, f"job {args.job}")}
        places |= dict.fromkeys(begun, _TYPED)
    else:
        texts = {**begun, **of_file.texts}
        places = {**dict.fromkeys(begun, _TYPED), **of_file.places}
    sheet = _filled(texts, places, known)
    if args.ask or (args.file is None and not begun and not hose):
        console = Console(sys.stdin, sys.stderr if args.json else sys.stdout)
        sheet = ask_sheet(sheet, known, console)
        if args.keep is None and not hose and sheet.entered:
            args.keep = path_of(name) if (name := ask_where_to_keep(console)) else None
    worked = work_out(sheet, known)
    found = findings(worked, known)
    if hose:
        print(f"Kept: {hose.keep(sheet_object(worked, found, known.made_with))}", file=sys.stderr)
    if args.keep is not None and deliver(sheet_file(dict(sheet.entered)), args.keep, "--keep"):
        print(f"Kept: {args.keep}", file=sys.stderr)
    _show(args, worked, found, known, of_file.kept)
    return 0 if conclusion(worked, found) is Conclusion.NOTHING_FOUND else 3


def _show(
    args: argparse.Namespace, worked: Worked, found: tuple[Finding, ...], known: SheetKnowledge,
    before: dict[str, Any] | None,
) -> None:  # fmt: skip
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


def sheet_knowledge(tables: "Path | None") -> SheetKnowledge:
    """Return all that sheets are worked out with."""
    known = load_knowledge(tables)
    hoses = hose_knowledge(load_hoses(tables), known.book)
    ends, rules = fingerprints(tables)
    made_with = MadeWith(ends, hose_fingerprint(tables), rules, version())
    return SheetKnowledge(known.catalogue, known.book, hoses, load_assembly_rules(), made_with)


class Texts(NamedTuple):
    """Entries of a file by path, where each stands, and the object, None for a YAML file."""

    texts: dict[str, str]
    places: dict[str, str]
    kept: dict[str, Any] | None


def read_texts(path: "Path") -> Texts:
    """Return what a file says, not yet read as values.

    Raises:
        RecordError: The file cannot be read.
        TableError: It is neither; with every fault and its line.
    """
    try:
        data, _ = read_regular(path, MOST_BYTES_OF_A_SHEET)
        text = data.decode("utf-8-sig")
    except OSError as error:
        raise RecordError(f"{path} cannot be read ({reason(error)}). Name a sheet.") from None
    except UnicodeDecodeError:
        raise RecordError(f"{path} is no text in UTF-8. Save it as UTF-8.") from None
    if (kept := _kept(text)) is not None:
        texts = _entered(kept)
        return Texts(texts, dict.fromkeys(texts, str(path)), kept)
    texts, lines = read_sheet_file(text, str(path))
    return Texts(texts, {at: f"{path}:{line}" for at, line in lines.items()}, None)


def _filled(texts: dict[str, str], places: dict[str, str], known: SheetKnowledge) -> HoseSheet:
    """Return the sheet of entries; a `TableError` says of each fault the place of its entry."""
    filled = fill(texts, known)
    if filled.faults:
        raise TableError(*(f"{places[at]}: {at}: {why}" for at, why in filled.faults))
    return filled.sheet


def _kept(text: str) -> dict[str, Any] | None:
    """Return the object that `--json` printed, None where the text is none."""
    if not text.lstrip().startswith("{"):
        return None
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) and "entered" in found else None


def _entered(kept: dict[str, Any]) -> dict[str, str]:
    entered = kept["entered"]
    pairs = entered.items() if isinstance(entered, dict) else ()
    return {path: text for path, text in pairs if isinstance(text, str)}
