"""`python -m tests.benchmark`: accuracy, calibration, length of interviews, speed."""

import argparse
import os
import sys
from collections.abc import Callable, Iterable, Sequence

from identify.commands.options import add_tables_option
from identify.errors import WhichendError
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.feature import ORIGINS
from identify.pages import blocks
from identify.pages.text import text_of
from tests.benchmark import accuracy, hoses, sessions
from tests.benchmark.bench import Terms
from tests.benchmark.progress import shown

WIDTH = 160
MOST_ERRORS = 5.0
Table = tuple[Sequence[str], Iterable[Sequence[str]]]


class BenchmarkError(WhichendError):
    """A benchmark cannot be run as asked."""


def parser_of() -> argparse.ArgumentParser:
    """Return the parser of the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.benchmark",
        description="Simulated people measure simulated parts; one table is printed a run.",
    )
    parts = parser.add_subparsers(metavar="WHAT", required=True)
    accuracy = parts.add_parser(
        "accuracy",
        help="how often the answer is right, against the best that any method could do",
        description="Everybody fills in the whole sheet. Hit: the true end leads, or an end that "
        "no measurement tells from it. Shares in per cent; danger in 1,000 identified answers.",
    )
    _simulation(accuracy)
    accuracy.add_argument(
        "--noise", choices=["usual", "other"], default="usual",
        help="other: errors of another shape than the reasoning believes, see moods.py",
    )  # fmt: skip
    accuracy.add_argument("--families", action="store_true", help="one line a family")
    accuracy.add_argument("--bins", action="store_true", help="print the calibration bins instead")
    accuracy.set_defaults(measure=_accuracy)
    interview = parts.add_parser(
        "interview",
        help="how many questions it takes to a verdict, and how often that is right",
        description="Whole sessions: as the product asks, by a form in fixed order with the same "
        "rule to stop, and on the first parts by exhaustive two-step look-ahead.",
    )
    _simulation(interview)
    _whole(interview, "--ahead", 0, 0, "parts asked with look-ahead; slow")
    interview.set_defaults(measure=_interview)
    speed = parts.add_parser(
        "speed",
        help="how fast it starts, ranks, works through a batch and draws the first frame",
        description="Processor time, and medians of runs made by turns; only the ratios carry over "
        "to another machine.",
    )
    _whole(speed, "--runs", 15, 3, "starts of each program")
    _whole(speed, "--samples", 2000, 200, "length of the batch")
    speed.add_argument(
        "--rows", type=int, nargs="*", default=[], metavar="N",
        help="numbers of rows with which a start and an edit are measured too, such as 10000 50000",
    )  # fmt: skip
    _shared(speed)
    speed.set_defaults(measure=_speed)
    lines = parts.add_parser(
        "hoses",
        help="how many printed lines of hoses are read right, left open or read wrong, by damage",
        description="Lines as the standards ask for them, and damaged by class.",
    )
    _whole(lines, "--lines", 300, 9, "lines read")
    lines.add_argument(
        "--composed", action="store_true",
        help="in place of them those that were composed by hand and never seen while it was tuned",
    )  # fmt: skip
    _shared(lines)
    lines.set_defaults(measure=_hoses)
    return parser


def _simulation(parser: argparse.ArgumentParser) -> None:
    _whole(parser, "--parts", 300, 1, "parts an observer")
    parser.add_argument("--observer", metavar="NAME", help="one observer; default all")
    parser.add_argument(
        "--errors", type=_errors, default=1.0, metavar="X", help="times the observers' errors"
    )
    parser.add_argument(
        "--region", choices=[each for each in ORIGINS if each != "unknown"], default="",
        help="draw parts as they are common there; nobody tells the reasoning",
    )  # fmt: skip
    parser.add_argument("--even", action="store_true", help="draw every row alike")
    parser.add_argument(
        "--care", action="store_true", help="tell the reasoning who measures, as --care does"
    )
    _shared(parser)


def _shared(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--seed", type=int, default=1, metavar="S")
    add_tables_option(parser)


def _whole(parser: argparse.ArgumentParser, name: str, usual: int, least: int, words: str) -> None:
    def number(text: str) -> int:
        if int(text) < least:
            raise argparse.ArgumentTypeError(f"give {least} or more")
        return int(text)

    parser.add_argument(name, type=number, default=usual, metavar="N", help=words)


def _errors(text: str) -> float:
    if not 0 < float(text) <= MOST_ERRORS:
        raise argparse.ArgumentTypeError(f"give a number above 0, at most {MOST_ERRORS:g}")
    return float(text)


def _terms(args: argparse.Namespace, knowledge: Knowledge) -> Terms:
    observers = tuple(knowledge.book.people.observers)
    if args.observer and args.observer not in observers:
        raise BenchmarkError(f'"{args.observer}" is no observer; they are {", ".join(observers)}.')
    asked = (args.observer,) if args.observer else observers
    return Terms(
        args.parts, args.seed, asked, args.errors, args.region, args.even, args.care,
        moody=getattr(args, "noise", "usual") == "other",
    )  # fmt: skip


def _accuracy(args: argparse.Namespace, knowledge: Knowledge) -> Table:
    scores = accuracy.run(knowledge, _terms(args, knowledge), families=args.families)
    if args.bins:
        return accuracy.BINS_HEADER, [
            line for score in scores for line in accuracy.bin_lines(score)
        ]
    return accuracy.HEADER, map(accuracy.line, scores)


def _interview(args: argparse.Namespace, knowledge: Knowledge) -> Table:
    tallies = sessions.run(knowledge, _terms(args, knowledge), args.ahead)
    return sessions.HEADER, map(sessions.line, tallies)


def _speed(args: argparse.Namespace, knowledge: Knowledge) -> Table:
    from tests.benchmark import speed  # needs a pseudo-terminal, which not every system has

    if "PYTHONDONTWRITEBYTECODE" in os.environ:
        print("PYTHONDONTWRITEBYTECODE is set; it is unset for what is measured.", file=sys.stderr)
    figures = speed.measure(knowledge, args.runs, args.samples, args.seed, args.rows)
    return speed.HEADER, list(shown(figures, speed.figures(args.rows), "speed"))


def _hoses(args: argparse.Namespace, knowledge: Knowledge) -> Table:
    if args.composed:
        return hoses.HEADER, hoses.table(hoses.composed(knowledge))
    reads = hoses.measured(args.lines, args.seed, knowledge, args.tables)
    return hoses.HEADER, hoses.table(reads)


def main(words: Sequence[str] | None = None) -> int:
    """Run one benchmark and print its table; return 2 where it cannot be run as asked."""
    args = parser_of().parse_args(words)
    measure: Callable[[argparse.Namespace, Knowledge], Table] = args.measure
    try:
        header, rows = measure(args, load_knowledge(args.tables))
    except WhichendError as error:
        print(error, file=sys.stderr)
        return 2
    page = blocks.Table(tuple(header), tuple(tuple(row) for row in rows))
    print(text_of([page], WIDTH), end="")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
