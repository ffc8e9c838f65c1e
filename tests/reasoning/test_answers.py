"""The answers expected of a measurement, and what they tell: by hand, and by the posterior itself.

The law: what the chooser expects of a measurement is what the posterior gains on readings that are
drawn from the model's own expectation. Origins are left out, because their factors by region do
not average to 1, and marks, because nothing is foreseen of them.
"""

import math
import random
import statistics
from collections.abc import Iterator, Mapping

import pytest

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How, Pitch, Reading
from identify.model.rule import Tool
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings
from identify.reasoning.answers import (
    TRIFLE,
    Answers,
    Anywhere,
    answers_called,
    answers_of,
    information,
)
from identify.reasoning.likelihood import answers, weigh
from identify.reasoning.traits import ABSENT, UNKNOWN, Cone, ThreadPitch, Trait
from identify.reasoning.weigh_angle import angles_said
from identify.reasoning.weigh_pitch import GAUGES, leaves_at_hand
from identify.reasoning.weigh_trial import answers_trial, known_parts, weigh_trial
from tests.reasoning.person import MODEL, draw, highest_cell, said, trial_said
from tests.shipped import knowledge, shipped_engine

ENGINE = shipped_engine()
NOT_FORESEEN = (Feature.ORIGIN, Feature.MARKING, Feature.TRIAL_FIT)
WAYS = [
    (text.feature, how)
    for text in knowledge().book.questions
    if text.feature not in NOT_FORESEEN
    for how in sorted({text.taken_as[tool] for tool in text.tools})
]
NEAR = {Feature.HEX: 1.25, Feature.TUBE_BORE: 1.5}  # guesses are drawn with a broad pen
DRAWS = 500
LIKELY = 0.02  # of the likeliest answer; rarer ones lie in tails
SURE = 4.5  # standard errors; of a hundred comparisons none lies beyond by chance


def traits_of(feature: Feature) -> set[Trait]:
    spread = ENGINE.space.spread(feature)
    return {spread.traits[number] for number in spread.of}


# --- information, worked by hand ---------------------------------------------------------------


def told(*rows: tuple[float, list[float] | None]) -> float:
    return information((weight, row and answers_called(row)) for weight, row in rows)


def test_a_perfect_answer_on_two_even_kinds_is_one_bit() -> None:
    assert told((0.5, [1, 0]), (0.5, [0, 1])) == pytest.approx(1)


def test_an_answer_that_is_always_the_same_tells_nothing() -> None:
    assert told((0.5, [1.0]), (0.5, [1.0])) == 0
    assert told((1.0, [0.5, 0.5])) == 0


def test_an_answer_wrong_one_time_in_ten_is_the_binary_channel() -> None:
    # Capacity of the binary symmetric channel at 0.1: 1 - H(0.1) = 1 - 0.468996 bits.
    assert told((0.5, [0.9, 0.1]), (0.5, [0.1, 0.9])) == pytest.approx(1 - 0.468996, abs=1e-6)


def test_four_even_kinds_are_two_bits_and_a_lopsided_pair_is_less_than_one() -> None:
    assert told(*((0.25, [n == k for n in range(4)]) for k in range(4))) == pytest.approx(2)
    # Entropy of 0.9 and 0.1: 0.468996 bits.
    assert told((0.9, [1, 0]), (0.1, [0, 1])) == pytest.approx(0.468996, abs=1e-6)


def test_what_cannot_be_foreseen_counts_for_nothing() -> None:
    assert told((0.25, [1, 0]), (0.25, [0, 1]), (0.5, None)) == pytest.approx(0.5)
    assert told((1.0, None)) == 0


def test_an_answer_half_of_them_never_give_is_worth_what_it_tells_when_it_comes() -> None:
    # Both even. One answers always, the other half the time, each with a word of its own: three
    # times in four an answer comes, and then one bit is gone.
    assert told((0.5, [1, 0]), (0.5, [0, 0.5])) == pytest.approx(0.75)


def test_mistakes_that_all_suffer_alike_are_summed_over_all_cells() -> None:
    """Two kinds with a cell each, and one reading in five anywhere on 40 cells."""
    far = Anywhere(0.2, math.log(40 / 1))
    alike = [far.share / (cell + 0.5) / far.span for cell in range(1, 40)]
    rows = []
    for own in (10, 20):
        rows.append([alike[cell - 1] + 0.8 * (cell == own) for cell in range(1, 40)])
    plain = information((0.5, answers_of(1, row)) for row in rows)
    short = information((0.5, answers_of(own, [0.8], far)) for own in (10, 20))
    assert short == pytest.approx(plain, abs=1e-12)


# --- what is expected is what is weighed --------------------------------------------------------


@pytest.mark.parametrize(("feature", "how"), WAYS)
def test_expected_answers_total_1_and_are_in_proportion_to_their_weights(
    feature: Feature, how: How
) -> None:
    factors: dict[int, list[float]] = {}
    for trait in traits_of(feature):
        found = answers(feature, trait, how, MODEL)
        if found is None:
            continue
        alike = found.anywhere.share if found.anywhere else 0.0
        assert sum(found.chances) + alike + found.silent == pytest.approx(1, abs=0.035), trait
        for answer, chance in enumerate(found.chances, found.first):
            if chance > LIKELY * max(found.chances):
                weight = weigh(said(feature, how, answer), trait, MODEL).likelihood
                factors.setdefault(answer, []).append(found.chance(answer) / weight)
    assert factors
    for answer, several in factors.items():
        assert max(several) < NEAR.get(feature, 1.05) * min(several), answer


