"""The next measurement: information against hand-worked figures, and what is never asked."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import CLUES, Feature
from identify.model.reading import How, Reading
from identify.model.rule import Access, Tool
from identify.model.verdict import VerdictKind
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_readings
from identify.reasoning.engine import ALL_TOOLS, Engine, Situation
from identify.reasoning.lockstep import alone
from identify.reasoning.openings import Offer
from tests.shipped import shipped_engine
from tests.strategies import measured


def typed(*texts: str) -> tuple[Reading, ...]:
    return with_gender(parse_readings(texts))


def offers(
    given_: tuple[Reading, ...],
    tools: frozenset[Tool] = ALL_TOOLS,
    access: Access = Access.END_OFF,
    given_up: frozenset[Feature] = frozenset(),
) -> list[Offer]:
    engine = shipped_engine()
    openings = engine.openings(engine.posterior(given_), Situation(tools, access, given_up))
    return alone(openings.all(), engine.chooser.gains)


# --- which measurement comes first ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("texts", "first"),
    [
        # Practice: 37 and 45 degree flares on one thread part by the seat angle only.
        (
            (
                "mount=fixed",
                "thread_od=18.95 mm",
                "pitch=16 tpi",
                "seat_shape=convex",
                "o_ring=none",
            ),
            "seat_angle",
        ),
        # Practice: light and heavy nuts on M36x2 part by the tube.
        (("thread_id=34.0 mm", "pitch=2 mm", "seat_shape=convex", "o_ring=nose"), "tube_od"),
        # User reports: M27x2 and 1 1/16-12 have one diameter; the pitch parts them.
        (("thread_od=26.8 mm",), "pitch"),
        # SAE J518: the two 14 bolt patterns of 1 in share a head; a head alone is not enough.
        (("bolt_spacing_long=57.2 mm", "bolt_spacing_short=27.8 mm"), "flange_head_thickness"),
    ],
)
def test_the_measurement_that_parts_what_still_stands_comes_first(
    texts: tuple[str, ...], first: str, engine: Engine
) -> None:
    question = engine.conclude(typed(*texts)).question
    assert question is not None
    assert str(question.feature) == first


@settings(max_examples=30, deadline=None, derandomize=True)
@given(
    measured(),
    st.frozensets(st.sampled_from(tuple(Tool))),
    st.sampled_from(tuple(Access)),
    st.frozensets(st.sampled_from(tuple(Feature)), max_size=6),
)
def test_only_what_can_be_measured_here_and_tells_something_is_offered(
    given_: tuple[Reading, ...],
    tools: frozenset[Tool],
    access: Access,
    given_up: frozenset[Feature],
) -> None:
    found = offers(given_, tools, access, given_up)
    for offer in found:
        feature = offer.text.feature
        assert feature not in given_up
        assert offer.before == tuple(each for each in given_ if each.feature is feature)
        assert access in offer.text.access
        assert offer.tool is Tool.NONE or offer.tool in tools
        assert offer.how is offer.text.taken_as[offer.tool]
        assert offer.minutes == offer.text.minutes[offer.tool] > 0
        assert offer.bits >= shipped_engine().book.limits.worth_bits
    assert len({offer.text.feature for offer in found}) == len(found)
    clues = [offer.text.feature in CLUES for offer in found]
    assert clues == sorted(clues)
    for group in (False, True):
        rest = (each for each in found if each.text.feature is not Feature.GENDER)
        rates = [each.rate for each in rest if (each.text.feature in CLUES) is group]
        assert rates == sorted(rates, reverse=True)


@pytest.mark.parametrize("tools", [ALL_TOOLS, frozenset(), frozenset({Tool.CALIPER})])
def test_male_or_female_is_asked_before_all_else(tools: frozenset[Tool]) -> None:
    assert offers((), tools)[0].text.feature is Feature.GENDER


def test_fewer_tools_never_tell_more() -> None:
    readings = typed("gender=male", "thread_od=20.9 mm by rule")
    full = {offer.text.feature: offer.bits for offer in offers(readings)}
    bare = {offer.text.feature: offer.bits for offer in offers(readings, frozenset())}
    assert set(bare) <= set(full)
    nearly = shipped_engine().book.limits.nearly_as_good
    assert all(bits * nearly <= full[feature] for feature, bits in bare.items())
    assert Feature.SEAT_SHAPE in bare  # the eye is always at hand
    assert Feature.THREAD_OD in full
    assert Feature.THREAD_OD not in bare


def test_a_question_given_up_is_not_asked_again() -> None:
    readings = typed("thread_od=26.8 mm")
    first = offers(readings)[0].text.feature
    assert first not in [
        each.text.feature for each in offers(readings, given_up=frozenset({first}))
    ]


def test_of_several_tools_the_sharpest_is_offered() -> None:
    readings = typed("gender=male", "pitch=14 tpi")
    bag = ALL_TOOLS | {Tool.RULE}
    by_caliper = next(o for o in offers(readings, bag) if o.text.feature is Feature.THREAD_OD)
    by_rule = next(
        o for o in offers(readings, frozenset({Tool.RULE})) if o.text.feature is Feature.THREAD_OD
    )
    assert (by_caliper.how, by_rule.how) == (How.CALIPER, How.RULE)
    assert by_rule.bits < by_caliper.bits


def test_a_certain_end_leaves_nothing_worth_asking() -> None:
    readings = typed(
        "thread_od=18.95 mm", "pitch=16 tpi", "seat_shape=convex", "seat_angle=37 deg half",
        "mount=fixed",
        "o_ring=none", "taper=parallel", "flank_angle=60", "hand=right", "tube_od=1/2 in",
        "tube_bore=10 mm", "hex=7/8 in", "hose_bore=12.7 mm", "material=steel", "origin=uk",
        "marking=-8", "plug_od=19 mm",
        "trial_fit=3/4-16 UNF female: runs fully by hand",
    )  # fmt: skip
    assert offers(readings) == []


def test_the_gain_is_the_mutual_information_of_the_prediction() -> None:
    """Two sizes one tenth apart and two sizes far apart, by the chooser's own predictions."""
    engine = shipped_engine()
    ids = {end.id: row for row, end in enumerate(engine.catalogue.ends)}

    def gain(one: str, other: str, how: How) -> float:
        rows = (ids[one], ids[other])
        spread = engine.space.spread(Feature.THREAD_OD)
        mass = spread.mass([engine.space.rows.index(row) for row in rows], [0.5, 0.5])
        return engine.chooser.gain(Feature.THREAD_OD, how, mass)

    apart = gain("flare37:-8:male", "flare37:-16:male", How.CALIPER)
    assert 0.9 < apart <= 1
    same = gain("flare37:-8:male", "orb_un:-8:male", How.CALIPER)
    assert same == pytest.approx(0, abs=1e-9)
    near = gain("flare37:-12:male", "orb_metric:M27x2:male", How.CALIPER)
    assert 0 <= near < 0.1
    assert gain("flare37:-5:male", "flare37:-6:male", How.RULE) < gain(
        "flare37:-5:male", "flare37:-6:male", How.CALIPER
    )
    assert math.isfinite(apart)


