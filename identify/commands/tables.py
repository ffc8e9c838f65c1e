"""`whichend tables`: what the tables hold, who says so, and whether a folder of tables is sound."""

from __future__ import annotations

from collections import Counter
from pathlib import Path
from typing import TYPE_CHECKING

from identify.commands.layout import labelled, paragraph, table
from identify.errors import TableError, WhichendError
from identify.knowledge.compiled import load_catalogue
from identify.model.source import Confidence, Support

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable, Sequence

    from identify.model.catalogue import Catalogue
    from identify.model.connection import EndConnection


def add_arguments(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser("tables", help="list families, sizes and sources; check tables")
    parser.add_argument("what", nargs="?", help='a family, or "check"')
    parser.add_argument("folder", nargs="?", type=Path, help="your own tables, for check")
    parser.add_argument("--sources", action="store_true", help="list the sources instead")
    add_tables_option(parser)


def add_tables_option(parser: argparse.ArgumentParser) -> None:
    """Add `--tables DIR`."""
    parser.add_argument(
        "--tables", type=Path, metavar="DIR", help="a folder with tables of your own, added to ours"
    )


def run(args: argparse.Namespace) -> int:
    """Print what was asked for; return 2 if tables under check have faults."""
    if args.what == "check":
        report, sound = check(args.folder or args.tables)
        print(report)
        return 0 if sound else 2
    if args.folder:
        raise WhichendError(
            f'"{args.folder}" is one word too many; write "whichend tables FAMILY".'
        )
    catalogue = load_catalogue(args.tables)
    if args.sources:
        print(sources(catalogue))
    elif args.what:
        print(family(catalogue, args.what))
    else:
        print(overview(catalogue))
    return 0


def overview(catalogue: Catalogue) -> str:
    """Return all families with counts, and how far the rows are supported."""
    rows = []
    for key, one in catalogue.families.items():
        ends = [end for end in catalogue.ends if end.family == key]
        sizes = len({end.size for end in ends})
        checked = sum(bool(end.provenance.checked_against) for end in ends)
        name = f"{one.name} (do not handle)" if one.refuse else one.name
        rows.append([key, str(sizes), str(len(ends)), str(checked), name])
    parts = [
        table(["family", "sizes", "rows", "checked", "name"], rows),
        f"{len(rows)} families, {len(catalogue.ends)} rows, {len(catalogue.threads)} threads, "
        f"{len(catalogue.sources)} sources.",
        _support(catalogue.ends),
        paragraph(
            '"checked": rows for which a second source was seen. '
            '"whichend tables FAMILY" lists its sizes, "whichend tables --sources" the sources.'
        ),
    ]
    return "\n\n".join(parts)


def family(catalogue: Catalogue, key: str) -> str:
    """Return one family: what it is, its forms, its rows.

    Raises:
        WhichendError: There is no such family; names the nearest.
    """
    if key not in catalogue.families:
        from difflib import get_close_matches  # only on the way to an error message

        near = get_close_matches(key.lower(), catalogue.families, n=3, cutoff=0.4)
        hint = f" Nearest: {', '.join(near)}." if near else ""
        raise WhichendError(f'"{key}" is no family.{hint} "whichend tables" lists them.')
    one = catalogue.families[key]
    ends = [end for end in catalogue.ends if end.family == key]
    parts = [f"{one.name} ({key})"]
    parts += [paragraph(text) for text in (", ".join(one.standards), one.about) if text]
    if one.refuse:
        parts.append(paragraph(f"Do not handle this as a hydraulic end: {one.refuse}"))
    forms = {end.form_key: f"{end.form_key}: {end.form}; {end.seal}." for end in ends}
    parts.append("\n".join(paragraph(text) for text in forms.values()))
    header = ["size", "form", "thread", "dash", "DN", *(name for name, _ in _DIMENSIONS)]
    header += ["bar", "support"]
    parts.append(table(header, [_row(end) for end in ends]))
    parts += [_support(ends), paragraph(f'All figures of one: "whichend show {ends[0].id}"')]
    return "\n\n".join(parts)


def sources(catalogue: Catalogue) -> str:
    """Return every source with its kind, its note and how many rows and threads cite it."""
    cited = Counter(catalogue_citations(catalogue))
    blocks = []
    for key, source in catalogue.sources.items():
        uses = f"{source.kind}; cited {cited[key]} times"
        text = f"{source.title} ({uses})."
        blocks.append(f"{key}\n{paragraph(text, 2)}")
        if source.note:
            blocks[-1] += f"\n{paragraph(source.note, 2)}"
    return "\n".join(blocks)


def catalogue_citations(catalogue: Catalogue) -> Iterable[str]:
    """Yield the key of a source once for every time a thread or an end cites it."""
    supports = [thread.provenance for thread in catalogue.threads.values()]
    for end in catalogue.ends:
        supports.append(end.provenance)
        supports += [figure.provenance for figure in end.figures]
        supports += [hexagon.provenance for hexagon in end.hexagons]
        yield from (seen.source for seen in end.also_seen)
    for support in supports:
        yield support.source
        yield from support.checked_against


def check(folder: Path | None) -> tuple[str, bool]:
    """Read the shipped tables and rules and a user's folder anew.

    Returns the report and whether all is well. Every fault of every file stands on a line of its
    own, with file and line.
    """
    from identify.knowledge.build import read_folders  # yaml, which the other listings do without
    from identify.knowledge.data import data_dir
    from identify.knowledge.fields import Faults
    from identify.knowledge.rulebook import build_rulebook

    faults = Faults()
    catalogue = read_folders([data_dir("thread_tables"), *([folder] if folder else [])], faults)
    try:
        build_rulebook([data_dir("rules"), *([folder / "rules"] if folder else [])], catalogue)
    except TableError as error:
        faults.found += error.faults
    where = f"{folder} (with the shipped tables)" if folder else "thread_tables and rules"
    if faults.found:
        count = len(faults.found)
        return "\n".join([*faults.found, f"{where}: {count} fault{'s' * (count > 1)}."]), False
    counts = (
        f"{len(catalogue.families)} families, {len(catalogue.ends)} rows, "
        f"{len(catalogue.threads)} threads, {len(catalogue.sources)} sources"
    )
    return f"{where}: no fault in {counts}.", True


_DIMENSIONS = (
    ("tube", "tube_od_mm"),
    ("bore", "bore_mm"),
    ("plug", "plug_od_mm"),
    ("head", "flange_head_od_mm"),
    ("thick", "flange_head_thickness_mm"),
    ("long", "bolt_spacing_long_mm"),
    ("short", "bolt_spacing_short_mm"),
    ("eye", "eye_bore_mm"),
    ("ring ID", "ring_id_mm"),
    ("ring OD", "ring_od_mm"),
)


def _row(end: EndConnection) -> list[str]:
    numbers = [end.hose_dn, *(getattr(end, field) for _, field in _DIMENSIONS), end.rating.bar]
    cells = ["" if number is None else f"{number:.4g}" for number in numbers]
    return [end.size, end.form_key, end.thread or "", end.dash or "", *cells, end.provenance.basis]


def _support(ends: Sequence[EndConnection]) -> str:
    """Return in words what the rows rest on, strongest first."""
    bases = Counter(end.provenance.basis for end in ends)
    checked = sum(bool(end.provenance.checked_against) for end in ends)
    recalled = [end for end in ends if end.provenance.basis is Support.FROM_MEMORY]
    alone = [end for end in recalled if not end.provenance.checked_against]
    high = sum(end.confidence is Confidence.HIGH for end in recalled)
    own = [figure for end in ends for figure in end.figures]
    second = sum(bool(figure.provenance.checked_against) for figure in own)
    rated = sum(end.rating.bar is not None for end in ends)
    seen = sum(len(end.also_seen) for end in ends)
    lines = [
        ("Support", ", ".join(f"{bases[basis]} {basis}" for basis in Support if bases[basis])),
        ("Checked", f"{checked} of {len(ends)} rows against a second source"),
        ("Memory", f"{len(alone)} rows on memory alone; of all recalled ones {high} are high"),
        ("Figures", f"{len(own)} with a support of their own, {second} of them checked"),
        ("Also seen", f"{seen} values that differ from ours, shown beside them"),
        ("Ratings", f"{rated} rows state a pressure, {len(ends) - rated} say unknown"),
    ]
    return "\n".join(labelled(label, text) for label, text in lines)
