"""What a person may type at the line dialogue, and that nothing of it is lost."""

import pytest

from identify.interview.answer import reading_of
from identify.interview.asking import put_anew
from identify.interview.session import ASKED, replay
from identify.interview.snapshot import Ask, ask_of
from identify.jobs.shelf import unfinished
from identify.model.feature import Feature
from identify.model.observer import CARES
from identify.model.reading import How
from identify.model.rule import Access, Tool
from identify.model.verdict import VerdictKind
from identify.pages.question import STAMP, answer_blocks
from identify.pages.text import text_of
from identify.pages.verdict import verdict_text
from identify.reasoning.engine import Engine
from tests.plain.talk import ALL, CALIPER, IN_HAND, after, engine, hold
from tests.shipped import knowledge

START = (CALIPER, IN_HAND)
FLARE = (
    *START, "1", "18.9 mm", "10 pitches = 15.9 mm", "1", "2", "t", "1 5", "1", "37 deg half",
)  # fmt: skip


def last_verdict(dialogue):
    return verdict_text(dialogue.engine, dialogue.verdict, whole=True)


def test_end_of_input_says_the_verdict_so_far_and_keeps_the_answers(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm")
    assert last_verdict(dialogue) in said
    assert dialogue.verdict.kind is VerdictKind.SHORTLIST
    assert said.endswith('Your answers are saved; "whichend ask --resume" goes on with them.\n')
    (saved,) = unfinished(tmp_path)
    assert replay(saved.events) == dialogue.state


def test_end_of_input_at_once_measures_nothing_and_keeps_nothing(tmp_path):
    said, _ = hold(tmp_path)
    assert "Nothing has been measured yet." in said
    assert said.endswith("Nothing was answered, so nothing is kept.\n")
    assert unfinished(tmp_path) == ()


def test_cautions_come_before_anything_is_undone(tmp_path):
    said, _ = hold(tmp_path)
    assert said.startswith("Caution: Before you undo anything: stop the machine")


def test_every_question_says_why_what_it_separates_and_its_letters(tmp_path):
    said, _ = hold(tmp_path, *START, "1", "20.9 mm", "14 tpi counted")
    asked = said.split("Question 4: ")[1].split("\n> ")[0]
    assert "\nWhy now: " in asked
    assert "\nIt would separate " in asked
    assert "\n1  Cone out: " in asked
    assert " ".join(asked.split()).endswith(
        "0 cannot tell, r replace the last answer, e read it once more, b back, ? help, "
        "? WORD what it means, a answers, o on one line, h heard it called, t tools, v verdict, "
        "w write, l label, n next end or job, j jobs, q stop."
    )


def test_a_reading_once_more_counts_beside_the_first_and_by_whom_is_said(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "e", "p", "20.85 mm by rule")
    assert "Read it once more (20.9 mm stays and counts too)." in said
    assert "Somebody else" not in after(said, "e").split("0 leave it at that")[0].split("With:")[1]
    assert "Saved. Thread outside diameter: 20.85 mm by rule, by somebody else." in said
    first, second = dialogue.state.given(Feature.THREAD_OD)
    assert (first.entered, first.other_person) == ("20.9 mm", False)
    assert (second.how, second.other_person) == (How.RULE, True)
    said, _ = hold(tmp_path, *START, "1", "20.9 mm", "e", "20.85 mm", "a")
    assert "Thread outside diameter: 20.9 mm, by caliper\n   and once more: 20.85 mm, by" in said


def test_a_slip_is_replaced_and_leaves_nothing(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "29.9 mm", "e", "29.8 mm", "r", "20.9 mm")
    assert "Your readings stand: 29.9 mm, by caliper; 29.8 mm, by caliper." in said
    assert "A new one replaces them all." in " ".join(said.split())
    (only,) = dialogue.state.given(Feature.THREAD_OD)
    assert only.entered == "20.9 mm"


def test_a_second_reading_can_be_left_at_that(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "e", "0")
    assert "Saved. Thread outside diameter: left at that." in said
    assert dialogue.state.answer(Feature.THREAD_OD).entered == "20.9 mm"


def test_what_has_one_answer_only_is_not_asked_once_more(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "e", "p")
    assert said.count("Kind of end has one answer only; r answers it anew.") == 2
    assert dialogue.snapshot.asking is None
    said, _ = hold(tmp_path, *START, "e", "r", "p")
    assert said.count("Nothing was answered yet that could be read again.") == 3


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("13/16", '"13/16" has no unit; write 13/16 in (20.6 mm)'),
        ("2,090 mm", '"2,090" can be read in two ways'),
        ("2090 mm", "outside 3 to 180 mm"),
        ("-4 mm", '"-4 mm"'),
        ("big", '"big" is not a length'),
        ("", "Nothing was typed. Type an answer, or ? for how to measure it."),
        ("20.9 mm by ear", '"ear" is no way of measuring'),
        ("\x00\x1b[2J", "cannot be printed"),
        ("9" * 100_000, "characters long; a reading has at most 200"),
        ("x", "There is no answer to withdraw here"),
        ("∅ 20", '"∅ 20" is not a length'),
    ],
)
def test_a_bad_answer_gets_one_sentence_and_the_question_again(tmp_path, line, sentence):
    said, dialogue = hold(tmp_path, *START, "1", line)
    reply = said.split("Question 2: ")[1].split("\n> ")[1]
    reply = " ".join(reply.split("\n", 1)[1].split())
    assert reply.startswith(sentence) or sentence in reply.split(" Type it")[0]
    assert "Type it, such as: 20.9 mm" in reply
    assert [each.feature for each in dialogue.state.answers] == [Feature.GENDER]


