"""The hypotheses read from a layout against those laid out anew: every figure the same."""

import pytest

from identify.knowledge.loading import build_knowledge
from identify.model.feature import Feature
from identify.model.observer import CARES
from identify.model.reading import Reading
from identify.pages.as_json import verdict_json
from identify.reasoning.engine import Engine
from identify.reasoning.hypotheses import build_hypotheses
from identify.reasoning.layout import laid_out, lay_out
from tests.benchmark.speed import simulated
from tests.shipped import knowledge

KNOWN = knowledge()
BOOK, CATALOGUE = KNOWN.book, KNOWN.catalogue
LAYOUT = lay_out(CATALOGUE, BOOK)


@pytest.mark.parametrize("even", [False, True])
def test_columns_and_subjects_are_those_laid_out_anew(even: bool) -> None:
    plain = build_hypotheses(CATALOGUE, BOOK.observation, BOOK.priors, even=even)
    laid = laid_out(LAYOUT, CATALOGUE, BOOK.observation, even=even)
    for name in ("rows", "prior", "ways", "listed", "kin"):
        assert getattr(laid, name) == getattr(plain, name), name
    for name in ("families", "threads", "sizes", "other_sizes"):
        here, there = getattr(laid, name), getattr(plain, name)
        assert here._replace(of=tuple(here.of)) == there, name
    assert len(laid.subjects) == len(plain.subjects)
    assert tuple(laid.subjects) == tuple(plain.subjects)
    assert laid.subjects[3:7] == tuple(plain.subjects[3:7])


@pytest.mark.parametrize("feature", Feature)
def test_every_trait_is_that_worked_out_anew(feature: Feature) -> None:
    plain = build_hypotheses(CATALOGUE, BOOK.observation, BOOK.priors).spread(feature)
    laid = laid_out(LAYOUT, CATALOGUE, BOOK.observation).spread(feature)
    assert list(laid.of) == list(plain.of)
    assert laid.traits[3:5] == plain.traits[3:5]
    assert list(laid.traits) == plain.traits
    assert [type(each) for each in laid.traits] == [type(each) for each in plain.traits]
    assert laid.at(7) == plain.at(7)


def test_every_expected_answer_is_that_worked_out_anew() -> None:
    engines = [Engine(CATALOGUE, BOOK, layout=layout) for layout in (None, LAYOUT)]
    looked_at = 0
    for feature, text in engines[0].chooser.questions.items():
        if feature is Feature.TRIAL_FIT:
            continue
        spread = engines[0].space.spread(feature)
        list(spread.of)
        for how in {text.taken_as[tool] for tool in text.tools}:
            for kind in range(0, len(spread.traits), 5):
                plain, laid = (each.chooser.predicted(feature, how, kind) for each in engines)
                assert plain == laid
                assert type(plain) is type(laid)
                looked_at += 1
    assert looked_at > 300


def told(engine: Engine, readings: tuple[Reading, ...]) -> dict[str, object]:
    """Return a verdict as it is written: sums in another order may differ in the last digit."""
    return verdict_json(engine.conclude(readings))


def test_verdicts_are_the_same_with_and_without() -> None:
    plain, laid = (
        Engine(CATALOGUE, BOOK, KNOWN.hazards, layout=layout) for layout in (None, LAYOUT)
    )
    for sheet in [(), *simulated(KNOWN, 25, seed=3)]:
        for readings in (sheet, sheet[:2]):
            assert told(plain, readings) == told(laid, readings)


@pytest.mark.parametrize("care", CARES)
def test_whoever_measures_the_layout_says_what_is_laid_out_anew(
    care: str,
) -> None:
    plain, laid = (
        Engine(CATALOGUE, BOOK, KNOWN.hazards, care=care, layout=layout)
        for layout in (None, LAYOUT)
    )
    for feature in Feature:
        assert list(laid.space.spread(feature).of) == list(plain.space.spread(feature).of)
        assert list(laid.space.spread(feature).traits) == plain.space.spread(feature).traits
    for sheet in simulated(KNOWN, 12, seed=8):
        for readings in (sheet, sheet[:2]):
            assert told(plain, readings) == told(laid, readings)


def test_what_is_compiled_is_the_layout() -> None:
    assert build_knowledge().layout == LAYOUT
