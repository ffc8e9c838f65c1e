"""The text of a verdict: what stands first and last, what is said once, and what `--full` adds.

That a 37 degree flare, a 45 degree flare and an O-ring boss share 7/8-14 UNF is common practice;
so is that the inch flare and its aircraft sister are one to every gauge.
"""

import pytest

from identify.model.feature import Feature
from identify.pages.text import WIDTH, wrap
from identify.pages.verdict import verdict_text
from identify.pages.words import LEGEND
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings
from tests.plain.talk import engine

THREAD = ("gender=male", "thread_od=22.1 mm", "pitch=14 tpi")
SEAT = (*THREAD, "mount=fixed", "seat_shape=convex", "seat_angle=37 deg half")


def conclude(words):
    return engine().conclude(with_gender(parse_readings(words)), limit=8)


def text(words, whole=False):
    return verdict_text(engine(), conclude(words), whole=whole)


def blocks(words, **more):
    return text(words, **more).rstrip("\n").split("\n\n")


def test_verdict_danger_and_measurement_stand_first_and_the_last_two_again_last():
    first, *_, last = blocks(THREAD)
    lines = first.split("\n")
    assert lines[0].startswith("Not identified yet. Most likely 37 deg flare (JIC), -10, male (")
    assert lines[2].startswith("!!! 45 deg flare (SAE 45°), -10 is still possible (")
    assert "\nNext: What does the sealing end look like" in first
    assert last.startswith("!!! 45 deg flare (SAE 45°), -10 is still possible (")
    assert "\nNext: add seat_shape=… (one of convex, concave, flat, ball, none), by eye" in last


def test_an_end_that_is_identified_leads_with_no_danger_that_is_ruled_out():
    first, *_, last = blocks(SEAT)
    assert first.startswith("Identified: 37 deg flare (JIC), -10, male (>99 %).")
    assert "still possible" not in first
    assert last == "Next: No further measurement is needed."


def test_what_a_rule_says_of_a_lookalike_is_said_with_it_and_only_there():
    said = " ".join(text(THREAD).split())
    assert said.count("Measure the seat angle. A 37 degree flare on a 45 degree seat") == 1
    assert said.count("Look at the seat next") == 1  # the reason of the question
    assert said.count(LEGEND) == 1


def test_readings_that_say_the_same_are_told_of_the_first_only():
    said = text(THREAD)
    assert said.count("· Thread pitch: ") == 1
    assert said.count("· same reasons as 1") == 2
    assert "· Kind of end: " not in said


def test_twins_are_named_once_with_the_end_and_not_as_lookalikes():
    said = " ".join(text(SEAT).split())
    assert said.count("tells it from aircraft inch ends, -10, male (do not handle)") == 1
    assert "no measurement of the end tells it from aircraft inch ends" in said
    (lead, *_) = conclude(SEAT).ranking
    assert not {each.id for each in lead.twins} & {
        each.end.id for each in conclude(SEAT).lookalikes
    }


def test_full_keeps_every_lookalike_warning_and_the_facts_behind_it():
    verdict, said = conclude(THREAD), " ".join(text(THREAD, whole=True).split())
    for warning in verdict.warnings:
        assert warning.sentence in said
        assert warning.because in said
    for danger in (*verdict.dangers, *verdict.lookalikes):
        assert danger.end.title in said
        assert danger.goes_wrong in said
    assert "--full" not in said


@pytest.mark.parametrize("whole", [False, True])
@pytest.mark.parametrize(
    "words", [THREAD, SEAT, ("gender=male", "marking=M22"), ("gender=female",)]
)
def test_lines_keep_within_the_width_and_nothing_is_certain(words, whole):
    said = text(words, whole=whole)
    assert max(map(len, said.splitlines())) <= WIDTH
    assert "100 %" not in said
    assert " 0 %" not in said


def test_a_figure_keeps_its_unit():
    for length in range(60, 84):
        rows = wrap("x" * length + " 45 % or 12.7 mm or 37 deg or 350 bar")
        assert not any(line.split(" ")[0] in {"%", "mm", "deg", "bar"} for line in rows)


def test_a_missing_standard_leaves_no_empty_place():
    said = text(("gender=male", "marking=M22", "seat_shape=convex"))
    assert "            ; thread" not in said
    assert "jis30_m:M22x1.5:male; thread M22x1.5\n" in said


def test_the_measurement_is_asked_with_its_unit_where_it_is_a_size():
    assert Feature.THREAD_OD in text(("gender=male", "marking=M22")).split("Next: add ")[1]
    assert "(what you read, with its unit)" in text(("gender=male", "marking=M22"))
