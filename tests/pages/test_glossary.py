"""The glossary explains every term of the screens; its pages and the lessons say all there is.

`tests/references/plain_words.txt` lists the words of everyday English that our screens use. A word
that stands neither there nor in `rules/glossary.yaml` fails: add it to the one or to the other.
"""

from pathlib import Path

import pytest
from hypothesis import assume, given, settings, strategies

from identify.drawing.ends import named_section
from identify.errors import WhichendError
from identify.knowledge.glossary_tables import load_glossary
from identify.model.glossary import Term
from identify.pages.blocks import Block, Picture
from identify.pages.explain import explained as page_on
from identify.pages.glossary import (
    PARTS_OF,
    list_blocks,
    parts_blocks,
    term_blocks,
    term_json,
    term_of,
    terms_in,
)
from identify.pages.lessons import (
    example_of,
    family_lesson,
    lesson_json,
    note_on,
    pair_lesson,
    pair_title,
    traps_of,
)
from identify.pages.text import text_of
from tests.pages.vocabulary import drawn_names, texts, words_of
from tests.shipped import knowledge

CATALOGUE, BOOK = knowledge().catalogue, knowledge().book
GLOSSARY = load_glossary()
PLAIN = Path(__file__).parents[1] / "references" / "plain_words.txt"


def flat(blocks, style: str = "") -> str:
    return " ".join(text_of(blocks, style=style).split())


def explained() -> set[str]:
    words = {word for name in GLOSSARY.by_name for word in words_of(name)}
    return words | {f"{word}s" for word in words} | {f"{word}es" for word in words}


def test_every_word_on_a_screen_is_plain_or_has_an_entry() -> None:
    plain = set(PLAIN.read_text("utf-8").split()) | explained()
    strange = {word for text in set(texts()) for word in words_of(text)} - plain
    assert not strange, f"explain in rules/glossary.yaml or list as plain: {sorted(strange)}"


def test_no_term_is_listed_as_plain() -> None:
    names = {name for name in GLOSSARY.by_name if name.isalpha()}
    assert not names & set(PLAIN.read_text("utf-8").split())


def test_every_name_on_a_drawing_has_an_entry() -> None:
    for end in CATALOGUE.ends:
        for name in drawn_names(end.id):
            assert GLOSSARY.named(name), (end.id, name)


def test_the_parts_of_an_end_show_every_name_but_those_of_rare_ends() -> None:
    shown = {name for end in PARTS_OF for name in drawn_names(end)}
    every = {name for end in CATALOGUE.ends for name in drawn_names(end.id)}
    assert every - shown <= {
        "eye", "metal ring", "lip", "tube", "cutting ring", "ball nose", "bore", "body",
        "slot for the staple", "spigot", "compression sleeve", "valve", "pin",
    }  # fmt: skip
    said = flat(parts_blocks(CATALOGUE, GLOSSARY))
    for name in ("nut", "nose", "seat", "hexagon", "crest", "root", "shoulder", "groove"):
        assert name in shown
        assert GLOSSARY.named(name).meaning in said


@pytest.mark.parametrize("term", GLOSSARY.terms, ids=lambda term: term.name)
def test_a_term_is_told_whole(term: Term) -> None:
    blocks = term_blocks(CATALOGUE, term)
    said = flat(blocks)
    assert term.meaning in said
    assert all(name in said for name in (*term.names, *term.see))
    assert CATALOGUE.sources[term.source].title in said
    assert any(isinstance(block, Picture) for block in blocks) is bool(term.end)
    assert max(map(len, text_of(blocks, style="ascii").splitlines())) <= 80
    assert term_json(term)["meaning"] == term.meaning


def test_a_picture_shows_what_its_term_is_named_where_it_is_a_place() -> None:
    for term in GLOSSARY.terms:
        if term.view == "section" and term.name in {
            name for end in CATALOGUE.ends for name in drawn_names(end.id)
        }:
            end = CATALOGUE.by_id[term.end]
            labels = [note.label for note in named_section(end, CATALOGUE.thread_of(end)).notes]
            assert any(GLOSSARY.named(label) == term for label in labels), term.name


def test_a_word_is_found_by_any_of_its_names_in_any_letters_and_in_the_plural() -> None:
    assert term_of(GLOSSARY, "TPI").name == "threads per inch"
    assert term_of(GLOSSARY, "Seats").name == "seat"
    assert term_of(GLOSSARY, "  half   angle ").name == "half angle"


