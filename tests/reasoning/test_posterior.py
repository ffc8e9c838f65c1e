"""Prior times likelihood: against the sum done by hand, and against prevalence as stated."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from identify.model.feature import Feature
from identify.model.reading import Angle, Basis, Choice, How, Length, Reading
from identify.model.verdict import VerdictKind
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_reading, parse_readings
from identify.reasoning.engine import Engine
from identify.reasoning.hypotheses import NONE, row_weights
from identify.reasoning.likelihood import weigh
from identify.reasoning.subject import trait
from tests.shipped import knowledge, shipped_engine
from tests.strategies import measured

ANGLE = Reading(Feature.SEAT_ANGLE, Angle(37, Basis.HALF), How.GAUGE, "37 deg half")
CREST = Reading(Feature.THREAD_OD, Length(18.9), How.CALIPER, "18.9 mm")


def two_flares(*, even: bool) -> Engine:
    """Return an engine that knows two ends only."""
    told = knowledge()
    ids = ("flare37:-8:male", "flare45:-8:male")
    ends = tuple(told.catalogue.by_id[name] for name in ids)
    return Engine(replace(told.catalogue, ends=ends), told.book, even=even)


def test_two_ends_and_one_reading_by_hand() -> None:
    engine = two_flares(even=True)
    none = engine.book.priors.none_of_these
    flares = [
        weigh(
            ANGLE, trait(Feature.SEAT_ANGLE, subject, engine.book.observation), engine.space.model
        )
        for subject in engine.space.subjects
    ]
    of_37, of_45 = flares[0].likelihood, flares[1].likelihood
    rest = sum(
        prior * weight.likelihood
        for prior, weight, row in zip(engine.space.prior, flares, engine.space.rows, strict=True)
        if row == NONE
    )
    total = (1 - none) / 2 * (of_37 + of_45) + rest
    state = engine.posterior([ANGLE])
    assert state.rows == pytest.approx(
        ((1 - none) / 2 * of_37 / total, (1 - none) / 2 * of_45 / total), rel=1e-4
    )
    assert state.none_of_these == pytest.approx(rest / total, rel=1e-2)
    assert state.rows[0] > 20 * state.rows[1]


def test_even_ignores_prevalence_and_the_usual_prior_keeps_it() -> None:
    families = knowledge().book.priors.families
    even, usual = (two_flares(even=each).posterior([]).rows for each in (True, False))
    assert even[0] == pytest.approx(even[1])
    assert usual[0] / usual[1] == pytest.approx(families["flare37"] / families["flare45"])


def test_a_second_reading_multiplies_the_first() -> None:
    engine = shipped_engine()
    one, both = engine.posterior([ANGLE]), engine.posterior([ANGLE, CREST])
    of = engine.space.spread(Feature.THREAD_OD).of
    likely = both.weighed[1].likely
    raw = [w * likely[kind] for w, kind in zip(one.weights, of, strict=True)]
    assert list(both.weights) == pytest.approx([w / sum(raw) for w in raw])


@settings(max_examples=20, deadline=None, derandomize=True)
@given(measured())
def test_rows_are_the_sums_of_their_ways(given_: tuple[Reading, ...]) -> None:
    engine = shipped_engine()
    state = engine.posterior(given_)
    assert state.none_of_these == pytest.approx(
        sum(w for w, row in zip(state.weights, engine.space.rows, strict=True) if row == NONE)
    )
    for row in (0, len(state.rows) // 2, len(state.rows) - 1):
        assert state.rows[row] == pytest.approx(
            sum(w for w, of in zip(state.weights, engine.space.rows, strict=True) if of == row)
        )


def test_nothing_read_leaves_the_stated_chance_of_none_of_these() -> None:
    engine = shipped_engine()
    stated = engine.book.priors.none_of_these
    assert engine.posterior([]).none_of_these == pytest.approx(stated, rel=0.05)


def test_rows_of_a_family_share_the_weight_of_the_family() -> None:
    told = knowledge()
    weights = row_weights(told.catalogue, told.book.priors)
    for family, weight in told.book.priors.families.items():
        shares = [
            share
            for share, end in zip(weights, told.catalogue.ends, strict=True)
            if end.family == family
        ]
        assert not shares or sum(shares) == pytest.approx(weight), family


def test_the_origin_multiplies_families_as_stated_and_decides_nothing() -> None:
    engine = shipped_engine()
    japan = Reading(Feature.ORIGIN, Choice("japan"), How.EYE, "japan")
    ids = engine.catalogue.ends
    before = dict(zip((e.id for e in ids), engine.posterior([CREST]).rows, strict=True))
    after = dict(zip((e.id for e in ids), engine.posterior([CREST, japan]).rows, strict=True))
    factors = engine.book.priors.regions["japan"]
    assert factors.get("bspp60") is None  # so its factor is 1
    for name, family in (("jis30_g:G1/2:male", "jis30_g"), ("npt:1/4-NPT:male", "npt")):
        moved = (after[name] / after["bspp60:G1/2:male"]) / (
            before[name] / before["bspp60:G1/2:male"]
        )
        assert moved == pytest.approx(factors[family])


def test_an_unknown_origin_changes_nothing() -> None:
    engine = shipped_engine()
    unknown = Reading(Feature.ORIGIN, Choice("unknown"), How.EYE, "unknown")
    assert list(engine.posterior([CREST, unknown]).rows) == pytest.approx(
        engine.posterior([CREST]).rows
    )


@pytest.mark.parametrize("bore", ["6.3 mm", "10 mm", "12.7 mm", "19 mm", "25 mm", "38 mm", "51 mm"])
def test_only_the_hose_leads_with_a_spread_of_ends_and_with_no_flange(bore: str) -> None:
    """Nearly every kind of end is made for every bore (common practice)."""
    reading = parse_reading(f"hose_bore={bore}")
    verdict = shipped_engine().conclude((reading,), limit=8)
    shown = [ranked.end for ranked in verdict.ranking]
    assert all(end.gender != "flange" for end in shown[:4])
    assert len({end.family for end in shown}) >= 4
    assert max(ranked.probability for ranked in verdict.ranking) < 0.1


def test_a_listed_family_in_an_unlisted_size_is_told_from_an_end_unlike_any() -> None:
    """A 24 degree cone on M15x1, which no row has; an odd seat on it is of no family."""
    engine = shipped_engine()
    thread = ("gender=male", "thread_od=14.9 mm", "pitch=1 mm", "seat_shape=concave")
    cone, odd = (
        engine.conclude(with_gender(parse_readings([*thread, f"seat_angle={half} deg half"])))
        for half in (12, 53)
    )
    assert cone.kind is odd.kind is VerdictKind.ABSTAIN
    assert engine.catalogue.families[cone.unlisted_size].name.startswith("metric 24 deg cone")
    assert "in a size that is not in the tables" in cone.sentence
    assert odd.unlisted_size == ""
    assert "this is an end the tables do not hold" in odd.sentence
