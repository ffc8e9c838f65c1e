"""What a trainee did is on the disk at once, and stands there after a kill."""

import json
import os
import signal
import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from identify.errors import RecordError
from identify.model.feature import Feature
from identify.practice.exercise import Kind
from identify.practice.judging import Mark
from identify.practice.record import (
    Done,
    History,
    Logbook,
    Put,
    clean_name,
    histories,
    read_history,
)
from identify.practice.sitting import Sitting
from tests.practice.proof import room

NOW = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)
PUT = Put("pipe/G/NPT", "Anna 0", 1)


def done(mark: Mark = Mark.RIGHT, put: Put = PUT, seconds: float = 20.0, hints: int = 0) -> Done:
    return Done(put, "G", mark, "bspp60:G1/4:male", "npt:1/4-NPT:male", seconds, hints, 0.5, NOW)


def test_what_is_kept_is_read_again(tmp_path: Path) -> None:
    book = Logbook(tmp_path, "Anna")
    for event in (PUT, None, done(), PUT, Feature.PITCH, Feature.PITCH, None):
        book.add(event)
    book.close()
    again = Logbook(tmp_path, "Anna").history
    assert again == book.history
    assert again.done == (done(),)
    assert (again.put, again.taken, again.hints) == (PUT, (Feature.PITCH, Feature.PITCH), 1)


def test_a_torn_line_is_dropped_and_a_damaged_one_counted(tmp_path: Path) -> None:
    book = Logbook(tmp_path, "Anna")
    book.add(PUT)
    book.close()
    path = next(tmp_path.glob("*.jsonl"))
    with path.open("ab") as file:
        file.write(b'{"event":"answer","mark":"none of ours"}\n{"event":"put","pa')
    book = Logbook(tmp_path, "Anna")
    assert (book.history.put, book.history.unread) == (PUT, 1)
    book.add(done())
    book.close()
    assert read_history(path).done == (done(),)


def test_two_windows_do_not_write_in_one_file(tmp_path: Path) -> None:
    one, two = Logbook(tmp_path, "Anna"), Logbook(tmp_path, "Anna")
    assert not one.trouble
    assert "another window" in two.trouble
    one.close()
    two.close()


def test_trainees_are_apart(tmp_path: Path) -> None:
    for name in ("Anna", "Bo/../Bo", "Zoë"):
        Logbook(tmp_path, name).close()
    assert [each.name for each in histories(tmp_path)] == ["Anna", "Bo/../Bo", "Zoë"]
    assert all(path.parent == tmp_path for path in tmp_path.rglob("*.jsonl"))


def test_a_file_of_something_else_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "anna.jsonl").write_text('{"format":"other"}\n')
    book = Logbook(tmp_path, "Anna")
    assert "no file of a trainee" in book.trouble
    book.add(PUT)
    assert (tmp_path / "anna.jsonl").read_text() == '{"format":"other"}\n'


def test_a_name_must_be_left_after_what_cannot_be_shown() -> None:
    assert clean_name(" An\x1bna \n") == "An na"
    with pytest.raises(RecordError, match="needs a name"):
        clean_name("\x1b ")


def test_practice_goes_on_where_nothing_can_be_kept() -> None:
    book = Logbook(None, "Anna")
    book.add(PUT)
    assert "not kept" in book.trouble
    assert book.history.put == PUT


def test_an_open_exercise_is_put_again_with_its_readings(tmp_path: Path) -> None:
    sitting = Sitting(room(), Logbook(tmp_path, "Anna"), only=Kind.PART)
    sitting.read(Feature.MATERIAL)
    sitting.read(Feature.MATERIAL)
    sitting.logbook.close()
    again = Sitting(room(), Logbook(tmp_path, "Anna"), only=Kind.PART)
    assert again.made == sitting.made
    assert again.taken == sitting.taken
    again.logbook.close()


def test_time_and_minutes_of_an_answer_are_kept(tmp_path: Path) -> None:
    clock = iter([NOW, *[NOW + timedelta(seconds=7)] * 20])
    sitting = Sitting(room(), Logbook(tmp_path, "Anna"), lambda: next(clock), Kind.CONE)
    sitting.answer(room().right(sitting.made))
    kept = sitting.logbook.history.done[-1]
    assert (kept.mark, kept.minutes) == (Mark.RIGHT, 0)
    assert kept.when == NOW + timedelta(seconds=7)
    sitting.logbook.close()


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal")
def test_nothing_that_was_answered_is_lost_by_a_kill(tmp_path: Path) -> None:
    environ = {**os.environ, "XDG_STATE_HOME": str(tmp_path), "PYTHONUNBUFFERED": "1"}
    words = [sys.executable, "-m", "identify", "practice", "--plain", "--only", "cone"]
    with subprocess.Popen(
        words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=environ, text=True
    ) as process:
        process.stdin.write("1\n")
        process.stdin.flush()
        for line in process.stdout:
            if "Enter for the next" in line:
                break
        process.kill()
    path = next((tmp_path / "whichend" / "practice").glob("*.jsonl"))
    history = read_history(path)
    assert len(history.done) == 1
    assert history.unread == 0
    json.loads(path.read_text().splitlines()[-1])
    assert isinstance(history, History)
