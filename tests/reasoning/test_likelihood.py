"""The weight of one reading against one trait: figures from the normal table, and laws."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import Instrument, ObservationModel, Tolerance
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Pitch,
    Reading,
    Slope,
    Trial,
    Value,
)
from identify.reasoning.likelihood import weigh
from identify.reasoning.traits import (
    ABSENT,
    UNKNOWN,
    Cone,
    HexagonOf,
    Hexagons,
    HoseBore,
    Interval,
    Marks,
    Share,
    ThreadPitch,
    ThreadTaper,
    Trait,
    Word,
)
from identify.reasoning.weigh_length import bores_beside
from identify.reasoning.weight import Weight, sigma_of
from tests.shipped import knowledge, shipped_engine
from tests.strategies import HOWS, values

SHIPPED = knowledge().book.observation
GROSS = 0.02
CALIPER = Instrument(0.1, 0.0, GROSS)
COUNTED = Instrument(0.2, 0.0, 0.0)
PROTRACTOR = Instrument(math.sqrt(3), 0.0, 0.0)
PLAIN = replace(  # round figures, no wear, no slips but those a test is about
    SHIPPED,
    instruments={
        Kind.LENGTH: {"caliper": CALIPER, "eye": CALIPER},
        Kind.PITCH: {"counted": COUNTED, "eye": COUNTED},
        Kind.ANGLE: {"protractor": PROTRACTOR, "eye": PROTRACTOR},
    },
    tolerances={feature: Tolerance(0.0, 0.0, 0.0, 1.0, True) for feature in Feature},
    half_said=0.5,
    basis_slip=0.1,
    miscount=0.02,
    neighbour_leaf=0.0,
    near_gross=0.0,
)
PEAK, ONE_SIGMA = 0.398942, 0.241971  # standard normal density at 0 and 1, printed table
PHI_1 = 0.158655  # normal distribution function at -1, printed table


def weight(
    feature: Feature, value: Value, trait: Trait, how: How, model: ObservationModel = PLAIN
) -> Weight:
    return weigh(Reading(feature, value, how, ""), trait, model)


def crest(mm: float, trait: Trait, model: ObservationModel = PLAIN) -> Weight:
    return weight(Feature.THREAD_OD, Length(mm), trait, How.CALIPER, model)


def test_a_reading_one_sigma_below_wide_limits_is_the_normal_table() -> None:
    mistake = GROSS / (9.9 * math.log(180 / 3))  # uniform in the logarithm over 3 to 180 mm
    found = crest(9.9, Interval(10.0, 20.0))
    assert found.likelihood == pytest.approx((1 - GROSS) * PHI_1 / 10 + mistake, rel=1e-5)
    assert found.mistake == pytest.approx(mistake)


def test_most_slips_stay_near_the_truth_and_the_rest_are_anywhere() -> None:
    """Of mistakes 60 % lie within 12 % of the truth, even in the logarithm."""
    model = replace(PLAIN, near_gross=0.6, near_reach=0.12)
    far = crest(25.0, Interval(20.0, 20.0), model)
    assert far.likelihood == pytest.approx(0.4 * GROSS / (25.0 * math.log(60)))
    near = crest(22.0, Interval(20.0, 20.0), model)
    assert near.likelihood == pytest.approx(GROSS * (0.6 / 0.24 + 0.4 / math.log(60)) / 22.0)
    assert near.likelihood == near.mistake


def test_an_unknown_figure_is_neutral_and_an_absent_one_a_mistake() -> None:
    broad = 1 / (12.0 * math.log(180 / 3))
    assert crest(12.0, UNKNOWN) == pytest.approx((broad, 0.0))
    absent = PLAIN.wrong_feature * GROSS * broad
    assert crest(12.0, ABSENT) == pytest.approx((absent, absent))


def test_wear_takes_a_male_crest_down_and_a_bore_up() -> None:
    every = {**PLAIN.tolerances, Feature.THREAD_OD: Tolerance(0, 0, 1.0, 2.0, True)}
    every[Feature.THREAD_ID] = Tolerance(0, 0, 1.0, 2.0, False)
    model = replace(PLAIN, tolerances=every)
    point = Interval(20.0, 20.0)
    # Worn by anything up to 2 mm: density 1/2 inside, half of that at the far edge.
    assert crest(19.0, point, model).likelihood == pytest.approx(0.5, rel=0.03)
    assert crest(18.0, point, model).likelihood == pytest.approx(0.25, rel=0.03)
    above = crest(21.0, point, model)
    assert above.likelihood == above.mistake  # wear cannot add: only a mistake reads so
    # Anywhere from 20 to 22 mm and worn by up to 2 mm: a triangle from 18 to 22 mm, 1/2 at 20 mm.
    wide = Interval(20.0, 22.0)
    triangle = [crest(mm, wide, model).likelihood for mm in (19.0, 20.0, 21.0)]
    assert triangle == pytest.approx([0.25, 0.5, 0.25], rel=0.06)
    bore = weight(Feature.THREAD_ID, Length(21.0), point, How.CALIPER, model)
    assert bore.likelihood == pytest.approx(0.5, rel=0.03)


def test_a_range_adds_the_spread_of_a_uniform() -> None:
    said = Length(15.0, 0.3)
    assert sigma_of(said, CALIPER) == pytest.approx(math.sqrt(0.1**2 + 0.3**2 / 3))


@pytest.mark.parametrize("feature", [Feature.THREAD_OD, Feature.TUBE_OD, Feature.BOLT_SPACING_LONG])
@pytest.mark.parametrize(
    "span", [Interval(20.0, 20.0), Interval(20.7, 20.95), Interval(30.0, 33.0)]
)
def test_a_length_density_totals_1(feature: Feature, span: Interval) -> None:
    info = FEATURES[feature]
    step = 0.01
    total = sum(
        weight(feature, Length(info.low + (n + 0.5) * step), span, How.CALIPER, SHIPPED).likelihood
        for n in range(round((info.high - info.low) / step))
    )
    assert total * step == pytest.approx(1, abs=0.01)


def test_ten_counted_pitches_share_one_error() -> None:
    # 0.2 mm over the whole length is 0.02 mm a pitch: 1.52 mm is one sigma above 1.5 mm.
    found = weight(Feature.PITCH, Pitch(1.52, pitches=10), ThreadPitch(1.5), How.COUNTED)
    assert found.likelihood == pytest.approx(0.96 * ONE_SIGMA / 0.02, rel=1e-5)


def test_one_pitch_too_many_is_foreseen() -> None:
    found = weight(Feature.PITCH, Pitch(1.65, pitches=10), ThreadPitch(1.5), How.COUNTED)
    assert found.likelihood == pytest.approx(0.02 * PEAK / 0.02, rel=1e-5)


TPI = (11, 11.5, 12, 14, 16, 18, 19, 20, 24, 27, 28)
MM = (1.0, 1.25, 1.5, 1.75, 2.0)


@pytest.mark.parametrize("pitch", [*(Pitch(25.4 / n, True) for n in TPI), *map(Pitch, MM)], ids=str)
def test_the_right_leaf_is_called_most_and_all_leaves_together_at_most_once(pitch: Pitch) -> None:
    inch = [Pitch(25.4 / tpi, True) for tpi in SHIPPED.leaves_tpi]
    leaves = [*inch, *map(Pitch, SHIPPED.leaves_mm)]
    chances = {
        leaf: weight(Feature.PITCH, leaf, ThreadPitch(pitch.mm), How.GAUGE, SHIPPED).likelihood
        for leaf in leaves
    }
    assert max(chances, key=chances.__getitem__) == pitch
    assert 0.8 < sum(chances.values()) < 1.01


def test_a_protractor_reading_of_a_flare() -> None:
    # sqrt(3) deg of the tool and 1 deg of wear are 2 deg together.
    seat = Cone(37.0, "convex")
    half = weight(Feature.SEAT_ANGLE, Angle(39.0, Basis.HALF), seat, How.PROTRACTOR)
    assert half.likelihood == pytest.approx(0.9 * ONE_SIGMA / 2, rel=1e-4)


def test_two_diameters_of_a_flare() -> None:
    # 3 mm apart along the axis of a cone of 60 deg are 6 mm along its flank; sqrt(3) deg over these
    # 6 mm are 0.18138 mm across it, and 1 deg of wear makes 2 deg of them. It is reckoned, so that
    # half and included are not exchanged.
    across = Instrument(6 * math.radians(math.sqrt(3)), 0.0, 0.0)
    assert across.sigma == pytest.approx(0.18138, abs=1e-5)
    model = replace(PLAIN, instruments={Kind.ANGLE: {"caliper": across, "eye": across}})
    seat = Cone(60.0, "convex")
    read = weight(Feature.SEAT_ANGLE, Angle(62.0, Basis.HALF, 3.0), seat, How.CALIPER, model)
    assert read.likelihood == pytest.approx(ONE_SIGMA / 2, rel=1e-4)
    twice = weight(Feature.SEAT_ANGLE, Angle(62.0, Basis.HALF, 6.0), seat, How.CALIPER, model)
    assert twice.likelihood < read.likelihood  # further apart they err less, and 2 deg are more


def test_a_caliper_tells_the_two_flares_apart_that_share_a_thread() -> None:
    for there, other in ((37.0, 45.0), (45.0, 37.0)):
        read = Angle(there, Basis.HALF, 3.0)
        chances = [
            weight(Feature.SEAT_ANGLE, read, Cone(deg, "convex"), How.CALIPER, SHIPPED).likelihood
            for deg in (there, other)
        ]
        assert chances[0] > 20 * chances[1]


GAUGE = replace(
    PLAIN,
    instruments={
        Kind.ANGLE: {"gauge": Instrument(math.sqrt(3), 0.0, GROSS), "eye": Instrument(6, 0, GROSS)}
    },
    seat_leaves_deg=(12.0, 30.0, 37.0, 45.0),
    seat_fits_deg=5.0,
    basis_slip=0.0,
    no_cone_angled=0.05,
    chamfer_angled=0.2,
)


def leaf(deg: float, seat: Cone, model: ObservationModel = GAUGE) -> Weight:
    return weight(Feature.SEAT_ANGLE, Angle(deg, Basis.HALF), seat, How.GAUGE, model)


def test_a_leaf_called_by_mistake_weighs_as_much_as_it_is_called_often() -> None:
    """One sigma is 2 deg (1.73 by gauge and 1 by wear), a leaf stands for 2 / 0.399 deg."""
    seat = Cone(37.0, "convex")
    assert leaf(37, seat).likelihood == pytest.approx((0.98 + GROSS / 4) * PEAK / 2, rel=1e-5)
    # Three sigma and more away: any of the four leaves by mistake, no matter which.
    assert leaf(12, seat) == pytest.approx([GROSS / 4 * PEAK / 2] * 2, rel=1e-5)
    slips = replace(GAUGE, neighbour_leaf=0.04)
    assert leaf(45, seat, slips).mistake == pytest.approx(
        (0.98 * 0.02 + GROSS / 4) * PEAK / 2, rel=1e-5
    )
    assert leaf(12, seat, slips) == leaf(12, seat)


def test_an_angle_of_a_port_or_of_no_cone_at_all_is_seldom_said() -> None:
    chamfer = leaf(12, Cone(12.0, "chamfer"))
    assert chamfer.likelihood == pytest.approx((0.98 * 0.2 + GROSS / 4) * PEAK / 2, rel=1e-5)
    none, flat = leaf(12, Cone(None, "none")), leaf(12, Cone(90.0, "flat"))
    assert none == pytest.approx([0.05 / 175 + GROSS / 4 * PEAK / 2] * 2, rel=1e-5)
    assert flat == pytest.approx(none)  # not near a right angle
    square = weight(Feature.SEAT_ANGLE, Angle(90, Basis.HALF), Cone(90.0, "flat"), How.GAUGE, GAUGE)
    assert square.likelihood > 20 * square.mistake  # some call a flat face 90 deg


def test_an_angle_without_a_word_may_be_half_or_included() -> None:
    def said(deg: float, basis: Basis | None, half: float) -> float:
        cone = Cone(half, "convex")
        return weight(Feature.SEAT_ANGLE, Angle(deg, basis), cone, How.PROTRACTOR).likelihood

    for deg in (37.0, 74.0):
        assert said(deg, None, 37.0) > 20 * said(deg, None, 45.0)
        assert said(deg, None, 37.0) > 20 * said(deg, None, 30.0)
    assert said(60.0, None, 30.0) > 20 * said(60.0, None, 37.0)
    assert said(74.0, Basis.INCLUDED, 37.0) > said(74.0, None, 37.0)
    assert said(74.0, None, 37.0) > said(74.0, Basis.HALF, 37.0)  # half and included exchanged
    assert said(74.0, Basis.HALF, 37.0) > 0.05 * said(74.0, Basis.INCLUDED, 37.0)


def test_two_diameters_eight_millimetres_apart_tell_a_taper() -> None:
    sigma = math.sqrt(2) * 0.1 / 8 + 0.004
    rise = Slope(0.5, 8.0)  # 1 in 16
    found = weight(Feature.TAPER, rise, ThreadTaper(1 / 16), How.CALIPER)
    assert found.likelihood == pytest.approx((1 - GROSS) * PEAK / sigma + GROSS * 4, rel=1e-5)
    assert (
        found.likelihood
        > 20 * weight(Feature.TAPER, rise, ThreadTaper(0.0), How.CALIPER).likelihood
    )


@pytest.mark.parametrize(
    "feature",
    [each for each, info in FEATURES.items() if info.choices and each is not Feature.ORIGIN],
)
def test_answers_to_a_choice_total_1_for_whatever_is_there(feature: Feature) -> None:
    spread = shipped_engine().space.spread(feature)
    for trait in {spread.traits[number] for number in spread.of}:
        total = sum(
            weight(feature, Choice(word), trait, How.EYE, SHIPPED).likelihood
            for word in FEATURES[feature].choices
        )
        assert total == pytest.approx(1, abs=1e-3), trait


def test_a_rare_answer_is_called_a_mistake_and_a_usual_one_is_not() -> None:
    right = weight(Feature.SEAT_SHAPE, Choice("convex"), Word("convex"), How.EYE, SHIPPED)
    wrong = weight(Feature.SEAT_SHAPE, Choice("concave"), Word("convex"), How.EYE, SHIPPED)
    assert right.mistake == 0
    assert wrong.mistake == wrong.likelihood < 0.2 * right.likelihood


def test_left_hand_is_a_mistake_only_where_threads_are_right_hand() -> None:
    left = Choice("left")
    mixed = weight(Feature.HAND, left, Share(0.5), How.EYE, SHIPPED)
    assert mixed.mistake == 0
    assert (
        mixed.likelihood > 20 * weight(Feature.HAND, left, Share(0.0), How.EYE, SHIPPED).likelihood
    )


def test_a_mark_speaks_for_the_rows_that_would_bear_it() -> None:
    marks = Marks(frozenset({"12l", "m18"}))
    hit = weight(Feature.MARKING, Marking("m 18"), marks, How.EYE, SHIPPED)
    miss = weight(Feature.MARKING, Marking("M22"), marks, How.EYE, SHIPPED)
    assert hit.likelihood == SHIPPED.mark_right > 5 * miss.likelihood > 0


def test_a_hose_bore_one_size_off_is_rarer_by_the_share_of_such_ends() -> None:
    def bore(mm: float) -> float:
        return weight(
            Feature.HOSE_BORE, Length(mm), HoseBore(12.5), How.CALIPER, SHIPPED
        ).likelihood

    # 0.8 spread over 2 (0.4 + 0.02 x 12.5) mm against 0.1 over 2 (0.4 + 0.02 x 10) mm.
    assert SHIPPED.near_bore == 0.2
    assert bore(12.5) / bore(10.0) == pytest.approx((0.8 / 1.3) / (0.1 / 1.2), rel=0.05)
    assert bore(6.0) < 0.05 * bore(10.0)


def test_every_bore_of_the_tables_is_likeliest_read_as_itself() -> None:
    """Bores of tube series (15, 22, 70, 127 mm) lie between those of hoses."""
    for dn in {end.hose_dn for end in knowledge().catalogue.ends if end.hose_dn}:
        below, above = bores_beside(dn)
        read = {
            mm: weight(Feature.HOSE_BORE, Length(mm), HoseBore(dn), How.CALIPER, SHIPPED).likelihood
            for mm in (below, dn, above)
        }
        assert max(read, key=read.__getitem__) == dn, dn
        assert below <= dn <= above
    assert bores_beside(12.5) == (10, 16)  # ISO 4397: 10, 12.5, 16
    assert bores_beside(63.0) == (51, 76)  # 51, 63, 76
    assert bores_beside(3.0) == (3, 4)
    assert bores_beside(127.0) == (102, 127)


def test_a_hexagon_the_tables_know_beats_one_guessed_from_the_thread() -> None:
    def across(mm: float, trait: Trait) -> float:
        return weight(Feature.HEX, Length(mm), trait, How.CALIPER, SHIPPED).likelihood

    assert across(19.0, Hexagons((19.0,))) > 3 * across(22.0, Hexagons((19.0,))) > 0
    assert across(14.0 * SHIPPED.hex_of_thread, HexagonOf(14.0)) > across(30.0, HexagonOf(14.0))


TRAITS = {
    feature: sorted({spread.traits[number] for number in spread.of}, key=repr)
    for feature in Feature
    if feature not in (Feature.ORIGIN, Feature.TRIAL_FIT)
    for spread in [shipped_engine().space.spread(feature)]
}


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.data())
def test_no_reading_is_impossible_and_no_mistake_outweighs_it(data: st.DataObject) -> None:
    feature = data.draw(st.sampled_from(sorted(TRAITS)))
    value = data.draw(values(feature))
    assert not isinstance(value, Trial)
    how = data.draw(st.sampled_from(HOWS))
    for trait in TRAITS[feature]:
        found = weight(feature, value, trait, how, SHIPPED)
        assert 0 < found.likelihood < math.inf, trait
        assert 0 <= found.mistake <= found.likelihood * (1 + 1e-9), trait
