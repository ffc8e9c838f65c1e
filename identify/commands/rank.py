"""`whichend rank`: readings in, ranking with reasons, warnings and the next question out."""

from __future__ import annotations

from identify.commands.options import add_knowledge_options, engine_of
from identify.commands.output import print_json
from identify.errors import ReadingError
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings

if TYPE_CHECKING:
    import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Rank end connections for readings such as gender=male "
        'thread_od="20.9 mm" pitch="14 tpi" seat_shape=concave seat_angle="60 deg included".'
    )
    parser.add_argument("readings", nargs="*", metavar="NAME=VALUE")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--full", action="store_true", help="every lookalike, warning and reason with its facts"
    )
    parser.add_argument(
        "--batch",
        metavar="FILE",
        help="JSON Lines, one sample a line; a list holds several readings of one feature; - is "
        "standard input",
    )
    parser.add_argument(
        "--brief", action="store_true", help="of a batch: verdict, candidates, suspect readings"
    )
    parser.add_argument(
        "--jobs", type=int, default=1, metavar="N", help="of a batch: share it out to N processes"
    )
    parser.add_argument("--limit", type=int, default=8, metavar="N", help="candidates to list")
    parser.set_defaults(more_help=_names_help)
    add_knowledge_options(parser)


def _names_help() -> str:
    """Return the names of readings, each with an example."""
    from identify.pages.question import names_text

    return names_text(load_knowledge().book)


def run(args: argparse.Namespace) -> int:
    """Rank one sample, or a batch of them."""
    if args.limit < 1:
        raise ReadingError(f"--limit {args.limit} lists nothing; give 1 or more.")
    if args.jobs < 1:
        raise ReadingError(f"--jobs {args.jobs} does nothing; give 1 or more.")
    if args.batch is not None:
        if args.readings:
            raise ReadingError("Give readings or --batch FILE, not both.")
        from identify.commands.batch import run_batch  # one sample needs none of it

        return run_batch(args)
    if args.brief or args.jobs > 1:
        raise ReadingError("--brief and --jobs are for many samples; give them with --batch FILE.")
    if not args.readings:
        raise ReadingError(
            'No readings given. Try: whichend rank gender=male thread_od="20.9 mm" pitch="14 tpi".'
        )
    engine = engine_of(args)
    readings = with_gender(parse_readings(args.readings, engine.catalogue.threads))
    verdict = engine.conclude(readings, limit=args.limit)
    if args.json:
        from identify.pages.as_json import verdict_json

        print_json(verdict_json(verdict))
    else:
        from identify.pages.verdict import verdict_text

        print(verdict_text(engine, verdict, whole=args.full), end="")
    return 0
