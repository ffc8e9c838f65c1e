"""Laws of the ending: "nothing more" is said only where it is so, and one thing has one number."""

import random
from collections.abc import Iterator

import pytest

from identify.model.feature import Feature
from identify.model.reading import Reading, lacked
from identify.model.rule import Access, Tool
from identify.model.verdict import Lack, Verdict, percent
from identify.pages.beware import beware_of
from identify.pages.ending import nothing_left
from identify.pages.text import text_of
from identify.pages.verdict import rank_blocks, verdict_blocks
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import alone
from identify.reasoning.sentences import beside_name
from tests.ideal import ideal_readings
from tests.shipped import knowledge, shipped_engine

EVERY_TOOL = frozenset(Tool)
BAGS = (
    frozenset(),
    frozenset({Tool.RULE}),
    frozenset({Tool.CALIPER}),
    frozenset({Tool.CALIPER, Tool.METRIC_GAUGE}),
    EVERY_TOOL,
)
NO_MORE = "To measure more would tell next to nothing"


@pytest.fixture(scope="module")
def engine() -> Engine:
    return shipped_engine()


def sheets(count: int, seed: int) -> Iterator[tuple[tuple[Reading, ...], Situation]]:
    """Yield readings of some rows, each with a bag, an access and what cannot be told."""
    source = random.Random(seed)
    catalogue = knowledge().catalogue
    for _ in range(count):
        end = source.choice(catalogue.ends)
        seat = source.choice(end.seats)
        every = ideal_readings(end, seat, catalogue.thread_of(end, seat.thread))
        kept = tuple(each for each in every if source.random() < 0.8)
        twice = (*kept, *(each for each in kept if source.random() < 0.5))
        missed = frozenset(each for each in Feature if source.random() < 0.6)
        given_up = missed - {each.feature for each in kept}
        access = source.choice((Access.END_OFF, Access.END_OFF, Access.END_ON_MACHINE))
        yield twice, Situation(source.choice(BAGS), access, given_up)


def every_page(engine: Engine, verdict: Verdict) -> str:
    pages = (
        rank_blocks(engine, verdict),
        rank_blocks(engine, verdict, whole=True),
        verdict_blocks(engine, verdict, None),
    )
    return " ".join(" ".join(map(text_of, pages)).split())


def test_nothing_more_is_said_only_where_no_tool_and_no_second_reading_tells(
    engine: Engine,
) -> None:
    said = lacking = 0
    for readings, situation in sheets(250, seed=11):
        state = engine.posterior(readings)
        verdict = engine.conclude(readings, situation)
        if verdict.question is None and NO_MORE in nothing_left(verdict):
            said += 1
            left = engine.chooser.openings(state, lacked(readings), EVERY_TOOL, Access.END_OFF)
            assert not alone(left.all(), engine.chooser.gains)
        elif NO_MORE in every_page(engine, verdict):
            pytest.fail(f"a page denies {verdict.question or verdict.beyond}")
        lacking += verdict.question is None and verdict.beyond is not None
    assert said >= 3
    assert lacking >= 10


def test_what_is_said_to_be_missing_is_missing_and_would_be_offered(engine: Engine) -> None:
    found = set()
    for readings, situation in sheets(150, seed=12):
        beyond = engine.conclude(readings, situation).beyond
        if beyond is None:
            continue
        found.add(beyond.lack)
        tools, access, given_up = situation.tools, situation.access, situation.given_up
        if beyond.lack is Lack.TOOL:
            assert beyond.tool not in tools
            tools = tools | {Tool(beyond.tool), Tool(beyond.question.how)}
        elif beyond.lack is Lack.ACCESS:
            tools, access = EVERY_TOOL, Access.END_OFF
        else:
            assert beyond.question.feature in given_up
            tools, access = EVERY_TOOL, Access.END_OFF
        state = engine.posterior(readings)
        given_up -= {beyond.question.feature}
        openings = engine.chooser.openings(state, given_up, tools, access)
        offers = alone(openings.all(), engine.chooser.gains)
        offered = {each.text.feature: each.bits for each in offers}
        assert offered[beyond.question.feature] == pytest.approx(beyond.question.bits, rel=0.25)
        assert 0 < beyond.share <= 1
    assert found == set(Lack)


def test_an_end_has_one_per_cent_on_a_page(engine: Engine) -> None:
    for readings, situation in sheets(60, seed=13):
        verdict = engine.conclude(readings, situation)
        ranked = {each.end.id: percent(each.probability) for each in verdict.ranking}
        for danger in (*verdict.beside, *verdict.dangers):
            if danger.end.id in ranked:
                assert percent(danger.probability) == ranked[danger.end.id], danger.end.id


def test_a_pair_has_one_hazard_on_a_page(engine: Engine) -> None:
    for readings, situation in sheets(60, seed=14):
        verdict = engine.conclude(readings, situation)
        beside = {each.end.id: each.hazard for each in verdict.beside}
        standing = {each.end.id: each.hazard for each in verdict.dangers}
        for name in beside.keys() & standing.keys():
            assert beside[name] is standing[name], name
        shown = [each.danger.end.id for each in beware_of(verdict)]
        assert len(shown) == len(set(shown))


def test_what_else_fits_is_named_or_said_to_be_an_end_in_no_table(engine: Engine) -> None:
    """A shortlist never says that others fit without a name."""
    seen = 0
    for readings, situation in sheets(80, seed=15):
        verdict = engine.conclude(readings, situation)
        said = " ".join(verdict.sentence.split())
        first, *others = verdict.ranking
        named = f"Not identified yet. Most likely {first.end.named} ({percent(first.probability)}),"
        if not said.startswith(f"{named} or "):
            continue
        seen += 1
        rest = [(each.probability, beside_name(each.end, first.end)) for each in others[:2]]
        rest.append((verdict.none_of_these, "an end in no table"))
        rest.sort(key=lambda each: -each[0])
        for chance, name in rest[:2]:
            assert chance < 0.01 or f"{name} ({percent(chance)})" in said
    assert seen >= 20
