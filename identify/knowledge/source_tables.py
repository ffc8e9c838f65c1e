"""Sources, and the provenance entries that cite them."""

from collections import Counter

from identify.errors import near_miss
from identify.frozen import replace
from identify.knowledge.fields import Faults, Fields
from identify.knowledge.yaml_reader import read_yaml
from identify.model.source import Provenance, Source, Support

KINDS = ("standard", "handbook", "dataset", "data-sheet", "manual", "practice", "memory")
SUPPORTS = tuple(Support)


def open_table(text: str, file: str, faults: Faults, schema: str) -> Fields:
    """Return the fields of a rule file whose schema was checked; it may have a note."""
    fields = Fields(read_yaml(text, file), file, faults, "file")
    if fields.text("schema") != schema:
        fields.fault("schema", f'must be "{schema}"')
    fields.text("note", "")
    return fields


def read_sources(text: str, file: str, faults: Faults) -> dict[str, Source]:
    """Return the sources of a `source_table/1` file by key.

    Args:
        text: The YAML document.
        file: Its name for messages.
        faults: Collects what is wrong.

    Raises:
        TableError: Not YAML at all.
    """
    top = Fields(read_yaml(text, file), file, faults, "source table")
    top.choice("schema", ("source_table/1",))
    sources = {}
    for key, entry in top.keyed("sources"):
        sources[key] = Source(
            key, entry.text("title"), entry.choice("kind", KINDS), entry.text("note", "")
        )
        entry.close()
    if not sources:
        top.fault("sources", "lists no source; without one no row can load")
    top.close()
    return sources


def read_provenance(fields: Fields, default: Provenance | None = None) -> Provenance:
    """Return the `provenance` of an entry, or `default`; a fault if there is neither.

    The line of the result is where the entry itself stands, not where its support is written.
    """
    if not fields.has("provenance"):
        if default is None:
            fields.fault("", "has no source; add provenance: {source: …, where: …, basis: …}")
            default = Provenance("", Support.FROM_MEMORY)
        return _at(default, fields)
    entry = fields.section("provenance")
    return _at(support_of(entry, default), fields)


def support_of(entry: Fields, default: Provenance | None = None) -> Provenance:
    """Read source, place, basis and checks from a mapping.

    What is absent comes from `default`, but not where the entry names another source: a place in
    one source is no place in another.
    """
    source = cite(entry, "source", default.source if default else None)
    if default and source != default.source:
        default = None
    checked = tuple(entry.texts("checked_against"))
    for key in checked:
        entry.faults.cite(entry.file, entry.line_of("checked_against"), entry.what, key)
    basis = entry.choice("basis", SUPPORTS, default.basis if default else None)
    result = Provenance(
        source=source,
        basis=Support(basis),
        where=entry.text("where", default.where if default else ""),
        checked_against=checked or (default.checked_against if default else ()),
        checked_note=entry.text("checked_note", default.checked_note if default else ""),
        caveat=entry.text("caveat", default.caveat if default else ""),
        file=entry.file,
        line=entry.line,
    )
    entry.close()
    return result


def named_support(entry: Fields, default: Provenance) -> Provenance:
    """Return the support of an entry that stands for one figure and must name its own source."""
    if not entry.has("source"):
        entry.fault("source", "is missing; name the source of this figure")
    return support_of(entry, default)


def cite(entry: Fields, key: str, default: str | None = None) -> str:
    """Return the source key standing under `key` and note the citation."""
    source = entry.text(key, default)
    if source and entry.has(key):
        entry.faults.cite(entry.file, entry.line_of(key), entry.what, source)
    return source


def check_citations(faults: Faults, sources: dict[str, Source]) -> set[str]:
    """Note a fault for each source a file cites and no table has; return the keys cited."""
    again = Counter((file, source) for file, _, _, source in faults.citations)
    noted: set[tuple[str, str]] = set()
    for file, line, what, source in faults.citations:
        if source not in sources and (file, source) not in noted:
            noted.add((file, source))
            more = again[file, source] - 1
            places = f" here and in {more} more place{'s' * (more > 1)}" if more else ""
            remedy = f"add it there or correct the key{near_miss(source, tuple(sources))}"
            faults.add(
                file, line, f'{what} cites "{source}"{places}, no key in sources.yaml; {remedy}'
            )
    return {source for *_, source in faults.citations}


def _at(provenance: Provenance, fields: Fields) -> Provenance:
    return replace(provenance, file=fields.file, line=fields.line)
