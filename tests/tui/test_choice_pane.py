"""Beside a question that is judged by eye stands a picture of each answer, or none at all."""

import pytest

from identify.drawing.style import Style
from identify.interview.asking import put_anew
from identify.interview.session import Equipped, GivenUp, Observed, conclude, replay
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.feature import Feature
from identify.model.rule import Tool
from identify.reading.parse import reading_from
from identify.tui.choice_pane import LEAST_HEIGHT, LEAST_WIDTH, grid_of, pictured
from identify.tui.panes import picture_lines
from tests.shipped import shipped_engine as engine

CALIPER = Equipped(frozenset({Tool.CALIPER}))


def asked(feature, *typed):
    """Return the snapshot of an interview in which a question is open."""
    events = [Observed(reading_from(name, value)) for name, value in typed]
    state = replay((CALIPER, *events))
    return put_anew(Snapshot(state, conclude(engine(), state)), feature)


@pytest.mark.parametrize(
    ("feature", "names"),
    [
        (Feature.GENDER, ["1 Outside", "4 Ring eye", "8 None of"]),
        (Feature.MOUNT, ["1 Turns", "2 Does", "3 Stud", "4 Nothing"]),
        (Feature.SEAT_SHAPE, ["1 Cone out", "2 Cone in", "5 No seat"]),
        (Feature.O_RING, ["1 No ring", "6 In a"]),
    ],
)
@pytest.mark.parametrize(("width", "height"), [(37, 13), (42, 33)])
def test_each_answer_has_its_picture_and_the_leader_none(feature, names, width, height):
    snapshot = asked(feature, ("gender", "male"), ("thread_od", "20.9 mm"))
    lines = picture_lines(snapshot, engine(), Style.BRAILLE, width, height)
    text = "\n".join(line.text for line in lines)
    assert "What each answer looks like" in text
    assert "Leading" not in text
    for name in names:
        assert name[: LEAST_WIDTH - 1] in text
    assert len(lines) <= height
    assert max(len(line.text) for line in lines) <= width


def test_a_question_that_could_not_be_told_says_so_when_it_comes_back():
    given_up = [GivenUp(each) for each in Feature if each is not Feature.THREAD_OD]
    male = Observed(reading_from("gender", "male"))
    state = replay((CALIPER, *given_up, *given_up, male, GivenUp(Feature.THREAD_OD)))
    ask = ask_of(Snapshot(state, conclude(engine(), state)), engine().book)
    assert ask.text.feature is Feature.THREAD_OD
    assert ask.words.startswith("You could not tell before; a second try would help. How thick")


def test_where_they_do_not_fit_nothing_is_shown():
    snapshot = asked(Feature.SEAT_SHAPE, ("gender", "male"), ("thread_od", "20.9 mm"))
    assert picture_lines(snapshot, engine(), Style.BRAILLE, 37, 5) == ()


def test_a_measured_question_keeps_the_leading_end_with_its_dimension():
    snapshot = asked(Feature.THREAD_OD, ("gender", "male"), ("mount", "fixed"))
    assert not pictured(ask_of(snapshot, engine().book), "male")
    lines = picture_lines(snapshot, engine(), Style.BRAILLE, 60, 20)
    assert lines[0].text.startswith("── Leading: ")


@pytest.mark.parametrize("count", range(2, 9))
@pytest.mark.parametrize(("width", "height"), [(37, 12), (42, 32), (45, 12), (20, 5)])
def test_a_grid_holds_all_and_stays_within_its_room(count, width, height):
    grid = grid_of(count, width, height)
    if grid is None:
        assert width < 37
        return
    rows = -(-count // grid.across)
    assert grid.across * (grid.width + 1) - 1 <= width
    assert rows * (grid.height + 1) <= height
    assert grid.width >= LEAST_WIDTH
    assert grid.height >= LEAST_HEIGHT
