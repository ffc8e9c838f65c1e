"""`whichend jobs export`: write jobs as JSON Lines or as a table."""

import argparse
from collections.abc import Iterator
from pathlib import Path

from identify.commands.jobs.shelves import shelf
from identify.commands.output import deliver
from identify.frozen import replace
from identify.jobs.exchange import Sent, lines_of, sent, table_of
from identify.jobs.names import without_names

FORMS = {"jsonl": lines_of, "csv": table_of}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Write all jobs, or those that words find, discarded ones too. Both forms hold every step "
        "of a job, and import takes back either."
    )
    parser.add_argument("words", nargs="*", metavar="WORDS", help="as for find; all jobs if none")
    parser.add_argument(
        "--form", choices=FORMS, default="jsonl",
        help="jsonl: one JSON object a job; csv: a table, one row an end (default: jsonl)",
    )  # fmt: skip
    parser.add_argument(
        "--output", type=Path, default=Path("-"), metavar="FILE",
        help="a new file; without it, standard output",
    )  # fmt: skip
    parser.add_argument(
        "--without-names", action="store_true",
        help="leave out customer, machine, notes, everybody's name and every reason in free words",
    )  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """Write them."""
    parts = FORMS[args.form](_jobs(" ".join(args.words), nameless=args.without_names))
    if deliver(parts, args.output, "--output"):
        print(f"Written: {args.output}")
    return 0


def _jobs(words: str, *, nameless: bool) -> Iterator[Sent]:
    jobs = shelf()
    for listed in jobs.index.found(words, -1, discarded=True) if words else jobs.index.every():
        job = sent(jobs.kept(listed))
        yield replace(job, entries=without_names(job.entries)) if nameless else job
