"""`whichend jobs report REFERENCE`: all that is kept of a job, with drawings, to print or send."""

import argparse

from identify.commands.jobs.handing import add_handing_options, hand_over
from identify.pages.report import report_blocks, report_page
from identify.pages.text import text_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Write a report on a job: readings, verdicts, claims, what the tables say of the end that "
        "leads, and cautions. As html it has drawings and prints on A4 and Letter."
    )
    add_handing_options(parser)


def run(args: argparse.Namespace) -> int:
    """Write it."""
    return hand_over(
        args,
        report_blocks,
        {
            "text": lambda sheet, kept, engine: text_of(report_blocks(sheet, kept, engine)),
            "html": report_page,
        },
    )
