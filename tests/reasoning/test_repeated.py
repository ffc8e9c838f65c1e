"""Several readings of one feature: against sums written out, and the law of what they tell."""

import math
import random
import statistics
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature
from identify.model.reading import Choice, How, Length, Reading
from identify.model.rule import Tool
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings, reading_from
from identify.reasoning.answers import TRIFLE
from identify.reasoning.density import between, normal_pdf
from identify.reasoning.engine import Situation
from identify.reasoning.likelihood import weigh
from identify.reasoning.repeated import copied, leans_of, repeats
from identify.reasoning.traits import ABSENT, UNKNOWN, HexagonOf, Interval, Word
from identify.reasoning.weigh_length import Lengths, weigh_length
from tests.reasoning.person import MODEL, draw, said
from tests.shipped import shipped_engine

ENGINE = shipped_engine()
FRESH = replace(
    MODEL, repeats_eye=0.0, repeats_tool=0.0, repeats_other_tool=0.0, repeats_other_person=0.0
)
TUBE = Interval(11.9, 12.1)
TRAITS = [TUBE, UNKNOWN, ABSENT]
DRAWS = 400
SURE = 4.5  # standard errors


def length(mm: float, how: How = How.CALIPER, feature: Feature = Feature.PLUG_OD) -> Reading:
    return Reading(feature, Length(mm), how, f"{mm} mm")


@pytest.mark.parametrize("trait", TRAITS)
@given(mm=st.floats(8, 30))
@settings(max_examples=25, derandomize=True)
def test_one_length_weighs_the_same_alone_and_as_a_list_of_one(trait, mm):
    one = length(mm)
    assert isinstance(one.value, Length)
    alone = weigh_length(one, one.value, trait, MODEL)
    listed = Lengths([one], MODEL).weigh(trait)
    assert listed.likelihood == pytest.approx(alone.likelihood, rel=1e-9)
    if trait is TUBE:
        assert listed.each[0] == pytest.approx(alone.mistake, rel=1e-9)


def test_two_sound_lengths_are_the_integral_over_their_common_size():
    """A flange spacing does not wear: uniform between its limits, read twice."""
    feature, low, high = Feature.BOLT_SPACING_LONG, 47.55, 48.05
    one, two = (length(mm, How.RULE, feature) for mm in (47.7, 48.2))
    tool = MODEL.instruments["length"]["rule"]
    steps = 4000
    grid = [low + (high - low) * (i + 0.5) / steps for i in range(steps)]
    integral = statistics.fmean(
        normal_pdf((47.7 - t) / tool.sigma) * normal_pdf((48.2 - t) / tool.sigma) / tool.sigma**2
        for t in grid
    )
    g = tool.gross
    trait = Interval(low, high)
    slips = [weigh(each, trait, MODEL).mistake for each in (one, two)]
    sound = [between(mm, low, high, tool.sigma) for mm in (47.7, 48.2)]
    by_hand = (
        (1 - g) ** 2 * integral
        + slips[0] * (1 - g) * sound[1]
        + slips[1] * (1 - g) * sound[0]
        + slips[0] * slips[1]
    )
    found = Lengths([one, two], FRESH).weigh(trait)
    assert found.likelihood == pytest.approx(by_hand, rel=1e-6)
    assert found.mistake == pytest.approx(slips[0] * slips[1], rel=1e-9)


@given(st.floats(11, 13), st.floats(11, 13))
@settings(max_examples=25, derandomize=True)
def test_which_of_two_like_readings_came_first_hardly_matters(a, b):
    """Mistakes lie evenly in the logarithm: the smaller of two is a little the likelier one."""
    for trait in (TUBE, UNKNOWN, HexagonOf(12.0)):
        feature = Feature.HEX if isinstance(trait, HexagonOf) else Feature.PLUG_OD
        pair = length(a, feature=feature), length(b, feature=feature)
        there, back = (Lengths(each, MODEL).weigh(trait) for each in (pair, pair[::-1]))
        assert there.likelihood == pytest.approx(back.likelihood, rel=0.15)


def test_of_two_lengths_far_apart_one_is_a_mistake_and_the_other_is_not():
    found = Lengths([length(12.0), length(20.0)], MODEL).weigh(TUBE)
    assert found.each[0] / found.likelihood < 0.01
    assert found.each[1] / found.likelihood > 0.99
    assert found.mistake / found.likelihood < 0.01


@pytest.mark.parametrize("trait", [Word("convex"), Word("ball"), UNKNOWN])
def test_all_second_answers_together_are_the_first(trait):
    words = FEATURES[Feature.SEAT_SHAPE].choices
    first = Reading(Feature.SEAT_SHAPE, Choice("convex"), How.EYE, "convex")
    alone = weigh(first, trait, MODEL).likelihood
    total = 0.0
    for word in words:
        second = Reading(Feature.SEAT_SHAPE, Choice(word), How.EYE, word)
        pair = [first, second]
        total += copied(
            leans_of(pair, MODEL), [weigh(each, trait, MODEL) for each in pair]
        ).likelihood
    assert total == pytest.approx(alone, rel=1e-3)  # answers below the least chance are lifted


