"""Every way a user takes, where the modules of POSIX are absent: see `tests.without_posix`."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
MAIN = """
import sys
import tests.without_posix
from identify.entry import main
status = main(sys.argv[1:])
loaded = [name for name in tests.without_posix.ABSENT if name in sys.modules]
assert not loaded, loaded
sys.exit(status)
"""
SCREEN = """
import asyncio, sys
import tests.without_posix
from pathlib import Path
from identify.knowledge.loading import load_knowledge
from identify.jobs.shelf import unfinished
from identify.jobs.saving import Autosave
from identify.reasoning.engine import Engine
from identify.tui.run import Guarded, Terminal, _with_signals

known = load_knowledge()
engine = Engine(known.catalogue, known.book, known.hazards)

async def play():
    app = Guarded(engine, Autosave(Path(sys.argv[1])), saved=None)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter", "1", "1", *"20.9", "enter", "q")
    return app

app = asyncio.run(play())
app.autosave.let_go()
Terminal().restore(wholly=True)
assert not app.crash, app.crash
assert len(unfinished(Path(sys.argv[1]))[0].events) == 4
assert not [name for name in tests.without_posix.ABSENT if name in sys.modules]
"""


def run(code: str, *words: str, folder: Path, script: bytes = b"") -> subprocess.CompletedProcess:
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        input=script, capture_output=True, cwd=folder, timeout=120, check=False,
        env=os.environ | {"PYTHONPATH": str(ROOT), "XDG_STATE_HOME": str(folder)},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("words", "status", "said"),
    [
        (["rank", "gender=male", "thread_od=20.9 mm", "pitch=14 tpi"], 0, "G1/2"),
        (["rank", "--batch", "-"], 0, '"id":7'),
        (["show", "flare37:-8:male"], 0, "37 deg"),
        (["compare", "flare37:-8:male", "orfs:-8:male"], 0, "orfs"),
        (["confirm", "flare37:-8:male", "thread_od=18.9 mm"], 3, "37 deg flare"),
        (["tables"], 0, "families"),
        (["gauges", "--output", "page.html"], 0, "page.html"),
        (["ask", "--plain", "--new"], 0, "Your answers are saved"),
    ],
    ids=lambda part: part[0] if isinstance(part, list) else None,
)
def test_every_command_works(tmp_path: Path, words: list[str], status: int, said: str) -> None:
    script = b"1\n1\n1\n20.9 mm\n"
    if words[0] == "rank":
        script = b'{"id": 7, "readings": {"thread_od": "20.9 mm"}}\n'
    done = run(MAIN, *words, folder=tmp_path, script=script)
    assert done.returncode == status, done.stderr.decode()
    assert said in done.stdout.decode()
    assert b"Traceback" not in done.stderr


def test_what_was_answered_is_taken_up_again(tmp_path: Path) -> None:
    run(MAIN, "ask", "--plain", folder=tmp_path, script=b"1\n1\n1\n20.9 mm\n")
    done = run(MAIN, "ask", "--plain", "--resume", folder=tmp_path, script=b"14 tpi\n")
    assert b"20.9 mm" in done.stdout
    assert done.returncode == 0
    assert len(list(tmp_path.rglob("*.jsonl"))) == 1


def test_the_full_screen_works(tmp_path: Path) -> None:
    done = run(SCREEN, str(tmp_path / "kept"), folder=tmp_path)
    assert done.returncode == 0, done.stderr.decode()
