"""A line in short, a claim, the next end and a guess first, on the full screen."""

from collections.abc import Awaitable, Callable

import pytest

from identify.interview.habits import Habits
from identify.jobs.journal import read_job
from identify.jobs.saving import Autosave
from identify.model.feature import Feature
from identify.tui.app import Interview
from identify.tui.screens.choosing import OnwardScreen
from identify.tui.screens.entry import ClaimScreen, GuessScreen, ShortScreen
from identify.tui.screens.interview import InterviewScreen
from identify.tui.screens.reading import VerdictScreen
from tests.shipped import shipped_engine
from tests.tui.stage import text_of
from tests.tui.test_app import PREPARE, acted, typed

SIZES = [(80, 24), (45, 30), (120, 40)]
Press = Callable[..., Awaitable[None]]


def play(folder, act, *, guess=False, size=(80, 24)) -> Interview:
    return acted(Interview(shipped_engine(), Autosave(folder), Habits(guess=guess)), act, size)


@pytest.mark.parametrize("size", SIZES)
def test_each_token_is_told_as_it_is_typed_and_enter_takes_the_line(tmp_path, size):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed("m 20.9"))
        assert isinstance(app.screen, ShortScreen)
        assert "20.9 = Thread outside diameter" in " ".join(text_of(app).split())
        await press(*typed(" 14t:g"), "enter")
        assert isinstance(app.screen, InterviewScreen)

    app = play(tmp_path, act, size=size)
    assert [each.feature for each in app.snapshot.state.answers] == [
        Feature.GENDER,
        Feature.THREAD_OD,
        Feature.PITCH,
    ]


def test_the_line_may_be_typed_on_the_first_page(tmp_path):
    async def act(app: Interview, press: Press) -> None:
        await press("o", *typed("f 18.6"), "enter")
        assert isinstance(app.screen, InterviewScreen)

    assert play(tmp_path, act).snapshot.state.gender == "female"


def test_a_line_that_is_not_plain_stays_to_be_corrected(tmp_path):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed("m 20.9 in"), "enter")
        assert isinstance(app.screen, ShortScreen)
        assert "write 20.9in for inches" in " ".join(text_of(app).split())
        assert app.screen.wanted == "m 20.9 in"
        await press("backspace", "backspace", "backspace", "enter")
        assert isinstance(app.screen, InterviewScreen)

    assert len(play(tmp_path, act).snapshot.state.answers) == 2


@pytest.mark.parametrize("size", SIZES)
def test_a_claim_is_held_and_stands_on_the_verdict_and_can_be_taken_back(tmp_path, size):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed("m 18.9 16t:g out 45h:g"), "enter")
        await press("h", *typed("jic 8 by the driver"))
        assert isinstance(app.screen, ClaimScreen)
        assert "2 ends of the tables" in text_of(app)
        await press("enter")
        told = " ".join(text_of(app).split())
        assert "Said: jic 8 by the driver" in told
        assert "refuted" in told
        await press("enter", "1")
        assert app.snapshot.state.claims == ()
        await press("b")
        assert isinstance(app.screen, InterviewScreen)

    play(tmp_path, act, size=size)


def test_words_that_name_nothing_are_said_to_and_stay(tmp_path):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "h", *typed("jik 8"), "enter")
        assert "names no end" in text_of(app)
        assert app.screen.wanted == "jik 8"

    assert play(tmp_path, act).snapshot.state.claims == ()


def test_the_same_again_begins_with_the_answers(tmp_path):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed("m 20.9"), "enter", "n")
        assert isinstance(app.screen, OnwardScreen)
        await press("3")

    app = play(tmp_path, act)
    assert [each.entered for each in app.snapshot.state.answers] == ["male", "20.9 mm"]
    (path,) = tmp_path.rglob("*.jsonl")
    assert [str(place) for place, end in read_job(path).job.ends if end.answered] == ["1A", "1B"]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("says", [True, False])
def test_nothing_is_told_before_the_person_says_what_it_is(tmp_path, says, size):
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed("m 18.9 16t:g out"), "enter")
        assert "37 deg" not in text_of(app)
        await press("o", *typed("37h:g"), "enter")  # identified: the guess is asked at once
        assert isinstance(app.screen, GuessScreen)
        assert "37 deg flare" not in text_of(app)
        await press(*((*typed("jic 8"), "enter") if says else ("escape",)))
        assert isinstance(app.screen, VerdictScreen)
        assert "37 deg flare" in " ".join(text_of(app).split())
        assert ("The claim stands" in " ".join(text_of(app).split())) == says

    app = play(tmp_path, act, guess=True, size=size)
    assert [each.by for each in app.snapshot.state.claims] == ["you"] * says
