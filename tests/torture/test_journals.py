"""Every spoilt journal of `python -m tests.torture journals`, in memory."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from identify.interview.session import Equipped, Observed
from identify.jobs.facts import FIRST, Back
from identify.jobs.journal import Journal, interview_of, interviews_of, read_job
from identify.jobs.saving import NOT_SAVED, SAVED, Autosave
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.reading import Choice, How, Length, Reading
from tests.torture.journals import HEAD, MALE, NAME, NO_FILES, OD, SPOILT, harmed
from tests.torture.kills import Report, contested, full, killed

HEX = Observed(Reading(Feature.HEX, Length(27), How.CALIPER, "27 mm"))
GENDER = Observed(Reading(Feature.GENDER, Choice("male"), How.EYE, "male"))


def test_there_are_at_least_sixty() -> None:
    assert len(SPOILT) + len(NO_FILES) >= 60


@pytest.mark.parametrize("name", [*SPOILT, *NO_FILES])
def test_a_spoilt_journal_stops_nothing_and_loses_nothing(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert harmed(tmp_path, name) is None


def test_the_old_file_is_kept_and_named_where_it_cannot_be_written_on(tmp_path: Path) -> None:
    old = tmp_path / NAME
    text = f'{HEAD}\n{MALE}\n{{"event":"weighed"}}\n{OD}\n'
    old.write_text(text, encoding="utf-8")
    autosave = Autosave(tmp_path)
    (saved,) = unfinished(tmp_path)
    assert autosave.take_up(saved) == SAVED
    assert f"{NAME} cannot be written on: 1 line in it cannot be read" in autosave.note
    aside = tmp_path / f"{NAME}.kept"
    assert str(aside) in autosave.note
    assert aside.read_text(encoding="utf-8") == text
    assert autosave.keep(HEX) == SAVED
    autosave.let_go()
    (again,) = unfinished(tmp_path)
    assert again.events == (*saved.events, HEX)
    assert again.unread == 0


def test_resume_append_resume(tmp_path: Path) -> None:
    """Ten times over; every answer that was called saved is there in the end."""
    autosave = Autosave(tmp_path)
    autosave.keep(GENDER)
    autosave.let_go()
    for count in range(1, 11):
        (saved,) = unfinished(tmp_path)
        assert len(saved.events) == count
        autosave = Autosave(tmp_path)
        assert autosave.take_up(saved) == SAVED
        assert autosave.keep(HEX) == SAVED
        assert autosave.note == ""
        autosave.let_go()
        with saved.path.open("ab") as file:  # a power cut in the middle of the next line
            file.write(b'{"event":"obs')
    assert len(list(tmp_path.rglob("*.jsonl*"))) == 1


def test_two_windows_on_one_interview_keep_both_what_they_call_saved(tmp_path: Path) -> None:
    first = Autosave(tmp_path)
    first.keep(GENDER)
    (path,) = tmp_path.rglob("*.jsonl")
    kept = read_job(path)
    assert kept is not None
    (saved,) = interviews_of(kept)
    second = Autosave(tmp_path)
    assert second.take_up(saved) == SAVED
    assert "is open in another window" in second.note
    assert (first.keep(HEX), second.keep(HEX)) == (SAVED, SAVED)
    assert second.keep(Back()) == SAVED
    first.let_go()
    second.let_go()
    both = unfinished(tmp_path)  # in any order: they may have begun in the same second
    assert sorted(len(each.events) for each in both) == [1, 2]


def test_a_file_finished_or_changed_meanwhile_is_not_written_on(tmp_path: Path) -> None:
    path = tmp_path / NAME
    path.write_text(f"{HEAD}\n{MALE}\n", encoding="utf-8")
    (saved,) = unfinished(tmp_path)
    with path.open("a", encoding="utf-8") as file:
        file.write(f"{OD}\n")
    autosave = Autosave(tmp_path)
    autosave.take_up(saved)
    assert "it was changed or finished meanwhile" in autosave.note
    autosave.let_go()


def test_a_drive_that_cannot_lock_is_said_and_written_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_locks(self: object, *_: object, **__: object) -> None:
        raise OSError(37, "No locks available")

    monkeypatch.setattr("filelock.FileLock.acquire", no_locks)
    for first in ((), (Equipped(frozenset()),)):
        autosave = Autosave(tmp_path)
        if first:
            autosave.keep(*first)
            assert not autosave.note
        assert autosave.keep(GENDER) == SAVED
        assert "cannot be locked (No locks available)" in autosave.note
        autosave.let_go()


def test_a_file_that_was_opened_before_its_first_answer_is_not_written_on(tmp_path: Path) -> None:
    """Nothing is answered yet, so it is not locked; the answer is not called saved."""
    first, other = Autosave(tmp_path), Autosave(tmp_path)
    assert first.keep(Equipped(frozenset())) == SAVED
    (path,) = tmp_path.rglob("*.jsonl")
    kept = read_job(path)
    assert kept is not None
    assert other.take_up(interview_of(kept, FIRST)) == SAVED
    assert other.keep(GENDER) == SAVED
    assert first.keep(GENDER) == NOT_SAVED
    assert "is open in another window" in first.trouble
    other.let_go()
    first.let_go()


def test_a_file_of_the_first_version_is_still_opened_and_sorted_by_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Old files say local time; UTC+14 and UTC-12 differ by more than a day."""
    monkeypatch.setenv("TZ", "UTC")
    (tmp_path / "interview-20250302T010000-1.jsonl").write_text(
        f"{HEAD.replace('2025-03-01T08:30:00', '2025-03-02T01:00:00+14:00')}\n{MALE}\n", "utf-8"
    )
    (tmp_path / "interview-20250301T220000-1.jsonl").write_text(
        f"{HEAD.replace('2025-03-01T08:30:00', '2025-03-01T22:00:00-12:00')}\n{OD}\n", "utf-8"
    )
    first, second = unfinished(tmp_path)
    assert (first.path.name, second.path.name) == (
        "interview-20250301T220000-1.jsonl",
        "interview-20250302T010000-1.jsonl",
    )
    journal = Journal.go_on(first)
    journal.add(HEX)
    journal.close()
    assert interviews_of(read_job(first.path))[0].events == (*first.events, HEX)  # type: ignore[arg-type]


@pytest.mark.skipif(os.name != "posix", reason="kills by signal")
def test_kills_lose_nothing(tmp_path: Path) -> None:
    """A few of the 500 of `python -m tests.torture kills`."""
    report = killed(tmp_path, 30, 3)
    assert report.lost == []
    assert report.acknowledged > 0


@pytest.mark.skipif(os.name != "posix", reason="kills by signal")
@pytest.mark.parametrize(("trial", "rounds"), [(contested, 2), (full, 1)])
def test_two_writers_and_a_full_disk_lose_nothing(
    tmp_path: Path, trial: Callable[[Path, int, int], Report], rounds: int
) -> None:
    """A few of those of `python -m tests.torture two-writers` and `full-disk`."""
    report = trial(tmp_path, rounds, 3)
    assert report.lost == []
    assert report.acknowledged > 0
