"""`whichend jobs discard REFERENCE`: list a job no more; its file stays."""

import argparse

from identify.commands.jobs.shelves import add_reference, shelf
from identify.jobs.shelf import discard


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "List a job no more and offer its interview no more. Its file stays; "
        '"whichend jobs reopen" brings it back.'
    )
    add_reference(parser)


def run(args: argparse.Namespace) -> int:
    """Mark it."""
    kept = shelf().called(args.reference)
    discard(kept)
    print(f"{kept.job.reference} is discarded. Its file stays: {kept.path}")
    return 0
