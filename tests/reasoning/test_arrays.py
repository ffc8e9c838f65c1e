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
from identify.model.verdict import VerdictKind
from identify.pages.as_json import verdict_json
from identify.reading.parse import parse_reading
from identify.reasoning.answers import TRIFLE
from identify.reasoning.beyond import EVERY_TOOL
from identify.reasoning.engine import ALL_TOOLS, Engine, Situation
from identify.reasoning.expert import met
from identify.reasoning.length_arrays import LengthArrays
from identify.reasoning.length_table import LengthTable
from identify.reasoning.naming import facts_of
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
    one, other = arrays.doubts(), plain.doubts()
    assert one.whole == pytest.approx(other.whole, rel=NEAR, abs=NEAR)
    for feature in Feature:
        assert one.bits(feature) == pytest.approx(other.bits(feature), rel=NEAR, abs=NEAR)
        counting = [  # which of two engines calls a trait by which number goes by what was asked
            {
                state.space.spread(feature).traits[number]: weight
                for number, weight in state.doubts().mass(feature).items()
                if weight > TRIFLE
            }
            for state in (arrays, plain)
        ]
        assert counting[0] == pytest.approx(counting[1], rel=NEAR)


@pytest.mark.parametrize("options", [{}, {"even": True}, {"care": CARES[0]}])
def test_by_arrays_or_one_by_one_the_whole_answer_is_the_same(options: dict[str, object]) -> None:
    told = knowledge()
    plain, arrays = (
        Engine(told.catalogue, told.book, told.hazards, arrays=by, **options)  # type: ignore[arg-type]
        for by in (False, True)
    )
    for sheet in simulated(told, 60, seed=21):
        for readings in (sheet, sheet[:3]):
            one, other = (json.dumps(verdict_json(e.conclude(readings))) for e in (plain, arrays))
            assert one == other


@pytest.mark.parametrize("feature", LENGTHS)
@settings(max_examples=12, deadline=None, derandomize=True)
@given(st.data())
def test_lengths_weighed_together_weigh_what_they_weigh_one_by_one(
    feature: Feature, data: st.DataObject
) -> None:
    info, model = FEATURES[feature], shipped_engine().space.model
    spread = shipped_engine().space.spread(feature)
    traits = spread.traits[: max(spread.of) + 1]
    mm = data.draw(st.floats(info.low, info.high))
    wide = data.draw(st.sampled_from([0.0, 0.0, 0.4]))
    reading = Reading(feature, Length(mm, wide), data.draw(st.sampled_from(list(How))), "")
    assert isinstance(reading.value, Length)
    alone = [weigh_length(reading, reading.value, each, model) for each in traits]
    for table in (LengthTable, LengthArrays):
        together = table(feature, traits, model).columns(reading)
        for one, other in zip(zip(*together, strict=True), alone, strict=True):
            assert one == pytest.approx(other, rel=1e-12)


BEFORE = [
    "thread_od=20.9 mm", "hex=27 mm by rule", "hose_bore=12.5 mm by eye", "tube_bore=8.1 mm",
    "pitch=14 tpi", "pitch=10 pitches = 15.1 mm", "seat_angle=37 half", "seat_shape=convex",
    "seat_angle=10 and 15.2 mm, 3 mm apart", "taper=0.5 mm over 8 mm", "taper=parallel",
]  # fmt: skip


def wishes_for(feature: Feature, rng: random.Random) -> Iterator[Wish]:
    """Yield wishes to know what a feature would tell: first, again, a third time, by another."""
    plain = shipped_engine()
    kinds = range(max(plain.space.spread(feature).of) + 1)
    read = [parse_reading(each) for each in BEFORE]
    own = [each for each in read if each.feature is feature]
    for tool, how in plain.chooser.questions[feature].taken_as.items():
        for number in (1, 2, 5, 20):
            some = rng.sample(kinds, min(number, len(kinds)))
            raw = [rng.random() ** 4 for _ in some]
            mass = {kind: each / sum(raw) for kind, each in zip(some, raw, strict=True)}
            mass[some[0]] /= 1e6  # a trifle, which does not count
            bag = GAUGES if tool not in GAUGES else frozenset({Tool(tool)})
            yield Wish(feature, how, mass, bag)
            for before in [(), *[(each,) for each in own], (*own[:1], *own[:1])]:
                if before:
                    yield Wish(feature, how, mass, bag, before)
                    yield Wish(feature, how, mass, bag, before, other_person=True)


def wishes_for_trials(rng: random.Random) -> Iterator[Wish]:
    """Yield wishes to know what trying the end on a known part would tell."""
    kinds = range(max(shipped_engine().space.spread(Feature.TRIAL_FIT).of) + 1)
    for name in rng.sample(sorted(knowledge().catalogue.threads), 12):
        for gender in ("male", "female"):
            mass = dict.fromkeys(rng.sample(kinds, 6), 1 / 6)
            yield Wish(Feature.TRIAL_FIT, How.EYE, mass, known=(gender, name))


ASKED_FOR = [each for each in shipped_engine().chooser.questions if each is not Feature.TRIAL_FIT]


def renumbered(wish: Wish) -> dict[int, float]:
    """Return what is likely by the numbers of the other engine: each gives its own, as asked."""
    plain, arrays = (each.space.spread(wish.feature) for each in (shipped_engine(), array_engine()))
    numbers = {kind: arrays.at(hypothesis) for hypothesis, kind in enumerate(plain.of)}
    return {numbers[kind]: weight for kind, weight in wish.mass.items()}


def test_what_answers_tell_is_the_same_together_and_one_by_one() -> None:
    rng = random.Random(7)
    wishes = [wish for feature in ASKED_FOR for wish in wishes_for(feature, rng)]
    wishes += wishes_for_trials(rng)
    assert {len(wish.before) for wish in wishes} == {0, 1, 2}
    plain, arrays = shipped_engine().chooser, array_engine().chooser
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


def test_rules_laid_out_hold_of_samples_where_each_holds_by_itself() -> None:
    engine, rules = shipped_engine(), knowledge().book.rules
    laid = LaidRules(rules, engine.catalogue.ends)
    for sheet in simulated(knowledge(), 60, seed=8):
        for readings in (sheet, sheet[: 1 + len(sheet) // 2]):
            state = engine.posterior(readings)
            for kind in VerdictKind:
                facts = facts_of(state, engine.groups(state, 8), kind)
                assert laid(facts) == list(met(rules, facts))
