"""Screens report what was pressed and change nothing themselves."""

import pytest
from textual.message import Message

from identify.drawing.style import Style
from identify.model.feature import Feature
from identify.model.rule import Access, Tool
from identify.tui import messages
from identify.tui.screens.choosing import AnswersScreen, ToolsScreen
from identify.tui.screens.interview import InterviewScreen
from identify.tui.screens.reading import VerdictScreen, WhyScreen
from identify.tui.screens.search import TablesScreen, WhyNotSearchScreen
from tests.tui.stage import perform
from tests.tui.world import CONE, ENGINE, FLARE, SNAPSHOTS

SIZE = (80, 24)


def reports(name: str, *keys: str) -> list[Message]:
    def make() -> InterviewScreen:
        return InterviewScreen(ENGINE, SNAPSHOTS[name], Style.BRAILLE)

    return perform(make, SIZE, *keys)[1]


@pytest.mark.parametrize(
    ("state", "keys", "expected"),
    [
        ("start", "1", messages.Answered(Feature.GENDER, "male")),
        ("start", "0", messages.CannotTell(Feature.GENDER)),
        ("choice", "2", messages.Answered(Feature.TAPER, "tapered")),
        ("choice", ("enter", "0", "full_stop", "5", "space", "8", "enter"),
         messages.Answered(Feature.TAPER, "0.5 8")),
        ("halfway", ("1", "8", "full_stop", "1", "enter"),
         messages.Answered(Feature.PITCH, "18.1")),
        ("tool", ("1", "4", "enter"), messages.Answered(Feature.PITCH, "14")),
        ("tool", ("down", "down", "enter"), messages.Answered(Feature.PITCH, "19 tpi")),
        ("tool", ("down", "1", "9", "enter"), messages.Answered(Feature.PITCH, "19")),
        ("tool", ("0", "enter"), messages.CannotTell(Feature.PITCH)),
        ("tool", ("enter", "2", "8", "enter"), messages.Answered(Feature.PITCH, "28")),
        ("halfway", "m", messages.ToolTurned()),
        ("halfway", ("0", "enter"), messages.CannotTell(Feature.PITCH)),
        ("chosen", "u", messages.UnitTurned()),
        ("chosen", "e", messages.OnceMoreWanted()),
        ("chosen", "p", messages.AnotherWanted()),
        ("halfway", "v", messages.Opened("verdict")),
        ("halfway", "y", messages.Opened("why")),
        ("halfway", "w", messages.WriteWanted()),
        ("halfway", ("question_mark",), messages.Opened("help")),
        ("halfway", "c", messages.ThemeWanted()),
        ("halfway", "n", messages.Opened("onward")),
        ("halfway", "l", messages.HandWanted("label")),
        ("halfway", "z", messages.Opened("lookalikes")),
        ("tool", "14", messages.Answered(Feature.PITCH, "14")),
        ("halfway", "f", messages.SteppedForward()),
        ("halfway", "q", messages.Left()),
        ("halfway", "b", messages.SteppedBack()),
        ("suspect", "r", messages.RetakeWanted()),
        ("given-up", ("enter",), messages.Opened("verdict")),
        ("identified", ("enter",), messages.Opened("verdict")),
    ],
)  # fmt: skip
def test_the_interview_reports(state: str, keys: str | tuple[str, ...], expected: Message) -> None:
    (found,) = reports(state, *keys)
    assert type(found) is type(expected)
    assert _fields(found) == _fields(expected)


def _fields(message: Message) -> dict[str, object]:
    names = getattr(message, "__dataclass_fields__", {})
    return {name: getattr(message, name) for name in names}


@pytest.mark.parametrize("digit", "0123456789")
def test_no_place_in_the_list_is_sent_where_leaves_are_listed(digit: str) -> None:
    assert reports("tool", digit) == []
    assert reports("tool", digit, digit) == []


def test_letters_are_typed_once_something_stands_on_the_line() -> None:
    assert reports("halfway", "1", "8", "v", "q", "b", "n") == []


def test_what_was_typed_stays_when_it_could_not_be_read() -> None:
    def make() -> InterviewScreen:
        return InterviewScreen(ENGINE, SNAPSHOTS["misread"], Style.BRAILLE)

    text, _ = perform(make, SIZE, "9", "9")
    assert "> 99" in text
    assert '! "20,4,1" is not a length' in text


