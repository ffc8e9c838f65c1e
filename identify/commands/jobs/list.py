"""`whichend jobs list`: the jobs begun last."""

import argparse

from identify.commands.jobs.find import print_jobs
from identify.commands.jobs.shelves import add_list_options, shelf


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = "List the jobs begun last, the latest first."
    add_list_options(parser)


def run(args: argparse.Namespace) -> int:
    """Print them."""
    index = shelf().index
    print_jobs(index.latest(max(args.limit, 0) + 1, discarded=args.discarded), args)
    return 0
