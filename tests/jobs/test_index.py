"""The index says what the files say, whatever happened to either."""

import os
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.jobs.facts import FIRST, Back, Discarded, Field, Finished, Noted
from identify.jobs.index import SETTLED_NS, Index
from identify.jobs.job import Entry
from identify.jobs.journal import Journal, Kept, read_job
from identify.jobs.listing import Listed, searched
from identify.jobs.reference import reference_of
from identify.jobs.saving import Autosave, job_path
from identify.jobs.shelf import Shelf, index_file, unfinished, written
from tests.jobs.steps import entries
from tests.torture.journals import HEAD, MALE, NAME
from tests.torture.test_journals import GENDER, HEX

CUSTOMER = (FIRST, Noted(Field.CUSTOMER, "Hill Farm"))


def lay(folder: Path, number: int, *steps: Entry, month: int = 11) -> Path:
    begun, reference = f"2026-{month:02}-02T08:30:{number % 60:02}Z", reference_of(number)
    path = job_path(folder, begun, reference)
    Journal.begin(path, begun, (CUSTOMER, *steps), reference).close()
    return path


def rows(folder: Path) -> list[Listed]:
    index = Index(folder, index_file(folder))
    found = index.every()
    index.close()
    return found


def later(folder: Path) -> Index:
    """Return the index as a start some time later finds it, when no folder changes any more."""
    last = max(each.stat().st_mtime_ns for each in (folder, *folder.iterdir()))
    return Index(folder, index_file(folder), now_ns=last + 2 * SETTLED_NS)


def test_a_job_is_found_by_all_that_was_said(tmp_path: Path) -> None:
    lay(tmp_path, 5, (FIRST, Noted(Field.MACHINE, "Bagger Grün 12.5")))
    lay(tmp_path, 6)
    index = Index(tmp_path, index_file(tmp_path))
    reference = reference_of(5)
    for words in (
        reference,
        reference.lower().replace("-", ""),
        "grun",
        "FARM bagger",
        "12.5",
        "2026-11 gr",
    ):
        assert [each.reference for each in index.found(words, 9)] == [reference], words
    assert len(index.found("hill", 9)) == 2
    for words in ("ill", "", "farm nobody", '"', "*", "hill OR", "% _", "NEAR(hill"):
        assert index.found(words, 9) == [], words


def test_the_latest_comes_first_and_no_more_than_asked_for(tmp_path: Path) -> None:
    for number in range(9):
        lay(tmp_path, number)
    index = Index(tmp_path, index_file(tmp_path))
    assert [each.reference for each in index.latest(3)] == [reference_of(n) for n in (8, 7, 6)]
    assert [each.reference for each in index.found("farm", 2)] == [reference_of(n) for n in (8, 7)]


def test_discarded_jobs_are_found_only_if_asked_for(tmp_path: Path) -> None:
    lay(tmp_path, 1, (FIRST, GENDER), (FIRST, Discarded()))
    index = Index(tmp_path, index_file(tmp_path))
    assert (index.latest(9), index.found("hill", 9), index.unfinished()) == ([], [], [])
    assert len(index.latest(9, discarded=True)) == len(index.referred(reference_of(1))) == 1


def test_an_index_that_was_deleted_is_made_equal(tmp_path: Path) -> None:
    for number in range(30):
        lay(tmp_path, number, (FIRST, GENDER), month=number % 3 + 1)
    before = rows(tmp_path)
    assert len(before) == 30
    index_file(tmp_path).unlink()
    assert rows(tmp_path) == before


