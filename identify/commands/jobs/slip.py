"""`whichend jobs slip REFERENCE`: the slip that goes to the workshop with a hose."""

import argparse

from identify.commands.jobs.handing import add_handing_options, hand_over
from identify.pages.slip import slip_blocks, slip_page, slip_text


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Write the slip that goes to the workshop: about half a page a hose, with both ends, a "
        "line for what was not measured, and what to mind."
    )
    add_handing_options(parser)


def run(args: argparse.Namespace) -> int:
    """Write it."""
    return hand_over(
        args,
        lambda sheet, _, engine: [*slip_blocks(sheet, engine.book)],
        {
            "text": lambda sheet, _, engine: slip_text(sheet, engine.book),
            "html": lambda sheet, _, engine: slip_page(sheet, engine.book),
        },
    )
