"""`whichend find WORDS…`: the ends that words of the trade name."""

import argparse
from typing import Any

from identify.commands.options import add_tables_option
from identify.commands.output import print_json
from identify.frozen import replace
from identify.knowledge.loading import load_knowledge
from identify.pages.tables import by_family
from identify.pages.words import several
from identify.reading.names import Understood, understand


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.description = (
        "Say family, size and gender in any order, as far as they are known: find JIC -8 male, "
        'find "1/2 BSP", find 24° 15L, find code 61 1 inch.'
    )
    parser.epilog = "Exit status: 0 with one or more ends, 2 with none."
    parser.add_argument("words", nargs="+", metavar="WORDS", help="what it is called")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print what the words mean and the ends they name."""
    catalogue = load_knowledge(args.tables).catalogue
    found = understand(catalogue, " ".join(args.words))
    found = replace(found, ends=tuple(sorted(found.ends, key=by_family(catalogue))))
    if args.json:
        print_json(found_json(found))
    else:
        print(found_text(found))
    return 0


def found_text(found: Understood) -> str:
    """Return what was understood and the ends, one a line, in 80 columns."""
    names = dict.fromkeys(end.family_name for end in found.ends if end.family in found.families)
    said = [" or ".join(names) or "any family"]
    if found.size:
        said.append(f"size {found.size}")
    if found.gender:
        said.append(found.gender)
    width = max(len(end.id) for end in found.ends)
    lines = [f"{', '.join(said)}: {several(len(found.ends), 'end')}"]
    for end in found.ends:
        guard = " (not hydraulic: leave alone)" if end.refuse else ""
        lines.append(f"  {end.id.ljust(width)}  {end.title}{guard}")
    return "\n".join(lines)


def found_json(found: Understood) -> dict[str, Any]:
    """Return the same as plain values, ready for `json.dumps`."""
    return {
        "query": found.query,
        "understood": {
            "family": list(found.families),
            "size": found.size,
            "gender": found.gender,
        },
        "ends": [end.id for end in found.ends],
    }
