"""What somebody says an end is, among the steps of an interview and on the disk."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.errors import ReadingError, RecordError, UnknownEndError
from identify.interview.habits import Habits
from identify.interview.session import (
    Again,
    Claimed,
    Equipped,
    GivenUp,
    Observed,
    Reached,
    Unclaimed,
    apply,
    back,
    following,
    replay,
)
from identify.jobs.course import YOU, Course, onward
from identify.jobs.facts import MOST_HOSES, Place
from identify.jobs.journal import read_job
from identify.jobs.records import event_of, record_of
from identify.jobs.saving import Autosave
from identify.model.claim import Said
from identify.model.feature import Feature
from identify.reading.claims import claim_of, claim_text
from identify.reading.names import understand
from identify.reading.numbers import clean
from identify.reading.parse import parse_reading
from tests.shipped import shipped_engine

JIC = Claimed("JIC 8", "the driver", "2026-01-02T03:04:05Z", ("flare37:-8:male",), "no other here")
MALE = Observed(parse_reading("gender=male"))
words = st.text("abJIC08é /.", min_size=1, max_size=40)


def course(folder, **more):
    return Course(shipped_engine(), Autosave(folder), Habits(**more))


def told(text: str) -> str:
    return clean(f"x{text}").removeprefix("x").strip()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("JIC 8", Said("JIC 8")),
        ("JIC 8 by the driver", Said("JIC 8", "the driver")),
        ("half inch BSP, said it is", Said("half inch BSP, said it is")),
        (
            "14S by Ann, ordered anyway because the block is drilled for it.",
            Said("14S", "Ann", "the block is drilled for it"),
        ),
        ("14S ordered anyway because of the block", Said("14S", "", "of the block")),
        ("14S, ordered anyway because it fits", Said("14S", "", "it fits")),
    ],
)  # fmt: skip
def test_a_claim_is_parted_from_who_says_it_and_why_it_is_ordered(text, said):
    assert claim_of(text) == said


@pytest.mark.parametrize("text", ["", " ", "\x1b[2J", "x" * 300])
def test_what_is_no_claim_is_refused(text):
    with pytest.raises(ReadingError):
        claim_of(text)


@given(words, words, words)
def test_a_claim_is_read_back_as_it_is_written(name, by, why):
    said = Said(*(told(each) for each in (name, by, why)))
    if not said.words or any(" by " in f" {each} " for each in (said.words, said.by)):
        return
    if any("ordered anyway" in each for each in (said.words, said.by, said.anyway)):
        return
    said = Said(said.words, said.by, said.anyway.rstrip(". "))
    if len(claim_text(said)) <= 200:
        assert claim_of(claim_text(said)) == said


def test_a_claim_changes_no_answer_and_is_undone_like_one():
    state = replay((MALE, JIC))
    assert state.claims == (JIC,)
    assert state.answers == replay((MALE,)).answers
    assert back(state) == replay((MALE,))
    assert apply(state, Unclaimed("JIC 8")).claims == ()


def test_the_same_words_said_again_replace_what_was_said():
    again = Claimed("JIC 8", "Ann", JIC.at)
    assert replay((JIC, MALE, again)).claims == (again,)


@pytest.mark.parametrize("event", [JIC, Claimed("14S", "", ""), Unclaimed("JIC 8")])
def test_records_round_trip(event):
    assert event_of(record_of(event)) == event


@pytest.mark.parametrize(
    "change",
    [
        {"words": ""},
        {"words": 8},
        {"by": "x" * 300},
        {"by": "\x1b]0;title\x07"},
        {"ends": "flare37:-8:male"},
        {"ends": [1]},
        {"ends": ["x"] * 6000},
        {"anyway": None},
    ],
)
def test_a_damaged_claim_is_one_line_that_cannot_be_read(change):
    with pytest.raises(RecordError):
        event_of({**record_of(JIC), **change})


def test_a_claim_is_on_the_disk_with_all_it_names_and_comes_back(tmp_path):
    one = course(tmp_path)
    snapshot = one.happen(one.begin(), MALE)
    snapshot = one.claim(snapshot, "JIC 8 by the driver")
    one.autosave.let_go()
    (path,) = tmp_path.rglob("*.jsonl")
    (claim,) = read_job(path).job.end().claims
    assert claim == snapshot.state.claims[0]
    assert (claim.words, claim.by) == ("JIC 8", "the driver")
    assert claim.ends == ("flare37:-8:male", "flare37:-8:female")
    assert claim.at.endswith("Z")


def test_words_that_name_nothing_are_refused_and_nothing_is_kept(tmp_path):
    one = course(tmp_path)
    with pytest.raises(UnknownEndError):
        one.claim(one.begin(), "no such thing")
    assert not list(tmp_path.glob("*"))


def test_nothing_is_told_before_the_person_has_said_it(tmp_path):
    one = course(tmp_path, guess=True)
    snapshot = one.happen(one.begin(), MALE)
    assert snapshot.hidden
    assert one.claim(snapshot, "JIC 8 by the driver").hidden  # somebody else's word is no guess
    assert not one.claim(snapshot, "JIC 8", YOU).hidden
    assert not one.pass_by(snapshot).hidden
    assert one.next_end(snapshot, Place(1, "B")).hidden
    assert not course(tmp_path).begin().hidden


# ---- readings in short, and the next end


def test_a_line_in_short_is_its_readings_or_nothing(tmp_path):
    one = course(tmp_path)
    snapshot, taken = one.enter(one.begin(), "m 20.9 14t od20.8")
    assert [each.token for each in taken] == ["m", "20.9", "14t", "od20.8"]
    assert len(snapshot.state.given(Feature.THREAD_OD)) == 2
    for wrong in ("x", "m f", "id18", "pi14t 14t x", 'tf"no such end: loose"'):
        with pytest.raises((ReadingError, UnknownEndError)):
            one.enter(snapshot, wrong)
    assert one.enter(snapshot, "14t")[0].state.given(Feature.PITCH)[0].entered == "14 tpi"


def test_the_next_end_has_the_tools_and_if_wanted_the_answers(tmp_path):
    one = course(tmp_path)
    before, _ = one.enter(one.begin(), "m 20.9 14t od20.8")
    assert onward(one, before, "end").state.answers == ()
    same = onward(one, before, "same")
    assert same.state.answers == before.state.answers
    assert same.state.tools == before.state.tools
    one.autosave.let_go()


def test_following_gives_each_answer_once():
    twice = Again(parse_reading("thread_od=20.8 mm"))
    state = replay((MALE, Observed(parse_reading("thread_od=20.9 mm")), twice, JIC))
    events = following(state, repeat=True)
    assert replay(events).answers == state.answers
    assert replay(events).claims == ()
    assert [type(each) for each in following(state, repeat=False)] == [Equipped, Reached]


# ---- from end to end of a job


def ends(folder) -> list[tuple[str, str, bool]]:
    """Return file, end and whether it is done, of every end with an answer, by file."""
    found = []
    for path in sorted(folder.rglob("*.jsonl")):
        for place, end in read_job(path).job.ends:
            if end.answered:
                found.append((path.name, str(place), end.finished))
    return found


def test_ends_of_a_hose_hoses_of_a_job_and_jobs_follow_each_other(tmp_path):
    one = course(tmp_path)
    snapshot, _ = one.enter(one.begin(), "m 20.9")
    first = one.autosave.path.name
    for way in ("end", "end", "hose", "end", "job"):
        snapshot, _ = one.enter(onward(one, snapshot, way), "f 18.6")
    second = one.autosave.path.name
    one.autosave.let_go()
    assert second != first
    done = [(first, place, True) for place in ("1A", "1B", "2A", "3A", "3B")]
    assert sorted(ends(tmp_path)) == sorted([*done, (second, "1A", False)])
    assert read_job(tmp_path / next(tmp_path.rglob(first))).job.end().verdict is not None


def test_an_end_that_has_answers_is_left_out_and_staying_changes_nothing(tmp_path):
    one = course(tmp_path)
    snapshot, _ = one.enter(one.begin(), "m 20.9")
    snapshot, _ = one.enter(onward(one, snapshot, "end"), "f 18.6")
    assert one.autosave.place == Place(1, "B")
    assert onward(one, snapshot, "stay") is snapshot
    one.autosave.keep(GivenUp(Feature.GENDER), place=Place(2))
    assert one.autosave.next_place() == Place(2, "B")
    assert one.autosave.next_place(hose=True) == Place(3)
    one.autosave.let_go()


def test_the_last_hose_of_a_job_leaves_only_another_job(tmp_path):
    one = course(tmp_path)
    snapshot, _ = one.enter(one.begin(), "m 20.9")
    one.autosave.go_on(Place(MOST_HOSES, "B"))
    assert one.autosave.next_place() is None
    assert onward(one, snapshot, "end") is snapshot
    one.autosave.let_go()


def test_a_claim_that_names_very_many_ends_is_read_back(tmp_path):
    one = course(tmp_path)
    most = max(("male", "female", "metric", "24", "bsp"), key=lambda words: len(meant(one, words)))
    snapshot = one.claim(one.begin(), most)
    one.autosave.let_go()
    (path,) = tmp_path.rglob("*.jsonl")
    assert read_job(path).unread == 0
    assert read_job(path).job.end().claims == snapshot.state.claims
    assert len(snapshot.state.claims[0].ends) > 200


def meant(one: Course, words: str) -> tuple[object, ...]:
    try:
        return understand(one.engine.catalogue, words).ends
    except UnknownEndError:
        return ()
