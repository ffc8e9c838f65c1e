"""The simulator against the rules it is made from, and the ceiling against the simulator."""

import ast
import math
import random
from collections import Counter, defaultdict
from pathlib import Path

import pytest

from identify import simulation
from identify.model.feature import Feature, applies
from identify.model.reading import Angle, Basis, Pitch
from identify.model.rule import Tool
from identify.reasoning.hypotheses import NONE
from identify.simulation.ceiling import Ceiling
from identify.simulation.lots import Lot
from identify.simulation.measuring import asked_of, fill_sheet, observe, say, sharpest
from identify.simulation.parts import make_part
from identify.simulation.people import Person
from tests.shipped import knowledge

CATALOGUE, BOOK = knowledge().catalogue, knowledge().book
LOT = Lot(CATALOGUE, BOOK)
OBSERVERS = BOOK.people.observers
MANY = 3000
THREAD = (Feature.PITCH, Feature.TAPER, Feature.FLANK_ANGLE)
SIGMAS = 4.5  # of a binomial; a dozen shares looked at, so a false alarm in 10,000 seeds


def person(name: str) -> Person:
    return Person(OBSERVERS[name], BOOK)


def make_of(end_id: str):
    row = next(i for i, end in enumerate(CATALOGUE.ends) if end.id == end_id)
    return next(make for make in LOT.makes if make.row == row)


def agrees(count: int, total: int, share: float) -> bool:
    return abs(count - total * share) <= SIGMAS * math.sqrt(total * share * (1 - share)) + 1


def test_the_reasoning_shares_only_what_is_drawn():
    """A slip in how readings are weighed must not hide by being made twice."""
    found = set()
    for path in Path(simulation.__path__[0]).glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and "reasoning" in (node.module or ""):
                found |= {alias.name for alias in node.names}
    assert found == {"NONE", "row_weights", "BORES", "bores_beside"}


def test_a_lot_weighs_one_and_holds_every_row_and_as_many_strangers_as_the_prior_says():
    assert math.isclose(sum(make.weight for make in LOT.makes), 1.0)
    assert {make.row for make in LOT.makes} == {NONE, *range(len(CATALOGUE.ends))}
    strange = sum(make.weight for make in LOT.makes if make.row == NONE)
    assert math.isclose(strange, BOOK.priors.none_of_these)


def test_a_region_and_a_family_change_what_is_drawn():
    japan = Lot(CATALOGUE, BOOK, region="japan")
    share = {
        lot: sum(
            make.weight
            for make in lot.makes
            if make.row != NONE and CATALOGUE.ends[make.row].family == "jis30_g"
        )
        for lot in (LOT, japan)
    }
    assert share[japan] > 3 * share[LOT]
    only = Lot(CATALOGUE, BOOK, families=("orfs",))
    assert {CATALOGUE.ends[make.row].family for make in only.makes} == {"orfs"}


def test_a_stranger_on_a_known_thread_has_no_seat_that_is_listed_for_it():
    listed = defaultdict(list)
    for make in LOT.makes:
        if make.row != NONE and key_of(make):
            listed[seen_as(make)] += cones_of(make)
    known = {thread for thread, _ in listed}
    strangers = [make for make in LOT.makes if make.row == NONE and key_of(make) in known]
    assert len(strangers) > 500
    for make in strangers:
        if seen_as(make) in listed and seen_as(make)[1] != "none":  # plain bolts are everywhere
            taken = listed[seen_as(make)]
            assert taken, "a seat without an angle is listed, and here it is again"
            assert all(abs(a - b) > 4 for a in taken for b in cones_of(make))


def seen_as(make):
    """Thread and shape of seat."""
    return key_of(make), make.blueprint.figures[Feature.SEAT_SHAPE].values[0]


def key_of(make):
    """The thread as it is seen, None for an end without one."""
    figures = make.blueprint.figures
    crest = figures.get(Feature.THREAD_OD) or figures.get(Feature.THREAD_ID)
    if crest is None or not hasattr(crest, "below"):
        return None
    return (make.blueprint.seen_as, crest, *(figures[f] for f in THREAD))


