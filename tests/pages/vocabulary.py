"""Every word that a screen may show of tables, rules, drawings and keys."""

import re
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

from identify.drawing.ends import drawn_of
from identify.drawing.seat_words import RINGS, SHAPES
from identify.frozen import replace
from identify.knowledge.assembly_tables import build_assembly_rules
from identify.model.feature import FEATURES, SEEN
from identify.pages import words
from identify.pages.blocks import Block
from identify.pages.debrief import MARKS, debrief_blocks
from identify.pages.exercise import (
    bench_blocks,
    exercise_blocks,
    hint_words,
    need_blocks,
    practice_keys,
)
from identify.pages.lessons import pair_lesson
from identify.pages.progress import progress_blocks
from identify.pages.question import KEYS
from identify.pages.sheet_desk import desk_key_blocks
from identify.pages.text import text_of
from identify.practice.exercise import TITLES, Kind
from identify.practice.record import Logbook
from identify.practice.sitting import Sitting
from identify.practice.whole_part import menu
from identify.sheets.asking import SECTIONS
from identify.sheets.entries import ENTRIES
from tests.practice.proof import room
from tests.shipped import knowledge


def texts() -> Iterator[str]:
    """Yield what is shown, in pieces."""
    catalogue, book = knowledge().catalogue, knowledge().book
    for info in FEATURES.values():
        yield from (info.title, info.label, info.words, *info.choices)
    for question in book.questions:
        for each in (question, *question.wordings):
            yield from (each.question, *each.how_to, each.usual_mistake)
            yield from chain.from_iterable((one.label, one.line) for one in each.choices)
        yield question.why
    for end in catalogue.ends:
        yield from (end.form, end.seal, end.tell_by, *(seat.part for seat in end.seats))
        yield from drawn_names(end.id)
    for family in catalogue.families.values():
        yield from (family.name, family.about, family.usual_name)
    for rule in book.rules:
        yield from (rule.sentence, rule.because)
    for note in book.lookalikes:
        yield from (note.tell_apart, note.what_goes_wrong)
    yield from (caution.sentence for caution in book.cautions)
    yield from chain(SHAPES.values(), RINGS.values(), (seen.words for seen in SEEN.values()))
    yield from chain(words.TOOLS.values(), words.TOOL_NOTES.values(), words.CARE.values())
    yield from chain.from_iterable(words.ACCESS.values())
    yield from chain(TITLES.values(), MARKS.values(), (each.text for each in practice_keys()))
    yield from (said for _, said in (*KEYS, *words.HAZARDS.values()))
    yield from practised()
    yield from sheet_texts()


def sheet_texts() -> Iterator[str]:
    """Yield what the sheet of a hose asks and says."""
    for entry in ENTRIES:
        yield from (entry.title, entry.ask, *entry.choices)
    rules = build_assembly_rules()
    for step in rules.making:
        yield from (step.name, step.do, step.caution)
    for point in rules.measuring_points:
        yield from (*point.points, point.ask)
    yield from SECTIONS.values()
    yield from (block.text for block in desk_key_blocks())
    folder = Path(__file__).parents[1] / "sheets" / "goldens"
    yield from (page.read_text(encoding="utf-8") for page in sorted(folder.glob("*.txt")))


def practised() -> Iterator[str]:
    """Yield the pages of practice: an exercise of each kind, a wrong answer, its lesson."""
    ends = room().catalogue
    for kind in Kind:
        sitting = Sitting(room(), Logbook(None, "Anna"), only=kind)
        pages = [*exercise_blocks(sitting), Block(hint_words(sitting.hint(), room().book))]
        if sitting.whole:
            sitting.read(menu(room(), sitting.made)[0][0].feature)
            pages += [*bench_blocks(sitting), *need_blocks(sitting)]
        right = room().right(sitting.made)
        told = sitting.answer(next(e.key for e in sitting.made.options if e.key != right))
        pages += debrief_blocks(sitting, told)
        pages += progress_blocks(room(), replace(sitting.logbook.history, name=""))
        pages += pair_lesson(ends, room().book, told.truth.id, told.taken.id)
        yield text_of(pages)


def drawn_names(end_id: str) -> list[str]:
    """Return what the places of an end are called on its drawing."""
    end = knowledge().catalogue.by_id[end_id]
    drawn = drawn_of(end, knowledge().catalogue.thread_of(end))
    return [name.term for name in drawn.part.names]


def words_of(text: str) -> list[str]:
    """Return the words of a text in small letters; one joined by hyphens is its parts."""
    return re.findall(r"[a-z]{2,}", text.lower())
