"""What every key of the interview means, and what is made of a typed value."""

import pytest

from identify.errors import ReadingError
from identify.interview.answer import reading_of
from identify.interview.bare import typed_text, units
from identify.interview.doubt import doubt_of
from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, Feature
from identify.model.reading import How
from identify.model.rule import QuestionText, Tool
from identify.reading.parse import parse_reading, parse_readings
from identify.reasoning.engine import Engine
from identify.tui.keys import Act, meaning
from identify.tui.question_pane import Typing, entry_lines
from tests.shipped import knowledge
from tests.tui.world import QUESTIONS


def asked(text: QuestionText, tool: Tool | None = None) -> Ask:
    return Ask(text, text.tools, tool or text.tools[0], ("why", "what for"))


GENDER, OD, PITCH, TAPER, MARKING = (asked(text) for text in QUESTIONS)


@pytest.mark.parametrize(
    ("ask", "typed", "opened", "key", "character", "act", "text"),
    [
        (GENDER, "", False, "1", "1", Act.CHOOSE, "male"),
        (GENDER, "", False, "2", "2", Act.CHOOSE, "female"),
        (GENDER, "", False, "3", "3", Act.NOTHING, ""),
        (GENDER, "", False, "0", "0", Act.CANNOT, ""),
        (GENDER, "", False, "enter", "\r", Act.COMMAND, "enter"),
        (OD, "", False, "2", "2", Act.TYPE, "2"),
        (OD, "", False, "full_stop", ".", Act.TYPE, "."),
        (OD, "", False, "0", "0", Act.TYPE, "0"),
        (OD, "0", False, "enter", "\r", Act.CANNOT, ""),
        (OD, "20.9", False, "enter", "\r", Act.SEND, ""),
        (OD, "20.9", False, "m", "m", Act.TYPE, "m"),
        (OD, "20.9", False, "backspace", "\x7f", Act.ERASE, ""),
        (OD, "", False, "backspace", "\x7f", Act.NOTHING, ""),
        (OD, "", True, "backspace", "\x7f", Act.NOTHING, ""),
        (OD, "", True, "enter", "\r", Act.SHUT, ""),
        (OD, "", False, "enter", "\r", Act.OPEN, ""),
        (OD, "", False, "b", "b", Act.COMMAND, "b"),
        (OD, "", True, "b", "b", Act.TYPE, "b"),
        (TAPER, "", False, "1", "1", Act.CHOOSE, "parallel"),
        (TAPER, "", False, "enter", "\r", Act.OPEN, ""),
        (TAPER, "", True, "0", "0", Act.TYPE, "0"),
        (MARKING, "", False, "0", "0", Act.CANNOT, ""),
        (MARKING, "", False, "7", "7", Act.COMMAND, "7"),
        (MARKING, "", True, "7", "7", Act.TYPE, "7"),
        (None, "", False, "enter", "\r", Act.COMMAND, "enter"),
        (None, "", False, "b", "b", Act.COMMAND, "b"),
        (None, "", False, "3", "3", Act.COMMAND, "3"),
        (OD, "", False, "tab", "\t", Act.NOTHING, ""),
        (OD, "", False, "up", None, Act.NOTHING, ""),
    ],
)
def test_a_key_means(
    ask: Ask | None, typed: str, opened: bool, key: str, character: str, act: Act, text: str
) -> None:
    found = meaning(ask, typed, opened, key, character)
    assert (found.act, found.text) == (act, text)