def test_it_is_said_before_many_files_are_read_and_what_was_read_stays_when_that_is_broken_off(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(6):
        lay(tmp_path, number, month=number % 3 + 1)
    monkeypatch.setattr("identify.jobs.index.MANY", 4)
    told: list[int] = []
    left = ["2026-01", "2026-02"]

    def read(path: Path) -> Kept | None:
        if path.parent.name in left:
            raise KeyboardInterrupt
        return read_job(path)

    monkeypatch.setattr("identify.jobs.index.read_job", read)
    with pytest.raises(KeyboardInterrupt):
        Index(tmp_path, index_file(tmp_path), told=told.append)
    left.clear()
    after = Index(tmp_path, index_file(tmp_path), told=told.append).every()
    assert told == [6, 4]
    index_file(tmp_path).unlink()
    assert after == rows(tmp_path)
    Index(tmp_path, index_file(tmp_path), told=told.append)
    assert told == [6, 4]


@given(st.text(st.characters(codec="ascii")))
def test_plain_text_is_searched_for_as_any_other(text: str) -> None:
    assert searched(text) == searched(f"{text} \u0301").rstrip()


@given(entries)
@settings(max_examples=30, deadline=None)  # each brings files onto the disk
def test_the_plain_search_finds_what_the_fast_one_finds(steps: tuple[Entry, ...]) -> None:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        path = lay(folder, 1, *steps)
        kept = read_job(path)
        assert kept is not None
        fast = Index(folder, index_file(folder))
        plain = Index(folder, folder / "index" / "plain.sqlite")
        plain._rows.execute("ALTER TABLE word RENAME TO fast")
        plain._rows.execute("CREATE TABLE word (words TEXT)")
        plain._rows.execute("INSERT INTO word (rowid, words) SELECT rowid, words FROM fast")
        said = [kept.job.machine, *kept.job.notes, kept.job.customer, "1", "hill f", "mm"]
        for words in said:
            for each in (words, words[:3], words[1:]):
                found = fast.found(each, 9, discarded=True)
                assert found == plain.found(each, 9, discarded=True), each
        whole = searched(kept.job.customer)
        if whole:
            assert len(fast.found(whole, 9, discarded=True)) == 1


def test_what_is_written_after_a_look_is_seen_at_the_next(tmp_path: Path) -> None:
    path = lay(tmp_path, 1, (FIRST, GENDER))
    for step, open_ in ((Finished(), 0), (HEX, 0), (Back(), 0)):
        later(tmp_path).close()
        kept = read_job(path)
        assert kept is not None
        with written(kept) as journal:
            journal.add(step)
        assert len(later(tmp_path).unfinished()) == open_
    path.unlink()
    assert later(tmp_path).every() == []


def test_a_file_that_a_killed_writer_left_is_looked_at_again(tmp_path: Path) -> None:
    """It appended after the folder was last looked at, and took its lock with it unreleased."""
    path = lay(tmp_path, 1)
    program = (
        "import os, sys; from pathlib import Path; from identify.jobs.journal import *; "
        "from tests.torture.test_journals import GENDER; "
        "j = Journal.go_on(read_job(Path(sys.argv[1]))); print('open', flush=True); "
        "sys.stdin.readline(); j.add(GENDER); print('added', flush=True); os.kill(os.getpid(), 9)"
    )
    root = Path(__file__).parents[2]
    with subprocess.Popen(
        [sys.executable, "-c", program, str(path)], cwd=root, text=True,
        stdin=subprocess.PIPE, stdout=subprocess.PIPE,
    ) as writer:  # fmt: skip
        assert writer.stdin
        assert writer.stdout
        assert writer.stdout.readline() == "open\n"
        assert later(tmp_path).unfinished() == []
        writer.stdin.write("go\n")
        writer.stdin.flush()
        assert writer.stdout.readline() == "added\n"
    assert len(later(tmp_path).unfinished()) == 1


def test_a_quiet_folder_is_not_read_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lay(tmp_path, 1)
    later(tmp_path).close()

    def never(*_: object) -> None:
        raise AssertionError("a folder was read")

    monkeypatch.setattr("identify.jobs.index.jobs_in", never)
    assert len(later(tmp_path).every()) == 1


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.write_bytes(b""),
        lambda file: file.write_bytes(b"not a database" * 99),
        lambda file: file.write_bytes(file.read_bytes()[:5000]),
        lambda file: file.write_bytes(b"\0" * 9000),
        lambda file: _do(file, "UPDATE job SET listed = '[1]'"),
        lambda file: _do(file, "UPDATE job SET listed = '{'"),
        lambda file: _do(file, "DROP TABLE word"),
        lambda file: _do(file, "DROP TABLE job"),
        lambda file: _do(file, "PRAGMA user_version = 99"),
        lambda file: _do(file, "DROP TABLE folder"),
    ],
)  # fmt: skip
def test_a_damaged_index_is_made_anew(tmp_path: Path, spoil: object) -> None:
    for number in range(3):
        lay(tmp_path, number)
    before = rows(tmp_path)
    spoil(index_file(tmp_path))  # type: ignore[operator]
    index = Index(tmp_path, index_file(tmp_path))
    assert [each.reference for each in index.found("hill", 9)] == [
        reference_of(n) for n in (2, 1, 0)
    ]
    assert index.every() == before
    index.close()
    assert rows(tmp_path) == before


def _do(file: Path, sql: str) -> None:
    with sqlite3.connect(file) as before:
        before.execute(sql)
    before.close()


def test_an_index_that_cannot_be_written_is_held_in_memory(tmp_path: Path) -> None:
    lay(tmp_path, 1)
    assert len(rows(tmp_path)) == 1
    lay(tmp_path, 2)
    other = sqlite3.connect(index_file(tmp_path), isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")  # another window that never comes to an end
    import identify.jobs.rows as module

    wait, module.WAIT_S = module.WAIT_S, 0.1
    try:
        assert len(rows(tmp_path)) == 2
    finally:
        module.WAIT_S = wait
        other.close()
    (tmp_path / "nowhere").write_text("", "utf-8")
    assert len(Index(tmp_path, tmp_path / "nowhere" / "jobs.sqlite").every()) == 2


@pytest.mark.skipif(os.name != "posix", reason="names of bytes, pipes and links")
def test_what_is_no_job_is_passed_over(tmp_path: Path) -> None:
    lay(tmp_path, 1)
    month = tmp_path / "2026-11"
    os.mkfifo(month / "job-222222.jsonl")
    (month / "job-333333.jsonl").symlink_to("job-333333.jsonl")
    (month / "job-444444.jsonl").mkdir()
    (month / "job-555555.jsonl").write_bytes(b"\xff\0" * 99)
    (month / "job-..%2f.jsonl").write_text(f"{HEAD}\n{MALE}\n", "utf-8")
    Path(os.fsdecode(bytes(month) + b"/job-\xff.jsonl")).write_text(f"{HEAD}\n{MALE}\n", "utf-8")
    (tmp_path / "2026-99x").mkdir()
    (tmp_path / "2020-01").symlink_to("/")
    assert len(rows(tmp_path)) == 1


def test_files_of_old_are_jobs_with_a_reference_of_their_own(tmp_path: Path) -> None:
    (tmp_path / NAME).write_text(f"{HEAD}\n{MALE}\n", "utf-8")
    (saved,) = unfinished(tmp_path)
    shelf = Shelf(tmp_path)
    assert shelf.called(saved.reference).path == tmp_path / NAME
    autosave = Autosave(tmp_path)
    autosave.take_up(saved)
    autosave.keep(HEX, Noted(Field.BAG, "7"))
    autosave.finish()
    assert unfinished(tmp_path) == ()
    kept = Shelf(tmp_path).called(saved.reference)
    assert (kept.job.bag, kept.job.end().events) == ("7", (*saved.events, HEX))
    assert kept.path == tmp_path / NAME
