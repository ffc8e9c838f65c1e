"""`whichend jobs recheck`: reckon again with today's tables and rules, and say what changed."""

import argparse
import json
import sys
from collections.abc import Iterator

from identify.commands.jobs.shelves import shelf
from identify.commands.options import add_knowledge_options, engine_of
from identify.errors import ReadingError, RecordError
from identify.jobs.concluding import rechecked
from identify.jobs.journal import Kept
from identify.jobs.saving import now_utc
from identify.jobs.shelf import Shelf, written
from identify.pages.jobs import rechecked_words


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Reckon jobs again with the tables and rules of today, and say of each end whether another "
        "answer comes out. Nothing is kept of it unless --keep is given."
    )
    parser.epilog = "Exit status: 0 nothing changed, 3 an answer is another one now."
    parser.add_argument(
        "references", nargs="*", metavar="REFERENCE", help="of jobs; all jobs if none is given"
    )
    parser.add_argument("--keep", action="store_true", help="keep the new verdicts in the jobs")
    parser.add_argument("--json", action="store_true", help="print one JSON object an end")
    parser.add_argument("--changed", action="store_true", help="only ends whose answer is another")
    add_knowledge_options(parser)


def run(args: argparse.Namespace) -> int:
    """Print what changed; return 3 if anything did."""
    jobs, engine, another = shelf(), engine_of(args), False
    for kept in _kept(jobs, args.references):
        for place, end in kept.job.ends:
            if not end.answered:
                continue
            name = f"{kept.job.reference} {place}"
            try:
                found = rechecked(end, engine, args.tables, now_utc())
            except ReadingError as error:
                print(f"{name}: {error}", file=sys.stderr)
                continue
            another = another or found.differs
            if args.changed and not found.differs:
                continue
            print(json.dumps(found.as_json(name)) if args.json else rechecked_words(name, found))
            if args.keep:
                with written(jobs.called(kept.job.reference)) as journal:
                    journal.add(found.now, place=place)
    return 3 if another else 0


def _kept(jobs: Shelf, references: list[str]) -> Iterator[Kept]:
    for reference in references:
        yield jobs.called(reference)
    for listed in () if references else jobs.index.every():
        if not listed.discarded:
            try:
                yield jobs.kept(listed)
            except RecordError as error:
                print(f"{listed.reference}: {error}", file=sys.stderr)
