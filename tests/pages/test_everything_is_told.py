"""Every sentence of the rules reaches a face, and every field of a table has a reader.

A sentence that is written down and never shown warns nobody.
"""

import ast
from collections.abc import Iterator
from dataclasses import fields, replace
from itertools import chain
from pathlib import Path

import pytest

from identify.interview.snapshot import Ask
from identify.model.connection import (
    AlsoSeen,
    EndConnection,
    Family,
    Figure,
    Hexagon,
    Rating,
    Seat,
)
from identify.model.rule import Caution, ExpertRule, LookalikeNote, Moment, QuestionText
from identify.model.source import Provenance, Source
from identify.model.thread import Band, Limits, Thread
from identify.model.verdict import Verdict, VerdictKind
from identify.pages.handover import mates_of_lead
from identify.pages.interview import access_blocks
from identify.pages.pair import lookalike_blocks
from identify.pages.question import answer_blocks, help_blocks
from identify.pages.tables import source_blocks
from identify.pages.text import text_of
from identify.pages.verdict import verdict_blocks, verdict_text
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings
from identify.reasoning.hazards import Hazards
from identify.reasoning.lookalikes import lookalikes_of
from tests.pages.told import end_text, pair_text
from tests.reasoning.witness import facts_for, fire
from tests.shipped import knowledge, shipped_engine

ROOT = Path(__file__).parent.parent.parent / "identify"
CATALOGUE, BOOK = knowledge().catalogue, knowledge().book
FLARE = ("gender=male", "thread_od=22.1 mm", "pitch=14 tpi", "seat_shape=convex",
         "seat_angle=37 deg half")  # fmt: skip


def flat(text: str) -> str:
    return " ".join(text.split())


def identified() -> Verdict:
    verdict = shipped_engine().conclude(with_gender(parse_readings(FLARE)))
    assert verdict.kind is VerdictKind.IDENTIFIED
    return verdict


def screen(verdict: Verdict) -> str:
    engine = shipped_engine()
    return flat(text_of(verdict_blocks(engine, verdict, mates_of_lead(engine, verdict))))


# ---- cautions, at the moment they are for


def test_what_comes_before_anything_is_undone_stands_beside_the_access() -> None:
    said = flat(text_of(access_blocks(BOOK)))
    for sentence in BOOK.cautions_at(Moment.BEFORE):
        assert sentence in said


@pytest.mark.parametrize("moment", [Moment.VERDICT, Moment.REPLACEMENT, Moment.LEAK])
def test_an_end_that_is_named_comes_with_what_is_to_be_minded(moment: Moment) -> None:
    verdict = identified()
    whole = flat(verdict_text(shipped_engine(), verdict, whole=True))
    assert BOOK.cautions_at(moment)
    for sentence in BOOK.cautions_at(moment):
        assert sentence in whole, sentence
        assert sentence in screen(verdict), sentence


def test_what_a_replacement_must_mind_follows_what_to_order() -> None:
    whole = flat(verdict_text(shipped_engine(), identified(), whole=True))
    first, after = whole.index("What to order"), whole.index("What goes on it")
    for sentence in BOOK.cautions_at(Moment.REPLACEMENT):
        assert sentence in whole[first:after], sentence
    assert whole.index("After fitting") > after
    for sentence in BOOK.cautions_at(Moment.LEAK):
        assert sentence in whole[whole.index("After fitting") :], sentence


def test_a_working_pressure_stands_beside_what_it_is_worth() -> None:
    said = flat(end_text(CATALOGUE, CATALOGUE.by_id["flare37:-8:male"]))
    assert BOOK.cautions_at(Moment.RATING)
    for sentence in BOOK.cautions_at(Moment.VERDICT, Moment.RATING):
        assert sentence in said


def test_every_caution_has_a_moment() -> None:
    assert [each.key for each in BOOK.cautions if not each.when] == []


# ---- lookalikes


