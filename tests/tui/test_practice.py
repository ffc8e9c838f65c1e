"""Practice on the full screen: keys answer, read, hint, open the lesson and progress."""

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from identify.practice.exercise import CANNOT_TELL, Kind
from identify.practice.judging import Mark
from identify.practice.record import Logbook
from identify.practice.sitting import Sitting
from identify.tui.practice import Practice
from identify.tui.screens.practice import DebriefScreen, ExerciseScreen
from identify.tui.screens.practice_lists import NameScreen
from identify.tui.screens.words import WordScreen
from tests.practice.proof import room
from tests.tui.stage import settle, text_of

Press = Callable[..., Awaitable[None]]


def play(
    folder: Path,
    kind: Kind,
    act: Callable[[Practice, Press], Awaitable[None]],
    size: tuple[int, int] = (80, 24),
) -> Practice:
    """Practise without a terminal; `act` gets the app and a way to press keys."""
    app = Practice(Sitting(room(), Logbook(folder, "Anna"), only=kind))

    async def run() -> None:
        async with app.run_test(size=size) as pilot:

            async def press(*keys: str) -> None:
                for key in keys:
                    await pilot.press(key)
                    await settle(pilot)

            await settle(pilot)
            await act(app, press)

    asyncio.run(run())
    app.sitting.logbook.close()
    return app


def number(app: Practice, key: str) -> str:
    return str([each.key for each in app.sitting.made.options].index(key) + 1)


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PART])
def test_an_exercise_stands_on_one_page_and_a_digit_answers(kind: Kind, tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        made = app.sitting.made
        assert isinstance(app.screen, ExerciseScreen)
        assert len(app.screen.pages) == 1
        assert all(each.words in text_of(app) for each in made.options)
        wrong = next(each.key for each in made.options if each.key != room().right(made))
        await press(number(app, wrong))
        assert text_of(app).count("<- your answer") == 1
        await press("b", "enter")
        assert isinstance(app.screen, ExerciseScreen)
        await press(number(app, wrong), number(app, room().right(made)), "enter")
        assert isinstance(app.screen, DebriefScreen)
        assert "Right." in text_of(app)
        await press("b", "enter")
        assert isinstance(app.screen, ExerciseScreen)
        assert app.sitting.told is None
        assert app.sitting.number == 2

    play(tmp_path, kind, act)


def test_a_part_is_read_and_given_up_with_a_need(tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        await press("r", "1", "r", "b")
        assert "Read so far" in text_of(app)
        assert len(app.sitting.taken) == 1
        await press(number(app, CANNOT_TELL), "b")
        assert app.sitting.told is None
        await press(number(app, CANNOT_TELL), "1")
        assert app.sitting.logbook.history.done[0].mark in (Mark.EARLY, Mark.RIGHT)

    play(tmp_path, Kind.PART, act)


def test_hint_progress_keys_lesson_and_back(tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        await press("h")
        assert "Hint:" in text_of(app)
        await press("g")
        assert "Nothing answered yet." in text_of(app)
        await press("b", "question_mark")
        assert "a hint" in text_of(app)
        await press("b", "1", "enter", "l")
        assert isinstance(app.screen, WordScreen)
        await press("b")
        assert isinstance(app.screen, DebriefScreen)
        await press("i", "1")
        assert isinstance(app.screen, WordScreen)
        await press("b", "b", "c", "g")
        assert "1 answer" in text_of(app)

    play(tmp_path, Kind.PIPE, act)


def test_a_part_is_named_in_own_words_and_words_that_name_none_say_so(tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        offered = len(app.sitting.made.options)
        await press("t", *"xyzzy", "enter")
        assert isinstance(app.screen, NameScreen)
        await press(*["backspace"] * 5, *"JIC 10", "enter")
        assert isinstance(app.screen, ExerciseScreen)
        assert "37 deg flare, -10  <- your answer" in text_of(app)
        assert len(app.sitting.made.options) == offered + 1
        await press("enter")
        assert app.sitting.logbook.history.done[0].said == "flare37:-10"
        assert app.sitting.logbook.history.done[0].mark in (Mark.WRONG, Mark.DANGEROUS)

    sitting = Sitting(room(), Logbook(tmp_path, "Anna"), only=Kind.PART)
    sitting.choose("part/flare37/orfs")
    sitting.logbook.close()
    play(tmp_path, Kind.PART, act)


def test_a_pair_is_chosen_by_its_words(tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        await press("s", "s", *"leaf 28", "enter", "1")
        assert isinstance(app.screen, ExerciseScreen)
        assert app.sitting.made.pair.kind is Kind.LEAF
        assert "28 tpi" in app.sitting.made.pair.words

    play(tmp_path, Kind.PIPE, act)


def test_a_small_window_says_so_and_nothing_is_answered(tmp_path: Path) -> None:
    async def act(app: Practice, press: Press) -> None:
        await press("1")
        assert app.sitting.told is None
        assert "window" in text_of(app)

    play(tmp_path, Kind.PIPE, act, size=(30, 10))
