"""`whichend jobs label REFERENCE`: a label for each end that was measured."""

import argparse

from identify.commands.jobs.handing import add_handing_options, hand_over
from identify.errors import ReadingError
from identify.pages.label import RECEIPTS, USUAL, label_blocks, label_page, label_size, receipt


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Write a label for each end that was measured: reference, verdict, thread, seat, date. As "
        "html it is for label stock and has the reference as a code, which a scanner types; as "
        "text it is for a receipt printer and has no code."
    )
    add_handing_options(parser)
    parser.add_argument(
        "--columns", type=int, default=RECEIPTS[0], metavar="N",
        help=f"of text: {' or '.join(map(str, RECEIPTS))} (default: {RECEIPTS[0]})",
    )  # fmt: skip
    parser.add_argument(
        "--label-size", metavar="WxH", help=f"label stock for html, in mm (default: {USUAL})"
    )


def run(args: argparse.Namespace) -> int:
    """Write it.

    Raises:
        ReadingError: There is no such paper.
    """
    if args.columns not in RECEIPTS:
        raise ReadingError(
            f"--columns {args.columns} is no width of a receipt; "
            f"give {' or '.join(map(str, RECEIPTS))}."
        )
    size = label_size(args.label_size) if args.label_size else USUAL
    return hand_over(
        args,
        lambda sheet, _, __: [*label_blocks(sheet)],
        {
            "text": lambda sheet, _, __: receipt(sheet, args.columns),
            "html": lambda sheet, _, __: label_page(sheet, size),
        },
    )
