"""What the engine works out column by column equals the same sums written out one by one."""

import math
from collections.abc import Callable
from operator import mul

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How, Length, Reading, lacked
from identify.model.rule import Access, Tool
from identify.model.verdict import Lack
from identify.reading.parse import parse_readings
from identify.reasoning.answers import entropy
from identify.reasoning.answers_again import Called
from identify.reasoning.beyond import NEARLY, further, lack_of
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.explain import comparison
from identify.reasoning.hypotheses import NONE
from identify.reasoning.likelihood import weigh
from identify.reasoning.lockstep import alone
from identify.reasoning.openings import ROUNDING
from identify.reasoning.posterior import evidence as evidence_of
from identify.reasoning.repeated import copied, leans_of
from identify.reasoning.scales import Scales, means
from identify.reasoning.subject import trait
from identify.reasoning.traits import Missing, Trait
from identify.reasoning.wear import wears
from identify.reasoning.weigh_length import Lengths, step_mm
from identify.reasoning.weigh_pitch import GAUGES
from tests.shipped import array_engine, shipped_engine
from tests.strategies import measured

NEAR = 1e-12
FEW = settings(max_examples=15, deadline=None, derandomize=True)


def plain_likelihoods(reading: Reading) -> list[tuple[float, float]]:
    """Likelihood and mistake part of a reading for each hypothesis, weighed anew for each."""
    space = shipped_engine().space
    feature, model = reading.feature, space.model
    return [weigh(reading, trait(feature, subject, model), model) for subject in space.subjects]


@FEW
@given(measured())
def test_the_posterior_is_prior_times_likelihoods(readings: tuple[Reading, ...]) -> None:
    engine = shipped_engine()
    weights = list(engine.space.prior)
    for reading in readings:
        weights = [
            w * chance for w, (chance, _) in zip(weights, plain_likelihoods(reading), strict=True)
        ]
    total = math.fsum(weights)
    state = engine.posterior(readings)
    assert list(state.weights) == pytest.approx([w / total for w in weights], rel=NEAR)
    rows = [0.0] * len(engine.catalogue.ends)
    none = 0.0
    for row, weight in zip(engine.space.rows, weights, strict=True):
        if row == NONE:
            none += weight / total
        else:
            rows[row] += weight / total
    assert list(state.rows) == pytest.approx(rows, rel=NEAR)
    assert state.none_of_these == pytest.approx(none, rel=NEAR)
    assert min(state.rows) > 0, "no reading sends an end to zero"


@FEW
@given(measured())
def test_evidence_is_the_likelihood_against_an_end_at_random(
    readings: tuple[Reading, ...],
) -> None:
    engine = shipped_engine()
    state = engine.posterior(readings)
    best = max(range(len(state.rows)), key=state.rows.__getitem__)
    said = evidence_of(state, best)
    seats = [way for way, row in enumerate(engine.space.rows) if row == best]
    for reading, evidence in zip(readings, said, strict=True):
        chances = [chance for chance, _ in plain_likelihoods(reading)]
        mean = math.fsum(p * c for p, c in zip(engine.space.prior, chances, strict=True))
        expected = [math.log(chances[way] / mean) for way in seats]
        assert any(evidence.weight_nats == pytest.approx(w, abs=NEAR) for w in expected)


@FEW
@given(measured())
def test_the_chance_of_a_mistake_is_summed_over_the_listed_rows(
    readings: tuple[Reading, ...],
) -> None:
    engine = shipped_engine()
    state = engine.posterior(readings)
    for each in state.weighed:
        pairs = plain_likelihoods(each.readings[0])
        plain = [wrong / chance for chance, wrong in pairs]
        listed = [share for share, row in zip(plain, engine.space.rows, strict=True) if row != NONE]
        of, wrong = engine.space.spread(each.feature).of, each.wrong_at(0)
        assert [wrong[kind] for kind in of[: engine.space.listed]] == pytest.approx(
            listed, rel=NEAR
        )
        total = sum(map(mul, state.weights, listed))
        assert state.mistaken(each, 0) == pytest.approx(total, rel=NEAR)


def test_ways_and_rows_are_one_relation() -> None:
    space = shipped_engine().space
    for row, ways in enumerate(space.ways):
        assert ways[0] == row
        assert [space.rows[way] for way in ways] == [row] * len(ways)
        assert len(ways) == len(space.ends[row].seats)
    assert all(row == NONE for row in space.rows[space.listed :])
    assert NONE not in space.rows[: space.listed]


@FEW
@given(measured())
def test_what_is_remembered_is_what_would_be_weighed_again(readings: tuple[Reading, ...]) -> None:
    engine = shipped_engine()
    for reading in readings:
        alone = (reading,)
        again = Scales(engine.space, engine.book.priors, means).weigh(alone)
        assert engine.weigh(alone)[:-1] == again[:-1]


@FEW
@given(measured())
def test_of_hypotheses_that_are_alike_a_reading_says_the_same(
    readings: tuple[Reading, ...],
) -> None:
    space = shipped_engine().space
    for reading in readings:
        feature, alikes = reading.feature, space.alike(reading.feature)
        for number, subject in enumerate(space.subjects):
            shown, alike = trait(feature, subject, space.model), alikes[number]
            own = comparison(feature, shown, subject)
            assert alike.compare(reading, reading.value) == own(reading, reading.value)
            assert alike.wears == wears(feature, shown, subject)


# ---- what is asked next: the first of the full list, found without working it out


