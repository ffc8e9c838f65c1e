"""What a one-shot command may load, how its time compares, and that a batch holds no memory."""

import gc
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from identify.commands.batch import Desk
from identify.reasoning.engine import Engine
from tests.benchmark.speed import enlarged, simulated
from tests.benchmark.starts import SAMPLE
from tests.benchmark.stopwatch import COMMAND, interleaved, python
from tests.shipped import knowledge

ROOT = Path(__file__).parent.parent
HEAVY = {"textual", "rich", "pint", "yaml", "sqlite3"}
SLACK = 20.0  # times the bare interpreter: twice what a quiet machine shows
BLOCKS = 20_000  # of memory that a batch may hold on to; one answer takes some hundred


def loaded_by(code: str, home: Path) -> set[str]:
    script = f"{code}\nimport sys; print('\\n' + ' '.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=ROOT,
        env={"PATH": "", "HOME": str(home), "XDG_CACHE_HOME": str(home)},
        capture_output=True,
        check=True,
        encoding="utf-8",
    )
    return {name.partition(".")[0] for name in done.stdout.splitlines()[-1].split()}


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
