"""An exhaustive two-step look-ahead, to see what the one-step choice of questions gives away."""

from collections.abc import Sequence

from identify.model.feature import CLUES, Feature
from identify.reasoning.answers import information, mixed
from identify.reasoning.engine import Engine
from identify.reasoning.hypotheses import NONE
from identify.reasoning.lockstep import alone
from identify.reasoning.openings import Offer
from tests.benchmark.interviews import Ask, Standing, adaptive, as_ask

LEAST_WEIGHT = 3e-4  # lighter hypotheses are not followed
LEAST_CHANCE = 0.01  # nor rarer answers


def two_step(at: Standing) -> Ask | None:
    """Return the question after whose every answer the best second question tells most a minute.

    Every pair of open questions is worked through. Clues come last, as the product has them; rules
    that ask first are heard only while they hold back a name.
    """
    engine, now = at.engine, at.now
    usual = adaptive(at)
    offers = alone(engine.openings(now, at.state.situation).all(), engine.chooser.gains)
    plain = [offer for offer in offers if offer.text.feature not in CLUES]
    if len(plain) < 2 or at.state.gender is None or at.held_back:
        return usual
    living = [
        (number, weight)
        for number, (weight, row) in enumerate(zip(now.weights, engine.space.rows, strict=True))
        if weight > LEAST_WEIGHT and row != NONE
    ]
    kinds = {
        offer.text.feature: [
            engine.space.spread(offer.text.feature).at(number) for number, _ in living
        ]
        for offer in plain
    }
    weights = [weight for _, weight in living]
    return as_ask(max(plain, key=lambda first: _worth(engine, first, plain, kinds, weights)))


def _worth(
    engine: Engine,
    first: Offer,
    offers: Sequence[Offer],
    kinds: dict[Feature, list[int]],
    weights: list[float],
) -> float:
    """Return bits a minute of a question and the best one after it."""
    feature = first.text.feature
    expected = [
        engine.chooser.predicted(feature, first.how, kind, first.gauges) for kind in kinds[feature]
    ]
    every = mixed([(w, answers) for w, answers in zip(weights, expected, strict=True) if answers])
    bits, minutes = first.bits, first.minutes
    for answer, share in enumerate(every.chances, every.first) if every else ():
        if share < LEAST_CHANCE:
            continue
        after = [
            weight * (answers.chance(answer) if answers else share)
            for weight, answers in zip(weights, expected, strict=True)
        ]
        whole = sum(after)
        after = [weight / whole for weight in after]
        best, time = 0.0, 0.0
        for second in offers:
            if second is first:
                continue
            gained = _gain(engine, second, kinds[second.text.feature], after)
            if gained / second.minutes > (best / time if time else 0.0):
                best, time = gained, second.minutes
        bits += share * best
        minutes += share * time
    return bits / minutes


def _gain(engine: Engine, offer: Offer, kinds: list[int], weights: list[float]) -> float:
    mass: dict[int, float] = {}
    for kind, weight in zip(kinds, weights, strict=True):
        mass[kind] = mass.get(kind, 0.0) + weight
    feature = offer.text.feature
    return engine.chooser.answered.get(feature, 1.0) * information(
        (weight, engine.chooser.predicted(feature, offer.how, kind, offer.gauges))
        for kind, weight in mass.items()
        if weight > 0
    )