SITUATIONS = st.builds(
    Situation,
    st.frozensets(st.sampled_from(tuple(Tool))),
    st.sampled_from(tuple(Access)),
    st.frozensets(st.sampled_from(tuple(Feature)), max_size=4),
    st.frozensets(st.sampled_from(tuple(Feature)), max_size=2),
)
ASKED = st.frozensets(st.sampled_from(tuple(Feature)), max_size=5)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured(), SITUATIONS, ASKED, ASKED)
def test_the_first_offer_is_the_first_of_the_full_list(
    readings: tuple[Reading, ...],
    situation: Situation,
    among: frozenset[Feature],
    needed: frozenset[Feature],
) -> None:
    engine = shipped_engine()
    state = engine.posterior((*readings, *readings[1:2]))
    gains = engine.chooser.gains
    every = alone(engine.openings(state, situation, needed).all(), gains)
    first = engine.openings(state, situation, needed).first()
    assert alone(first, gains) == next(iter(every), None)
    some = [offer for offer in every if offer.text.feature in among]
    first = engine.openings(state, situation, needed).first(among)
    assert alone(first, gains) == next(iter(some), None)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured())
def test_no_offer_tells_more_than_there_is_to_be_told(readings: tuple[Reading, ...]) -> None:
    engine = shipped_engine()
    openings = engine.openings(engine.posterior(readings), Situation(frozenset(Tool)))
    left = entropy(engine.posterior(readings).weights)
    for offer in alone(openings.all(), engine.chooser.gains):
        opening = openings.by_feature[offer.text.feature]
        assert offer.bits <= opening.most * ROUNDING <= left * ROUNDING**2
        assert opening.at_best <= offer.place


@settings(max_examples=60, deadline=None, derandomize=True)
@given(measured(), SITUATIONS, st.sampled_from([0.0, 0.05, 0.3]))
def test_what_is_missing_is_the_best_of_the_full_list(
    readings: tuple[Reading, ...], situation: Situation, least: float
) -> None:
    engine = shipped_engine()
    state = engine.posterior(readings)
    groups = engine.groups(state, 8)
    has = situation.tools, situation.access, situation.given_up
    chooser = engine.chooser
    found = alone(further(chooser, state, groups, *has, least), chooser.gains)
    openings = chooser.openings(state, lacked(state.readings), frozenset(Tool), Access.END_OFF)
    every = alone(openings.all(), chooser.gains)
    lacking = [
        (lack, offer)
        for offer in every
        if offer.bits >= least and (lack := lack_of(offer.text, offer.tool, *has))
    ]
    if not lacking:
        assert found is None
        return
    assert found is not None
    enough = NEARLY * max(offer.bits for _, offer in lacking)
    near = [each for each in lacking if each[1].bits >= enough]
    lack, offer = min(near, key=lambda each: (tuple(Lack).index(each[0]), -each[1].bits))
    assert (found.lack, found.question.feature, found.question.bits) == (
        lack,
        offer.text.feature,
        offer.bits,
    )


AGAIN = [
    (Feature.THREAD_OD, ("thread_od=20.9 mm",), How.CALIPER),
    (Feature.THREAD_OD, ("thread_od=20.9 mm", "thread_od=20.7 mm by rule"), How.RULE),
    (Feature.HEX, ("hex=27 mm",), How.CALIPER),
    (Feature.TUBE_BORE, ("tube_bore=12.2 mm", "tube_bore=12.9 mm"), How.CALIPER),
    (Feature.PITCH, ("pitch=14 tpi",), How.GAUGE),
    (Feature.PITCH, ("pitch=14 tpi", "pitch=10 pitches = 18 mm"), How.COUNTED),
    (Feature.SEAT_ANGLE, ("seat_angle=60 deg included",), How.GAUGE),
    (Feature.SEAT_SHAPE, ("seat_shape=concave", "seat_shape=flat by somebody else"), How.EYE),
    (Feature.TAPER, ("taper=1 mm over 12 mm",), How.CALIPER),
]


@pytest.mark.parametrize("made", [shipped_engine, array_engine])
@pytest.mark.parametrize(("feature", "texts", "how"), AGAIN)
def test_an_answer_again_is_the_weight_with_it_over_the_weight_without(
    feature: Feature, texts: tuple[str, ...], how: How, made: Callable[[], Engine]
) -> None:
    engine, model = made(), made().space.model
    before = parse_readings(texts)

    def together(readings: tuple[Reading, ...], trait_: Trait) -> float:
        if all(isinstance(each.value, Length) for each in readings):
            return Lengths(readings, model).weigh(trait_).likelihood
        singles = [weigh(each, trait_, model) for each in readings]
        return copied(leans_of(readings, model), singles).likelihood

    spread = engine.space.spread(feature)
    seen = 0
    for kind in range(max(spread.of) + 1):
        trait_ = spread.traits[kind]
        found = engine.chooser.predicted(feature, how, kind, before=before)
        if isinstance(trait_, Missing):
            assert found is None
            continue
        assert found is not None
        cells = {
            found.first + n: chance for n, chance in enumerate(found.chances) if chance > 1e-12
        }
        plain = {}
        for number in cells:
            if FEATURES[feature].kind is Kind.LENGTH:
                wide = step_mm(feature, how)
                reading = Reading(feature, Length((number + 0.5) * wide), how, "")
            else:
                called = Called(feature, how, model, GAUGES)
                place = number - called.first
                reading, wide = called.readings[place], called.wide[place]
            plain[number] = wide * together((*before, reading), trait_) / together(before, trait_)
        whole = max(1.0, sum(plain.values()))
        assert cells == pytest.approx({n: chance / whole for n, chance in plain.items()}, rel=1e-9)
        seen += 1
    assert seen >= 2
