"""Practice in lines: every kind of exercise is put, answered, and told of at once."""

import io
from pathlib import Path

import pytest

from identify.plain.console import Console
from identify.plain.practice import Trainer
from identify.practice.exercise import CANNOT_TELL, Kind
from identify.practice.judging import Mark
from identify.practice.record import Logbook
from identify.practice.schedule import kind_of
from identify.practice.sitting import Sitting
from tests.practice.proof import room


def hold(folder: Path, kind: Kind, *lines: str, style: str = "") -> tuple[str, Sitting]:
    """Return what was said, and the sitting as it ended."""
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    sitting = Sitting(room(), Logbook(folder, "Anna"), only=kind)
    Trainer(sitting, console, style).hold()
    return spoken.getvalue(), sitting


def number(sitting: Sitting, key: str) -> str:
    return str([each.key for each in sitting.made.options].index(key) + 1)


def opened(folder: Path, kind: Kind) -> Sitting:
    sitting = Sitting(room(), Logbook(folder, "Anna"), only=kind)
    sitting.logbook.close()
    return sitting


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PART])
def test_a_right_answer_is_told_with_readings_quickest_way_and_machine(
    kind: Kind, tmp_path: Path
) -> None:
    sitting = opened(tmp_path, kind)
    said, after = hold(tmp_path, kind, number(sitting, room().right(sitting.made)))
    assert "\nRight.\n" in said
    for word in ("It is", "What each reading says", "Quickest", "Machine"):
        assert f"\n{word}" in said
    assert "fitted in its place" in " ".join(said.split())
    assert after.logbook.history.done[0].mark is Mark.RIGHT


def test_the_whole_part_is_read_named_and_compared_with_the_engines_way(tmp_path: Path) -> None:
    sitting = opened(tmp_path, Kind.PART)
    right = number(sitting, room().right(sitting.made))
    said, after = hold(tmp_path, Kind.PART, "r", "1", "r", "1", right)
    assert said.count("Read so far") >= 2
    assert "The engine's way" in said
    assert "you: 2 readings" in " ".join(said.split())
    assert after.logbook.history.done[0].minutes > 0


def test_cannot_tell_asks_what_is_needed_and_enter_goes_back(tmp_path: Path) -> None:
    sitting = opened(tmp_path, Kind.PART)
    cannot = number(sitting, CANNOT_TELL)
    said, after = hold(tmp_path, Kind.PART, cannot, "", cannot, "1")
    assert said.count("Cannot tell. What do you need?") == 2
    assert after.logbook.history.done[0].said == CANNOT_TELL


def test_a_hint_counts_and_does_not_name_the_answer(tmp_path: Path) -> None:
    sitting = opened(tmp_path, Kind.PIPE)
    said, after = hold(tmp_path, Kind.PIPE, "h", number(sitting, room().right(sitting.made)))
    hint = next(line for line in said.splitlines() if line.startswith("Hint"))
    assert not any(option.words in hint for option in sitting.made.options)
    assert after.logbook.history.done[0].hints == 1


def test_anything_else_typed_changes_nothing(tmp_path: Path) -> None:
    said, after = hold(tmp_path, Kind.SIZE, "0", "99", "", "male", "²", "g", "q")
    assert said.count("Type a number from 1 to") == 5
    assert "Nothing answered yet." in said
    assert not after.logbook.history.done


def test_pictures_are_told_in_words_or_drawn(tmp_path: Path) -> None:
    words, _ = hold(tmp_path, Kind.LEAF, "q")
    assert "it fits all along" in words
    drawn, _ = hold(tmp_path, Kind.LEAF, "q", style="ascii")
    assert "it fits all along" not in drawn
    assert max(map(len, drawn.splitlines())) <= 80


def test_the_lesson_on_the_pair_is_opened_after_an_answer(tmp_path: Path) -> None:
    said, _ = hold(tmp_path, Kind.PIPE, "1", "2", "q")
    assert "What happens when one takes the other's place" in said


def test_an_answer_may_be_typed_by_its_words_if_only_one_has_them(tmp_path: Path) -> None:
    said, after = hold(tmp_path, Kind.PIPE, "bsp", "npt")
    assert said.count("Type a number from 1 to") == 1
    assert after.logbook.history.done[0].said == "NPT"


def test_a_whole_part_may_be_named_in_own_words(tmp_path: Path) -> None:
    sitting = opened(tmp_path, Kind.PART)
    truth = sitting.made.truth
    said, after = hold(tmp_path, Kind.PART, "xyzzy", truth.gender, f"{truth.family} {truth.size}")
    assert "xyzzy" in said
    assert "Add a word, or the size." in " ".join(said.split())
    assert after.logbook.history.done[0].said == room().right(sitting.made)


def test_a_pair_is_chosen_before_or_after_an_answer(tmp_path: Path) -> None:
    said, after = hold(
        tmp_path, Kind.PIPE, "s", "leaf 28", "1", "s", "xyzzy", "", "1", "s", "", "1"
    )
    kinds = [kind_of(each) for each in after.logbook.history.done]
    assert kinds == [Kind.LEAF]
    assert "No pair bears these words." in said
    assert after.made.pair in room().pairs
