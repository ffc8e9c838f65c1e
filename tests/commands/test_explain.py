"""`whichend explain`: words, the parts of an end, lessons; in text and as JSON."""

import json

import pytest

from identify.entry import main


def said(capsys, *words: str) -> str:
    assert main(["explain", *words]) == 0
    return capsys.readouterr().out


def test_a_word_is_explained_with_a_picture_and_its_source(capsys) -> None:
    text = said(capsys, "half", "angle", "--drawing", "ascii")
    assert "The angle from the middle line to one side of the cone." in text
    assert "half 37" in text
    assert "included angle" in text
    assert "common practice" in text
    assert text.isascii()


def test_a_picture_is_told_in_words_where_none_is_wanted(capsys) -> None:
    text = said(capsys, "nose", "--drawing", "none")
    assert "1 dot =" not in text
    assert "nose to the left" in " ".join(text.split())


def test_a_family_is_a_lesson_and_two_are_a_trap(capsys) -> None:
    lesson = said(capsys, "orfs", "--drawing", "none")
    assert "What it is confused with" in lesson
    assert "Sources" in lesson
    trap = " ".join(said(capsys, "flare45", "flare37", "--drawing", "none").split())
    assert "Seat gauge: 37 or 45 degrees from the middle line." in trap
    assert "can injure" in trap


def test_without_a_word_everything_is_listed(capsys) -> None:
    listed = said(capsys)
    assert "swivel" in listed
    assert "37 deg flare (JIC)" in listed


def test_the_parts_of_an_end_are_a_page(capsys) -> None:
    assert "shoulder: The step behind a thread" in said(capsys, "parts", "--drawing", "ascii")


def test_json_holds_a_term_all_terms_or_a_lesson(capsys) -> None:
    term = json.loads(said(capsys, "nose", "--json"))
    assert set(term) == {"term", "meaning", "also", "see", "picture", "source", "basis"}
    assert len(json.loads(said(capsys, "--json"))["terms"]) > 100
    lesson = json.loads(said(capsys, "flare37", "flare45", "--json"))["lesson"]
    assert sum("picture" in each for each in lesson) == 3


@pytest.mark.parametrize(
    ("words", "hint"),
    [
        (("swivle",), "Nearest: swivel"),
        (("flare37", "flare37"), "needs two"),
        (("zzzzz",), '"whichend explain" lists them'),
    ],
)
def test_what_is_not_known_is_said_with_the_nearest(words, hint: str, capsys) -> None:
    assert main(["explain", *words]) == 2
    assert hint in capsys.readouterr().err
