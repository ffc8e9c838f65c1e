"""Standard streams that fail, a machine without a home: one sentence and a documented status."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

RANK = "rank gender=male 'thread_od=20.9 mm'"
HOMELESS = """
import os, pwd, sys
def nobody(*_):
    raise KeyError("uid not found")
pwd.getpwuid = nobody
os.environ.pop("HOME", None)
from identify.entry import main
sys.exit(main(sys.argv[1:]))
"""


def shell(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["sh", "-c", command.replace("whichend", f"{sys.executable} -m identify")],
        capture_output=True, text=True, timeout=60, check=False,
        env=os.environ | {"XDG_STATE_HOME": str(folder), "PYTHONPATH": str(Path.cwd())},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("command", "status", "said"),
    [
        (f"whichend {RANK} > /dev/full", 5, "standard output cannot be written (No space left"),
        (f"whichend {RANK} --json > /dev/full", 5, "No space left on device"),
        ("whichend tables > /dev/full", 5, "No space left on device"),
        ("whichend --help > /dev/full", 5, "No space left on device"),
        ("whichend gauges --output - > /dev/full", 5, "No space left on device"),
        ("echo 1 | whichend ask --plain > /dev/full", 5, "No space left on device"),
        (
            'echo \'{"readings": {"hex": "9 mm"}}\' | whichend rank --batch - > /dev/full',
            5,
            "No space",
        ),
        (f"whichend {RANK} >&-", 5, "standard output cannot be written (it is closed)"),
        ("whichend ask --plain >&- < /dev/null", 5, "it is closed"),
        ("whichend rank --batch - <&-", 2, "standard input holds no sample"),
        ("whichend rank --batch - < /proc/self/mem", 5, "cannot be read (Input/output"),
        ("whichend ask --plain < /proc/self/mem", 5, "standard input cannot be read (Input/output"),
        ("whichend rank --batch /", 2, "cannot be read (Is a directory)"),
    ],
)
def test_a_stream_that_fails_is_said(tmp_path: Path, command: str, status: int, said: str) -> None:
    done = shell(command, tmp_path)
    assert said in done.stderr
    assert done.stderr.startswith("whichend: ")
    assert done.stderr.count("\n") == 1
    assert done.returncode == status


@pytest.mark.parametrize(
    ("command", "status"),
    [
        ("whichend ask --plain <&-", 0),
        ("whichend show nothing 2>&-", 2),
        ("whichend show nothing 2> /dev/full", 2),
        ("whichend tables | head -n 1", 0),
    ],
)
def test_a_stream_that_is_not_needed_does_no_harm(
    tmp_path: Path, command: str, status: int
) -> None:
    done = shell(command, tmp_path)
    assert (done.returncode, done.stderr) == (status, "")


def test_without_a_home_it_says_so_once_and_goes_on(tmp_path: Path) -> None:
    """Nor do variables help that name no absolute folder."""
    more = {"XDG_STATE_HOME": "relative", "XDG_CACHE_HOME": "relative"}
    clean = {k: v for k, v in os.environ.items() if k not in ("HOME",) and not k.startswith("XDG")}
    env = clean | {"PYTHONPATH": str(Path.cwd())} | more

    def run(*words: str, script: str = "") -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-c", HOMELESS, *words],
            input=script, capture_output=True, text=True, cwd=tmp_path, env=env, timeout=60,
            check=False,
        )  # fmt: skip

    ranked = run("rank", "gender=male", "thread_od=20.9 mm", "pitch=14 tpi")
    assert (ranked.returncode, ranked.stderr) == (0, "")
    asked = run("ask", "--plain", script="1\n1\n1\n20.9 mm\n")
    assert (asked.returncode, asked.stderr) == (0, "")
    assert asked.stdout.count("no home folder is known") == 2  # when it happens, and at the end
    assert "Question" not in asked.stderr
    assert list(tmp_path.iterdir()) == []
