"""What every key of the interview means, and what is made of a typed value."""

import pytest

from identify.interview.answer import how_word
from identify.interview.snapshot import Ask
from identify.model.feature import Feature
from identify.model.reading import How
from identify.model.rule import Tool
from identify.tui.keys import Act, meaning
from identify.tui.question_pane import Typing, entry_lines, typed_text, units
from tests.tui.world import QUESTIONS

GENDER, OD, PITCH, TAPER, MARKING = (
    Ask(text, text.tools or (Tool.NONE,), ("why", "what for")) for text in QUESTIONS
)


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
        (OD, "", False, "backspace", "\x7f", Act.BACK, ""),
        (OD, "", True, "backspace", "\x7f", Act.SHUT, ""),
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
    ("feature", "typed", "unit", "text"),
    [
        (Feature.THREAD_OD, "20.9", 0, "20.9 mm"),
        (Feature.THREAD_OD, "13/16", 1, "13/16 in"),
        (Feature.THREAD_OD, '13/16"', 0, '13/16"'),
        (Feature.THREAD_OD, "0.823 in", 0, "0.823 in"),
        (Feature.THREAD_OD, "20.8..21", 0, "20.8..21 mm"),
        (Feature.PITCH, "18.1", 0, "10 pitches = 18.1 mm"),
        (Feature.PITCH, "14", 3, "14 tpi"),
        (Feature.SEAT_ANGLE, "37", 1, "37 deg half"),
        (Feature.SEAT_ANGLE, "74", 2, "74 deg included"),
        (Feature.TAPER, "0.5 8", None, "0.5 mm over 8 mm"),
        (Feature.TAPER, "0.5 mm over 8 mm", None, "0.5 mm over 8 mm"),
        (Feature.MARKING, "12L", None, "12L"),
    ],
)
def test_a_bare_number_takes_the_unit_shown(
    feature: Feature, typed: str, unit: int | None, text: str
) -> None:
    offered = units(feature, How.COUNTED, inch=False)
    assert typed_text(typed, None if unit is None else offered[unit], feature) == text


def test_the_inch_comes_first_where_it_was_chosen() -> None:
    assert [unit.label for unit in units(Feature.HEX, How.CALIPER, inch=True)] == ["in", "mm"]


@pytest.mark.parametrize(
    ("text", "feature", "how", "word"),
    [
        ("20.9 mm", Feature.THREAD_OD, How.CALIPER, ""),
        ("20.9 mm", Feature.THREAD_OD, How.RULE, "rule"),
        ("20.9 mm", Feature.THREAD_OD, How.COMBS, "comb page"),
        ("10 pitches = 18.1 mm", Feature.PITCH, How.COUNTED, ""),
        ("14 tpi", Feature.PITCH, How.COUNTED, "counted"),
        ("14 tpi", Feature.PITCH, How.GAUGE, ""),
        ("12L", Feature.MARKING, How.EYE, ""),
        ("0.5 mm over 8 mm", Feature.TAPER, How.CALIPER, ""),
    ],
)
def test_how_is_said_only_where_it_is_not_the_usual_way(
    text: str, feature: Feature, how: How, word: str
) -> None:
    assert how_word(text, feature, how) == word


def test_the_entry_line_keeps_the_end_of_a_long_value_in_sight() -> None:
    (line,) = entry_lines(Typing("9" * 60 + "8"), 20)
    assert line.text.endswith("8█")
    assert len(line.text) == 20
