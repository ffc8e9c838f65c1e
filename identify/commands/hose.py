"""`whichend hose`: what a hose is, by its printed line, its measures, or both."""

import argparse

from identify.commands.options import add_tables_option
from identify.commands.output import print_json
from identify.errors import ReadingError
from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.loading import load_knowledge
from identify.pages.hose import hose_blocks
from identify.pages.hose_json import hose_json
from identify.pages.text import text_of
from identify.reading.hose_line import read_hose_line
from identify.reading.hose_measures import parse_measures
from identify.reasoning.hose_knowledge import hose_knowledge
from identify.reasoning.hose_verdict import identify_hose

MOST_READINGS = 10


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        'Read the line printed on a hose, such as whichend hose "EN 853/2SN/DN 12/3Q21". Write ? '
        "for a letter that cannot be read, ... where the line is cut."
    )
    parser.add_argument("text", nargs="*", help="the line as it is printed; nothing if none is")
    parser.add_argument("--bore", default="", help='bore of the hose, such as "12.7 mm"')
    parser.add_argument("--od", default="", help='over the cover, such as "20.5 mm by rule"')
    parser.add_argument(
        "--layers", default="", help='reinforcement at a cut end, such as "2 wire braid"'
    )
    parser.add_argument(
        "--limit", type=int, default=MOST_READINGS, help="most readings to list (default: 10)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print what the hose may be; return 0."""
    typed = " ".join(args.text)
    seen = parse_measures(args.bore, args.od, args.layers)
    if not typed and not seen.any:
        raise ReadingError(
            'Nothing to go by; copy the line, as in whichend hose "EN 853/2SN/DN 12", or measure: '
            '--bore "12.7 mm" --od "20.5 mm" --layers "2 wire braid".'
        )
    if args.limit < 1:
        raise ReadingError(f"--limit {args.limit} lists nothing; write 1 or more.")
    line = read_hose_line(typed) if typed else None
    known = hose_knowledge(load_hoses(args.tables), load_knowledge(args.tables).book)
    verdict = identify_hose(line, seen, known, args.limit)
    if args.json:
        print_json(hose_json(verdict))
    else:
        print(text_of(hose_blocks(verdict, line)), end="")
    return 0