def offered(*readings: str) -> list[Feature]:
    engine = shipped_engine()
    state = engine.posterior(parse_readings(readings))
    offers = alone(engine.openings(state, Situation()).all(), engine.chooser.gains)
    return [offer.text.feature for offer in offers]


def test_a_shape_is_seen_before_its_angle_and_no_angle_is_asked_where_there_is_no_cone() -> None:
    thread = ("gender=male", "thread_od=18.9 mm", "pitch=16 tpi")
    first = offered(*thread)
    assert Feature.SEAT_SHAPE in first
    assert Feature.SEAT_ANGLE not in first
    assert Feature.SEAT_ANGLE in offered(*thread, "seat_shape=convex")
    for shape in ("none", "flat"):
        assert Feature.SEAT_ANGLE not in offered(*thread, f"seat_shape={shape}")
    twice = offered(*thread, "seat_shape=none", "seat_shape=convex by gauge")
    assert Feature.SEAT_ANGLE in twice  # one of them may be a slip


def test_what_is_identified_is_asked_about_no_more() -> None:
    verdict = shipped_engine().conclude(
        parse_readings(
            ("gender=male", "thread_od=18.9 mm", "pitch=16 tpi", "seat_shape=convex",
             "seat_angle=37 deg half by gauge")
        )
    )  # fmt: skip
    assert verdict.kind is VerdictKind.IDENTIFIED
    assert verdict.question is None