@pytest.mark.parametrize(
    ("feature", "tool", "typed", "unit", "text"),
    [
        (Feature.THREAD_OD, Tool.CALIPER, "20.9", 0, "20.9 mm"),
        (Feature.THREAD_OD, Tool.CALIPER, "0.823", 1, "0.823 in"),
        (Feature.THREAD_OD, Tool.CALIPER, "13/16", 1, "13/16 in"),
        (Feature.THREAD_OD, Tool.CALIPER, "13/16", 0, "13/16"),
        (Feature.THREAD_OD, Tool.CALIPER, '13/16"', 0, '13/16"'),
        (Feature.THREAD_OD, Tool.CALIPER, "0.823 in", 0, "0.823 in"),
        (Feature.THREAD_OD, Tool.CALIPER, "20.8..21", 0, "20.8..21 mm"),
        (Feature.PITCH, Tool.CALIPER, "6 9.05", 0, "6 gaps over 9.05 mm"),
        (Feature.PITCH, Tool.CALIPER, "6 = 9,05", 0, "6 gaps over 9,05 mm"),
        (Feature.PITCH, Tool.CALIPER, "6 pitches = 9", 0, "6 pitches = 9 mm"),
        (Feature.PITCH, Tool.CALIPER, "6 gaps over 0.356", 1, "6 gaps over 0.356 in"),
        (Feature.PITCH, Tool.RULE, "6 0.356", 1, "6 gaps over 0.356 in"),
        (Feature.PITCH, Tool.CALIPER, "14", 2, "14 tpi counted"),
        (Feature.PITCH, Tool.METRIC_GAUGE, "1.5", 0, "1.5 mm"),
        (Feature.PITCH, Tool.METRIC_GAUGE, "14", 1, "14 tpi"),
        (Feature.PITCH, Tool.INCH_GAUGE, "14", 0, "14 tpi"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, "37", 1, "37 deg half"),
        (Feature.SEAT_ANGLE, Tool.PROTRACTOR, "74", 0, "74 deg included"),
        (Feature.SEAT_ANGLE, Tool.CALIPER, "10.2 14.7 3", 0, "10.2 and 14.7 mm, 3 mm apart"),
        (Feature.TAPER, Tool.CALIPER, "20.45 20.95 8", 0, "20.45 and 20.95 mm, 8 mm apart"),
        (Feature.TAPER, Tool.CALIPER, "0.5 8", 0, "0.5 mm over 8 mm"),
        (Feature.TAPER, Tool.CALIPER, "0.5 mm over 8 mm", 0, "0.5 mm over 8 mm"),
        (Feature.MARKING, Tool.NONE, "12L", None, "12L"),
    ],
)
def test_a_bare_number_takes_the_unit_of_the_tool(
    feature: Feature, tool: Tool, typed: str, unit: int | None, text: str
) -> None:
    question = knowledge().book.question(feature)
    assert question is not None
    offered = units(asked(question, tool), inch=False)
    found = typed_text(typed, None if unit is None else offered[unit], FEATURES[feature].kind)
    assert found == text


@pytest.mark.parametrize(("feature", "typed"), [(Feature.PITCH, "18.1"), (Feature.TAPER, "0.5")])
def test_a_number_too_few_is_told_with_all_that_is_wanted(feature: Feature, typed: str) -> None:
    question = knowledge().book.question(feature)
    assert question is not None
    unit = units(asked(question, Tool.CALIPER), inch=False)[0]
    with pytest.raises(ReadingError, match=f"such as {unit.example}"):
        typed_text(typed, unit, FEATURES[feature].kind)


def test_every_example_of_a_unit_is_read() -> None:
    count = 0
    for question in knowledge().book.questions:
        for tool in question.tools:
            ask = asked(question, tool)
            for unit in (*units(ask, inch=False), *units(ask, inch=True)):
                if unit.example:
                    reading_of(ask, unit.example, {tool}, {}, unit)
                    count += 1
    assert count >= 10


def test_the_inch_comes_first_where_it_was_chosen() -> None:
    assert [unit.label for unit in units(OD, inch=True)] == ["in", "mm"]


BAG = frozenset({Tool.CALIPER})


