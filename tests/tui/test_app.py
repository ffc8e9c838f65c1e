"""The application over the shipped tables: messages in, states out, nothing lost."""

import asyncio
import time
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from identify.interview.session import Enough, GivenUp, Observed
from identify.jobs.saving import Autosave
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.rule import Access, Tool
from identify.model.verdict import VerdictKind
from identify.pages.guide import STEPS
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from identify.tui.app import Interview
from identify.tui.messages import Answered, Asked
from identify.tui.screens.choosing import AnswersScreen, ResumeScreen, ToolsScreen
from identify.tui.screens.interview import InterviewScreen
from identify.tui.screens.reading import VerdictScreen, WhyNotScreen
from identify.tui.screens.words import WordScreen, WordsScreen
from tests.tui.stage import settle, text_of

Play = Callable[["Interview", Callable[..., Awaitable[None]]], Awaitable[None]]
PREPARE = ("enter", "1")
REDRAW_S = 0.05


def play(
    engine: Engine,
    folder: Path,
    act: Play,
    *,
    size: tuple[int, int] = (80, 24),
    spare: bool = False,
) -> Interview:
    """Run the application without a terminal; `act` gets it and a way to press keys."""
    found = unfinished(folder)
    saved = found[0] if found else None
    return acted(Interview(engine, Autosave(folder), saved=saved, spare=spare), act, size)


def acted(app: Interview, act: Play, size: tuple[int, int]) -> Interview:
    """Run an application that is made, and return it as it ended."""

    async def run() -> None:
        async with app.run_test(size=size) as pilot:
            await settle(pilot)

            async def press(*keys: str) -> None:
                await pilot.press(*keys)
                await settle(pilot)

            await act(app, press)
        app.autosave.let_go()

    asyncio.run(run())
    return app


def typed(text: str) -> tuple[str, ...]:
    names = {".": "full_stop", " ": "space", "/": "slash"}
    return tuple(names.get(letter, letter) for letter in text)


