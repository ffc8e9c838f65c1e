"""What every key of the interview means, and what is made of a typed value."""

import pytest

from identify.errors import ReadingError
from identify.interview.answer import reading_of
from identify.interview.bare import typed_text, units
from identify.interview.doubt import doubt_of
from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Basis, How, Reading
from identify.model.rule import QuestionText, Tool
from identify.pages.question import value_example
from identify.reading.parse import parse_reading, parse_readings
from identify.reasoning.engine import Engine
from identify.tui.keys import Act, meaning
from identify.tui.question_pane import Typing, entry_lines
from tests.shipped import knowledge
from tests.tui.world import QUESTIONS


def asked(text: QuestionText, tool: Tool | None = None) -> Ask:
    return Ask(text, text.tools, tool or text.tools[0], ("why", "what for"))


GENDER, OD, PITCH, TAPER, MARKING = (asked(text) for text in QUESTIONS)
LEAVES = asked(QUESTIONS[2].put(Tool.INCH_GAUGE, "male"), Tool.INCH_GAUGE)
FORM = asked(next(text for text in knowledge().book.questions if text.feature == "flank_angle"))


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
        (OD, "", True, "escape", "\x1b", Act.SHUT, ""),
        (OD, "20.9", True, "escape", "\x1b", Act.NOTHING, ""),
        (OD, "", False, "enter", "\r", Act.OPEN, ""),
        (OD, "", False, "b", "b", Act.COMMAND, "b"),
        (OD, "", True, "b", "b", Act.TYPE, "b"),
        (TAPER, "", False, "1", "1", Act.CHOOSE, "parallel"),
        (TAPER, "", False, "enter", "\r", Act.OPEN, ""),
        (TAPER, "", True, "0", "0", Act.TYPE, "0"),
        (MARKING, "", False, "0", "0", Act.CANNOT, ""),
        (MARKING, "", False, "7", "7", Act.COMMAND, "7"),
        (MARKING, "", True, "7", "7", Act.TYPE, "7"),
        (LEAVES, "", False, "1", "1", Act.TYPE, "1"),
        (LEAVES, "", False, "0", "0", Act.TYPE, "0"),
        (LEAVES, "1", False, "4", "4", Act.TYPE, "4"),
        (LEAVES, "14", False, "enter", "\r", Act.SEND, ""),
        (LEAVES, "0", False, "enter", "\r", Act.CANNOT, ""),
        (LEAVES, "", False, "enter", "\r", Act.OPEN, ""),
        (LEAVES, "", False, "down", None, Act.MARK, "14 tpi"),
        (LEAVES, "", False, "up", None, Act.MARK, "19 tpi"),
        (LEAVES, "1", False, "down", None, Act.NOTHING, ""),
        (LEAVES, "", False, "m", "m", Act.COMMAND, "m"),
        (FORM, "", False, "6", "6", Act.TYPE, "6"),
        (FORM, "", False, "enter", "\r", Act.COMMAND, "enter"),
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


def test_the_arrow_keys_go_round_the_leaves_and_enter_takes_the_one_marked() -> None:
    marked, seen = "", []
    for key in ("down", "down", "down", "up", "up"):
        marked = meaning(LEAVES, "", False, key, None, marked).text
        seen.append(marked)
    assert seen == ["14 tpi", "19 tpi", "14 tpi", "19 tpi", "14 tpi"]
    taken = meaning(LEAVES, "", False, "enter", "\r", marked)
    assert (taken.act, taken.text) == (Act.CHOOSE, "14 tpi")
    assert meaning(LEAVES, "19", False, "enter", "\r", marked).act is Act.SEND


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
        (Feature.SEAT_ANGLE, Tool.COMBS, "37", 1, "37 deg half"),
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
        (Feature.PITCH, Tool.METRIC_GAUGE, BAG, "2", How.GAUGE, "2 mm"),
        (Feature.PITCH, Tool.INCH_GAUGE, BAG, "14", How.GAUGE, "14 tpi"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "45", How.GAUGE, "45 deg half"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "24", How.GAUGE, "12 deg half"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "60 deg half", How.GAUGE, "60 deg half"),
        (Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, "33", How.GAUGE, "33 deg"),
        (Feature.PITCH, Tool.INCH_GAUGE, BAG, "11 1/2", How.GAUGE, "11 1/2 tpi"),
        (Feature.FLANK_ANGLE, Tool.NONE, BAG, "55", How.EYE, "55"),
        (Feature.PITCH, Tool.METRIC_GAUGE, BAG, "6 gaps over 9 mm", How.COUNTED, None),
        (Feature.TAPER, Tool.CALIPER, BAG, "20.45 20.95 8", How.CALIPER, None),
        (Feature.SEAT_ANGLE, Tool.CALIPER, BAG, "10 16 3", How.CALIPER, None),
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


