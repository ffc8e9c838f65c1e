"""What a reading is said to say, and how little may name a row of weak support."""

from dataclasses import replace

import pytest

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How, Length, Reading
from identify.model.source import Confidence
from identify.model.verdict import PROBABLY_MISTAKEN, VerdictKind
from identify.pages.reasons import WORN, reason_words, strength_words
from identify.reasoning.engine import Engine
from identify.reasoning.posterior import evidence
from tests.ideal import ideal_readings
from tests.shipped import knowledge, shipped_engine

FAR_MM = 2.5  # beyond what wear, plating and a caliper explain for any length but a hexagon or hose
SPACINGS = (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)


def mm(reading: Reading) -> float:
    assert isinstance(reading.value, Length)
    return reading.value.mm


@pytest.fixture(scope="module")
def engine() -> Engine:
    return shipped_engine()


def readings_of(end: EndConnection) -> list[Reading]:
    thread = knowledge().catalogue.thread_of(end, end.seats[0].thread)
    return list(ideal_readings(end, end.seats[0], thread))


def lengths_of(end: EndConnection) -> list[Reading]:
    """Return the ideal lengths of a row that are no clue only."""
    return [
        each
        for each in readings_of(end)
        if FEATURES[each.feature].kind is Kind.LENGTH and not FEATURES[each.feature].clue
    ]


def one_of_each_form(engine: Engine) -> list[tuple[int, EndConnection]]:
    """Return the middle size of each form of each family, with its row."""
    forms: dict[tuple[str, str], list[tuple[int, EndConnection]]] = {}
    for row, end in enumerate(engine.catalogue.ends):
        forms.setdefault((end.family, end.form_key), []).append((row, end))
    return [sizes[len(sizes) // 2] for sizes in forms.values()]


def test_what_can_only_be_a_mistake_is_never_worded_as_support(engine: Engine) -> None:
    for row, end in one_of_each_form(engine):
        told = lengths_of(end)
        off = [replace(each, value=Length(mm(each) + FAR_MM), entered="") for each in told]
        for said in evidence(engine.posterior(off), row):
            if said.mistaken >= PROBABLY_MISTAKEN:
                assert said.side < 0, (end.id, said)
                words = strength_words(said)
                assert "against" in words or "be a mistake" in words, (end.id, said)
            else:  # such as a bore the tables do not give, or one made in several ways
                assert "above the" not in said.sentence, (end.id, said)


def test_an_ideal_reading_of_a_row_is_no_mistake_for_it(engine: Engine) -> None:
    for row, end in one_of_each_form(engine):
        for said in evidence(engine.posterior(lengths_of(end)), row):
            assert said.mistaken < PROBABLY_MISTAKEN, (end.id, said)


def test_one_reading_never_names_a_row_of_low_confidence(engine: Engine) -> None:
    low = [end for end in engine.catalogue.ends if end.confidence is Confidence.LOW]
    assert len(low) > 20
    for end in low:
        told = readings_of(end)
        spaced = [each for each in told if each.feature in SPACINGS]
        if len(set(map(mm, spaced))) == 1:
            told = [each for each in told if each not in spaced]
        else:
            spaced = []
        for given in filter(None, [*([each] for each in told), spaced]):
            state = engine.posterior(given)
            groups = engine.groups(state, 1)
            kind, _, _ = engine.settle(state, groups)
            if kind is VerdictKind.IDENTIFIED:
                named = engine.catalogue.ends[groups[0][0]]
                assert named.confidence is not Confidence.LOW, (end.id, given)


CRESTS = {"male": Feature.THREAD_OD, "female": Feature.THREAD_ID}
WEAR_MM = 0.2  # within what threads wear in `rules/observation.yaml`, far beyond a caliper's error


def test_a_thread_worn_beyond_its_limits_is_said_to_be_so_and_no_other(engine: Engine) -> None:
    """By the limits of a new thread: what lies outside them on the worn side is not to be used."""
    seen = 0
    for row, end in one_of_each_form(engine):
        thread = engine.catalogue.thread_of(end, end.seats[0].thread)
        if thread is None or end.gender not in CRESTS or len({s.thread for s in end.seats}) > 1:
            continue
        if (crest := thread.crest(end.gender)) is None:
            continue
        male = end.gender == "male"
        limit, away = (crest.low_mm, -WEAR_MM) if male else (crest.high_mm, WEAR_MM)
        told = {
            mm: evidence(engine.posterior([_crest_of(end, mm)]), row)[0]
            for mm in (limit + away, crest.middle_mm, limit)
        }
        assert not told[crest.middle_mm].worn, end.id
        assert not told[limit].worn, end.id
        if thread.taper or told[limit + away].mistaken >= PROBABLY_MISTAKEN:
            assert not told[limit + away].worn, end.id
            continue
        seen += 1
        assert told[limit + away].worn, end.id
        assert WORN in reason_words(told[limit + away])
        assert WORN not in reason_words(told[limit])
    assert seen >= 30


def _crest_of(end: EndConnection, mm: float) -> Reading:
    return Reading(CRESTS[end.gender], Length(mm), How.CALIPER, f"{mm:.2f} mm")
