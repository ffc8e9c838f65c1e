"""What a one-shot command may load, how its time compares, and that a batch holds no memory."""

import gc
import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from identify.commands.batch import Desk
from identify.knowledge.loading import build_knowledge
from identify.model.catalogue import Catalogue
from identify.reasoning.engine import Engine
from identify.reasoning.hazards import Hazards
from identify.reasoning.layout import lay_out
from tests.benchmark.growth import copied
from tests.benchmark.speed import enlarged, simulated
from tests.benchmark.starts import SAMPLE
from tests.benchmark.stopwatch import COMMAND, interleaved, python
from tests.shipped import knowledge

ROOT = Path(__file__).parent.parent
HEAVY = {"textual", "rich", "pint", "yaml", "sqlite3"}
SLACK = 12.0  # times the bare interpreter: twice what a quiet machine shows
UNWANTED = {
    "argparse", "collections", "contextlib", "dataclasses", "decimal", "enum", "fractions",
    "functools", "importlib", "inspect", "json", "operator", "pathlib", "re", "textwrap", "types",
    "typing", "warnings",
}  # fmt: skip
"""What an everyday ranking does not import: each costs a twentieth of a bare start or more."""
MOST_MODULES = 92
"""Of ours that an everyday ranking imports: each costs the two hundredth part of a bare start."""
TIMES = 3  # as many rows, for the laws of growth
MOST_GROWTH = 1.25 * TIMES  # in calls; what grows with the square of the rows makes 9 of it
BLOCKS = 20_000  # of memory that a batch may hold on to; one answer takes some hundred


def loaded_by(code: str, home: Path) -> set[str]:
    said = said_by(f"{code}\nimport sys; print('\\n' + ' '.join(sys.modules))", home)
    return {name.partition(".")[0] for name in said.splitlines()[-1].split()}


def said_by(code: str, home: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env={"PATH": "", "HOME": str(home), "XDG_CACHE_HOME": str(home)},
        capture_output=True,
        check=True,
        encoding="utf-8",
    )
    return done.stdout


def test_the_command_line_loads_no_face(tmp_path: Path) -> None:
    assert not loaded_by("import identify.entry", tmp_path) & HEAVY


def test_a_ranking_from_the_cache_loads_no_screen_yaml_or_unit_library(tmp_path: Path) -> None:
    rank = f"from identify.entry import main; main(['rank', *{SAMPLE!r}])"
    assert "yaml" in loaded_by(rank, tmp_path), "the first run reads the tables"
    assert not loaded_by(rank, tmp_path) & HEAVY


def test_a_ranking_takes_a_stated_number_of_bare_starts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    bare, rank = interleaved(
        5,
        lambda: python("-c", "pass").processor,
        lambda: python(*COMMAND, "rank", *SAMPLE).processor,
    )
    assert rank / bare < SLACK


def test_a_batch_holds_no_memory() -> None:
    told = knowledge()
    engine = Engine(told.catalogue, told.book, told.hazards)
    sheets = simulated(told, 150, seed=4)

    def lines(times: int) -> Iterator[bytes]:
        for _ in range(times):
            for sheet in sheets:
                readings = {str(each.feature): each.entered for each in sheet}
                yield json.dumps({"readings": readings}).encode()

    def work(times: int) -> int:
        desk = Desk(engine, 8)
        refused = sum("error" in desk.answer(1, line) for line in lines(times))
        assert refused < 0.05 * times * len(sheets), "nearly all are ranked"
        gc.collect()
        return sys.getallocatedblocks()

    before = work(1)  # fills what is remembered
    after = work(3)
    assert after - before < BLOCKS


def test_an_enlarged_catalogue_has_its_rows_and_ranks_the_tables_first() -> None:
    told = knowledge()
    large = enlarged(told.catalogue, 2_000)
    assert len(large.ends) == 2_000 == len(large.by_id)
    assert large.ends[: len(told.catalogue.ends)] == told.catalogue.ends
    assert all(end.thread is None or end.thread in large.threads for end in large.ends)
    scaled = large.ends[len(told.catalogue.ends)]
    original = told.catalogue.ends[0]
    assert scaled.id != original.id
    assert scaled.family == original.family


def test_an_everyday_ranking_imports_nothing_that_takes_long(tmp_path: Path) -> None:
    rank = f"from identify.entry import main; main(['rank', *{SAMPLE!r}])"
    loaded_by(rank, tmp_path)
    assert not loaded_by(rank, tmp_path) & UNWANTED


def test_an_everyday_ranking_imports_a_stated_number_of_modules(tmp_path: Path) -> None:
    rank = f"from identify.entry import main; main(['rank', *{SAMPLE!r}])"
    loaded_by(rank, tmp_path)
    number = f"{rank}; import sys; print(sum(name[:9] == 'identify.' for name in sys.modules))"
    assert 70 < int(said_by(number, tmp_path).splitlines()[-1]) <= MOST_MODULES


FIRST_QUESTION = """
import sys
from identify.entry import main
from identify.plain.console import Console

lines = iter(["", ""])  # tools and access

def hear(console):
    for line in lines:
        return line
    raise KeyboardInterrupt  # before anything that is done while somebody reads

Console.hear = hear
seen = {}
def farewell(dialogue):
    seen.update(sys.modules)
    return ""
from identify.plain.dialogue import Dialogue
Dialogue.farewell = farewell
main(["ask", "--plain", "--new"])
sys.modules.clear(); sys.modules.update(seen)
"""


def test_a_first_question_imports_nothing_that_reads_answers_or_locks(tmp_path: Path) -> None:
    loaded_by(FIRST_QUESTION, tmp_path)
    unwanted = {"argparse", "dataclasses", "filelock", "inspect", "platformdirs", "typing"}
    assert not loaded_by(FIRST_QUESTION, tmp_path) & (HEAVY | unwanted)


def calls_of(work: Callable[[], object]) -> int:
    """Return how many calls of Python functions some work makes."""
    count = 0

    def seen(frame: object, event: str, arg: object) -> None:
        nonlocal count
        count += event == "call"

    before = sys.getprofile()
    sys.setprofile(seen)
    try:
        work()
    finally:
        sys.setprofile(before)
    return count


def test_a_verdict_makes_calls_in_step_with_the_rows() -> None:
    """The law is of counts, not of time: nothing grows with the square of the rows."""
    told = knowledge()
    sheets = simulated(told, 6, seed=9)
    counts = []
    for rows in (len(told.catalogue.ends), TIMES * len(told.catalogue.ends)):
        tables = enlarged(told.catalogue, rows)

        def work(tables: Catalogue = tables) -> None:
            layout = lay_out(tables, told.book)
            engine = Engine(tables, told.book, Hazards(tables), layout=layout)
            for sheet in sheets:
                engine.conclude(sheet)

        counts.append(calls_of(work))
    assert counts[1] < MOST_GROWTH * counts[0], counts


def test_reading_tables_makes_calls_in_step_with_the_rows(tmp_path: Path) -> None:
    told = knowledge()
    counts = []
    for times in (1, TIMES):
        folder = tmp_path / str(times)
        copied(folder, told.catalogue, times * len(told.catalogue.ends))
        counts.append(calls_of(lambda folder=folder: build_knowledge(folder)))  # type: ignore[misc]
    both = (1 + TIMES) / 2  # with the shipped tables, which are read each time
    assert counts[1] < MOST_GROWTH / TIMES * both * counts[0], counts
