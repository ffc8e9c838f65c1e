"""`whichend rank`: readings in, ranking with reasons, warnings and the next question out."""

from __future__ import annotations

from identify.commands.options import (
    add_knowledge_options,
    add_learn_option,
    engine_of,
    learning,
)
from identify.commands.output import print_json
from identify.errors import ReadingError
from identify.frozen import TYPE_CHECKING
from identify.knowledge.loading import load_knowledge
from identify.reading.consistency import gathered, implied_gender, with_gender
from identify.reading.parse import parse_readings

if TYPE_CHECKING:
    import argparse
    from typing import Any

    from identify.model.reading import Reading
    from identify.model.rulebook import RuleBook
    from identify.reading.parse import Threads
    from identify.reading.quick import Taken


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Rank end connections for readings such as gender=male "
        'thread_od="20.9 mm" pitch="14 tpi" seat_shape=concave seat_angle="60 deg included", '
        "or in short: m 20.9 14t in 60i."
    )
    parser.epilog = (
        "Exit status: 0; with --batch 1 where lines failed and all others are answered; 2 what was "
        "typed is at fault."
    )
    parser.add_argument("readings", nargs="*", metavar="NAME=VALUE or in short")
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
    parser.add_argument(
        "--csv",
        action="store_true",
        help="the batch is a table of comma-separated values, as a file called .csv is without "
        "this; the answers are columns added to it, or JSON Lines with --json",
    )
    parser.add_argument("--limit", type=int, default=8, metavar="N", help="candidates to list")
    parser.set_defaults(more_help=_names_help)
    add_knowledge_options(parser)
    add_learn_option(parser)


def _names_help() -> str:
    """Return the names of readings, each with an example."""
    from identify.pages.question import names_text
    from identify.pages.short import forms_blocks
    from identify.pages.text import text_of

    return f"{names_text(load_knowledge().book)}\n\n{text_of(forms_blocks())}"


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
    if args.brief or args.csv or args.jobs > 1:
        raise ReadingError(
            "--brief, --csv and --jobs are for many samples; give them with --batch FILE."
        )
    if not args.readings:
        raise ReadingError(
            'No readings given. Try: whichend rank gender=male thread_od="20.9 mm" pitch="14 tpi".'
        )
    engine = learning(engine_of(args), args)
    named = [word for word in args.readings if "=" in word]
    short = " ".join(word for word in args.readings if "=" not in word)
    readings, taken = readings_in(named, short, engine.catalogue.threads)
    verdict = engine.conclude(with_gender(readings), limit=args.limit)
    if args.json:
        from identify.pages.as_json import verdict_json

        print_json(verdict_json(verdict) | _taken_json(taken))
    else:
        from identify.pages.verdict import verdict_text

        print(_taken_text(taken, engine.book), end="")
        print(verdict_text(engine, verdict, whole=args.full), end="")
    return 0


def readings_in(
    named: list[str], short: str, threads: Threads, gender: str | None = None
) -> tuple[tuple[Reading, ...], tuple[Taken, ...]]:
    """Return all readings that were typed, and those of them that were written in short.

    Args:
        named: Each as name=value.
        short: A line in short, empty for none.
        threads: As `parse_readings`.
        gender: Known otherwise, where the readings do not say it.
    """
    readings = parse_readings(named, threads)
    if not short:
        return readings, ()
    from identify.reading.quick import read_line  # most calls have no need of it

    taken = read_line(short, threads, implied_gender(readings) or gender)
    return gathered((*readings, *(each.reading for each in taken))), taken


def _taken_text(taken: tuple[Taken, ...], book: RuleBook) -> str:
    if not taken:
        return ""
    from identify.pages.short import taken_blocks
    from identify.pages.text import text_of

    return f"{text_of(taken_blocks(taken, book))}\n"


def _taken_json(taken: tuple[Taken, ...]) -> dict[str, Any]:
    if not taken:
        return {}
    from identify.pages.short import taken_json

    return {"taken": taken_json(taken)}
