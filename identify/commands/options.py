"""Options that several commands share."""

from __future__ import annotations

import sys

from identify.frozen import TYPE_CHECKING, replace
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.observer import CARES
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    import argparse
    from pathlib import Path


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
        type=path_of,
        metavar="DIR",
        help="a folder with tables and rules of your own, added to ours",
    )


def path_of(text: str) -> Path:
    """Return the path that an option names."""
    from pathlib import Path  # takes as long to import as a third of a bare start

    return Path(text)


def engine_of(args: argparse.Namespace, *, arrays: bool = False) -> Engine:
    """Return the engine that the options ask for; with `arrays` it sums by numpy."""
    known: Knowledge = load_knowledge(args.tables)
    catalogue = known.catalogue
    if arrays:  # so many verdicts look at every row: all are read at once
        catalogue = replace(catalogue, ends=tuple(catalogue.ends))
    return Engine(
        catalogue,
        known.book,
        known.hazards,
        even=args.prior == "even",
        care=args.care,
        layout=known.layout,
        arrays=arrays,
    )


def add_learn_option(parser: argparse.ArgumentParser) -> None:
    """Add `--learn`."""
    parser.add_argument(
        "--learn",
        action="store_true",
        help="let what was identified, made and fitted in this shop weigh a little more; the "
        "answer says how far that moved it, and nothing is named or ruled out by it; not in a "
        "batch",
    )


def learning(engine: Engine, args: argparse.Namespace) -> Engine:
    """Return the engine that has learnt from the jobs of this user, where that is wanted."""
    if not args.learn:
        return engine
    from identify.commands.jobs.shelves import reading_told
    from identify.jobs.folders import folder_path, interviews_folder
    from identify.jobs.shelf import Shelf
    from identify.reasoning.learnt import LearntEngine

    folder = folder_path(interviews_folder())
    if folder is None or not folder.is_dir():
        return LearntEngine(engine, {})
    jobs = Shelf(folder, reading_told)
    found = jobs.fitted()
    jobs.close()
    return LearntEngine(engine, found)


def terminal_style() -> str:
    """Return how to draw where nothing was said: braille if the output can carry it."""
    return "braille" if (sys.stdout.encoding or "").lower().startswith("utf") else "ascii"
