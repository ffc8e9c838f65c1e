"""All hose tables and how their lines are read, loaded only by the commands that speak of hoses."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from identify.errors import TableError
from identify.knowledge.compiled import load_section
from identify.knowledge.fields import Faults
from identify.knowledge.hose_habits import read_habits
from identify.knowledge.hose_tables import read_hoses
from identify.knowledge.source_tables import check_citations, read_sources
from identify.knowledge.table_files import data_dir, files_of, text_of
from identify.model.hose import Hose, HoseTables
from identify.model.source import Source

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


def load_hoses(extra: Path | None = None) -> HoseTables:
    """Return the shipped hoses together with those of a user's folder.

    Args:
        extra: Folder with `hoses/` and `sources.yaml`, both optional.

    Raises:
        TableError: With every fault, if the files must be read anew and have any.
    """
    return load_section("hoses", HoseTables, lambda: build_hoses(extra), extra)


def build_hoses(extra: Path | None = None) -> HoseTables:
    """Read every hose table anew; see `load_hoses`."""
    faults = Faults()
    tables = read_hose_folders([data_dir("thread_tables"), *([extra] if extra else [])], faults)
    if faults.found:
        raise TableError(*faults.found)
    return tables


def read_hose_folders(folders: "Sequence[Traversable]", faults: Faults) -> HoseTables:
    """Read the hoses of table folders, noting every fault of theirs with file and line.

    What a hose cites must stand in a `sources.yaml` of these folders or of the rules.
    """
    sources: dict[str, Source] = {}
    for folder in (*folders, data_dir("rules")):
        for name, file in files_of(folder, ""):
            sources |= read_sources(text_of(file, name), name, Faults())  # its faults: `build`
    hoses: dict[str, Hose] = {}
    for folder in folders:
        for name, file in files_of(folder, "hoses"):
            for hose in read_hoses(text_of(file, name), name, faults):
                if hose.id in hoses:
                    first = hoses[hose.id].provenance
                    faults.add(
                        hose.provenance.file, hose.provenance.line,
                        f"hose {hose.id} stands twice (first at {first.file}:{first.line}); "
                        "give one of them another name",
                    )  # fmt: skip
                hoses.setdefault(hose.id, hose)
    text = text_of(data_dir("rules").joinpath("hoses.yaml"), "rules/hoses.yaml")
    habits = read_habits(text, faults)
    check_citations(faults, sources)
    known = {hose.kind.key for hose in hoses.values()}
    for name in habits.types:
        if name not in known:
            faults.add("rules/hoses.yaml", 1, f'types weighs "{name}", no type of any hose table')
    return HoseTables(tuple(hoses.values()), habits)
