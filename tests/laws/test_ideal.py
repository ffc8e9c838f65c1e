"""Laws of the ranking: what must hold for every row, every order, every unit and every error."""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Choice, How, Length, Reading, Slope
from identify.model.rule import Access
from identify.model.thread import Thread
from identify.reading.parse import parse_readings
from identify.reasoning.answers import answers_called, information
from identify.reasoning.density import between
from identify.reasoning.engine import ALL_TOOLS, Engine
from identify.reasoning.hypotheses import NONE
from identify.reasoning.likelihood import weigh
from identify.reasoning.lockstep import alone
from identify.reasoning.subject import Subject, trait
from identify.reasoning.traits import Interval
from tests.ideal import ideal_readings
from tests.shipped import knowledge, shipped_engine
from tests.strategies import measured, readings

FAMILIES = sorted(knowledge().catalogue.families)
UNMEASURED = ("trailer_brake_hyd",)  # only the thread of its line is known, and where it sits
COMMON = 0.3  # ways of making a seat that are at least this common must come out first
FEW = settings(max_examples=40, deadline=None, derandomize=True)
BUILT = settings(FEW, max_examples=10, phases=(Phase.generate,))  # an engine an example
CRESTS = {"male": Feature.THREAD_OD, "female": Feature.THREAD_ID}


def fully_measured(end: EndConnection, seat: Seat, thread: Thread | None) -> list[Reading]:
    """Return the readings of a perfect part, its taper by caliper over 8 mm and not by eye."""
    found = {reading.feature: reading for reading in ideal_readings(end, seat, thread)}
    if thread is not None and Feature.TAPER in found:
        slope = Slope(thread.taper * 8, 8)
        found[Feature.TAPER] = Reading(Feature.TAPER, slope, How.CALIPER, "")
    if end.left_hand >= COMMON:  # the right-hand ones are a hydraulic end to every instrument
        found[Feature.HAND] = Reading(Feature.HAND, Choice("left"), How.EYE, "")
    return list(found.values())


@pytest.mark.parametrize("family", FAMILIES)
def test_a_perfect_part_perfectly_measured_ranks_its_group_first(
    family: str, engine: Engine
) -> None:
    losers = []
    catalogue = engine.catalogue
    for row, end in enumerate(catalogue.ends):
        if end.family != family or family in UNMEASURED:
            continue
        for seat in end.seats:
            if seat.share < COMMON or end in without_figures(catalogue):
                continue
            thread = catalogue.thread_of(end, seat.thread)
            state = engine.posterior(fully_measured(end, seat, thread))
            head, _, joined = engine.groups(state, 1)[0]
            if row not in (head, *joined):
                losers.append(f"{end.id} ({seat.shape}): {catalogue.ends[head].id} leads")
    assert losers == []


def without_figures(catalogue: Catalogue) -> list[EndConnection]:
    """Return the rows of which the tables know no thread and no dimension of the end."""
    return [
        end
        for end in catalogue.ends
        if end.thread is None
        and {reading.feature for reading in ideal_readings(end, end.seats[0], None)}
        <= {Feature.GENDER, Feature.SEAT_SHAPE, Feature.O_RING, Feature.SEAT_ANGLE}
    ]


def test_every_end_of_the_tables_can_be_measured(engine: Engine) -> None:
    assert without_figures(engine.catalogue) == []


@FEW
@given(st.one_of(readings(), measured()))
def test_a_posterior_totals_1_and_leaves_every_end_possible(given_: tuple[Reading, ...]) -> None:
    state = shipped_engine().posterior(given_)
    assert math.isclose(sum(state.weights), 1, rel_tol=1e-9)
    assert math.isclose(sum(state.rows) + state.none_of_these, 1, rel_tol=1e-9)
    assert min(state.rows) > 0
    assert state.none_of_these > 0