@pytest.mark.parametrize("line", ["7", "00", "99999999999999999999", "²", "1.5", "coan", "1 2"])
def test_a_bad_choice_names_the_numbers_there_are(tmp_path, line):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "14 tpi counted", line)
    assert "number from 1 to 5." in " ".join(after(said, line).split())
    assert dialogue.state.answer(Feature.SEAT_SHAPE) is None


def test_answers_may_be_typed_in_words_or_chosen_by_number(tmp_path):
    by_number, one = hold(tmp_path / "a", *START, "2")
    _, other = hold(tmp_path / "b", *START, "female")
    assert one.state.answers[0].value == other.state.answers[0].value
    assert "Saved. Kind of end: Inside a nut or hole (female)." in by_number


def test_a_value_counts_as_taken_with_the_tool_asked_for(tmp_path):
    _, caliper = hold(tmp_path / "a", *START, "1", "20.9 mm")
    assert caliper.state.answer(Feature.THREAD_OD).how is How.CALIPER
    _, rule = hold(tmp_path / "b", "2", IN_HAND, "1", "2", "21 mm")
    assert rule.state.answer(Feature.THREAD_OD).how is How.RULE
    _, said = hold(tmp_path / "c", "2", IN_HAND, "1", "2", "20.9 mm by caliper")
    assert said.state.answer(Feature.THREAD_OD).how is How.CALIPER


@pytest.mark.parametrize(
    ("tools", "typed", "how", "pitches"),
    [
        (CALIPER, "14 tpi counted", How.COUNTED, 14),
        (CALIPER, "10 18.1", How.COUNTED, 10),
        (CALIPER, "10 pitches = 18.1 mm", How.COUNTED, 10),
        (ALL, "14 tpi", How.GAUGE, 0),
        (ALL, "10 pitches = 18.1 mm", How.COUNTED, 10),
    ],
)
def test_a_pitch_without_a_gauge_was_counted(tmp_path, tools, typed, how, pitches):
    _, dialogue = hold(tmp_path, tools, IN_HAND, "1", "20.9 mm", "a", "4", typed)
    reading = dialogue.state.answer(Feature.PITCH)
    assert reading.how is how
    assert reading.value.pitches == pytest.approx(pitches)


