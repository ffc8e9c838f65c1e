"""`whichend gauges`: a page of pitch combs and seat angles to print at 100 %."""

import argparse
from pathlib import Path

from identify.commands.output import deliver
from identify.knowledge.loading import load_knowledge
from identify.pages.gauges import PAPERS_MM, combs_of, gauge_page, half_angles_of

PAGE_NAME = "whichend-gauges.html"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("--paper", choices=sorted(PAPERS_MM), default="a4", help="paper size")
    parser.add_argument(
        "--output", type=Path, default=Path(PAGE_NAME), metavar="FILE",
        help=f'where to write it (default: {PAGE_NAME}); "-" writes to standard output',
    )  # fmt: skip


def run(args: argparse.Namespace) -> int:
    """Write the page and say how to check it."""
    catalogue = load_knowledge().catalogue
    combs = combs_of(catalogue.threads.values())
    angles = half_angles_of(catalogue.ends)
    page = gauge_page(combs, angles, args.paper)
    if not deliver([page], args.output, "--output"):
        return 0
    print(
        f"{args.output}: {len(combs)} pitch combs and {len(angles)} seat angles. Print it at 100 % "
        "and measure both check bars (50.0 mm) before use."
    )
    return 0
