"""What the engine works out column by column equals the same sums written out one by one."""

import math

import pytest
from hypothesis import given, settings

from identify.model.reading import Reading
from identify.reasoning.hypotheses import NONE
from identify.reasoning.likelihood import weigh
from identify.reasoning.posterior import evidence as evidence_of
from identify.reasoning.posterior import weigh_all
from identify.reasoning.subject import trait
from tests.shipped import shipped_engine
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
        assert list(each.mistaken) == pytest.approx(listed, rel=NEAR)


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
        assert engine.weigh(alone) == weigh_all(alone, engine.space, engine.book.priors)