def test_tools_are_ticked_and_access_ends_it() -> None:
    def make() -> ToolsScreen:
        return ToolsScreen(ENGINE, SNAPSHOTS["start"], frozenset({Tool.CALIPER}), "")

    _, (found,) = perform(make, SIZE, "5", "1", "enter", "2")
    assert isinstance(found, messages.Prepared)
    assert found.tools == {Tool.SEAT_GAUGE}
    assert found.access is Access.END_ON_MACHINE


def test_who_measures_is_chosen_on_a_page_of_its_own() -> None:
    def make() -> ToolsScreen:
        return ToolsScreen(ENGINE, SNAPSHOTS["start"], frozenset({Tool.CALIPER}), "")

    text, _ = perform(make, SIZE, "9")
    assert "In doubt leave it at: not told." in " ".join(text.split())
    text, _ = perform(make, SIZE, "9", "3")
    assert "9  Who measures? Hurried: " in text
    _, (found,) = perform(make, SIZE, "9", "3", "enter", "1")
    assert found == messages.Prepared(frozenset({Tool.CALIPER}), Access.END_OFF, "hurried")
    _, (found,) = perform(make, SIZE, "9", "3", "9", "5", "enter", "1")
    assert found == messages.Prepared(frozenset({Tool.CALIPER}), Access.END_OFF, "")


def test_nothing_to_hand_is_one_key() -> None:
    def make() -> ToolsScreen:
        return ToolsScreen(ENGINE, SNAPSHOTS["start"], frozenset({Tool.CALIPER}), "")

    _, (found,) = perform(make, SIZE, "0", "1")
    assert isinstance(found, messages.Prepared)
    assert found.tools == frozenset()


@pytest.mark.parametrize(
    ("keys", "expected"),
    [
        (("2", "1"), messages.Asked(Feature.THREAD_OD)),
        (("2", "2"), messages.Asked(Feature.THREAD_OD, once_more=True)),
        (("2", "3"), messages.Asked(Feature.THREAD_OD, once_more=True, other_person=True)),
        (("2", "4"), messages.TakenBack(Feature.THREAD_OD)),
        (("2", "5"), messages.CannotTell(Feature.THREAD_OD)),
        (("4",), messages.Asked(Feature.TAPER)),
        (("r",), messages.Asked(Feature.THREAD_OD)),
        (("b",), messages.WentBack()),
    ],
)
def test_any_answer_can_be_changed(keys: tuple[str, ...], expected: Message) -> None:
    def make() -> AnswersScreen:
        return AnswersScreen(ENGINE, SNAPSHOTS["suspect"])

    _, (found,) = perform(make, SIZE, *keys)
    assert type(found) is type(expected)
    assert _fields(found) == _fields(expected)


def test_search_types_digits_then_chooses_by_them() -> None:
    _, (found,) = perform(
        lambda: TablesScreen(ENGINE, SNAPSHOTS["halfway"]), SIZE, *"1/2 flare", "enter", "1"
    )
    assert isinstance(found, messages.Opened)
    assert (found.screen, found.end) == ("end", FLARE.id)


def test_why_not_asks_for_the_end_chosen() -> None:
    _, (found,) = perform(
        lambda: WhyNotSearchScreen(ENGINE, SNAPSHOTS["halfway"]), SIZE, *"gas", "enter", "1"
    )
    assert isinstance(found, messages.Opened)
    assert (found.screen, found.end) == ("why_not_end", "gas:G1/2:male")


@pytest.mark.parametrize("key", ["b", "escape"])
def test_back_has_three_keys(key: str) -> None:
    _, (found,) = perform(lambda: WhyScreen(ENGINE, SNAPSHOTS["halfway"]), SIZE, key)
    assert isinstance(found, messages.WentBack)


def test_a_verdict_leads_to_the_row_of_the_tables() -> None:
    _, (found,) = perform(lambda: VerdictScreen(ENGINE, SNAPSHOTS["identified"], None), SIZE, "1")
    assert isinstance(found, messages.Opened)
    assert (found.screen, found.end) == ("end", CONE.id)


def test_cannot_tell_leaves_nothing_on_the_entry_line() -> None:
    """The same question may come back at once, and a digit typed then begins anew."""

    def make() -> InterviewScreen:
        return InterviewScreen(ENGINE, SNAPSHOTS["halfway"], Style.BRAILLE)

    text, (found,) = perform(make, SIZE, "0", "enter", "9")
    assert isinstance(found, messages.CannotTell)
    assert "> 9" in text