def test_tools_and_access_come_first_and_are_kept(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        assert isinstance(app.screen, ToolsScreen)
        await press("5", "enter", "1")
        assert isinstance(app.screen, InterviewScreen)
        assert app.snapshot.state.tools == {Tool.CALIPER, Tool.SEAT_GAUGE}
        assert app.snapshot.state.access is Access.END_OFF

    play(engine, tmp_path, act)


def test_an_answer_is_kept_and_shown_saved(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        assert app.snapshot.state.gender == "male"
        assert text_of(app).splitlines()[0].endswith("saved")

    app = play(engine, tmp_path, act)
    (saved,) = unfinished(tmp_path)
    assert saved.events == app.snapshot.state.events


def test_what_cannot_be_read_changes_nothing(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        before = app.snapshot.state
        await press(*typed("9 pf"), "enter")
        assert app.snapshot.state == before
        assert app.snapshot.problem
        assert "> 9 pf" in text_of(app)
        await press(*["backspace"] * 4, *typed("20.9"), "enter")
        assert app.snapshot.problem == ""
        assert app.snapshot.state.answer(Feature.THREAD_OD) is not None

    play(engine, tmp_path, act)


def test_a_trial_on_a_part_nobody_knows_is_refused(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        app.screen.post_message(Answered(Feature.TRIAL_FIT, "Q 99 female: loose"))
        await press()
        assert app.snapshot.state.answer(Feature.TRIAL_FIT) is None
        assert "Q 99" in app.snapshot.problem

    play(engine, tmp_path, act)


def test_cannot_tell_back_and_withdrawal_leave_no_trace(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        one = app.snapshot
        await press("0", "enter")
        assert isinstance(app.snapshot.state.events[-1], GivenUp)
        await press("b")
        assert app.snapshot.state == one.state
        assert app.snapshot.verdict == one.verdict
        await press(*typed("20.9"), "enter", "a")
        assert isinstance(app.screen, AnswersScreen)
        await press("2", "4")
        assert app.snapshot.state.answers == one.state.answers
        assert app.snapshot.verdict.ranking == one.verdict.ranking

    app = play(engine, tmp_path, act)
    assert unfinished(tmp_path)[0].events == app.snapshot.state.events


def test_a_second_reading_stands_beside_the_first_and_a_slip_is_replaced(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "e")
        assert "Read it once more (20.9 mm" in " ".join(text_of(app).split())
        assert "leave it at that" in text_of(app)
        await press("p", *typed("20.8"), "enter")
        first, second = app.snapshot.state.given(Feature.THREAD_OD)
        assert (first.other_person, second.other_person) == (False, True)
        assert second.entered == "20.8 mm, by somebody else"
        await press("r", *typed("20.7"), "enter")
        assert [each.entered for each in app.snapshot.state.given(Feature.THREAD_OD)] == ["20.7 mm"]
        await press("e", "0", "enter")
        assert isinstance(app.snapshot.state.events[-1], Enough)
        assert app.snapshot.state.answer(Feature.THREAD_OD) is not None

    app = play(engine, tmp_path, act)
    assert unfinished(tmp_path)[0].events == app.snapshot.state.events


def test_the_number_of_a_leaf_is_taken_once_it_is_whole_and_leaves_nothing_behind(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press("3", "4", "enter", "1")
        for number, entered in (("1.5", "1.5 mm"), ("14", "14 tpi"), ("12", "12 tpi")):
            app.on_asked(Asked(Feature.PITCH))
            before = len(app.snapshot.state.events)
            await press(*typed(number[:-1]))
            assert f"> {number[:-1]}" in text_of(app)
            assert len(app.snapshot.state.events) == before
            await press(number[-1])
            assert app.snapshot.state.answer(Feature.PITCH).entered == entered
            assert len(app.snapshot.state.events) == before + 1
        app.on_asked(Asked(Feature.PITCH))
        await press("down", "down", "enter")
        assert app.snapshot.state.answer(Feature.PITCH).entered == "1.25 mm"

    play(engine, tmp_path, act)


def test_what_was_taken_back_is_given_again_and_kept(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "t", "5", "enter", "1")
        state = app.snapshot.state
        await press("b", "b")
        assert app.snapshot.state.answer(Feature.THREAD_OD) is None
        await press("f", "f", "f")
        assert app.snapshot.state == state
        await press("b", "b", *typed("21"), "enter", "f")  # another answer ends what can be given
        assert app.snapshot.state.answer(Feature.THREAD_OD).entered == "21 mm"
        assert Tool.SEAT_GAUGE not in app.snapshot.state.tools

    app = play(engine, tmp_path, act)
    assert unfinished(tmp_path)[0].events == app.snapshot.state.events


def test_an_answer_opened_again_stands_on_the_line_to_be_changed(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "r")
        assert "> 20.9" in text_of(app)
        await press("backspace", "8", "enter")
        assert app.snapshot.state.answer(Feature.THREAD_OD).entered == "20.8 mm"
        await press("r", *typed("21"), "enter")
        assert app.snapshot.state.answer(Feature.THREAD_OD).entered == "21 mm"
        await press("r", "enter")
        assert app.snapshot.state.answer(Feature.THREAD_OD).entered == "21 mm"
        await press("e")
        assert "> 21" not in text_of(app)

    play(engine, tmp_path, act)


def test_a_new_interview_is_begun_only_after_a_question(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", "n")
        assert app.snapshot.state.gender == "male"
        assert "What comes next?" in text_of(app)
        await press("4")
        assert isinstance(app.screen, InterviewScreen)
        assert app.snapshot.state.gender == "male"
        await press("n", "2")
        assert isinstance(app.screen, InterviewScreen)
        assert app.snapshot.state.answers == ()

    play(engine, tmp_path, act)


def test_the_readings_so_far_stand_on_the_screen(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "e", *typed("20.8"), "enter")
        assert text_of(app).splitlines()[1].strip() == "gender male; thread OD 20.9 mm and 20.8 mm"

    play(engine, tmp_path, act)


def test_the_list_of_answers_offers_a_reading_more_where_there_may_be_one(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "a", "2", "3")
        assert app.snapshot.once_more
        assert app.snapshot.other_person
        await press(*typed("20.8"), "enter", "a")
        assert "and once more: 20.8 mm, by caliper, by somebody else" in text_of(app)
        await press("1")
        assert "Read it once more" not in text_of(app)
        await press("b", "b", "a", "1", "1", "e")
        assert "has one answer only; r answers it anew." in text_of(app)

    play(engine, tmp_path, act)


def test_back_before_the_first_answer_leads_to_the_tools(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "backspace")
        assert isinstance(app.screen, InterviewScreen)
        await press("b")
        assert isinstance(app.screen, ToolsScreen)

    play(engine, tmp_path, act)


def test_back_undoes_a_change_of_tools_and_then_the_answer_before(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        before = app.snapshot.state
        await press("t", "5", "enter", "1")
        assert Tool.SEAT_GAUGE in app.snapshot.state.tools
        await press("b")
        assert app.snapshot.state == before
        await press("b")
        assert app.snapshot.state.answers == ()

    app = play(engine, tmp_path, act)
    assert app.snapshot.state.tools == {Tool.CALIPER}


def test_the_guided_example_ends_with_an_end_identified_and_keeps_nothing(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "g", *["n"] * len(STEPS))
        assert "Identified: G parallel thread with 60 deg cone (BSPP), G1/2, male" in text_of(app)
        await press("b")
        assert app.snapshot.state.answers == ()

    play(engine, tmp_path, act)
    assert unfinished(tmp_path) == ()


def test_one_wrong_answer_is_named_and_retaken_with_one_key(engine: Engine, tmp_path: Path) -> None:
    answers = {
        Feature.GENDER: "male",
        Feature.THREAD_OD: "20.9 mm",
        Feature.PITCH: "10 pitches = 27.1 mm",  # fifteen were counted over
        Feature.SEAT_SHAPE: "concave",
        Feature.SEAT_ANGLE: "60 deg included",
        Feature.FLANK_ANGLE: "55",
    }

    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE)
        for feature, text in answers.items():
            app.screen.post_message(Answered(feature, text))
            await press()
            if "Did you count 15?" in app.snapshot.problem:  # asked once, then taken
                app.screen.post_message(Answered(feature, text))
                await press()
        assert [each.reading.feature for each in app.snapshot.verdict.suspects] == [Feature.PITCH]
        while not isinstance(app.screen, InterviewScreen):
            await press("b")
        assert "r: retake it" in text_of(app)
        await press("r")
        assert app.snapshot.asking is Feature.PITCH
        await press(*typed("10 18.1"), "enter")
        assert app.snapshot.verdict.suspects == ()
        assert app.snapshot.verdict.ranking[0].end.id == "bspp60:G1/2:male"

    play(engine, tmp_path, act)


def test_an_end_just_identified_is_shown_at_once(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE)
        for feature, text in (
            (Feature.GENDER, "male"),
            (Feature.THREAD_OD, "20.9 mm"),
            (Feature.PITCH, "10 pitches = 18.1 mm"),
            (Feature.SEAT_SHAPE, "concave"),
            (Feature.TAPER, "0 mm over 8 mm"),
            (Feature.TAPER, "0.01 mm over 8 mm"),
            (Feature.FLANK_ANGLE, "55"),
            (Feature.SEAT_ANGLE, "60 deg included"),
        ):
            app.screen.post_message(Answered(feature, text))
            await press()
        assert app.snapshot.verdict.kind is VerdictKind.IDENTIFIED
        assert isinstance(app.screen, VerdictScreen)
        assert "What to order" in text_of(app)
        await press("q")

    play(engine, tmp_path, act)
    assert unfinished(tmp_path) == ()


def test_the_next_start_offers_to_go_on(engine: Engine, tmp_path: Path) -> None:
    async def first(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter", "q")

    before = play(engine, tmp_path, first)

    async def second(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        assert isinstance(app.screen, ResumeScreen)
        assert "20.9 mm" in text_of(app)
        await press("1")
        assert app.snapshot.state == before.snapshot.state
        await press("0", "enter")

    play(engine, tmp_path, second)
    assert len(unfinished(tmp_path)[0].events) == len(before.snapshot.state.events) + 1


def test_a_new_interview_leaves_the_old_one_on_the_disk(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press("2", *PREPARE, "1")
        tools = app.snapshot.state.tools
        await press("n", "1")
        assert isinstance(app.screen, InterviewScreen)
        assert app.snapshot.state.tools == tools != frozenset({Tool.CALIPER})
        assert app.snapshot.state.answers == ()
        await press("2")

    play(engine, tmp_path, act)
    assert len(list(tmp_path.iterdir())) == 2
    (saved,) = unfinished(tmp_path)
    readings = [event.reading.entered for event in saved.events if isinstance(event, Observed)]
    assert readings == ["female"]


def test_without_a_place_to_write_it_says_so_and_goes_on(engine: Engine, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")

    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        assert "NOT saved" in text_of(app).splitlines()[0]
        assert "Answers are not kept" in text_of(app)
        assert app.snapshot.state.gender == "male"

    play(engine, tmp_path / "file" / "interviews", act)


@pytest.mark.parametrize("size", [(120, 40), (40, 20)])
def test_every_screen_opens_and_closes(
    engine: Engine, tmp_path: Path, size: tuple[int, int]
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1", *typed("20.9"), "enter")
        for letter in ("t", "a", "y", "z", "v", "d", "g", "i", "question_mark"):
            await press(letter)
            assert not isinstance(app.screen, InterviewScreen), letter
            await press("b")
            assert isinstance(app.screen, InterviewScreen), letter
        await press("x", *typed("1/2 npt"), "enter", "1")
        assert isinstance(app.screen, WhyNotScreen)
        await press("b", "b")
        await press("z", "1", "b", "b", "s", *typed("orfs"), "enter", "1", "d", "b", "b", "b")
        assert isinstance(app.screen, InterviewScreen)

    play(engine, tmp_path, act, size=size)


def test_one_key_explains_words_on_every_screen_and_leads_on_to_lessons(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press("i")  # on the tools page, before anything was asked
        assert isinstance(app.screen, WordsScreen)
        await press("b", *PREPARE, "1", *typed("20.9"), "enter")
        for letters in (("a",), ("y",), ("z",), ("v",), ("d",), ("g",), ("question_mark",)):
            await press(*letters, "i")
            assert isinstance(app.screen, WordsScreen), letters
            await press("b", "b")
            assert isinstance(app.screen, InterviewScreen), letters
        await press("v", "i")
        shown = text_of(app)
        assert "Lessons on what leads" in shown
        assert "Words of the open question" in shown
        await press("2")
        assert isinstance(app.screen, WordScreen)
        family = app.screen.pick
        assert family.startswith("family ")
        while not app.screen.page.picks:
            await press("n")
        await press("1")
        assert app.screen.pick.startswith("trap ")
        assert "Tell apart" in text_of(app)

    play(engine, tmp_path, act)


def test_a_word_is_found_by_typing_and_shown_with_its_picture(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "i", "s", *typed("nose"), "enter", "1")
        shown = text_of(app)
        assert "The front of an end" in shown
        assert "1 dot =" in shown
        before = shown
        await press("c")  # another look draws it anew
        assert text_of(app) != before

    play(engine, tmp_path, act)


def test_the_verdict_is_written_to_a_file_whose_path_is_shown(
    engine: Engine, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)

    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        app.post_message(Answered(Feature.THREAD_OD, "20.9 mm"))
        await press("v", "w")
        (path,) = tmp_path.glob("whichend-*.txt")
        assert path.name in "".join(text_of(app).split())
        assert "Thread outside diameter: 20.9 mm" in path.read_text(encoding="utf-8")
        await press("b")
        assert path.name not in "".join(text_of(app).split())

    play(engine, tmp_path / "kept", act)


def test_spacings_the_wrong_way_round_are_refused(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "3")
        app.post_message(Answered(Feature.BOLT_SPACING_LONG, "26.2 mm"))
        app.post_message(Answered(Feature.BOLT_SPACING_SHORT, "52.4 mm"))
        await press("shift")
        assert app.snapshot.state.answer(Feature.BOLT_SPACING_SHORT) is None
        assert "exceeds the longer one, 26.2 mm" in app.snapshot.problem

    play(engine, tmp_path, act)


def test_a_flange_head_alone_opens_no_verdict_and_is_offered_again(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "3")
        app.post_message(Answered(Feature.FLANGE_HEAD_OD, "38.1 mm"))
        await press("shift")
        assert isinstance(app.screen, InterviewScreen)
        assert "not identified yet" in text_of(app)
        await press("v")
        assert "Measure the bolt spacing." in text_of(app)
        assert "What to order" not in text_of(app)
        await press("b")
        app.post_message(Answered(Feature.BOLT_SPACING_LONG, "47.6 mm"))
        app.post_message(Answered(Feature.BOLT_SPACING_SHORT, "22.2 mm"))
        await press("shift")
        assert isinstance(app.screen, VerdictScreen)
        await press("b")
        assert isinstance(app.screen, InterviewScreen)
        await press("b", "b", "q")

    play(engine, tmp_path, act)
    assert unfinished(tmp_path)


def test_over_a_slow_line_the_picture_waits_for_its_key(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE, "1")
        app.post_message(Answered(Feature.THREAD_OD, "20.9 mm"))
        await press("shift")
        assert "Leading:" not in text_of(app)
        assert "Ranking" in text_of(app)
        await press("d")
        assert "Drawing:" in text_of(app)

    play(engine, tmp_path, act, spare=True)


def test_a_small_window_says_what_to_do(engine: Engine, tmp_path: Path) -> None:
    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        said = " ".join(text_of(app).split())
        assert "Make it larger" in said
        assert "--plain" in said
        await press("q")

    play(engine, tmp_path, act, size=(30, 12))


def test_a_key_is_answered_in_time(engine: Engine, tmp_path: Path) -> None:
    """From an answer to the redrawn screen, in processor time; the best of nine."""
    times: list[float] = []

    async def act(app: Interview, press: Callable[..., Awaitable[None]]) -> None:
        await press(*PREPARE)
        for _ in range(9):
            before = time.process_time()
            app.happen(*_first_answer())
            text_of(app)
            times.append(time.process_time() - before)
            app.on_stepped_back()

    play(engine, tmp_path, act)
    assert min(times) < REDRAW_S


def _first_answer() -> tuple[Observed, ...]:
    return (Observed(reading_from("gender", "male")),)