def cones_of(make):
    angle = make.blueprint.figures.get(Feature.SEAT_ANGLE)
    return [cone.half_deg for cone in angle.values] if angle else []


@pytest.mark.parametrize("end_id", ["flare37:-8:male", "bspp60:G1/2:female"])
def test_a_new_thread_lies_within_limits_and_wear_goes_one_way(end_id):
    make = make_of(end_id)
    male = make.blueprint.seen_as == "male"
    feature = Feature.THREAD_OD if male else Feature.THREAD_ID
    size, slack = make.blueprint.figures[feature], BOOK.observation.tolerances[feature]
    rng, worn, beyond = random.Random(2), 0, 0
    for _ in range(MANY):
        part = make_part(rng, make, BOOK)
        length = part.truth[feature]
        inside = size.low - size.below <= length <= size.high + size.above
        if part.condition < slack.worn:
            worn += 1
            beyond += not inside
            room = -slack.wear_mm if male else slack.wear_mm
            assert size.low - size.below + min(room, 0) <= length
            assert length <= size.high + size.above + max(room, 0)
        else:
            assert inside
    assert agrees(worn, MANY, slack.worn)
    assert beyond > 0


@pytest.mark.parametrize("name", OBSERVERS)
def test_a_sheet_comes_out_the_same_from_the_same_seed_and_only_with_tools_in_the_bag(name):
    who = person(name)

    def sheets():
        rng = random.Random(f"sheet {name}")
        return [fill_sheet(rng, LOT.draw(rng), who) for _ in range(20)]

    first = sheets()
    assert first == sheets()
    gauges = {Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.COMBS} & who.observer.tools
    for sheet in first:
        assert sheet[0].feature is Feature.GENDER
        for reading in sheet:
            if reading.feature is Feature.PITCH and not gauges:
                assert reading.how == "counted"


@pytest.mark.parametrize("name", ["careful", "ordinary", "novice"])
def test_leaves_beside_the_right_one_are_called_as_often_as_the_rules_say(name):
    who, make, rng = person(name), make_of("cone24_L:15L:male"), random.Random(3)
    pitch = 1.5
    called = Counter()
    for _ in range(MANY):
        reading = observe(rng, make_part(rng, make, BOOK), Feature.PITCH, who, Tool.METRIC_GAUGE)
        if reading and isinstance(reading.value, Pitch) and not reading.value.pitches:
            called[round(reading.value.mm, 3), reading.value.inch] += 1
    total = sum(called.values())
    beside = called[1.25, False] + called[1.75, False]
    leaves = len(who.leaves())
    gross = who.gross("pitch", "gauge")
    wrong = (1 - gross) * who.observer.neighbour_leaf + 2 * gross / leaves
    assert called[pitch, False] > 0.7 * total
    # The inch leaf nearest to 1.5 mm is sometimes seen as the better one.
    assert beside <= total * wrong + SIGMAS * math.sqrt(total * wrong)
    assert beside >= total * 0.8 * wrong - SIGMAS * math.sqrt(total * wrong)


@pytest.mark.parametrize("name", ["ordinary", "novice"])
def test_half_and_included_are_mixed_up_and_left_unsaid_as_often_as_the_rules_say(name):
    who, make, rng = person(name), make_of("flare37:-8:male"), random.Random(4)
    said = Counter()
    for _ in range(MANY):
        reading = observe(rng, make_part(rng, make, BOOK), Feature.SEAT_ANGLE, who, Tool.SEAT_GAUGE)
        if reading:
            assert isinstance(reading.value, Angle)
            said[reading.value.deg, reading.value.basis] += 1
    total = sum(said.values())
    unsaid = sum(number for (_, basis), number in said.items() if basis is None)
    assert agrees(unsaid, total, who.observer.unsaid)
    mixed = said[37, Basis.INCLUDED] + said[74, Basis.HALF]
    right = said[37, Basis.HALF] + said[74, Basis.INCLUDED]
    assert agrees(mixed, mixed + right, who.observer.mix_up)