def test_a_longer_term_goes_before_a_shorter_one_within_it() -> None:
    found = [term.name for term in terms_in(GLOSSARY, "Press the pitch gauge into the crests.")]
    assert found == ["crest", "pitch gauge"]


def test_what_leads_and_what_is_asked_come_first_in_the_list() -> None:
    family = CATALOGUE.families["flare37"]
    first = (term_of(GLOSSARY, "crest"),)
    picks = [block.pick for block in list_blocks(CATALOGUE, GLOSSARY, "", first, (family,))]
    found = [pick for pick in picks if pick]
    assert found[:3] == ["parts", "family flare37", "term crest"]
    assert len(found) == len(set(found)) == 1 + len(GLOSSARY.terms) + len(CATALOGUE.families)


def test_a_search_finds_other_names_and_says_so_if_there_is_nothing() -> None:
    picks = [block.pick for block in list_blocks(CATALOGUE, GLOSSARY, "jic")]
    assert "term JIC" in picks
    assert "family flare37" in picks
    assert not any(block.pick for block in list_blocks(CATALOGUE, GLOSSARY, "xyzzy"))


# ---- lessons


@pytest.mark.parametrize("family", CATALOGUE.families.values(), ids=lambda family: family.key)
def test_a_lesson_tells_of_a_family_how_to_know_each_form_and_every_trap(family) -> None:
    blocks = family_lesson(CATALOGUE, BOOK, family)
    said = flat(blocks)
    ends = [end for end in CATALOGUE.ends if end.family == family.key]
    assert family.about in said
    assert family.refuse in said
    for end in {each.form_key: each for each in ends}.values():
        assert end.tell_by in said
        assert end.form in said
    assert sum(isinstance(block, Picture) for block in blocks) == 2 * len(
        {end.form_key for end in ends}
    )
    picks = {block.pick for block in blocks if isinstance(block, Block) and block.pick}
    for note in traps_of(BOOK, family.key):
        assert note.tell_apart in said
        assert f"trap {note.a} {note.b}" in picks
    assert "Sources" in said


@pytest.mark.parametrize("note", BOOK.lookalikes, ids=lambda note: f"{note.a}-{note.b}")
def test_a_lesson_on_a_trap_says_how_to_tell_what_goes_wrong_and_shows_both(note) -> None:
    assert note_on(CATALOGUE, BOOK, note.b, note.a) is note
    one, other = example_of(CATALOGUE, note.a, note.b)
    assert note in BOOK.notes_on(one, other)
    blocks = pair_lesson(CATALOGUE, BOOK, note.a, note.b)
    said = flat(blocks)
    assert note.tell_apart in said
    assert note.what_goes_wrong in said
    assert sum(isinstance(block, Picture) for block in blocks) == 3
    sources = CATALOGUE.sources | {each.key: each for each in BOOK.sources}
    assert sources[note.source].title in said
    assert len([each for each in lesson_json(blocks) if "picture" in each]) == 3


@given(strategies.sampled_from(CATALOGUE.ids), strategies.sampled_from(CATALOGUE.ids))
@settings(max_examples=25)
def test_any_two_ends_have_a_lesson_with_what_happens_and_who_says_so(one: str, two: str) -> None:
    assume(one != two)
    blocks = pair_lesson(CATALOGUE, BOOK, one, two)
    said = flat(blocks)
    assert sum(isinstance(block, Picture) for block in blocks) == 3
    assert "Source" in said
    for note in BOOK.notes_on(CATALOGUE.by_id[one], CATALOGUE.by_id[two]):
        assert note.tell_apart in said
        assert note.what_goes_wrong in said
        break


def test_a_lesson_on_two_that_are_the_same_is_refused() -> None:
    with pytest.raises(WhichendError, match="needs two"):
        pair_lesson(CATALOGUE, BOOK, "flare37", "flare37")


@pytest.mark.parametrize("family", CATALOGUE.families.values(), ids=lambda family: family.key)
def test_a_page_is_found_by_what_stands_on_the_screen(family) -> None:
    found = page_on(CATALOGUE, BOOK, GLOSSARY, family.title)
    assert found[0].text == family.title
    for note in traps_of(BOOK, family.key):
        title = pair_title(CATALOGUE, note.a, note.b)
        if "," not in title:
            assert page_on(CATALOGUE, BOOK, GLOSSARY, title)[0].text == title


def test_every_trap_is_in_the_lesson_of_both_its_families() -> None:
    for note in BOOK.lookalikes:
        for name in (note.a, note.b):
            assert note in traps_of(BOOK, name.split(":")[0])
