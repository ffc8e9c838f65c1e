"""`whichend sheet`: the sheet of a hose that is to be made, from a file or asked line by line."""

import argparse

from identify.commands.options import add_tables_option, path_of
from identify.commands.output import print_json
from identify.drawing.outline import Sheet
from identify.drawing.render import render
from identify.errors import RecordError, TableError
from identify.files import read_regular, reason
from identify.frozen import TYPE_CHECKING
from identify.knowledge.assembly_tables import load_assembly_rules
from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.loading import load_knowledge
from identify.knowledge.sheet_file import read_sheet_file
from identify.model.sheet import HoseSheet
from identify.pages.blocks import Rows
from identify.pages.sheet import sheet_blocks
from identify.pages.text import WIDTH, text_of
from identify.reasoning.hose_knowledge import hose_knowledge
from identify.sheets.belonging import findings
from identify.sheets.filling import fill
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import work_out

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES_OF_A_SHEET = 200_000
DRAWING_ROWS_OF_A_SHEET = 20


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("file", nargs="?", type=path_of, help="a sheet in YAML")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print the sheet."""
    known = sheet_knowledge(args.tables)
    worked = work_out(sheet_of_file(args.file, known), known)
    found = findings(worked, known)
    print(text_of(sheet_blocks(worked, found, known, lambda s: Rows(render(s, WIDTH, 20, "braille")))), end="")
    return 0


def sheet_knowledge(tables: "Path | None") -> SheetKnowledge:
    """Return all that sheets are worked out with."""
    known = load_knowledge(tables)
    hoses = hose_knowledge(load_hoses(tables), known.book)
    return SheetKnowledge(known.catalogue, known.book, hoses, load_assembly_rules())


def sheet_of_file(path: "Path", known: SheetKnowledge) -> HoseSheet:
    """Return the sheet in a file.

    Raises:
        RecordError: The file cannot be read.
        TableError: With every fault and its line.
    """
    try:
        data, _ = read_regular(path, MOST_BYTES_OF_A_SHEET)
        text = data.decode("utf-8")
    except OSError as error:
        raise RecordError(f"{path} cannot be read ({reason(error)}). Name a sheet.") from None
    except UnicodeDecodeError:
        raise RecordError(f"{path} is no text in UTF-8. Save it as UTF-8.") from None
    texts, lines = read_sheet_file(text, str(path))
    filled = fill(texts, known)
    if filled.faults:
        raise TableError(*(f"{path}:{lines[at]}: {at}: {why}" for at, why in filled.faults))
    return filled.sheet