def test_a_mistake_repeats_most_in_the_same_way_and_least_with_somebody_else():
    eye = length(12.0, How.EYE)
    same, tool = length(12.0, How.EYE), length(12.0, How.CALIPER)
    other = replace(same, other_person=True)
    shares = [repeats(eye, each, MODEL) for each in (same, tool, other)]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] > shares[1] > shares[2] > 0


def test_the_same_answer_twice_tells_more_than_once_but_less_than_from_two_people():
    once = parse_readings(["gender=male", "thread_od=20.9 mm", "seat_shape=concave"])
    again = reading_from("seat_shape", "concave")
    other = replace(again, other_person=True)
    row = ENGINE.catalogue.ends.index(ENGINE.catalogue.by_id["bspp60:G1/2:male"])
    chances = [
        ENGINE.posterior(with_gender(readings)).rows[row]
        for readings in (once, [*once, again], [*once, other])
    ]
    assert chances[0] < chances[1] < chances[2]


SECOND = [  # what was read, and what is read again, how
    (("gender=male", "thread_od=20.9 mm"), Feature.THREAD_OD, How.CALIPER),
    (("gender=male", "thread_od=20.9 mm by rule"), Feature.THREAD_OD, How.CALIPER),
    (("gender=female", "pitch=1.5 mm"), Feature.PITCH, How.GAUGE),
    (("gender=female", "pitch=10 pitches = 15 mm"), Feature.PITCH, How.COUNTED),
    (("gender=male", "thread_od=22.1 mm", "seat_angle=37 deg half"), Feature.SEAT_ANGLE, How.GAUGE),
    (("gender=male", "thread_od=20.9 mm", "seat_shape=flat"), Feature.SEAT_SHAPE, How.EYE),
    (("gender=male", "thread_od=20.9 mm", "taper=parallel"), Feature.TAPER, How.EYE),
    (("gender=male", "thread_od=20.9 mm", "taper=parallel"), Feature.TAPER, How.CALIPER),
    (("gender=male", "thread_od=24.9 mm", "o_ring=none"), Feature.O_RING, How.EYE),
]


@pytest.mark.parametrize("other", [False, True], ids=["same", "other"])
@pytest.mark.parametrize(("texts", "feature", "how"), SECOND)
def test_what_a_second_reading_is_expected_to_tell_is_what_the_posterior_gains(
    texts, feature, how, other
):
    readings = with_gender(parse_readings(texts))
    before = tuple(each for each in readings if each.feature is feature)
    state = ENGINE.posterior(readings)
    living = [(i, w) for i, w in enumerate(state.weights) if w > 1e-6]
    spread = ENGINE.space.spread(feature)
    mass = {kind: w for kind, w in spread.mass(*zip(*living, strict=True)).items() if w > TRIFLE}
    kinds = [
        (kind, w, found)
        for kind, w in mass.items()
        if (
            found := ENGINE.chooser.predicted(feature, how, kind, before=before, other_person=other)
        )
    ]
    weights = [w for _, w, _ in kinds]
    known, now = sum(weights), _entropy(weights)
    rng, gains = random.Random(11), []
    old = [w / ENGINE.weigh(before).likely[kind] for kind, w, _ in kinds]
    for _, _, expected in rng.choices(kinds, weights, k=DRAWS):
        answer = draw(expected, rng, 0)
        if answer is None:
            gains.append(0.0)
            continue
        second = replace(said(feature, how, answer, 0.5), other_person=other)
        joint = ENGINE.weigh((*before, second)).likely
        after = [w * joint[kind] for w, (kind, _, _) in zip(old, kinds, strict=True)]
        gains.append(now - _entropy(after))
    expected_bits = ENGINE.chooser.gain(feature, how, mass, before=before, other_person=other)
    gained = known * statistics.mean(gains)
    error = known * statistics.stdev(gains) / math.sqrt(DRAWS)
    assert abs(expected_bits - gained) <= SURE * error + 0.01


@pytest.mark.parametrize(("texts", "feature", "how"), SECOND)
def test_another_way_is_named_only_where_it_tells_clearly_more(texts, feature, how):
    readings = with_gender(parse_readings(texts))
    elsewhere = frozenset(Feature) - {feature}
    situation = Situation(frozenset(Tool), given_up=elsewhere)
    question = ENGINE.conclude(readings, situation).question
    if question is None:
        return
    assert question.again
    least = question.bits / ENGINE.book.limits.nearly_as_good
    for each in question.others:
        assert each.bits >= least
        assert each.times == pytest.approx(each.bits / question.bits)
    other = replace(readings[-1], other_person=True)
    after = ENGINE.conclude([*readings, other], situation).question
    assert after is None or not any(each.other_person for each in after.others)


def test_somebody_else_is_worth_most_where_an_eye_judged():
    readings = with_gender(
        parse_readings(["gender=female", "thread_id=20.5 mm", "seat_shape=concave"])
    )
    situation = Situation(
        frozenset({Tool.CALIPER}), given_up=frozenset(Feature) - {Feature.SEAT_SHAPE}
    )
    (other,) = ENGINE.conclude(readings, situation).question.others
    assert other.other_person
    assert other.times > 1.5


def _entropy(weights: list[float]) -> float:
    total = sum(weights)
    return -sum(w / total * math.log2(w / total) for w in weights if w > 0)