def test_a_leaf_without_a_gauge_is_asked_for_as_a_count(tmp_path):
    said, _ = hold(tmp_path, *START, "1", "20.9 mm", "a", "4", "1.5 mm")
    assert "such as 6 gaps over 9 mm" in " ".join(after(said, "1.5 mm").split())


def test_a_bare_number_takes_the_unit_that_stands_there(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9")
    assert "A bare number is mm (u: other unit)." in said
    assert dialogue.state.answer(Feature.THREAD_OD).entered == "20.9 mm"
    said, dialogue = hold(tmp_path, *START, "1", "u", "0.823")
    assert "A bare number is in (u: other unit)." in said
    assert dialogue.state.answer(Feature.THREAD_OD).entered == "0.823 in"


def test_the_number_of_a_leaf_is_that_leaf_and_never_a_place_in_the_list(tmp_path):
    said, dialogue = hold(tmp_path / "a", "4", IN_HAND, "1", "a", "4", "14")
    assert dialogue.state.answer(Feature.PITCH).entered == "14 tpi"
    assert "- 14: threads an inch." in said
    assert "Type the number itself, such as 24." in said
    said, dialogue = hold(tmp_path / "b", "4", IN_HAND, "1", "a", "4", "4")
    assert dialogue.state.answer(Feature.PITCH) is None
    assert '"4 tpi" is outside' in said
    _, dialogue = hold(tmp_path / "c", "3 4", IN_HAND, "1", "a", "4", "1.5")
    assert dialogue.state.answer(Feature.PITCH).entered == "1.5 mm"
    _, dialogue = hold(tmp_path / "d", "3 4", IN_HAND, "1", "a", "4", "14")
    assert dialogue.state.answer(Feature.PITCH).entered == "14 tpi"


def test_a_count_is_doubted_once_and_then_taken(tmp_path):
    lines = (*START, "1", "17.9", "10 9.05")
    said, dialogue = hold(tmp_path, *lines)
    assert "Did you count 6?" in " ".join(said.split())
    assert dialogue.state.answer(Feature.PITCH) is None
    _, dialogue = hold(tmp_path, *lines, "10 9.05")
    assert dialogue.state.answer(Feature.PITCH).entered == "10 gaps over 9.05 mm"


def test_another_tool_changes_what_is_asked_and_stored(tmp_path):
    said, dialogue = hold(tmp_path, ALL, IN_HAND, "2", "a", "4", "m", "m", "6 9.05")
    assert "Press a strip of card into the thread" not in after(said, "4")
    assert "Over how many gaps of the thread did you measure" in said
    assert dialogue.state.answer(Feature.PITCH).how is How.COUNTED


def test_back_takes_the_last_answer_back_on_the_disk_too(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "b", "b")
    assert "Taken back: the last answer to thread outside diameter." in said
    assert dialogue.state.answers == ()
    assert dialogue.state.events == hold(tmp_path / "other", *START)[1].state.events


def test_what_was_taken_back_is_given_again_on_the_disk_too(tmp_path):
    said, dialogue = hold(tmp_path, *START, "f", "1", "20.9 mm", "b", "f")
    assert "Nothing was taken back." in said
    assert "f give again what was taken back" in after(said, "b").replace("\n", " ")
    assert "Given again: the last answer to thread outside diameter." in said
    assert dialogue.state.answer(Feature.THREAD_OD).entered == "20.9 mm"
    assert replay(unfinished(tmp_path)[0].events) == dialogue.state


def test_back_to_the_very_beginning_says_so(tmp_path):
    said, dialogue = hold(tmp_path, *START, "b", "b", "b")
    assert "Taken back: how the end is." in said
    assert "Taken back: the tools to hand." in said
    assert "There is nothing to take back." in said
    assert dialogue.state.events == ()


def test_a_changed_answer_counts_as_if_it_had_been_the_first(tmp_path):
    _, plain = hold(tmp_path / "a", *START, "1", "20.9 mm")
    said, other = hold(tmp_path / "b", *START, "1", "19 mm", "a", "2", "20.9 mm")
    assert "Your answer stands: 19 mm, by caliper. A new one replaces it." in said
    assert other.state.answers == plain.state.answers
    assert last_verdict(other) == last_verdict(plain)


def test_withdrawn_is_as_if_never_answered(tmp_path):
    readings = ("1", "20.9 mm", "14 tpi counted")
    _, plain = hold(tmp_path / "a", *START, *readings)
    said, other = hold(tmp_path / "b", *START, *readings, "2", "a", "4", "x")
    assert "Shape of the seat: withdrawn, as if it had never been answered." in said
    assert other.state.answers == plain.state.answers
    assert last_verdict(other) == last_verdict(plain)


def test_the_answer_list_can_be_left_and_forgives_slips(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "a", "99", "x", "", "a", "2", "b", "20.9 mm")
    assert "Type a number from 1 to " in after(said, "99")
    assert "Left as it was." in said
    assert len(dialogue.state.answers) == 2


def test_a_reading_that_waits_for_its_gender_is_kept_and_listed(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "a", "1", "2", "a")
    assert [each.feature for each in dialogue.state.set_aside] == [Feature.THREAD_OD]
    assert "Thread outside diameter: 20.9 mm, by caliper (kept, not counted: no such" in said


def test_cannot_tell_is_kept_and_can_be_tried_again(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "0", "a", "2", "20.9 mm")
    assert "Saved. Thread outside diameter: cannot tell." in said
    assert dialogue.state.given_up == frozenset()
    assert dialogue.state.answer(Feature.THREAD_OD)


def test_a_suspect_is_named_and_retaken_with_one_key(tmp_path):
    lines = (*START, "1", "18.9 mm", *["24 tpi counted"] * 2)  # the count is doubted first
    said, dialogue = hold(tmp_path / "a", *lines)
    assert dialogue.telling.suspected == {Feature.PITCH}
    assert 'Suspect: The thread pitch, "24 tpi counted", does not agree with the other' in said
    assert "Type r to do so." in " ".join(said.split())
    assert "r replace the suspect reading" in said
    said, mended = hold(tmp_path / "b", *lines, "r", "10 pitches = 15.9 mm")
    assert "Asked again: Thread pitch." in said
    assert "Your answer stands: 24 tpi counted. A new one replaces it." in said
    assert mended.telling.suspected == set()
    _, right = hold(tmp_path / "c", *START, "1", "18.9 mm", "10 pitches = 15.9 mm")
    assert last_verdict(mended) == last_verdict(right)


def test_spacings_the_wrong_way_round_are_refused_and_can_be_exchanged(tmp_path):
    said, dialogue = hold(tmp_path / "a", *START, "3", "47.6 mm", "27.8 mm", "57.2 mm")
    assert "exceeds the longer one, 27.8 mm: measure again." in said
    assert dialogue.state.answer(Feature.BOLT_SPACING_SHORT) is None
    lines = (*START, "3", "47.6 mm", "27.8 mm", "57.2 mm", "b", "57.2 mm")
    _, mended = hold(tmp_path / "b", *lines)
    assert mended.state.answer(Feature.BOLT_SPACING_LONG).entered == "57.2 mm"
    assert mended.verdict.ranking[0].end.id == "flange62:1-in:flange"


def test_a_flange_head_alone_does_not_let_the_person_stop(tmp_path):
    said, _ = hold(tmp_path, *START, "3", "44.5 mm")
    assert "Not identified yet." in said
    assert "Measure the bolt spacing." in said
    assert not said.endswith("The interview is finished.\n")
    assert "You may stop here" not in said


def test_the_verdict_is_written_to_a_file_beside_the_person(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    said, dialogue = hold(tmp_path / "kept", *FLARE, "w", "w")
    first, second = tmp_path.glob("whichend-*.txt")
    assert said.count("Written:") == 2
    assert first.name in said
    assert second.name in said
    text = first.read_text(encoding="utf-8")
    assert verdict_text(dialogue.engine, dialogue.verdict, whole=True) in text
    assert all(each.entered in text for each in dialogue.state.readings)


def test_a_folder_that_cannot_be_written_is_named(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("identify.pages.written.write_new", _refuse)
    said, _ = hold(tmp_path / "kept", *FLARE, "w")
    assert "cannot be written (Permission denied)" in said.replace("\n", " ")


def _refuse(*_, **__):
    raise PermissionError(13, "Permission denied")


def test_what_is_asked_is_not_given_away_by_the_picture_in_words(tmp_path):
    angle = "9"  # its number in the list of answers
    said, _ = hold(tmp_path, *START, "1", "14.2 mm", "18 tpi counted", "a", angle, "?")
    words = " ".join(said.partition("in words: ")[2].partition("\n\n")[0].split())
    assert "The seat is a cone that points out." in words
    assert "Seat angle is to be measured." in words


def test_identified_is_said_and_the_interview_then_counts_as_finished(tmp_path):
    said, dialogue = hold(tmp_path, *FLARE, "")
    assert dialogue.verdict.kind is VerdictKind.IDENTIFIED
    assert "Identified: 37 deg flare (JIC), -8, male" in said
    assert said.endswith("The interview is finished.\n")
    assert said.count("\nCautions\n") == 1  # the verdict is said once
    assert unfinished(tmp_path) == ()


def test_a_dangerous_lookalike_keeps_the_question_open(tmp_path):
    said, dialogue = hold(tmp_path, *FLARE[:-1])
    assert dialogue.verdict.kind is VerdictKind.SHORTLIST
    assert any("45 deg flare" in each.end.title for each in dialogue.verdict.dangers)
    assert dialogue.verdict.question.feature is Feature.SEAT_ANGLE
    assert "Angle of the seat." in said.split("\n> ")[-2]


def test_nothing_more_can_be_learnt_is_said(tmp_path):
    said, dialogue = hold(tmp_path, "0", "3", *["0"] * 12)
    assert dialogue.verdict.question is None
    assert "No question is left.\nNo measurement with what is at hand would tell more. " in said
    assert "\nt: " in said


def test_tools_and_access_are_asked_once_and_can_be_changed(tmp_path):
    said, dialogue = hold(tmp_path, "10", "x", "1 2", "8x", "4", "2", "t", "", "1")
    assert (
        said.count(f"Type numbers from 0 to {len(ASKED) + 1} with a space between, or Enter.") == 2
    )
    assert "Type a number from 1 to 3, or Enter." in said
    assert dialogue.state.tools == {Tool.CALIPER, Tool.RULE}
    assert dialogue.state.access is Access.END_OFF


@pytest.mark.parametrize("care", CARES)
def test_told_who_measures_the_interview_says_what_rank_does(tmp_path, care):
    number = str(1 + CARES.index(care))
    said, dialogue = hold(tmp_path, f"{CALIPER} 9", number, IN_HAND, "1", "20.9 mm", "1")
    told = Engine(knowledge().catalogue, knowledge().book, knowledge().hazards, care=care).conclude(
        dialogue.state.readings, dialogue.state.situation
    )
    assert dialogue.state.tools == {Tool.CALIPER}
    assert dialogue.verdict == told
    assert told.ranking != engine().conclude(dialogue.state.readings).ranking
    assert f"Readings weighed as those of: {care}: " in " ".join(said.split())
    (saved,) = unfinished(tmp_path)
    assert replay(saved.events).care == care


def test_who_measures_stays_until_it_is_said_anew(tmp_path):
    _, dialogue = hold(tmp_path, "9", "1", IN_HAND, "1", "t", "", "", "t", "9", "", "")
    assert dialogue.state.care == "careful"
    _, dialogue = hold(tmp_path, "9", "1", IN_HAND, "1", "t", "9", "5", "")
    assert dialogue.state.care == ""


def test_enter_keeps_an_answer_that_was_opened_again(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "r", "")
    assert "Enter alone keeps: 20.9 mm, by caliper." in said
    assert "Thread outside diameter: left as it was." in said
    assert dialogue.snapshot.asking is None
    assert dialogue.state.answer(Feature.THREAD_OD).entered == "20.9 mm"


@pytest.mark.parametrize(("kind", "other"), [("1", "port"), ("2", "stud")])
def test_only_what_an_end_of_that_kind_can_be_is_offered(tmp_path, kind, other):
    _, dialogue = hold(tmp_path, *START, kind)
    ask = ask_of(put_anew(dialogue.snapshot, Feature.MOUNT), dialogue.engine.book)
    words = [each.word for each in ask.choices]
    assert words[:2] == ["swivel", "fixed"]
    assert other not in words


def test_a_stamp_is_offered_beside_the_first_looks_and_costs_no_question(tmp_path):
    said, dialogue = hold(tmp_path, *START, "k", "12L", "1", "1")
    assert said.count(STAMP[:30]) == 1
    assert dialogue.state.answer(Feature.MARKING).entered == "12L"
    without, plain = hold(tmp_path, *START, "1", "1", "20.9 mm")
    assert without.count(STAMP[:30]) == 2
    assert "Question 3: " in without
    assert plain.state.answer(Feature.MARKING) is None


def test_help_says_how_and_shows_the_picture_in_words(tmp_path):
    said, _ = hold(tmp_path, *START, "1", "?")
    told = after(said, "?")
    assert "- Clean the thread." in told
    assert "Usual mistake: A pipe size is not a diameter" in told
    assert "The leading end in words: " in told
    assert "from the side: nose to the left" in " ".join(told.split())
    assert "The seat is" not in told  # it was not asked for yet
    assert told.count("How thick is the thread outside, over its crests?") == 1


def test_the_verdict_may_be_heard_at_any_time(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "v")
    assert said.count(last_verdict(dialogue)) == 1


def test_a_warning_is_told_once(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "20.9 mm", "2", "0")
    talk = said.split("\nNot identified yet.")[0]
    for sentence in (each.sentence for each in dialogue.verdict.warnings):
        assert " ".join(talk.split()).count(f"): {sentence}") <= 1


def test_a_trial_is_answered_by_number_on_the_part_asked_for(tmp_path):
    _, dialogue = hold(tmp_path, *START, "1", "20.9 mm")
    text = dialogue.engine.book.question(Feature.TRIAL_FIT)
    put = Ask(text, (Tool.NONE,), Tool.NONE, ("", ""), known="G 1/2 female", said="Try it.")
    said = text_of(answer_blocks(put), numbered=True)
    assert "3  Runs in fully: " in said
    assert said.endswith("Or type it, such as: G 1/2 female: binds after 3 turns\n")
    trial = reading_of(put, "3", frozenset(), {}).value
    assert (trial.known, str(trial.outcome)) == ("G 1/2 female", "runs fully by hand")
    assert reading_of(put, "G 1/2 female: binds after 3 turns", (), {}).value.turns == 3


def test_a_trial_on_a_part_yet_to_be_named_has_no_numbers(tmp_path):
    said, dialogue = hold(tmp_path, *START, "1", "a", "19", "3", "G 1/2 female: loose")
    assert "is not a trial fit; write the known end" in after(said, "3").replace("\n", " ")
    assert dialogue.state.answer(Feature.TRIAL_FIT).value.known == "G 1/2 female"


def test_a_disk_that_cannot_be_written_is_told_once_and_the_talk_goes_on(tmp_path):
    folder = tmp_path / "file"
    folder.write_text("in the way")
    said, dialogue = hold(folder / "interviews", *START, "1", "20.9 mm")
    assert said.count("The interview goes on without.") == 1
    assert "Not saved. Thread outside diameter: 20.9 mm, by caliper." in said
    assert len(dialogue.state.answers) == 2
    assert "saved; " not in said


def test_a_saved_interview_goes_on_as_if_it_had_never_stopped(tmp_path):
    straight, whole = hold(tmp_path / "a", *START, "1", "20.9 mm", "2")
    hold(tmp_path / "b", *START, "1", "20.9 mm")
    (saved,) = unfinished(tmp_path / "b")
    said, dialogue = hold(tmp_path / "b", "2", saved=saved)
    assert "Thread outside diameter: 20.9 mm, by caliper\nIt goes on here." in said
    assert dialogue.state == whole.state
    assert last_verdict(dialogue) in straight
    (again,) = unfinished(tmp_path / "b")
    assert again.events == whole.state.events


def test_a_scanned_reference_shows_its_job_and_is_no_answer(tmp_path) -> None:
    import io
    from functools import partial

    from identify.jobs.saving import Autosave
    from identify.plain.console import Console
    from identify.plain.dialogue import Dialogue
    from identify.plain.jobs import job_told
    from tests.plain.talk import engine

    _, before = hold(tmp_path, "1", "", "1", "q")
    reference = before.autosave.reference
    wrong = reference[:-1] + ("2" if reference[-1] != "2" else "3")
    lines = ("", f"JOB {reference}", "", reference, f"JOB {wrong}", "1", "q")
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    console.finders.append(partial(job_told, console, tmp_path, engine().book))
    dialogue = Dialogue(engine(), console, Autosave(tmp_path, draw=lambda: 1))
    dialogue.hold()
    assert spoken.getvalue().count("go 1A goes on with end 1A.") == 2
    assert "a character is wrong" in " ".join(spoken.getvalue().split())
    assert [each.entered for each in dialogue.state.answers] == ["male"]


@pytest.mark.parametrize("asked", [(), ("", "1", "2")])
@pytest.mark.parametrize("side", ["A", "B"])
def test_a_job_is_gone_on_with_from_its_reference_wherever_it_is_typed(
    tmp_path, asked, side
) -> None:
    import io
    from functools import partial

    from identify.jobs.journal import read_job
    from identify.jobs.saving import Autosave
    from identify.plain.console import Console
    from identify.plain.dialogue import Dialogue
    from identify.plain.jobs import job_told
    from tests.plain.talk import engine

    _, before = hold(tmp_path, "1", "", "1", "q")
    tools = ("", "1") if side == "B" and not asked else ()
    lines = (*asked, before.autosave.reference, f"go 1{side}", *tools, "n", "4", "q")
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    console.finders.append(partial(job_told, console, tmp_path, engine().book))
    dialogue = Dialogue(engine(), console, Autosave(tmp_path, draw=lambda: 1))
    dialogue.hold()
    assert dialogue.autosave.reference == before.autosave.reference
    assert [each.entered for each in dialogue.state.answers] == (["male"] if side == "A" else [])
    if asked:
        (left,) = [path for path in tmp_path.rglob("*.jsonl") if path != before.autosave.path]
        assert replay(read_job(left).job.end().events).gender == "female"


def test_jobs_are_listed_by_one_letter(tmp_path) -> None:
    said, _ = hold(tmp_path, "1", "", "j", "1", "j", "q")
    assert "No job is kept yet." in after(said, "j")
    assert "Type a reference, such as K7M-3P4" in said


def test_one_letter_writes_the_label(tmp_path) -> None:
    said, dialogue = hold(tmp_path, "1", "", "1", "l", "q")
    (page,) = (tmp_path / "handover").iterdir()
    assert page.name == f"{dialogue.autosave.reference}-label.html"
    assert str(page) in said.replace("\n", " ")
