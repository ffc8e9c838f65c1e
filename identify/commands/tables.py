"""`whichend tables`: what the tables hold, who says so, and whether a folder of tables is sound."""

import argparse
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from identify.commands.options import add_tables_option, path_of
from identify.commands.output import print_json
from identify.errors import TableError, WhichendError
from identify.knowledge.loading import load_knowledge
from identify.knowledge.table_files import PLACES, data_dir, files_of, passed_over
from identify.knowledge.table_files import text_of as text_of_file
from identify.model.catalogue import Catalogue
from identify.pages.tables import (
    Page,
    counted,
    family_blocks,
    family_of,
    overview_blocks,
    source_blocks,
)
from identify.pages.tables_json import family_json, overview_json, sources_json
from identify.pages.text import text_of, wrap
from identify.pages.words import several

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

    from identify.knowledge.fields import Faults


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.add_argument("what", nargs="?", help='a family, or "check"')
    parser.add_argument("folder", nargs="?", type=path_of, help="your own tables, for check")
    parser.add_argument("--sources", action="store_true", help="list the sources instead")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print what was asked for; return 2 if tables under check have faults."""
    if args.what == "check":
        if args.json:
            raise WhichendError('"check" prints faults as lines; leave out --json.')
        report, sound = check(args.folder or args.tables)
        print(report)
        return 0 if sound else 2
    if args.folder:
        raise WhichendError(
            f'"{args.folder}" is one word too many; write "whichend tables FAMILY".'
        )
    known = load_knowledge(args.tables)
    catalogue = known.catalogue
    blocks: Callable[[Catalogue], Page] = overview_blocks
    found: Callable[[Catalogue], dict[str, Any]] = overview_json
    if args.sources:
        more = list(more_citations(args.tables))
        found = partial(sources_json, book=known.book, more=more)
        blocks = partial(source_blocks, book=known.book, more=more)
    elif args.what:
        one = family_of(catalogue, args.what)
        found, blocks = partial(family_json, one=one), partial(family_blocks, one=one)
    if args.json:
        print_json(found(catalogue))
    else:
        print(text_of(blocks(catalogue)), end="")
    return 0


def more_citations(extra: Path | None) -> Iterator[str]:
    """Yield the key of a source once for every time a hose, or what one is made by, cites it."""
    from identify.knowledge.assembly_tables import load_assembly_rules
    from identify.knowledge.hose_loading import load_hoses

    yield from load_assembly_rules().cited
    for hose in load_hoses(extra).hoses:
        for support in (hose.provenance, hose.bore_provenance):
            yield support.source
            yield from support.checked_against
        yield from (other.source for other in hose.others)


def check(folder: Path | None) -> tuple[str, bool]:
    """Read the shipped tables and rules and a user's folder anew.

    Returns the report and whether all is well. Every fault of every file stands on a line of its
    own, with file and line.
    """
    from identify.knowledge.build import read_folders  # yaml, which the other listings do without
    from identify.knowledge.fields import Faults
    from identify.knowledge.rulebook import build_rulebook

    faults = Faults()
    folders = [data_dir("thread_tables"), *([folder] if folder else [])]
    catalogue = read_folders(folders, faults)
    hoses = _hoses(folders, faults)
    told = _told(folder, faults) if folder else []
    try:
        build_rulebook([data_dir("rules"), *([folder / "rules"] if folder else [])], catalogue)
    except TableError as error:
        faults.found += error.faults
    where = f"{folder} (with the shipped tables)" if folder else "thread_tables and rules"
    if faults.found:
        count = len(faults.found)
        last = f"{where}: {count} fault{'s' * (count > 1)}."
        return "\n".join([*faults.found, *told, last]), False
    return "\n".join(
        [*told, f"{where}: no fault in {counted(catalogue)}, {several(hoses, 'hose')}."]
    ), True


def _hoses(folders: "Sequence[Traversable]", faults: "Faults") -> int:
    """Read the hoses, and what they are made by, anew; return how many hoses there are."""
    from identify.knowledge.assembly_tables import ASSEMBLY_FILE, read_assembly_rules
    from identify.knowledge.hose_loading import read_hose_folders

    text = text_of_file(data_dir("rules").joinpath("assembly.yaml"), ASSEMBLY_FILE)
    read_assembly_rules(text, faults, ASSEMBLY_FILE)
    try:
        return len(read_hose_folders(folders, faults).hoses)
    except TableError:
        return 0  # a folder that cannot be listed or read was noted with the ends


def _told(folder: Path, faults: "Faults") -> list[str]:
    """Return what was read of a folder and what was passed over; a fault where nothing was read."""
    if not folder.is_dir():
        return []  # said already
    told = []
    try:
        read = [
            name.removeprefix(f"{folder}/")
            for place in PLACES
            for name, _ in files_of(folder, place)
        ]
        over = passed_over(folder)
    except TableError as error:
        faults.found += error.faults
        return []
    if read:
        told += wrap(f"Read: {', '.join(read)}.")
    else:
        faults.add(
            str(folder), 1,
            "nothing was read; tables lie in threads/, ends/ and sources.yaml, rules in rules/",
        )  # fmt: skip
    if over:
        told += wrap(f"Passed over: {', '.join(over)}.")
    return told