def test_a_gauge_is_expected_to_answer_with_its_leaves() -> None:
    assert [deg for deg, _ in angles_said(How.GAUGE, MODEL)] == [12.0, 30.0, 37.0, 45.0]
    flare = answers(Feature.SEAT_ANGLE, Cone(37.0, "convex"), How.GAUGE, MODEL)
    assert flare
    assert flare.chances[2] == max(flare.chances) > 0.9
    odd = answers(Feature.SEAT_ANGLE, Cone(22.0, "convex"), How.GAUGE, MODEL)
    assert odd
    assert odd.silent > 0.9  # no leaf is called for it


@pytest.mark.parametrize("gauges", [GAUGES, *(frozenset({one}) for one in GAUGES)])
def test_only_the_leaves_at_hand_are_called(gauges: frozenset[Tool]) -> None:
    metric, inch = ThreadPitch(1.5), ThreadPitch(25.4 / 14)
    leaves = leaves_at_hand(MODEL, gauges)
    for trait, own, gauge in (
        (metric, Pitch(1.5), Tool.METRIC_GAUGE),
        (inch, Pitch(25.4 / 14, True), Tool.INCH_GAUGE),
    ):
        found = answers(Feature.PITCH, trait, How.GAUGE, MODEL, gauges)
        assert found
        assert len(found.chances) == len(leaves)
        if gauge in gauges:
            assert leaves[found.chances.index(max(found.chances))] == own
            assert found.silent < 0.3  # the other gauge has a leaf nearly as good
        else:
            assert found.silent > 0.7


def test_nothing_is_foreseen_of_what_is_unknown_or_absent() -> None:
    for feature, how in WAYS:
        for trait in (UNKNOWN, ABSENT):
            assert answers(feature, trait, how, MODEL) is None


# --- the law -------------------------------------------------------------------------------------

STATES = {
    "a male": ("gender=male",),
    "a male crest": ("gender=male", "thread_od=20.9 mm"),
    "a female pitch": ("gender=female", "pitch=1.5 mm"),
    "a flange": ("gender=flange",),
    "a 14 tpi cone": ("gender=male", "pitch=14 tpi", "seat_shape=concave"),
}


def entropy(weights: list[float]) -> float:
    total = sum(weights)
    return -sum(w / total * math.log2(w / total) for w in weights if w > 0)


def masses(readings: tuple[Reading, ...], feature: Feature) -> Mapping[int, float]:
    state = ENGINE.posterior(readings)
    living = [(i, w) for i, w in enumerate(state.weights) if w > 1e-6]
    return ENGINE.space.spread(feature).mass(*zip(*living, strict=True))


def kinds_of(
    mass: Mapping[int, float], feature: Feature, how: How
) -> Iterator[tuple[int, float, Answers]]:
    for kind, weight in mass.items():
        found = ENGINE.chooser.predicted(feature, how, kind)
        if found is not None and weight > TRIFLE:
            yield kind, weight, found


@pytest.mark.parametrize("texts", STATES.values(), ids=STATES)
def test_the_expected_information_is_what_the_posterior_gains(texts: tuple[str, ...]) -> None:
    readings = with_gender(parse_readings(texts))
    rng = random.Random(7)
    off = []
    for feature, how in WAYS:
        if feature in {each.feature for each in readings}:
            continue
        mass = masses(readings, feature)
        kinds = list(kinds_of(mass, feature, how))
        if len(kinds) < 2:
            continue
        traits = [ENGINE.space.spread(feature).traits[kind] for kind, _, _ in kinds]
        weights = [weight for _, weight, _ in kinds]
        now, known = entropy(weights), sum(weights)
        grid = FEATURES[feature].kind in (Kind.LENGTH, Kind.PITCH)
        last = highest_cell(feature, how) if grid else 0
        gains = []
        for _, _, expected in rng.choices(kinds, weights, k=DRAWS):
            answer = draw(expected, rng, last)
            if answer is None:  # silence says nothing
                gains.append(0.0)
                continue
            reading = said(feature, how, answer, rng.random())
            after = [
                weight * weigh(reading, trait, MODEL).likelihood
                for weight, trait in zip(weights, traits, strict=True)
            ]
            gains.append(now - entropy(after))
        expected_bits = ENGINE.chooser.gain(feature, how, mass)
        gained = known * statistics.mean(gains)
        error = known * statistics.stdev(gains) / math.sqrt(DRAWS)
        if abs(expected_bits - gained) > SURE * error + 0.005:
            off.append(f"{feature} by {how}: {expected_bits:.3f} expected, {gained:.3f} gained")
    assert off == []


def test_a_trial_fit_is_expected_to_tell_what_it_tells() -> None:
    """All outcomes summed, so nothing is left to chance."""
    feature = Feature.TRIAL_FIT
    mass = masses(with_gender(parse_readings(["gender=male", "thread_od=20.9 mm"])), feature)
    traits = {kind: ENGINE.space.spread(feature).traits[kind] for kind in mass}
    catalogue, habits = ENGINE.catalogue, MODEL.trial
    leading = max(mass, key=mass.__getitem__)
    (known,) = known_parts(catalogue, [traits[leading]])
    kinds = [
        (weight, traits[kind], found)
        for kind, weight in mass.items()
        if (found := answers_trial(known, traits[kind], habits, catalogue))
    ]
    weights = [weight for weight, _, _ in kinds]
    gained = 0.0
    for answer in range(4):
        trial = trial_said(known[1].designation, answer)
        after = [
            weight * weigh_trial(trial, known, trait, habits, catalogue).likelihood
            for weight, trait, _ in kinds
        ]
        gained += sum(after) * (entropy(weights) - entropy(after))
    expected = information((weight, found) for weight, _, found in kinds)
    assert expected == pytest.approx(gained, abs=0.005)  # trifles are left out
    assert expected > 0.1