GAUGES = frozenset({Tool.METRIC_GAUGE, Tool.INCH_GAUGE})


def called(feature: Feature, tool: Tool, bag: frozenset[Tool], typed: str) -> Reading:
    """Return what an answer typed at a question with a list of leaves is read as."""
    question = knowledge().book.question(feature)
    assert question is not None
    ask = asked(question.put(tool, "male"), tool)
    assert ask.by_value
    (unit,) = units(ask, inch=False, tools=bag)
    return reading_of(ask, typed, bag, {}, unit)


@pytest.mark.parametrize("bag", [BAG, GAUGES], ids=["its own gauge", "both gauges"])
@pytest.mark.parametrize("tool", sorted(GAUGES))
def test_the_number_of_a_pitch_leaf_gives_that_leaf(tool: Tool, bag: frozenset[Tool]) -> None:
    model = knowledge().book.observation
    leaves = {Tool.METRIC_GAUGE: model.leaves_mm, Tool.INCH_GAUGE: model.leaves_tpi}
    for gauge in {tool, *(bag & GAUGES)}:
        for leaf in leaves[gauge]:
            said = called(Feature.PITCH, tool, bag, f"{leaf:g}")
            inch = gauge is Tool.INCH_GAUGE
            assert (said.value.inch, said.value.pitches) == (inch, 0)
            assert said.value.mm == pytest.approx(25.4 / leaf if inch else leaf)
            assert said.how is How.GAUGE


def test_no_number_is_a_pitch_in_millimetres_and_in_threads_per_inch() -> None:
    info = FEATURES[Feature.PITCH]
    assert 25.4 / info.high > info.high


@pytest.mark.parametrize("typed", ["1", "2", "3", "4"])
def test_a_place_in_the_list_of_leaves_is_no_answer(typed: str) -> None:
    with pytest.raises(ReadingError, match=f'"{typed} tpi" is outside'):
        called(Feature.PITCH, Tool.INCH_GAUGE, BAG, typed)


def test_a_number_that_no_leaf_can_have_is_asked_about_with_both_gauges_at_hand() -> None:
    with pytest.raises(ReadingError, match=r'"5" has no unit') as refused:
        called(Feature.PITCH, Tool.INCH_GAUGE, GAUGES, "5")
    assert "from 1 to" not in refused.value.problem


def test_half_or_included_angle_of_a_seat_leaf_gives_that_leaf() -> None:
    for half in knowledge().book.observation.seat_leaves_deg:
        for typed in (half, 2 * half):
            said = called(Feature.SEAT_ANGLE, Tool.SEAT_GAUGE, BAG, f"{typed:g}")
            assert (said.value, said.how) == (Angle(half, Basis.HALF), How.GAUGE)


def test_every_answer_that_is_called_by_a_number_is_given_by_it() -> None:
    count = 0
    for question in knowledge().book.questions:
        for tool in question.tools:
            ask = asked(question.put(tool, "male"), tool)
            unit = (*units(ask, inch=False), None)[0]
            if ask.by_value:
                assert reading_of(ask, value_example(ask), {tool}, {}, unit)
            for choice in ask.choices if ask.by_value else ():
                number = choice.label.removesuffix(" mm").split(" cone")[0].split(" flare")[0]
                number = number.removesuffix(" degrees")
                by_word = reading_of(ask, choice.word, {tool}, {}, unit)
                by_number = reading_of(ask, number, {tool}, {}, unit)
                assert by_number.value == by_word.value, (question.feature, number)
                count += 1
    assert count >= 20


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
