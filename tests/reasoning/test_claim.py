"""Claims are weighed as sets, and never tell another story than the ranking does."""

import random
import re
from functools import cache

import pytest

from identify.errors import ReadingError, UnknownEndError
from identify.model.claim import Aspect, Said, Standing
from identify.model.feature import FEATURES, Feature
from identify.model.verdict import Verdict, VerdictKind
from identify.pages.claim import claim_blocks
from identify.pages.text import text_of
from identify.reading.parse import parse_readings
from identify.reasoning.claim import hold
from identify.simulation.lots import Lot
from identify.simulation.measuring import fill_sheet
from identify.simulation.people import Person
from tests.shipped import knowledge, shipped_engine

SHEETS = 60
MALE_8 = ("gender=male", "thread_od=18.9 mm", "pitch=16 tpi")


def told(words: str, *typed: str):
    verdict = shipped_engine().conclude(parse_readings(typed))
    return hold(shipped_engine(), Said(words), verdict)


def parts_of_claim(words: str, *typed: str) -> dict[Aspect, Standing]:
    return {each.aspect: each.standing for each in told(words, *typed).parts}


# ---- what words of the trade come to


def test_the_thread_stands_and_the_seat_is_open():
    found = parts_of_claim("JIC 8", *MALE_8)
    assert found[Aspect.THREAD] is Standing.STANDS
    assert found[Aspect.SEAT] is Standing.DOUBTFUL
    assert (
        parts_of_claim("JIC 8", *MALE_8, "seat_angle=37 deg half")[Aspect.SEAT] is Standing.STANDS
    )


def test_a_set_stands_where_all_that_is_left_is_in_it_and_says_what_is_open():
    typed = ("gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "taper=0.01 mm over 8 mm")
    found = told("half inch BSP", *typed)
    assert found.standing is Standing.STANDS
    assert len(found.open) > 1
    assert {each.end.id for each in found.open} <= {end.id for end in found.ends}
    assert found.check is not None  # which of them it is


def test_a_size_is_refuted_by_the_tube_though_its_thread_stands():
    typed = ("gender=male", "thread_od=21.9 mm", "pitch=1.5 mm", "tube_bore=15.1 mm")
    found = told("14S", *typed)
    assert found.standing is Standing.REFUTED
    assert [each.evidence.feature for each in found.against] == [Feature.TUBE_BORE]
    assert found.leader.end.size == "15L"
    stands = parts_of_claim("14S", *typed)
    assert (stands[Aspect.THREAD], stands[Aspect.SIZE]) == (Standing.STANDS, Standing.REFUTED)


def test_code_61_is_refuted_by_the_bolts_of_code_62_of_that_size():
    found = told("code 61 1 inch", "bolt_spacing_long=57.2 mm", "bolt_spacing_short=27.8 mm")
    assert found.standing is Standing.REFUTED
    assert {each.evidence.feature for each in found.against} == {
        Feature.BOLT_SPACING_LONG,
        Feature.BOLT_SPACING_SHORT,
    }
    stands = {each.aspect: each.standing for each in found.parts}
    assert stands == {Aspect.FAMILY: Standing.REFUTED, Aspect.SIZE: Standing.STANDS}


def test_nothing_is_refuted_by_being_rare():
    assert told("JIC 8", "gender=male").standing is Standing.DOUBTFUL
    assert Standing.REFUTED not in parts_of_claim("JIC 8", "gender=male").values()


def test_before_anything_is_measured_every_claim_is_open():
    found = told("14S")
    assert found.standing is Standing.DOUBTFUL
    assert found.against == ()


@pytest.mark.parametrize("words", ["no such end", "JIC 99", " "])
def test_words_that_name_nothing_are_refused(words):
    with pytest.raises((UnknownEndError, ReadingError)):
        told(words, "gender=male")


# ---- laws over simulated sheets


@cache
def sheets() -> list[tuple[Verdict, int]]:
    """Return verdicts on simulated sheets by all kinds of people, each with the row of the part."""
    known, engine = knowledge(), shipped_engine()
    lot, rng = Lot(known.catalogue, known.book), random.Random("claims")
    people = [Person(each, known.book) for each in known.book.people.observers.values()]
    found = []
    while len(found) < SHEETS:
        part = lot.draw(rng)
        sheet = fill_sheet(rng, part, rng.choice(people))
        some = [each for each in sheet if each.feature is Feature.GENDER or rng.random() < 0.7]
        if some:
            found.append((engine.conclude(some), part.row))
    return found


def claims_on(verdict: Verdict, row: int, number: int) -> list[str]:
    """Return ids and words to claim: what leads, what follows, the truth, and what is neither."""
    ends = knowledge().catalogue.ends
    ids = [each.end.id for each in verdict.ranking[:3]]
    ids += [ends[row].id] * (row >= 0) + [ends[(97 * number) % len(ends)].id]
    sets = [name.rpartition(":")[0].replace(":", " ") for name in ids]
    threads = [end.thread for each in verdict.ranking[:1] if (end := each.end).thread]
    return list(dict.fromkeys((*ids, *sets, *threads, "half inch BSP", "JIC 8", "14S")))


@pytest.mark.parametrize("number", range(SHEETS))
def test_a_claim_and_a_ranking_tell_one_story(number):
    verdict, row = sheets()[number]
    lead = verdict.ranking[0]
    own = {lead.end.id, *(end.id for end in lead.others)}
    for words in claims_on(verdict, row, number):
        try:
            found = hold(shipped_engine(), Said(words), verdict)
        except UnknownEndError:
            continue
        names = {end.id for end in found.ends}
        assert found.none_of_these == verdict.none_of_these
        assert found.suspects == verdict.suspects
        assert found.leader in (None, lead), words
        assert (found.leader is None) >= bool(names & own), words
        if found.standing is Standing.STANDS:
            assert names & own, words
            assert not verdict.suspects
        if found.standing is Standing.REFUTED:
            assert not names & own, words
            assert found.leader is lead
            assert found.against, words
        if names == {lead.end.id}:
            assert found.probability == pytest.approx(lead.probability, abs=1e-9)
            stands = verdict.kind is VerdictKind.IDENTIFIED and not verdict.suspects
            assert (found.standing is Standing.STANDS) == stands
        for rival in found.rivals:
            assert rival.end.id not in names
        ranked = {each.end.id: each.probability for each in verdict.ranking}
        for rival in found.rivals:
            if rival.end.id in ranked:
                assert rival.probability == pytest.approx(ranked[rival.end.id], abs=1e-9)


@pytest.mark.parametrize("number", range(0, SHEETS, 3))
def test_not_against_it_lists_only_what_is_not_against_it(number):
    verdict, row = sheets()[number]
    for words in claims_on(verdict, row, number)[:4]:
        found = hold(shipped_engine(), Said(words), verdict)
        against = {each.evidence.feature for each in found.against}
        for each in found.claimed.evidence:
            assert each.feature in against or each.side >= 0, words
        for each in found.against:
            assert each.evidence.side < 0 or each.times > 1, words


@pytest.mark.parametrize("number", range(0, SHEETS, 5))
def test_no_key_of_a_reading_is_shown(number):
    verdict, row = sheets()[number]
    for words in claims_on(verdict, row, number)[:4]:
        found = hold(shipped_engine(), Said(words), verdict)
        said = text_of(claim_blocks(found, knowledge().catalogue))
        keys = set(re.findall(r"[a-z]+(?:_[a-z]+)+", said))
        assert not keys & set(map(str, FEATURES))
        assert max(map(len, said.splitlines())) <= 80
