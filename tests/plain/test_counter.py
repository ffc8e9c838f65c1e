"""What a counter types beside answers: a line in short, a claim, the next end; a guess first."""

import io

from identify.interview.habits import Habits
from identify.jobs.saving import Autosave
from identify.model.feature import Feature
from identify.plain.console import Console
from identify.plain.dialogue import Dialogue
from tests.plain.talk import IN_HAND, after, engine, hold

START = ("1", IN_HAND)


def guess(folder, *lines):
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    dialogue = Dialogue(engine(), console, Autosave(folder), habits=Habits(guess=True))
    dialogue.hold()
    return spoken.getvalue(), dialogue


def test_a_line_in_short_answers_several_questions_and_tells_each_token(tmp_path):
    said, dialogue = hold(tmp_path / "a", *START, "o", "m 20.9 14t:g in 60i:g")
    told = after(said, "m 20.9 14t:g in 60i:g")
    assert "20.9 = Thread outside diameter: 20.9 mm, by caliper" in told
    assert "in = Shape of the seat: Cone in (concave)" in told
    assert "Saved." in told
    _, other = hold(tmp_path / "b", *START, "1", "20.9 mm")
    assert dialogue.state.answer(Feature.THREAD_OD) == other.state.answer(Feature.THREAD_OD)


def test_a_line_that_is_not_plain_is_typed_anew_and_nothing_is_taken(tmp_path):
    said, dialogue = hold(tmp_path, *START, "o", "m 20.9 in", "?", "")
    assert "write 20.9in for inches" in after(said, "m 20.9 in")
    assert "18..20t for a span" in after(said, "?")
    assert dialogue.state.answers == ()


def test_what_the_customer_says_is_held_against_the_readings(tmp_path):
    said, dialogue = hold(
        tmp_path, *START, "o", "m 18.9 16t:g out 45h:g", "h", "JIC 8 by the driver", "", "v"
    )
    told = " ".join(after(said, "JIC 8 by the driver").split())
    assert 'this is none of the ends called "JIC 8"' in told
    assert "Thread 3/4-16 UNF: stands" in told
    assert "against it: Angle of the seat" in told
    assert [each.by for each in dialogue.state.claims] == ["the driver"]
    assert "Said: JIC 8 by the driver" in after(said, "v")


def test_a_claim_is_taken_back_by_its_number_and_words_that_name_nothing_are_refused(tmp_path):
    said, dialogue = hold(tmp_path, *START, "h", "no such thing", "14S", "1", "")
    assert "names no end of the tables" in after(said, "no such thing")
    assert dialogue.state.claims == ()


def test_the_next_end_begins_with_the_same_tools_or_the_same_answers(tmp_path):
    _, dialogue = hold(tmp_path / "a", *START, "1", "20.9 mm", "n", "3")
    assert [each.entered for each in dialogue.state.answers] == ["male", "20.9 mm"]
    _, dialogue = hold(tmp_path / "b", *START, "1", "20.9 mm", "n", "1")
    assert dialogue.state.answers == ()
    assert len(list((tmp_path / "b").rglob("*.jsonl"))) == 1
    _, dialogue = hold(tmp_path / "d", *START, "1", "20.9 mm", "n", "2")
    assert dialogue.state.answers == ()
    assert len(list((tmp_path / "d").rglob("*.jsonl"))) == 2
    _, dialogue = hold(tmp_path / "c", *START, "1", "n", "9", "4")
    assert [each.entered for each in dialogue.state.answers] == ["male"]


def test_a_guess_is_asked_before_anything_is_told(tmp_path):
    said, dialogue = guess(tmp_path, *START, "o", "m 18.9 16t:g out 37h:g", "v", "JIC 8", "q")
    before, told = said.split("What do you think it is?", 1)
    assert "JIC" not in before.split("Question 1")[1]
    assert "Where it stands" not in before
    assert "The claim stands" in told
    assert [each.by for each in dialogue.state.claims] == ["you"]
    for passed in ("", "q"):
        said, dialogue = guess(tmp_path, *START, "o", "m 18.9 16t:g out 37h:g", "v", passed, "q")
        assert "37 deg flare" in said.split("What do you think it is?", 1)[1]
        assert not dialogue.state.claims


def test_a_script_that_ends_is_told_the_verdict_all_the_same(tmp_path):
    said, _ = guess(tmp_path, *START, "o", "m 18.9 16t:g out 37h:g")
    assert "37 deg flare" in said.split("What do you think it is?", 1)[1]
