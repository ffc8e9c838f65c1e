"""`whichend show ID`: all the tables know of one end connection, and who says so."""

from __future__ import annotations

from identify.commands.options import add_tables_option, path_of
from identify.commands.output import deliver, print_json
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.rule import Moment
from identify.pages.end import end_blocks
from identify.pages.tables_json import end_json
from identify.pages.text import text_of
from identify.reading.names import one_end
from identify.reasoning.mating import mates_of

if TYPE_CHECKING:
    import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("end", nargs="+", help='its id ("flare37:-4:male") or words that name it')
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--svg", type=path_of, metavar="FILE",
        help='draw it in actual size to a new file instead; "-" writes to standard output',
    )  # fmt: skip
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print one end connection, or draw it."""
    known = load_knowledge(args.tables)
    end = one_end(known.catalogue, " ".join(args.end))
    if args.svg is not None:
        if deliver([_picture(known.catalogue, end)], args.svg, "--svg"):
            print(f"{args.svg}: {end.title}, {end.form_key}. Print it at 100 % for actual size.")
        return 0
    mates = mates_of(known.catalogue, end, known.book)
    if args.json:
        print_json(end_json(known.catalogue, end, mates))
    else:
        cautions = known.book.cautions_at(Moment.VERDICT, Moment.RATING)
        print(text_of(end_blocks(known.catalogue, end, mates, cautions)), end="")
    return 0


def _picture(catalogue: Catalogue, end: EndConnection) -> str:
    from identify.drawing.ends import half_section  # seldom drawn, and half a start to import
    from identify.drawing.svg import svg

    return svg(half_section(end, catalogue.thread_of(end)))
