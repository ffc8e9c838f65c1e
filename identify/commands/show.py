"""`whichend show ID`: all the tables know of one end connection, and who says so."""

from __future__ import annotations

from identify.commands.options import add_tables_option, path_of, terminal_style
from identify.commands.output import deliver, print_json
from identify.drawing.style import FEWEST_COLUMNS, FEWEST_ROWS, STYLES, View
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.model.rule import Moment
from identify.pages.blocks import Block, Rows
from identify.pages.end import end_blocks
from identify.pages.text import WIDTH, text_of
from identify.reading.names import one_end
from identify.reasoning.mating import mates_of

if TYPE_CHECKING:
    import argparse

    from identify.drawing.outline import Sheet
    from identify.model.catalogue import Catalogue
    from identify.model.connection import EndConnection

WINDOW_ROWS = 28  # where there is no window
ROWS_OF_WORDS = 4  # under a picture


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("end", nargs="+", help='its id ("flare37:-4:male") or words that name it')
    one = parser.add_mutually_exclusive_group()
    one.add_argument("--json", action="store_true", help="print one JSON object")
    one.add_argument(
        "--view", choices=[*View],
        help="draw it instead: bench (as it lies there: side and end), side, end, section (cut, "
        "its places named) or measured (cut, with figures)",
    )  # fmt: skip
    parser.add_argument(
        "--drawing", choices=STYLES, help="how to draw; braille where the terminal can, else ascii"
    )
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
        from identify.drawing.svg import svg

        sheet = _picture(known.catalogue, end, args.view or View.MEASURED)
        if deliver([svg(sheet)], args.svg, "--svg"):
            print(f"{args.svg}: {end.title}, {end.form_key}. Print it at 100 % for actual size.")
        return 0
    if args.view is not None:
        sheet = _picture(known.catalogue, end, args.view)
        print(text_of(_drawn(sheet, args.drawing or terminal_style())), end="")
        return 0
    mates = mates_of(known.catalogue, end, known.book)
    if args.json:
        from identify.pages.tables_json import end_json

        print_json(end_json(known.catalogue, end, mates))
    else:
        cautions = known.book.cautions_at(Moment.VERDICT, Moment.RATING)
        print(text_of(end_blocks(known.catalogue, end, mates, cautions)), end="")
    return 0


def _picture(catalogue: Catalogue, end: EndConnection, view: str) -> Sheet:
    from identify.drawing.ends import picture  # seldom drawn, and half a start to import

    return picture(end, catalogue.thread_of(end), View(view))


def _drawn(sheet: Sheet, style: str) -> list[Block | Rows]:
    """Return a picture as large as the window, and under it the same in words."""
    import shutil  # which asks the window how large it is, and nothing else here needs it

    from identify.drawing.render import render

    columns, rows = shutil.get_terminal_size((WIDTH, WINDOW_ROWS))
    columns = max(columns, FEWEST_COLUMNS)
    rows = max(min(rows - ROWS_OF_WORDS, columns // 2), FEWEST_ROWS)
    return [Rows(render(sheet, columns, rows, style)), Block(sheet.described)]
