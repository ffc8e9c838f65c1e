"""`whichend jobs show REFERENCE`: one job with all that is kept of it."""

import argparse
import json

from identify.commands.jobs.shelves import add_reference, shelf
from identify.commands.options import add_tables_option
from identify.jobs.exchange import job_record, sent
from identify.knowledge.loading import load_knowledge
from identify.pages.jobs import job_blocks, where_kept
from identify.pages.text import text_of


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = "Show one job: readings, verdicts, claims, outcome, corrections."
    add_reference(parser)
    parser.add_argument(
        "--json", action="store_true", help="print one JSON object, as export writes it"
    )
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print it."""
    kept = shelf().called(args.reference)
    if args.json:
        print(json.dumps(job_record(sent(kept)), ensure_ascii=False))
        return 0
    print(text_of(job_blocks(kept, load_knowledge(args.tables).book)), end="")
    print(where_kept(kept.job.reference, kept.path))
    return 0