@FEW
@given(st.one_of(readings(), measured()), st.randoms(use_true_random=False))
def test_the_order_of_readings_changes_nothing(
    given_: tuple[Reading, ...], source: random.Random
) -> None:
    engine = shipped_engine()
    mixed = list(given_)
    source.shuffle(mixed)
    one, other = engine.conclude(given_), engine.conclude(mixed)
    assert one.kind is other.kind
    assert [each.end.id for each in one.ranking] == [each.end.id for each in other.ranking]
    for mine, theirs in zip(one.ranking, other.ranking, strict=True):
        assert math.isclose(mine.probability, theirs.probability, rel_tol=1e-9)
    assert {each.rule for each in one.warnings} == {each.rule for each in other.warnings}


@BUILT
@given(measured(), st.randoms(use_true_random=False))
def test_the_order_of_the_tables_changes_nothing(
    given_: tuple[Reading, ...], source: random.Random
) -> None:
    told = knowledge()
    ends = list(told.catalogue.ends)
    source.shuffle(ends)
    mixed = Engine(replace(told.catalogue, ends=tuple(ends)), told.book, told.hazards)
    one, other = shipped_engine().conclude(given_), mixed.conclude(given_)
    assert one.kind is other.kind
    assert [(each.end.id, {twin.id for twin in each.twins}) for each in one.ranking] == [
        (each.end.id, {twin.id for twin in each.twins}) for each in other.ranking
    ]


@BUILT
@given(measured())
def test_ids_carry_no_weight(given_: tuple[Reading, ...]) -> None:
    """Rows renamed in reverse order keep their probabilities."""
    told = knowledge()
    ends = told.catalogue.ends
    renamed = tuple(replace(end, id=f"z{len(ends) - n:04}") for n, end in enumerate(ends))
    other = Engine(
        Catalogue(told.catalogue.threads, renamed, told.catalogue.families, {}), told.book
    )
    one = shipped_engine().posterior(given_).rows
    assert list(one) == pytest.approx(other.posterior(given_).rows, rel=1e-9)


@FEW
@given(st.integers(300, 2000), st.sampled_from(("male", "female")), st.sampled_from(tuple(How)[:3]))
def test_inches_and_millimetres_are_one(thou: int, gender: str, how: How) -> None:
    engine = shipped_engine()
    name = CRESTS[gender]
    way = f" by {how}"
    inch = parse_readings([f"gender={gender}", f"{name}={thou / 1000} in{way}"])
    metric = parse_readings([f"gender={gender}", f"{name}={thou * 254 / 10000:.4f} mm{way}"])
    plain = parse_readings([f"gender={gender}", f"{name}={thou} thou{way}"])
    assert engine.posterior(inch).rows == engine.posterior(metric).rows
    assert engine.posterior(inch).rows == engine.posterior(plain).rows


def sizes(feature: Feature) -> list[list[tuple[str, Interval]]]:
    """Return the spans of a length of all sizes of each family and form that have several."""
    found: dict[tuple[str, str], dict[Interval, str]] = {}
    model = knowledge().book.observation
    for subject in shipped_engine().space.subjects:
        if subject.end is None:
            continue
        span = trait(feature, subject, model)
        if isinstance(span, Interval):
            key = (subject.end.family, subject.end.form_key)
            found.setdefault(key, {}).setdefault(span, subject.end.id)
    return [[(name, span) for span, name in one.items()] for one in found.values() if len(one) > 1]


LENGTHS = [feature for feature, info in FEATURES.items() if info.kind is Kind.LENGTH]
SPANNED = [feature for feature in LENGTHS if feature not in (Feature.HEX, Feature.HOSE_BORE)]


def ratio(feature: Feature, how: How, mm: float, here: Interval, there: Interval) -> float:
    """Return how many times likelier a reading is of one span than of another."""
    model = knowledge().book.observation
    reading = Reading(feature, Length(mm), how, "")
    return weigh(reading, here, model).likelihood / weigh(reading, there, model).likelihood


