"""Every law over the shipped tables; `tests/mutation` shows how surely each slip breaks one."""

import pytest

from identify.commands.tables import more_citations
from identify.knowledge.build import read_folders
from identify.knowledge.fields import Faults
from identify.knowledge.rulebook import build_rulebook
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from identify.reading.names import one_end
from tests.laws import every
from tests.laws.registry import LAWS
from tests.laws.second_sources import figures

FAULTS = Faults()
TABLES: Catalogue = read_folders([data_dir("thread_tables")], FAULTS)


def test_shipped_tables_have_no_fault() -> None:
    assert FAULTS.found == []


@pytest.mark.parametrize("name", LAWS)
def test_law_holds(name: str) -> None:
    assert list(LAWS[name](TABLES)) == []


def test_laws_of_every_room_are_registered() -> None:
    rooms = {law.__module__ for law in LAWS.values()}
    assert rooms == set(every.ROOMS)


@pytest.mark.parametrize(("name", "at_least"), [("seen", 600), ("recollected", 900)])
def test_second_sources_are_carried(name: str, at_least: int) -> None:
    assert len(figures(name)) >= at_least
    kinds = {TABLES.sources[figure.source].kind for figure in figures(name)}
    assert kinds <= ({"memory"} if name == "recollected" else {"dataset", "data-sheet", "manual"})


def test_every_id_finds_its_end() -> None:
    assert all(one_end(TABLES, end.id) is end for end in TABLES.ends)


def test_every_source_is_used() -> None:
    book = build_rulebook([data_dir("rules")], TABLES)
    cited = {key for *_, key in FAULTS.citations}
    cited |= {source for source in TABLES.sources if f"'{source}'" in repr(book)}
    cited |= set(more_citations(None))
    assert set(TABLES.sources) - cited == set()
