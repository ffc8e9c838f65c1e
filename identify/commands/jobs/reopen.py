"""`whichend jobs reopen REFERENCE`: go on with an interview, finished or not."""

import argparse

from identify.commands.ask import add_face_options, hold
from identify.commands.jobs.shelves import add_end_option, add_reference, shelf
from identify.jobs.facts import Reopened, place_said
from identify.jobs.journal import interview_of, read_job
from identify.jobs.shelf import written


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = "Go on with the interview of a job; a discarded job is listed again."
    add_reference(parser)
    add_end_option(parser)
    add_face_options(parser)


def run(args: argparse.Namespace) -> int:
    """Mark it as open, and hold it."""
    kept = shelf().called(args.reference)
    place = place_said(args.end)
    with written(kept) as journal:
        journal.add(Reopened(), place=place)
    again = read_job(kept.path) or kept
    return hold(args, resume=True, saved=interview_of(again, place))
