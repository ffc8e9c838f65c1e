"""Every step comes back from the disk as it was; a damaged line is never taken for a fact."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.errors import ReadingError, RecordError
from identify.jobs.fact_records import entry_of, line_of
from identify.jobs.facts import (
    FIRST,
    Back,
    Discarded,
    Fate,
    Field,
    Finished,
    Noted,
    Place,
    Reopened,
    Settled,
    noted,
    place_said,
)
from identify.jobs.job import Entry, Job, changed, job_of
from tests.jobs.steps import answers, entries

CUSTOMER = Noted(Field.CUSTOMER, "Hill Farm")


@given(entries)
def test_an_entry_comes_back_the_same(steps: tuple[Entry, ...]) -> None:
    for place, step in steps:
        assert entry_of(json.loads(json.dumps(line_of(place, step)))) == (place, step)


@given(entries, entries)
def test_a_job_is_what_its_steps_add_up_to(
    before: tuple[Entry, ...], after: tuple[Entry, ...]
) -> None:
    job = job_of("K7M-3P4", "2026-11-26", before)
    for place, step in after:
        job = changed(job, place, step)
    assert job == job_of("K7M-3P4", "2026-11-26", (*before, *after))


@given(entries, answers)
def test_a_step_back_takes_the_last_answer_of_its_end_away(
    before: tuple[Entry, ...], answer: object
) -> None:
    job = job_of("K7M-3P4", "", before)
    place = Place(2, "B")
    after = changed(changed(job, place, answer), place, Back())  # type: ignore[arg-type]
    assert after.end(place).events == job.end(place).events
    assert all(after.end(where).events == end.events for where, end in job.ends)


def test_ends_and_hoses_are_kept_apart() -> None:
    job = job_of(
        "K7M-3P4",
        "",
        [
            (FIRST, CUSTOMER),
            (Place(2, "B"), Noted(Field.SHAPE, "90")),
            (Place(2, "A"), Noted(Field.QUANTITY, "4")),
            (FIRST, Noted(Field.NOTE, "one")),
            (FIRST, Noted(Field.NOTE, "two")),
            (Place(1, "B"), Settled(Fate.CAME_BACK, "it leaked", "")),
        ],
    )
    assert (job.customer, job.notes) == ("Hill Farm", ("one", "two"))
    assert [hose.quantity for hose in job.hoses] == ["", "4"]
    assert job.end(Place(2, "B")).shape == "90"
    assert job.end(FIRST).shape == ""
    assert job.end(Place(1, "B")).outcome == Settled(Fate.CAME_BACK, "it leaked", "")
    assert job.end(Place(9, "A")).events == ()


def test_a_finished_end_and_a_discarded_job_can_be_opened_again() -> None:
    job = changed(changed(Job("", ""), FIRST, Finished()), FIRST, Discarded())
    assert (job.end().finished, job.discarded) == (True, True)
    again = changed(job, FIRST, Reopened())
    assert (again.end().finished, again.discarded) == (False, False)


@pytest.mark.parametrize(
    "record",
    [
        {"event": "noted"},
        {"event": "noted", "field": "colour", "value": "red"},
        {"event": "noted", "field": "customer", "value": 5},
        {"event": "noted", "field": "customer", "value": "x" * 401},
        {"event": "noted", "field": "quantity", "value": "-1"},
        {"event": "noted", "field": "quantity", "value": "٣"},
        {"event": "noted", "field": "shape", "value": "30"},
        {"event": "claimed", "words": "x", "by": "", "at": "", "anyway": "", "ends": "abc"},
        {"event": "claimed", "words": "x", "by": "", "at": "", "anyway": "", "ends": [5]},
        {"event": "settled", "fate": "lost", "why": "", "at": ""},
        {"event": "concluded", "kind": "maybe", "sentence": "", "ends": []},
        {"event": ["noted"]},
        {"event": "noted", "end": "1C", "field": "bag", "value": "7"},
        {"event": "noted", "end": "01A", "field": "bag", "value": "7"},
        {"event": "noted", "end": "100A", "field": "bag", "value": "7"},
        {"event": "noted", "end": 1, "field": "bag", "value": "7"},
        {"event": "finished", "end": "../A"},
    ],
)
def test_a_damaged_fact_is_refused(record: dict[str, object]) -> None:
    with pytest.raises(RecordError):
        entry_of(record)


@given(
    st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(max_size=9),
        lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner),
        max_leaves=8,
    ),
    st.sampled_from(("noted", "claimed", "concluded", "settled", "corrected")),
    st.sampled_from(("field", "value", "words", "ends", "kind", "fate", "why", "at", "sentence")),
)
def test_no_value_of_a_field_is_more_than_refused(value: object, name: str, field: str) -> None:
    try:
        entry_of({"event": name, field: value})
    except RecordError:
        return
    raise AssertionError("half a fact was taken")


@pytest.mark.parametrize(
    ("name", "value", "fault"),
    [
        ("colour", "red", "is no field of a job"),
        ("quantity", "two", "is not a number of pieces"),
        ("shape", "60", "is no shape of an end"),
        ("customer", "x" * 401, "is too long"),
    ],
)
def test_a_fact_that_cannot_be_is_refused_in_words(name: str, value: str, fault: str) -> None:
    with pytest.raises(ReadingError, match=fault):
        noted(name, value)


def test_an_end_is_named_with_or_without_its_hose() -> None:
    assert place_said("b") == Place(1, "B")
    assert place_said(" 12A ") == Place(12, "A")
    for text in ("", "C", "0A", "100A", "A1", "-1A", "²A"):
        with pytest.raises(ReadingError):
            place_said(text)