@pytest.mark.parametrize("feature", SPANNED)
def test_a_reading_at_the_centre_of_a_size_speaks_for_it(feature: Feature) -> None:
    losers = []
    for family in sizes(feature):
        for name, span in family:
            middle = (span.low + span.high) / 2
            losers += [
                (name, other)
                for other, rival in family
                if not rival.low <= middle <= rival.high
                and ratio(feature, How.CALIPER, middle, span, rival) < 1
            ]
    assert losers == []


@pytest.mark.parametrize("feature", SPANNED)
def test_a_blunter_instrument_never_sharpens(feature: Feature) -> None:
    """At the centre of one size, a rule says less than a caliper against every size beyond it."""
    sharper = []
    for family in sizes(feature):
        for name, span in family:
            middle = (span.low + span.high) / 2
            for other, rival in family:
                if rival.low <= middle <= rival.high:
                    continue
                fine, blunt, eye = (
                    ratio(feature, how, middle, span, rival)
                    for how in (How.CALIPER, How.RULE, How.EYE)
                )
                if not fine >= blunt * (1 - 1e-9) >= eye * (1 - 1e-9) ** 2:
                    sharper.append((name, other, fine, blunt, eye))
    assert sharper == []


@FEW
@given(st.floats(0.01, 3), st.floats(0.01, 3), st.floats(0.0, 1))
def test_more_error_flattens_a_density_at_its_centre(
    one: float, other: float, width: float
) -> None:
    small, great = sorted((one, other))
    assert between(0, -width, width, great) <= between(0, -width, width, small) * (1 + 1e-9)


@FEW
@given(st.one_of(measured(), readings()))
def test_a_question_tells_something_and_no_more_than_there_is_to_know(
    given_: tuple[Reading, ...],
) -> None:
    engine = shipped_engine()
    state = engine.posterior(given_)
    entropy = -sum(w * math.log2(w) for w in state.weights if w > 0)
    asked = {reading.feature for reading in given_}
    openings = engine.chooser.openings(state, asked, ALL_TOOLS, Access.END_OFF)
    for offer in alone(openings.all(), engine.chooser.gains):
        assert 0 <= offer.bits <= entropy + 1e-6, offer.text.feature
        assert offer.text.feature not in asked


@FEW
@given(
    st.lists(
        st.tuples(st.floats(0.01, 1), st.lists(st.floats(0.01, 1), min_size=4, max_size=4)),
        min_size=1,
        max_size=5,
    )
)
def test_information_lies_between_nothing_and_the_entropy_of_what_is_there(
    kinds: list[tuple[float, list[float]]],
) -> None:
    total = sum(weight for weight, _ in kinds)
    shares = [weight / total for weight, _ in kinds]
    rows = [[p / sum(row) for p in row] for _, row in kinds]
    bits = information(zip(shares, map(answers_called, rows), strict=True))
    assert 0 <= bits <= -sum(p * math.log2(p) for p in shares) + 1e-9
    merged = [[sum(row[n : n + 2]) for n in range(0, len(row), 2)] for row in rows]
    coarser = information(zip(shares, map(answers_called, merged), strict=True))
    assert coarser <= bits + 1e-9  # coarser answers tell less


def test_every_hypothesis_is_a_row_or_none_of_these() -> None:
    space = shipped_engine().space
    assert math.isclose(sum(space.prior), 1, rel_tol=1e-9)
    assert min(space.prior) > 0
    assert set(space.rows) == {NONE, *range(len(space.ends))}
    for subject, row in zip(space.subjects, space.rows, strict=True):
        assert isinstance(subject, Subject)
        assert (row == NONE) is (subject.end is None)
        assert row == NONE or subject.end is space.ends[row]


def test_nothing_measured_is_the_prior() -> None:
    engine = shipped_engine()
    state = engine.posterior(())
    assert state.weights == pytest.approx(engine.space.prior)
    gender = (Reading(Feature.GENDER, Choice("flange"), How.EYE, ""),)
    flange = sum(
        p
        for p, end in zip(engine.posterior(gender).rows, engine.catalogue.ends, strict=True)
        if end.gender == "flange"
    )
    assert flange > 0.85  # who says flange is sometimes wrong