@pytest.mark.parametrize(
    ("feature", "tool", "bag", "line", "how", "entered"),
    [
        (Feature.THREAD_OD, Tool.CALIPER, BAG, "20.9", How.CALIPER, "20.9 mm"),
        (Feature.THREAD_OD, Tool.RULE, BAG, "20.9", How.RULE, "20.9 mm by rule"),
        (Feature.THREAD_OD, Tool.COMBS, BAG, "20.9 mm", How.COMBS, "20.9 mm by comb page"),
        (Feature.THREAD_OD, Tool.RULE, BAG, "20.9 mm by caliper", How.CALIPER, None),
        (Feature.PITCH, Tool.CALIPER, BAG, "6 9.05", How.COUNTED, "6 gaps over 9.05 mm"),
        (Feature.PITCH, Tool.CALIPER, BAG, "14 tpi counted", How.COUNTED, None),
        (Feature.PITCH, Tool.CALIPER, BAG, "14 tpi by gauge", How.GAUGE, None),
        (Feature.PITCH, Tool.CALIPER, BAG | {Tool.INCH_GAUGE}, "14 tpi", How.GAUGE, "14 tpi"),
        (Feature.PITCH, Tool.CALIPER, BAG | {Tool.COMBS}, "14 tpi", How.COMBS, None),
        (Feature.PITCH, Tool.METRIC_GAUGE, BAG, "5", How.GAUGE, "1.5 mm"),
        (Feature.PITCH, Tool.METRIC_GAUGE, BAG, "2", How.GAUGE, "2 mm"),
        (Feature.PITCH, Tool.INCH_GAUGE, BAG, "14", How.GAUGE, "14 tpi"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "45", How.GAUGE, "45 deg"),
        (Feature.PITCH, Tool.INCH_GAUGE, BAG, "1", How.GAUGE, "11 tpi"),
        (Feature.PITCH, Tool.METRIC_GAUGE, BAG, "6 gaps over 9 mm", How.COUNTED, None),
        (Feature.TAPER, Tool.CALIPER, BAG, "20.45 20.95 8", How.CALIPER, None),
        (Feature.SEAT_ANGLE, Tool.CALIPER, BAG, "10 16 3", How.CALIPER, None),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "3", How.GAUGE, "37 deg half"),
        (Feature.SEAT_ANGLE, Tool.NONE, BAG, "1", How.EYE, "24 deg included by eye"),
        (Feature.SEAT_ANGLE, Tool.PROTRACTOR, BAG, "74", How.PROTRACTOR, None),
        (Feature.TAPER, Tool.NONE, BAG, "2", How.EYE, "tapered"),
        (Feature.TAPER, Tool.CALIPER, BAG, "tapered by eye", How.EYE, None),
        (Feature.MARKING, Tool.NONE, BAG, "12L", How.EYE, "12L"),
    ],
)
def test_the_tool_named_is_what_is_stored(
    feature: Feature,
    tool: Tool,
    bag: frozenset[Tool],
    line: str,
    how: How,
    entered: str | None,
) -> None:
    question = knowledge().book.question(feature)
    assert question is not None
    ask = asked(question.put(tool, "male"), tool)
    unit = (*units(ask, inch=False), None)[0]
    reading = reading_of(ask, line, bag, {}, unit)
    assert reading.how is how
    assert reading.entered == (entered or reading.entered)


@pytest.mark.parametrize(
    ("feature", "line", "advice"),
    [
        (Feature.PITCH, "1.5 mm", "6 gaps over 9 mm"),
        (Feature.PITCH, "12 tpi", "12 tpi counted"),
        (Feature.TAPER, "tapered", "tapered by eye"),
        (Feature.SEAT_ANGLE, "37 deg half", "10.2 and 14.7 mm, 3 mm apart"),
    ],
)
def test_what_a_caliper_cannot_say_is_not_stored_as_its_reading(
    feature: Feature, line: str, advice: str
) -> None:
    question = knowledge().book.question(feature)
    assert question is not None
    ask = asked(question, Tool.CALIPER)
    unit = units(ask, inch=False)[0]
    with pytest.raises(ReadingError, match=advice):
        reading_of(ask, line, BAG, {}, unit)
    assert reading_of(ask, advice, BAG, {}, unit).feature is feature


def test_no_number_of_a_leaf_is_the_name_of_another() -> None:
    for question in knowledge().book.questions:
        for tool in question.tools:
            put = question.put(tool, "male")
            words = [choice.word for choice in put.choices if choice.word[0].isdigit()]
            for number, word in enumerate(words, 1):
                named = [other for other in words if other.split()[0] == str(number)]
                assert named in ([], [word]), (question.feature, tool)


def test_a_count_that_fits_only_otherwise_is_doubted() -> None:
    known = knowledge()
    engine = Engine(known.catalogue, known.book)
    verdict = engine.conclude(parse_readings(("gender=male", "thread_od=17.9 mm")))
    doubt = doubt_of(parse_reading("pitch=10 gaps over 9.05 mm"), verdict, known.catalogue)
    assert "Did you count 6?" in doubt
    for sound in ("6 gaps over 9.05 mm", "10 gaps over 15.1 mm", "1.5 mm"):
        assert not doubt_of(parse_reading(f"pitch={sound}"), verdict, known.catalogue)
    nothing = engine.conclude(())
    assert not doubt_of(parse_reading("pitch=10 gaps over 9.05 mm"), nothing, known.catalogue)


def test_the_entry_line_keeps_the_end_of_a_long_value_in_sight() -> None:
    (line,) = entry_lines(Typing("9" * 60 + "8"), 20)
    assert line.text.endswith("8█")
    assert len(line.text) == 20
