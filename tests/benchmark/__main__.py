"""`python -m tests.benchmark`: accuracy, calibration, length of interviews, speed."""

import argparse
import sys
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from identify.commands.layout import table
from identify.commands.options import add_knowledge_options
from identify.errors import WhichendError
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.feature import ORIGINS

if TYPE_CHECKING:
    from tests.benchmark.accuracy import Terms

WIDTH = 160


class BenchmarkError(WhichendError):
    """A benchmark cannot be run as asked."""


def parser_of() -> argparse.ArgumentParser:
    """Return the parser of the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark",
        description="Simulated people measure simulated parts; one table is printed a run.",
    )
    parts = parser.add_subparsers(metavar="WHAT", dest="what", required=True)
    accuracy = parts.add_parser(
        "accuracy",
        help="how often the answer is right, against the best that any method could do",
        description="Everybody fills in the whole sheet. Hit: the true end leads, or an end that "
        "no measurement tells from it. Shares in per cent; danger in 1,000 identified answers.",
    )
    _simulation(accuracy)
    accuracy.add_argument("--families", action="store_true", help="one line a family")
    accuracy.add_argument("--bins", action="store_true", help="print the calibration bins instead")
    interview = parts.add_parser(
        "interview",
        help="how many questions it takes to a verdict, and how often that is right",
        description="Whole sessions: as the product asks, by a form in fixed order with the same "
        "rule to stop, and on the first parts by exhaustive two-step look-ahead.",
    )
    _simulation(interview)
    interview.add_argument(
        "--ahead", type=int, default=0, metavar="N", help="parts asked with look-ahead; slow"
    )
    speed = parts.add_parser(
        "speed",
        help="how fast it starts, ranks, works through a batch and draws the first frame",
        description="Processor time, and medians of runs made by turns; only the ratios carry over "
        "to another machine. With scikit-learn installed general classifiers are timed as well.",
    )
    speed.add_argument("--runs", type=int, default=15, metavar="N", help="starts of each program")
    speed.add_argument("--samples", type=int, default=2000, metavar="N", help="length of the batch")
    speed.add_argument("--seed", type=int, default=1, metavar="S")
    add_knowledge_options(speed)
    return parser


def _simulation(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--parts", type=int, default=300, metavar="N", help="parts an observer")
    parser.add_argument("--seed", type=int, default=1, metavar="S")
    parser.add_argument("--observer", metavar="NAME", help="one observer; default all")
    parser.add_argument(
        "--errors", type=float, default=1.0, metavar="X", help="times the observers' errors"
    )
    parser.add_argument(
        "--region", choices=[each for each in ORIGINS if each != "unknown"], default="",
        help="draw parts as they are common there; nobody tells the reasoning",
    )  # fmt: skip
    parser.add_argument("--even", action="store_true", help="draw every row alike")
    add_knowledge_options(parser)


def main(words: Sequence[str] | None = None) -> int:
    """Run one benchmark and print its table; return 2 where it cannot be run as asked."""
    args = parser_of().parse_args(words)
    try:
        return {"accuracy": _accuracy, "interview": _interview, "speed": _speed}[args.what](args)
    except WhichendError as error:
        print(error, file=sys.stderr)
        return 2


def _speed(args: argparse.Namespace) -> int:
    from tests.benchmark.speed import measure

    if args.runs < 3 or args.samples < 200:
        raise BenchmarkError("Give --runs 3 or more and --samples 200 or more.")
    found = measure(load_knowledge(args.tables), args.runs, args.samples, args.seed)
    rows = [(each.what, each.figure, each.against, each.aim) for each in found]
    print(table(("", "measured", "", "aim"), rows, WIDTH))
    return 0


def _terms(args: argparse.Namespace, knowledge: Knowledge) -> "Terms":
    from tests.benchmark.accuracy import Terms

    observers = knowledge.book.people.observers
    if args.observer and args.observer not in observers:
        raise BenchmarkError(f'"{args.observer}" is no observer; they are {", ".join(observers)}.')
    if args.parts < 1 or not 0 < args.errors <= 5:
        raise BenchmarkError("Give --parts 1 or more and --errors above 0, at most 5.")
    return Terms(
        parts=args.parts,
        seed=args.seed,
        observers=(args.observer,) if args.observer else tuple(observers),
        errors=args.errors,
        region=args.region,
        even=args.even,
    )


def _interview(args: argparse.Namespace) -> int:
    from tests.benchmark import sessions

    knowledge = load_knowledge(args.tables)
    if args.ahead < 0:
        raise BenchmarkError("Give --ahead 0 or more.")
    tallies = sessions.run(knowledge, _terms(args, knowledge), args.ahead)
    print(table(sessions.HEADER, map(sessions.session_line, tallies), WIDTH))
    return 0


def _accuracy(args: argparse.Namespace) -> int:
    from tests.benchmark import accuracy

    knowledge = load_knowledge(args.tables)
    terms = replace(_terms(args, knowledge), families=args.families)
    scores = accuracy.run(knowledge, terms)
    if args.bins:
        head = ("", "promised", "answers", "mean promise", "right")
        rows = [
            (score.name, name, str(number), f"{promise:.3f}", f"{right:.3f}")
            for score in scores
            for name, number, promise, right in score.ours_promise.lines()
        ]
        print(table(head, rows, WIDTH))
    else:
        print(table(accuracy.HEADER, map(accuracy.line, scores), WIDTH))
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