@pytest.mark.parametrize("note", BOOK.lookalikes, ids=lambda note: f"{note.a}-{note.b}")
def test_what_goes_wrong_and_how_to_tell_is_said_of_every_named_pair(note: LookalikeNote) -> None:
    ends = [end for end in CATALOGUE.ends if end.id.startswith((f"{note.a}:", f"{note.b}:"))]
    pairs = [(one, other) for one in ends for other in ends if note in BOOK.notes_on(one, other)]
    assert pairs, "the note names no two ends of the tables"
    one, other = next((pair for pair in pairs if pair[0].gender == pair[1].gender), pairs[0])
    compared = flat(pair_text(one, other))
    danger = shipped_engine().risk.danger(one, other, 0.1)
    verdict = replace(identified(), dangers=(danger,), lookalikes=())
    shown = flat(verdict_text(shipped_engine(), verdict, whole=True))
    for sentence in (note.tell_apart, note.what_goes_wrong):
        assert sentence in compared
        assert sentence in shown
        assert sentence in screen(verdict)


def test_lookalikes_of_an_end_come_with_experience() -> None:
    end = CATALOGUE.by_id["flare37:-8:male"]
    found = lookalikes_of(CATALOGUE, end, BOOK.observation, Hazards(CATALOGUE))
    said = flat(text_of(lookalike_blocks(identified(), end, found, BOOK)))
    notes = [note for each in found for note in BOOK.notes_on(end, each.rival)]
    assert notes
    for note in notes:
        assert note.tell_apart in said
        assert note.what_goes_wrong in said


# ---- rules, questions, sources


@pytest.mark.parametrize("rule", BOOK.rules, ids=lambda rule: rule.key)
def test_a_rule_that_fires_is_said_with_its_reason(rule: ExpertRule) -> None:
    (warning,) = fire((rule,), facts_for(rule.when, CATALOGUE.ends))
    verdict = replace(identified(), warnings=(warning,), question=None, kind=VerdictKind.SHORTLIST)
    for said in (flat(verdict_text(shipped_engine(), verdict, whole=True)), screen(verdict)):
        assert rule.sentence in said
        assert rule.because in said


@pytest.mark.parametrize("text", BOOK.questions, ids=lambda text: text.feature)
def test_a_question_is_asked_with_all_there_is_to_say_of_it(text: QuestionText) -> None:
    ask = Ask(text, text.tools, text.tools[0], (text.why,), known="G 1/2 female")
    said = flat(text_of([*help_blocks(ask), *answer_blocks(ask)], numbered=True))
    every = (text.question, text.why, *text.how_to, text.usual_mistake, text.example)
    for sentence in (*every, *chain(*((each.label, each.line) for each in text.choices))):
        assert flat(sentence) in said


@pytest.mark.parametrize("text", BOOK.questions, ids=lambda text: text.feature)
def test_every_wording_of_a_question_is_said_with_its_tool(text: QuestionText) -> None:
    for wording in text.wordings:
        said = ""
        for tool in wording.tools or text.tools:
            put = text.put(tool, wording.gender or "male")
            ask = Ask(put, put.tools, tool, (put.why,))
            said += flat(text_of([*help_blocks(ask), *answer_blocks(ask)], numbered=True))
        every = (wording.question, *wording.how_to, wording.usual_mistake, wording.example)
        for sentence in (*every, *chain(*((each.label, each.line) for each in wording.choices))):
            assert flat(sentence) in said


def test_sources_of_the_rules_are_listed() -> None:
    said = flat(text_of(source_blocks(CATALOGUE, BOOK, ())))
    for source in BOOK.sources:
        assert source.title in said
        assert source.note in said


# ---- fields

NOUNS = (EndConnection, Seat, Hexagon, Rating, AlsoSeen, Figure, Family, Thread, Limits, Band,
         Source, Provenance, Caution, LookalikeNote, ExpertRule, QuestionText)  # fmt: skip


def read_outside_knowledge() -> set[str]:
    """Return the attributes that are read anywhere but where tables are loaded."""
    return set(chain.from_iterable(map(_attributes, ROOT.rglob("*.py"))))


def _attributes(path: Path) -> Iterator[str]:
    if path.relative_to(ROOT).parts[0] in ("knowledge", "model"):
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Load):
            yield node.attr


def test_every_field_of_a_table_or_rule_has_a_reader() -> None:
    read = read_outside_knowledge()
    unread = [
        f"{noun.__name__}.{each.name}"
        for noun in NOUNS
        for each in fields(noun)
        if each.name not in read
    ]
    assert unread == []
