"""What the verbs of `whichend jobs` share."""

from __future__ import annotations

import sys

from identify.errors import RecordError
from identify.frozen import TYPE_CHECKING
from identify.jobs.folders import folder_path, interviews_folder
from identify.jobs.shelf import Shelf

if TYPE_CHECKING:
    import argparse

MOST_LISTED = 20


def shelf() -> Shelf:
    """Return the jobs of this user.

    Raises:
        RecordError: This machine has no place for them.
    """
    folder = folder_path(interviews_folder())
    if folder is None:
        raise RecordError("No home folder is known; set HOME, or XDG_STATE_HOME.")
    return Shelf(folder, reading_told)


def reading_told(count: int) -> None:
    """Say on standard error why the first answer takes a while."""
    print(f"Reading {count} jobs for the index; this is done once.", file=sys.stderr, flush=True)


def add_reference(parser: argparse.ArgumentParser) -> None:
    """Add the reference of one job."""
    parser.add_argument("reference", help="as on the label, such as K7M-3P4")


def add_end_option(parser: argparse.ArgumentParser) -> None:
    """Add `--end A`."""
    parser.add_argument(
        "--end", default="A", help="A or B; 2A for the first end of the second hose (default: A)"
    )


def add_list_options(parser: argparse.ArgumentParser) -> None:
    """Add what a list of jobs can be asked for."""
    parser.add_argument("--json", action="store_true", help="print one JSON list")
    parser.add_argument("--discarded", action="store_true", help="discarded jobs too")
    parser.add_argument(
        "--limit", type=int, default=MOST_LISTED, metavar="N",
        help=f"jobs to list (default: {MOST_LISTED})",
    )  # fmt: skip
