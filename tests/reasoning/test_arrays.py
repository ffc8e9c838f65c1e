"""The posterior summed by numpy, and lengths weighed together, against the one engine."""

import json
import random
from collections.abc import Iterator
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observer import CARES
from identify.model.reading import How, Length, Reading
from identify.model.rule import Tool
from identify.pages.as_json import verdict_json
from identify.reading.parse import parse_reading
from identify.reasoning.answers import entropy
from identify.reasoning.beyond import EVERY_TOOL
from identify.reasoning.engine import ALL_TOOLS, Engine, Situation
from identify.reasoning.expert import met
from identify.reasoning.length_arrays import LengthArrays
from identify.reasoning.length_table import LengthTable
from identify.reasoning.openings import Wish
from identify.reasoning.rules_laid import LaidRules
from identify.reasoning.weigh_length import weigh_length
from identify.reasoning.weigh_pitch import GAUGES
from tests.benchmark.speed import simulated
from tests.reasoning.witness import facts_for
from tests.shipped import array_engine, knowledge, shipped_engine
from tests.strategies import measured

NEAR = 1e-9
LENGTHS = [feature for feature, info in FEATURES.items() if info.kind is Kind.LENGTH]


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured())
def test_without_a_reading_the_row_leads_that_the_others_put_first(
    readings: tuple[Reading, ...],
) -> None:
    for engine in (shipped_engine(), array_engine()):
        whole = engine.posterior((*readings, *readings[:1]))
        for place, each in enumerate(whole.weighed):
            instead = engine.weigh(readings[:1]) if place == 0 else None
            others = readings if instead else readings[:place] + readings[place + 1 :]
            rows = engine.posterior(others).rows
            lead = whole.likeliest_without(each, instead)
            assert rows[lead] == pytest.approx(max(rows), rel=1e-13)


def test_together_or_alone_the_posterior_is_the_same() -> None:
    sheets = simulated(knowledge(), 30, seed=5)
    for engine in (shipped_engine(), array_engine()):
        for sheet, state in zip(sheets, engine.posteriors(sheets), strict=True):
            alone = engine.posterior(sheet)
            assert list(state.weights) == pytest.approx(list(alone.weights), rel=NEAR)
            assert state.readings == alone.readings
            assert state.none_of_these == pytest.approx(alone.none_of_these, rel=NEAR)
            assert [row for row, _ in state.standing] == [row for row, _ in alone.standing]
            assert dict(state.standing) == pytest.approx(dict(alone.standing), rel=NEAR)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured(), st.booleans())
def test_by_arrays_or_one_by_one_the_posterior_is_the_same(
    readings: tuple[Reading, ...], twice: bool
) -> None:
    if twice:
        readings = (*readings, *readings[-1:])
    plain, arrays = (engine.posterior(readings) for engine in (shipped_engine(), array_engine()))
    assert list(arrays.weights) == pytest.approx(list(plain.weights), rel=NEAR)
    assert list(arrays.rows) == pytest.approx(list(plain.rows), rel=NEAR)
    assert arrays.none_of_these == pytest.approx(plain.none_of_these, rel=NEAR)
    assert [row for row, _ in arrays.standing] == [row for row, _ in plain.standing]
    space = shipped_engine().space
    for kinds in (space.threads, space.families, space.sizes, space.other_sizes):
        assert arrays.totals(kinds) == pytest.approx(plain.totals(kinds), rel=NEAR)
        assert arrays.most(kinds)[0] == pytest.approx(plain.most(kinds)[0], rel=NEAR)
        assert arrays.most(kinds)[1] == plain.most(kinds)[1]
    assert arrays.doubt() == pytest.approx(plain.doubt(), rel=NEAR, abs=NEAR)
    for one, other in zip(arrays.weighed, plain.weighed, strict=True):
        assert one.mean == pytest.approx(other.mean, rel=NEAR)
        assert arrays.mistaken(one, 0) == pytest.approx(plain.mistaken(other, 0), rel=NEAR)
    for state in (arrays, plain):
        bounds = zip(state.mistaken_at_most(), state.mistaken_at_most(0.1), strict=True)
        for each, (closer, looser) in zip(state.weighed, bounds, strict=True):
            assert state.mistaken(each, 0) <= closer <= looser * (1 + NEAR)
    living, same = (state.living(1e-6, 1e-4) for state in (arrays, plain))
    assert list(living.numbers) == list(same.numbers)
    assert entropy(living.weights) == pytest.approx(entropy(same.weights), rel=NEAR, abs=NEAR)
    doubts = [state.doubts(list(Feature), same) for state in (arrays, plain)]
    for feature, *both in zip(Feature, *doubts, strict=True):
        assert both[0].bits == pytest.approx(both[1].bits, rel=NEAR, abs=NEAR)
        by_trait = [wish._replace(mass=renumbered(wish)) for wish in wishes]
    (together,) = arrays.gains([by_trait])
    for wish, bits in zip(wishes, together, strict=True):
        assert bits == pytest.approx(plain.gain(*wish), rel=NEAR, abs=NEAR), wish


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured(), st.booleans(), st.sampled_from([ALL_TOOLS, EVERY_TOOL, frozenset[Tool]()]))
def test_what_is_open_is_the_same_by_arrays(
    readings: tuple[Reading, ...], twice: bool, tools: frozenset[Tool]
) -> None:
    if twice:
        readings = (*readings, *readings[-1:])
    for needed, asked in (((), ()), ((Feature.PITCH,), (Feature.PITCH, Feature.SEAT_SHAPE))):
        plain, arrays = (
            engine.openings(engine.posterior(readings), Situation(tools), needed, asked).by_feature
            for engine in (shipped_engine(), array_engine())
        )
        assert list(plain) == list(arrays)
        for one, other in zip(plain.values(), arrays.values(), strict=True):
            for name in ("text", "tools", "gauges", "before", "put_off"):
                assert getattr(one, name) == getattr(other, name)
            for name in ("share", "worth", "most"):
                assert getattr(other, name) == pytest.approx(getattr(one, name), rel=NEAR, abs=NEAR)


def test_rules_laid_out_hold_where_each_holds_by_itself() -> None:
    rules, ends = knowledge().book.rules, knowledge().catalogue.ends
    for rule in rules:
        found = facts_for(rule.when, ends)
        alone = replace(found, ranking=found.ranking[:1], families=found.families[:1])
        kinds = (found, replace(found, readings={}), alone)
        for facts in kinds:
            laid = LaidRules(rules, facts.ends)(facts)
            assert laid == list(met(rules, facts))
        assert rule in LaidRules(rules, found.ends)(found)
