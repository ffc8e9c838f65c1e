"""`whichend jobs find WORDS…`: jobs in which every word begins something that was said."""

import argparse
import json
import sys
from collections.abc import Sequence
from typing import Any

from identify.commands.jobs.shelves import add_list_options, shelf
from identify.errors import ReadingError
from identify.jobs.listing import Listed
from identify.pages.jobs import jobs_table, none_found
from identify.pages.text import text_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Find jobs by reference, customer, machine, end, thread, date (2026-11) or any word that "
        "was said of them. Every word must begin a word of the job; the latest job comes first."
    )
    parser.epilog = "Exit status: 0 with or without a job; a search that finds none says so."
    parser.add_argument("words", nargs="+", metavar="WORDS", help="what is known of it")
    add_list_options(parser)


def run(args: argparse.Namespace) -> int:
    """Print them."""
    words, most = " ".join(args.words), max(args.limit, 0) + 1
    print_jobs(shelf().search(words, most, discarded=args.discarded), args, words)
    return 0


def print_jobs(found: Sequence[Listed], args: argparse.Namespace, words: str = "") -> None:
    """Print jobs; one more than `args.limit` tells that there are more.

    Args:
        found: Jobs.
        args: With the options of a list.
        words: That were looked for.

    Raises:
        ReadingError: The limit lists nothing.
    """
    if args.limit < 1:
        raise ReadingError(f"--limit {args.limit} lists nothing; give 1 or more.")
    shown = found[: args.limit]
    if args.json:
        print(json.dumps([listed_json(each) for each in shown], ensure_ascii=False))
    elif shown:
        print(text_of([jobs_table(shown)]), end="")
    else:
        print(none_found(words))
    if len(found) > args.limit:
        print("There are more; say more words, or list more with --limit N.", file=sys.stderr)


def listed_json(job: Listed) -> dict[str, Any]:
    """Return a job as an object of a list."""
    return {
        "job": job.job.removesuffix(".jsonl"),
        "reference": job.reference,
        "customer": job.customer or None,
        "ends": list(job.ends),
        "at": job.at,
    }
