"""Options that several commands share."""

import argparse
from pathlib import Path

from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.observer import CARES
from identify.reasoning.engine import Engine


def add_knowledge_options(parser: argparse.ArgumentParser) -> None:
    """Add `--tables DIR`, `--prior even` and `--care WHO`."""
    add_tables_option(parser)
    parser.add_argument(
        "--care",
        choices=CARES,
        default="",
        help="who took the readings: careful (each twice, full bag), ordinary, hurried or novice; "
        "not told, the readings count as those of anybody",
    )
    parser.add_argument(
        "--prior",
        choices=("usual", "even"),
        default="usual",
        help="usual: common ends weigh more; even: every row of the tables weighs the same",
    )


def add_tables_option(parser: argparse.ArgumentParser) -> None:
    """Add `--tables DIR`."""
    parser.add_argument(
        "--tables",
        type=Path,
        metavar="DIR",
        help="a folder with tables and rules of your own, added to ours",
    )


def engine_of(args: argparse.Namespace) -> Engine:
    """Return the engine that the options ask for."""
    knowledge: Knowledge = load_knowledge(args.tables)
    even = args.prior == "even"
    return Engine(knowledge.catalogue, knowledge.book, knowledge.hazards, even=even, care=args.care)
