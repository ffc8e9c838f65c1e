"""`whichend find WORDS…`: the ends that words of the trade name."""

import argparse
import json

from identify.commands.options import add_tables_option
from identify.knowledge.compiled import load_catalogue
from identify.pages.found import found_json, found_text
from identify.reading.names import understand


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.description = (
        "Say family, size and gender in any order, as far as they are known: find JIC -8 male, "
        'find "1/2 BSP", find 24° 15L, find code 61 1 inch.'
    )
    parser.epilog = "Exit status: 0 with one or more ends, 2 with none."
    parser.add_argument("words", nargs="+", metavar="WORDS", help="what it is called")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print what the words mean and the ends they name."""
    found = understand(load_catalogue(args.tables), " ".join(args.words))
    if args.json:
        print(json.dumps(found_json(found), ensure_ascii=False))
    else:
        print(found_text(found))
    return 0
