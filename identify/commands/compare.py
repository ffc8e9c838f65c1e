"""`whichend compare A B`: two end connections side by side, and what happens when they meet."""

from __future__ import annotations

from identify.commands.options import add_tables_option, terminal_style
from identify.commands.output import print_json
from identify.drawing.render import render
from identify.drawing.seat_detail import seat_detail
from identify.drawing.style import STYLES
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.model.catalogue import Catalogue
from identify.pages.pair import Pair, cones_meet, pair_blocks, pair_json, pair_of
from identify.pages.text import WIDTH, text_of, wrap
from identify.reading.names import one_end

if TYPE_CHECKING:
    import argparse


DRAWING_ROWS = 20


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.epilog = (
        'Name an end by its id, or by words in quotes that only it answers to: "flare37 -8 male".'
    )
    parser.add_argument("one", metavar="A", help="an end connection")
    parser.add_argument("other", metavar="B", help="another")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--drawing",
        choices=(*STYLES, "none"),
        help="how to draw the two over each other; braille where the terminal can, else ascii",
    )
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print two ends side by side."""
    known = load_knowledge(args.tables)
    one, other = one_end(known.catalogue, args.one), one_end(known.catalogue, args.other)
    pair = pair_of(known.catalogue, known.book, one, other)
    if args.json:
        print_json(pair_json(pair))
    else:
        drawing = drawn(known.catalogue, pair, args.drawing or terminal_style())
        print(text_of(pair_blocks(known.catalogue, pair, drawing)), end="")
    return 0


def drawn(catalogue: Catalogue, pair: Pair, style: str) -> tuple[str, ...]:
    """Return the two over each other, nothing where a drawing would not help.

    Args:
        catalogue: The tables.
        pair: The two.
        style: One of `STYLES`, or "none".
    """
    one, other = pair.a, pair.b
    if style == "none" or not (one.gender == other.gender or cones_meet(one, other)):
        return ()
    sheet = seat_detail(one, catalogue.thread_of(one), other, catalogue.thread_of(other))
    return (*wrap(sheet.words[0]), *render(sheet, WIDTH, DRAWING_ROWS, style))
