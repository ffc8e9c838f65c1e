"""`whichend jobs delete-customer NAME`: take the name of a customer out of every job."""

import argparse

from identify.commands.jobs.shelves import shelf
from identify.errors import RecordError
from identify.pages.words import several


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the verb."""
    parser.description = (
        "Write every job of a customer anew without the customer, the machine, the notes, who "
        "made a claim and every reason in free words. What was measured and concluded stays, and "
        "who measured it. This cannot be undone."
    )
    parser.add_argument("name", help="as it was typed; capitals and accents make no difference")
    parser.add_argument("--yes", action="store_true", help="do it; without it, only say how many")


def run(args: argparse.Namespace) -> int:
    """Say which jobs are meant, and write them anew.

    Raises:
        RecordError: No job is of this customer.
    """
    jobs = shelf()
    found = jobs.of_customer(args.name)
    if not found:
        raise RecordError("No job is of this customer. List jobs with: whichend jobs list.")
    names = ", ".join(each.job.reference for each in found)
    if not args.yes:
        print(f"{several(len(found), 'job')}: {names}. Nothing was changed; add --yes to do it.")
        return 0
    jobs.forget_customer(found)
    print(f"{several(len(found), 'job')} written anew without the customer: {names}.")
    return 0
