"""One minimal bad file for each rule, its whole expected message beside it."""

from pathlib import Path

import pytest

from identify.knowledge.build import read_folders
from identify.knowledge.fields import Faults

BAD = Path(__file__).parent.parent / "bad_tables"
PLACES = {"source_table": "sources.yaml", "thread_table": "threads/bad.yaml"}
CASES = sorted(BAD.glob("*.yaml"))


def lay_out(bad: str, folder: Path) -> None:
    """Copy the good set and, over it, one bad file to where its schema says it belongs."""
    for good in (BAD / "base").rglob("*.yaml"):
        put(folder / good.relative_to(BAD / "base"), good.read_text(encoding="utf-8"))
    schema = bad.partition("schema: ")[2].partition("/")[0]
    unnamed = "ends/demo.yaml" if schema else "sources.yaml"
    put(folder / PLACES.get(schema, unnamed), bad)


def put(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def faults_of(folder: Path) -> str:
    """Return the faults, a line each, with DIR for the folder."""
    faults = Faults()
    read_folders([folder], faults)
    return "".join(f"{fault}\n" for fault in faults.found).replace(str(folder), "DIR")


@pytest.mark.parametrize("case", CASES, ids=lambda path: path.stem)
def test_bad_table_is_refused_with_its_message(case: Path, tmp_path: Path) -> None:
    lay_out(case.read_text(encoding="utf-8"), tmp_path)
    assert faults_of(tmp_path) == case.with_suffix(".txt").read_text(encoding="utf-8")


def test_good_set_beneath_the_bad_tables_is_good(tmp_path: Path) -> None:
    lay_out((BAD / "base" / "sources.yaml").read_text(encoding="utf-8"), tmp_path)
    assert faults_of(tmp_path) == ""
