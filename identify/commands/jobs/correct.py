"""`whichend jobs correct REFERENCE NAME=VALUE…`: change what was read or said of a job."""

import argparse

from identify.commands.jobs.shelves import add_end_option, add_reference, shelf
from identify.commands.options import add_knowledge_options, engine_of
from identify.errors import ReadingError
from identify.jobs.correcting import corrections
from identify.jobs.facts import place_said
from identify.jobs.saving import now_utc
from identify.jobs.shelf import written


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        'Change a fact of a job, such as customer="Hill Farm", bag=12, quantity=2, shape=90, '
        'printed="2SN DN 12", note="urgent", measured_by=Ann, checked_by=Tom, '
        'outcome="came back"; or a reading of one end, such as thread_od="20.8 mm". What stood '
        "before stays in the file. A value that is left empty takes a fact back."
    )
    add_reference(parser)
    parser.add_argument("values", nargs="+", metavar="NAME=VALUE")
    add_end_option(parser)
    parser.add_argument("--why", default="", help="what was wrong; of an outcome, why it came back")
    parser.add_argument("--by", default="", help="who says so")
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Keep the corrections, with a new verdict where a reading changed."""
    kept, place = shelf().called(args.reference), place_said(args.end)
    pairs = [value.partition("=")[::2] for value in args.values]
    for name, value in zip(pairs, args.values, strict=True):
        if "=" not in value:
            raise ReadingError(f'"{name[0][:60]}" is not a name, = and a value.')
    engine = engine_of(args)
    made = corrections(
        kept.job, place, pairs, engine, args.tables, at=now_utc(), why=args.why, by=args.by
    )
    with written(kept) as journal:
        journal.add(*made, place=place)
    print(f"{kept.job.reference}: changed {', '.join(name for name, _ in pairs)}.")
    return 0