def test_what_is_missing_and_what_is_said_by_eye_follows_the_rules():
    who, make, rng = person("hurried"), make_of("flare37:-8:male"), random.Random(5)
    parts = [make_part(rng, make, BOOK) for _ in range(MANY)]
    said = Counter(say(rng, part, Feature.SEAT_SHAPE, who, Tool.NONE) for part in parts)
    assert agrees(said[None], MANY, who.observer.missing)
    usual = BOOK.observation.reports["seat_shape"]["convex"]["ball"]
    expected = usual * who.observer.eye * (1 - who.observer.missing)
    assert agrees(said["ball"], MANY, expected)


def test_twice_the_errors_are_twice_the_errors():
    one, two = OBSERVERS["ordinary"], OBSERVERS["ordinary"].scaled(2)
    assert (two.errors, two.gross, two.eye) == (2 * one.errors, 2 * one.gross, 2 * one.eye)
    assert (two.mix_up, two.miscount) == (2 * one.mix_up, 2 * one.miscount)
    assert (two.missing, two.tools) == (one.missing, one.tools)
    said = Person(two, BOOK).report(Feature.GENDER, "male")
    assert math.isclose(sum(said.values()), 1.0)
    assert said["male"] < person("ordinary").report(Feature.GENDER, "male")["male"]


@pytest.mark.parametrize("name", ["careful", "hurried", "no-gauges"])
def test_the_ceiling_gives_each_answer_the_chance_with_which_it_is_made(name):
    """Chi-square of what is said against what the ceiling expects, feature by feature."""
    who, rng = person(name), random.Random(f"chi {name}")
    ceiling = Ceiling(LOT, who, len(CATALOGUE.ends))
    makes = rng.choices(LOT.makes, [make.weight for make in LOT.makes], k=5)
    looked_at = 0
    for make in makes:
        for text in BOOK.questions:
            feature, tool = text.feature, sharpest(text, who.observer.tools)
            if tool is None or not applies(feature, make.blueprint.seen_as):
                continue
            said, example = Counter(), {}
            for _ in range(250):
                reading = observe(rng, make_part(rng, make, BOOK), feature, who, tool)
                if reading:
                    said[reading.entered] += 1
                    example[reading.entered] = reading
            share = ceiling.share_worn(feature)
            square = cells = 0.0
            for words, number in said.items():
                new, old = ceiling.chance(example[words], make.blueprint.figures.get(feature))
                expected = 250 * ((1 - share) * new + share * old)
                if expected >= 5:
                    square += (number - expected) ** 2 / expected
                    cells += 1
                else:  # what is seen often is not called rare
                    assert number <= 6 + 4 * expected
            assert square <= cells + 6 * math.sqrt(2 * cells) + 8, (make.row, feature, said)
            looked_at += cells > 0
    assert looked_at >= 30


def test_a_ceiling_that_is_told_of_silence_keeps_its_promises():
    """The whole simulator turned round: hits come as often as was promised."""
    who, rng = person("ordinary"), random.Random(11)
    ceiling = Ceiling(LOT, who, len(CATALOGUE.ends))
    promised = variance = hits = 0.0
    for _ in range(90):
        part = LOT.draw(rng)
        sheet = fill_sheet(rng, part, who)
        said = {reading.feature for reading in sheet}
        silent = [feature for feature, _ in asked_of(part, who) if feature not in said]
        rows, _ = ceiling.posterior(sheet, silent)
        best = max(range(len(rows)), key=rows.__getitem__)
        promised += rows[best]
        variance += rows[best] * (1 - rows[best])
        hits += best == part.row
    assert abs(hits - promised) <= 3.5 * math.sqrt(variance), (hits, promised)
    assert hits > 45


def test_the_ceiling_finds_a_clean_part():
    who, rng = person("careful"), random.Random(7)
    ceiling = Ceiling(LOT, who, len(CATALOGUE.ends))
    make = make_of("flare37:-8:male")
    found = 0
    for _ in range(20):
        rows, strange = ceiling.posterior(fill_sheet(rng, make_part(rng, make, BOOK), who))
        assert math.isclose(sum(rows) + strange, 1.0)
        found += max(range(len(rows)), key=rows.__getitem__) == make.row
    assert found >= 15
