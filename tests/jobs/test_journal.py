"""Every answer comes back as it was given, whatever happened to the program."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from identify.errors import RecordError
from identify.interview.session import (
    Again,
    Enough,
    Equipped,
    Event,
    GivenUp,
    Observed,
    Reached,
    Withdrawn,
    replay,
)
from identify.jobs.facts import Back, Finished
from identify.jobs.journal import Journal
from identify.jobs.records import event_of, record_of
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Slope,
    Trial,
)
from identify.model.rule import Access, QuestionText, Tool
from identify.reading.parse import parse_reading, reading_from
from tests.shipped import knowledge

BEGUN = "2025-03-01T08:30:00"
EVENTS: tuple[Event, ...] = (
    Equipped(frozenset({Tool.CALIPER, Tool.SEAT_GAUGE})),
    Reached(Access.END_ON_MACHINE),
    Observed(Reading(Feature.GENDER, Choice("male"), How.EYE, "male")),
    Observed(Reading(Feature.THREAD_OD, Length(20.9, 0.1), How.RULE, "20.8..21 mm by rule")),
    Observed(Reading(Feature.PITCH, Pitch(1.81, False, 0.0, 10), How.COUNTED, "10 p = 18.1 mm")),
    Observed(Reading(Feature.SEAT_ANGLE, Angle(37, Basis.HALF), How.GAUGE, "37 deg half")),
    Observed(Reading(Feature.SEAT_ANGLE, Angle(74), How.EYE, "74°")),
    Observed(Reading(Feature.SEAT_ANGLE, Angle(45, Basis.HALF, 3), How.CALIPER, "10 and 16 mm, …")),
    Observed(Reading(Feature.TAPER, Slope(0.5, 8), How.CALIPER, "½ mm over 8 mm")),
    Observed(Reading(Feature.MARKING, Marking("12L\u2028"), How.EYE, "12L\u2028")),
    Observed(Reading(Feature.TRIAL_FIT, Trial("G 1/2 female", Outcome.BINDS, 3.5), How.GAUGE, "x")),
    Again(Reading(Feature.THREAD_OD, Length(20.8), How.CALIPER, "20.8 mm, by somebody else", True)),
    Enough(Feature.PITCH),
    GivenUp(Feature.HAND),
    Withdrawn(Feature.TAPER),
    Equipped(frozenset({Tool.RULE}), "novice"),
)  # fmt: skip


def fresh(folder: Path) -> Journal:
    return Journal.begin(folder / "interview-1.jsonl", BEGUN)


@pytest.mark.parametrize("event", EVENTS, ids=lambda event: type(event).__name__)
def test_an_event_comes_back_the_same(event: Event) -> None:
    assert event_of(record_of(event)) == event


def test_nobody_of_another_name_measures() -> None:
    with pytest.raises(RecordError, match="nobody measures as grumpy"):
        event_of({"event": "equipped", "tools": [], "care": "grumpy"})


@pytest.mark.parametrize("text", knowledge().book.questions, ids=lambda text: text.feature)
def test_what_is_typed_of_a_feature_comes_back_with_who_took_it(text: QuestionText) -> None:
    for typed in (text.example, f"{text.example}, by somebody else"):
        reading = reading_from(text.feature, typed)
        assert reading.other_person is (typed != text.example)
        assert event_of(record_of(Observed(reading))) == Observed(reading)
        assert event_of(record_of(Again(reading))) == Again(reading)
        assert parse_reading(f"{text.feature}={reading.entered}") == reading


def test_an_interview_comes_back_in_order(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    for event in EVENTS:
        journal.add(event)
    journal.close()
    (saved,) = unfinished(tmp_path)
    assert saved.events == EVENTS
    assert saved.begun == BEGUN


def test_an_answer_is_on_the_disk_before_the_file_is_closed(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    journal.add(EVENTS[3])
    assert "20.8..21 mm by rule" in journal.path.read_text(encoding="utf-8")
    journal.close()


def test_an_interview_that_said_no_thread_opens_with_all_it_read(tmp_path: Path) -> None:
    """It was the one answer for eye, washer, plug and socket, and any size was taken after it."""
    sizes = ("eye_bore=14.1 mm", "plug_od=20.5 mm", "seat_shape=flat", "o_ring=none", "hex=19 mm")
    journal = fresh(tmp_path)
    for typed in ("gender=none", *sizes):
        journal.add(Observed(parse_reading(typed)))
    journal.close()
    state = replay(unfinished(tmp_path)[0].events)
    assert state.gender == "none"
    assert len(state.readings) == 1 + len(sizes)
    assert state.set_aside == ()


def test_a_step_back_takes_the_last_event_away(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    for event in EVENTS[:4]:
        journal.add(event)
    journal.add(Back())
    journal.close()
    assert unfinished(tmp_path)[0].events == EVENTS[:3]


def test_a_finished_interview_is_not_offered(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    journal.add(EVENTS[2])
    journal.add(Finished())
    journal.close()
    assert unfinished(tmp_path) == ()


def test_a_line_torn_by_a_power_cut_is_dropped_and_written_over(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    journal.add(EVENTS[2])
    journal.add(EVENTS[3])
    journal.close()
    whole = journal.path.read_bytes()
    journal.path.write_bytes(whole[:-9])
    (saved,) = unfinished(tmp_path)
    assert saved.events == EVENTS[2:3]
    again = Journal.go_on(saved)
    again.add(EVENTS[4])
    again.close()
    assert unfinished(tmp_path)[0].events == (EVENTS[2], EVENTS[4])


def test_what_stands_behind_a_line_of_a_later_version_still_counts(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    journal.add(EVENTS[2])
    with journal.path.open("a", encoding="utf-8") as file:
        file.write('{"event":"weighed","feature":"gender"}\n')
    journal.add(EVENTS[3])
    journal.close()
    (saved,) = unfinished(tmp_path)
    assert saved.events == EVENTS[2:4]
    assert saved.unread == 1


def test_a_file_that_is_none_of_ours_is_passed_over(tmp_path: Path) -> None:
    (tmp_path / "interview-x.jsonl").write_text("[1]\nnonsense\n", encoding="utf-8")
    assert unfinished(tmp_path) == ()
    assert unfinished(tmp_path / "missing") == ()


def test_an_interview_open_in_another_window_is_not_offered(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    journal.add(EVENTS[2])
    look = (
        "import sys; from pathlib import Path; from identify.jobs.shelf import unfinished; "
        "print(len(unfinished(Path(sys.argv[1]))))"
    )
    root = Path(__file__).parents[2]
    count = subprocess.run(
        [sys.executable, "-c", look, str(tmp_path)],
        capture_output=True, text=True, cwd=root, check=True,
    )  # fmt: skip
    assert count.stdout.strip() == "0"
    journal.close()
    assert len(unfinished(tmp_path)) == 1


def test_the_latest_comes_first(tmp_path: Path) -> None:
    for number, begun in enumerate(("2025-03-01T08:30:00", "2025-03-02T08:30:00")):
        journal = Journal.begin(tmp_path / f"interview-{number}.jsonl", begun)
        journal.add(EVENTS[2])
        journal.close()
    assert [saved.begun for saved in unfinished(tmp_path)] == [
        "2025-03-02T08:30:00",
        "2025-03-01T08:30:00",
    ]


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(RecordError, match=r"file.*cannot be opened"):
        fresh(tmp_path / "file" / "interviews")


def test_a_disk_that_is_full_is_named(tmp_path: Path) -> None:
    journal = fresh(tmp_path)
    os.close(journal._file)
    journal._file = os.open("/dev/full", os.O_WRONLY)
    with pytest.raises(RecordError, match="cannot be written"):
        journal.add(EVENTS[2])
    journal.close()


def test_only_the_owner_may_read_it(tmp_path: Path) -> None:
    journal = fresh(tmp_path / "interviews")
    journal.close()
    assert stat.S_IMODE(journal.path.stat().st_mode) == 0o600


@pytest.mark.parametrize(
    "record",
    [{}, {"event": "observed"}, {"event": "given_up", "feature": "colour"}, {"event": "sung"}],
)
def test_a_damaged_record_is_refused(record: dict[str, object]) -> None:
    with pytest.raises(RecordError):
        event_of(record)
