"""All table folders -> one validated catalogue; every fault of every file at once."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, TypeVar

from identify.errors import TableError, near_miss
from identify.knowledge.end_tables import read_ends
from identify.knowledge.fields import Faults
from identify.knowledge.laws import end_laws, order_laws, thread_laws
from identify.knowledge.source_tables import check_citations, read_sources
from identify.knowledge.table_files import files_of, text_of
from identify.knowledge.thread_tables import read_threads
from identify.model.catalogue import Catalogue, mate_id
from identify.model.connection import EndConnection, Family
from identify.model.source import Source
from identify.model.thread import Thread

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

T = TypeVar("T")


def build_catalogue(folders: "Sequence[Traversable]") -> Catalogue:
    """Read table folders into one catalogue.

    Args:
        folders: `thread_tables/` first, then folders of the same schema that add to it. A row of
            a later folder must not take the key of an earlier one.

    Raises:
        TableError: With every fault found in every file.
    """
    faults = Faults()
    catalogue = read_folders(folders, faults)
    if faults.found:
        raise TableError(*faults.found)
    return catalogue


def read_folders(folders: "Sequence[Traversable]", faults: Faults) -> Catalogue:
    """Read table folders, noting every fault; what a faulty file holds may be missing."""
    sources: dict[str, Source] = {}
    threads: dict[str, Thread] = {}
    families: dict[str, Family] = {}
    ends: dict[str, EndConnection] = {}
    sources_read = True  # else every citation would look wrong
    for folder in folders:
        if not folder.is_dir():
            faults.add(
                str(folder), 1, "is not a folder; name one with threads/, ends/, sources.yaml."
            )
        for name, file in _files(folder, "", faults):
            with _noting(faults):
                sources_read = False
                found = read_sources(text_of(file, name), name, faults)
                sources_read = True
                for key, source in found.items():
                    _add(sources, key, source, f'source "{key}"', (name, 1), faults)
    for folder in folders:
        for name, file in _files(folder, "threads", faults):
            with _noting(faults):
                for thread in read_threads(text_of(file, name), name, faults):
                    what = f'thread "{thread.designation}"'
                    _add(threads, thread.designation, thread, what, _place(thread), faults)
    for folder in folders:
        for name, file in _files(folder, "ends", faults):
            with _noting(faults):
                family, rows = read_ends(text_of(file, name), name, faults, threads)
                families.setdefault(family.key, family)
                for end in rows:
                    _add(ends, end.id, end, f"end {end.id}", _place(end), faults)
    catalogue = Catalogue(threads, tuple(ends.values()), families, sources)
    check_catalogue(catalogue, faults)
    if sources_read:
        check_citations(faults, sources)
    return catalogue


def check_catalogue(catalogue: Catalogue, faults: Faults) -> None:
    """Note every breach of a law by what the files say together, with its file and line."""
    _check_threads(catalogue.threads, faults)
    _check_ends(catalogue, faults)


def _files(folder: "Traversable", place: str, faults: Faults) -> "list[tuple[str, Traversable]]":
    with _noting(faults):
        return list(files_of(folder, place))
    return []


@contextmanager
def _noting(faults: Faults) -> Iterator[None]:
    """Note what makes a whole file unreadable and go on with the next."""
    try:
        yield
    except TableError as error:
        faults.found += error.faults


def _place(row: Thread | EndConnection) -> tuple[str, int]:
    return row.provenance.file, row.provenance.line


def _add(
    rows: dict[str, T], key: str, row: T, what: str, place: tuple[str, int], faults: Faults
) -> None:
    if key in rows:
        earlier = getattr(rows[key], "provenance", None)
        first = f" (first at {earlier.file}:{earlier.line})" if earlier else ""
        faults.add(*place, f"{what} stands twice{first}; give one of them another name.")
    else:
        rows[key] = row


def _check_threads(threads: Mapping[str, Thread], faults: Faults) -> None:
    for thread in threads.values():
        for sentence in thread_laws(thread):
            faults.add(thread.provenance.file, thread.provenance.line, sentence)


def _check_ends(catalogue: Catalogue, faults: Faults) -> None:
    for end in catalogue.ends:
        for sentence in end_laws(end, catalogue.thread_of(end)):
            _fault(end, sentence, faults)
    for end, sentence in order_laws(catalogue.ends, catalogue.threads):
        _fault(end, sentence, faults)
    ids = {end.id for end in catalogue.ends}
    forms = {f"{end.family}:{end.form_key}" for end in catalogue.ends}
    met = {
        (end.family, end.form_key, mate)
        for end in catalogue.ends
        for mate in end.mates
        if mate_id(mate, end) in ids
    }
    for end in catalogue.ends:
        for mate in end.mates:
            if mate.count(":") == 1 and mate not in forms:
                _fault(
                    end, f'mates with "{mate}", no form of any table{_near(mate, forms)}', faults
                )
            elif mate.count(":") == 2 and mate not in ids:
                _fault(end, f'mates with "{mate}", no end of any table{_near(mate, ids)}', faults)
            elif mate.count(":") not in (1, 2):
                _fault(end, f'mates with "{mate}"; write family:form or family:size:form', faults)
            elif (end.family, end.form_key, mate) not in met:
                _fault(
                    end, f'mates with "{mate}", which has none of its sizes; write full ids', faults
                )


def _near(word: str, options: set[str]) -> str:
    return near_miss(word, tuple(sorted(options)))


def _fault(end: EndConnection, sentence: str, faults: Faults) -> None:
    place = f'size "{end.size}", form "{end.form_key}"'
    faults.add(end.provenance.file, end.provenance.line, f"{place}: {sentence}")
