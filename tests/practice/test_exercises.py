"""Exercises are what they say: the short form of `python -m tests.practice`, and each kind."""

import pytest

from identify.model.feature import Feature
from identify.practice.exercise import ABOUT, CANNOT_TELL, STOP, Exercise, Kind
from identify.practice.judging import Mark, debrief, right_answer, taken_for
from identify.practice.making import make
from identify.practice.whole_part import engine_path, menu, take
from tests.practice.proof import faults_of, room, run


def first(kind: Kind, level: int = 0, seed: str = "one") -> Exercise:
    pair = next(pair for pair in room().pairs if pair.kind is kind)
    return make(room(), pair, seed, level)


def test_the_short_form_finds_no_fault() -> None:
    counts = run(60, seed=9, again=10)
    assert counts.faults == []
    assert set(counts.made) == set(Kind)


def test_the_proof_notices_an_exercise_that_is_wrong() -> None:
    from identify.frozen import replace

    made = first(Kind.PIPE)
    other = replace(made, truth=made.confused)
    assert faults_of(other, room().answer(other))


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PART])
def test_the_right_answer_to_a_short_exercise_is_called_right(kind: Kind) -> None:
    made = first(kind)
    told = debrief(room(), made, right_answer(room(), made))
    assert told.mark is Mark.RIGHT
    assert told.right.key == room().right(made)
    assert {each.reading.feature for each in told.told} <= set(ABOUT[kind])


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PART])
def test_what_it_is_confused_with_is_called_wrong(kind: Kind) -> None:
    made = first(kind)
    row = room().catalogue.row_of[made.confused.id]
    wrong = next(each.key for each in made.options if row in each.rows)
    told = debrief(room(), made, wrong)
    assert told.mark in (Mark.WRONG, Mark.DANGEROUS)
    assert told.taken == made.confused
    assert told.machine.a == told.taken.id
    assert told.cheapest is not None
    assert told.cheapest.difference.feature in ABOUT[kind]


def test_every_answer_but_one_is_wrong() -> None:
    for kind in (Kind.CONE, Kind.ANGLE, Kind.SIZE, Kind.LEAF):
        made = first(kind)
        marks = [debrief(room(), made, each.key).mark for each in made.options]
        assert marks.count(Mark.RIGHT) == 1, kind


def test_no_display_tells_the_answer_of_a_cone_or_a_leaf() -> None:
    assert Feature.SEAT_SHAPE not in {each.feature for each in first(Kind.CONE).shown}
    assert Feature.PITCH not in {each.feature for each in first(Kind.LEAF).shown}


def test_another_seed_is_another_exercise() -> None:
    assert first(Kind.LEAF).part != first(Kind.LEAF, seed="two").part


# ---- whole parts


def test_a_part_is_named_right_once_the_readings_show_it() -> None:
    made = first(Kind.PART)
    path = engine_path(room(), made)
    right = room().right(made)
    assert right_answer(room(), made, path) == right
    assert debrief(room(), made, right, path).mark is Mark.RIGHT
    assert debrief(room(), made, right).mark is Mark.GUESSED


def test_to_give_up_before_reading_is_too_early() -> None:
    made = first(Kind.PART)
    told = debrief(room(), made, CANNOT_TELL, (), Feature.PITCH)
    assert told.mark is Mark.EARLY


def test_cannot_tell_is_right_where_a_tool_is_not_there_and_the_need_tells() -> None:
    pairs = [pair for pair in room().pairs if pair.kind is Kind.PART]
    opened = (make(room(), pair, str(seed), 3) for seed in range(5) for pair in pairs)
    made = next(each for each in opened if each.left_open)
    path = engine_path(room(), made)
    assert right_answer(room(), made, path) in (CANNOT_TELL, STOP)
    marks = {need: debrief(room(), made, CANNOT_TELL, path, need).mark for need in Feature}
    assert Mark.ASIDE in marks.values() or Mark.RIGHT in marks.values()
    assert marks[Feature.MARKING] is not Mark.RIGHT


def test_a_guarded_end_is_stopped_at_and_naming_it_is_dangerous() -> None:
    pairs = [pair for pair in room().pairs if pair.other == "gas_weld"]
    made = next(each for seed in range(20) for pair in pairs
                if (each := make(room(), pair, str(seed), 0)).truth.refuse)  # fmt: skip
    assert right_answer(room(), made, ()) == STOP
    assert debrief(room(), made, STOP).mark is Mark.RIGHT
    named = next(each.key for each in made.options if each.rows)
    assert debrief(room(), made, named).mark is Mark.DANGEROUS
    assert not taken_for(room(), made, named).refuse


def test_a_reading_is_the_same_when_it_is_taken_again_from_the_record() -> None:
    made = first(Kind.PART, level=3)
    feature = menu(room(), made)[0][0].feature
    one = take(room(), made, (), feature)
    assert take(room(), made, (), feature) == one
    assert one.minutes > 0
