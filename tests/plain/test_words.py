"""A word of the trade is explained at any prompt of a dialogue, and nothing else happens."""

import io
from functools import partial

from hypothesis import given, strategies

from identify.jobs.saving import Autosave
from identify.knowledge.glossary_tables import load_glossary
from identify.plain.console import Console
from identify.plain.dialogue import Dialogue
from identify.plain.words import word_told
from tests.plain.talk import engine, hold
from tests.shipped import knowledge

TOLD = partial(word_told, knowledge().catalogue, knowledge().book, "")


def test_a_word_is_told_at_the_tools_at_a_question_at_a_list_and_within_a_line(tmp_path) -> None:
    lines = ("? caliper", "1", "?crest", "", "? male", "male", "a", "? seat", "", "o", "?  pitch")
    spoken = io.StringIO()
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), spoken, {})
    console.finders.append(TOLD)
    dialogue = Dialogue(engine(), console, Autosave(tmp_path, draw=lambda: 0))
    dialogue.hold()
    glossary = load_glossary()
    said = " ".join(spoken.getvalue().split())
    for word in ("caliper", "crest", "male", "seat", "pitch"):
        assert glossary.named(word).meaning in said
    assert [each.entered for each in dialogue.state.answers] == ["male"]


def test_families_pairs_and_strange_words_are_answered_too() -> None:
    assert "What it is confused with" in TOLD("? flare37")
    assert "Seat gauge: 37 or 45 degrees" in TOLD("? 37 deg flare (JIC) or 45 deg flare (SAE 45°)")
    assert "Nearest: swivel" in TOLD("? swivle")


@given(strategies.text(max_size=30))
def test_whatever_is_typed_is_told_or_left_and_never_fails(line: str) -> None:
    told = TOLD(line.strip())
    assert bool(told) is (line.strip().startswith("?") and bool(line.strip()[1:].strip()))


def test_a_verdict_says_how_its_lesson_is_asked_for_and_so_it_is(tmp_path) -> None:
    said, _ = hold(tmp_path, "1", "1", "male", "20.9 mm", "v", "q")
    asked = " ".join(" ".join(said.split()).split("it is confused with: ")[1].split()[:2])
    assert "What it is confused with" in TOLD(asked)
    assert "What it is confused with" in TOLD("? JIC 8")
