"""Every shipped rule fires on facts made from its own condition, says why, and changes nothing."""

import dataclasses

import pytest

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
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
)
from identify.model.rule import Check, Condition, EndPattern, ExpertRule, ReadingPattern
from identify.model.source import Support
from identify.model.verdict import Effect, Hazard, VerdictKind
from identify.reasoning.conditions import Facts, holds
from tests.reasoning.witness import facts_for, fire
from tests.shipped import knowledge


def end(name: str) -> EndConnection:
    return knowledge().catalogue.by_id[name]


def facts(
    *readings: Reading,
    ranking: tuple[tuple[EndConnection, float], ...] = (),
    none_of_these: float = 0.0,
    verdict: VerdictKind = VerdictKind.SHORTLIST,
) -> Facts:
    ends = [end for end, _ in ranking]
    standing = [(row, share) for row, (_, share) in enumerate(ranking)]
    families = [end.family for end in ends]
    return Facts(
        {one.feature: one for one in readings}, ends, standing, families, none_of_these, verdict
    )


def fired(*args, **kwargs) -> set[str]:
    return {one.rule for one in fire(knowledge().book.rules, facts(*args, **kwargs))}


def rule(when: Condition, **changes) -> ExpertRule:
    made = ExpertRule(
        "one", when, Effect.WARN, Hazard.LOW, "Beware.", "so it is", "s", Support.COMMON_PRACTICE
    )
    return dataclasses.replace(made, **changes)


RULES = [pytest.param(one, id=one.key) for one in knowledge().book.rules]


@pytest.mark.parametrize("one", RULES)
def test_rule_is_reachable_on_shipped_ends_and_says_why(one):
    met = facts_for(one.when, knowledge().catalogue.ends)
    before = dataclasses.replace(met)
    (warning,) = fire([one], met)
    assert met == before
    assert (warning.rule, warning.effect, warning.ask) == (one.key, one.effect, one.ask)
    matched, _, reason = warning.because.removeprefix("because ").rpartition(": ")
    assert warning.because.startswith("because ")
    assert len(matched) > 8
    assert one.because.endswith(reason)


@pytest.mark.parametrize("one", RULES)
def test_rule_is_silent_on_no_facts_at_all(one):
    empty = facts(verdict=VerdictKind.IDENTIFIED)
    assert fire([one], empty) == ()


@pytest.mark.parametrize("one", RULES)
def test_a_rule_that_only_asks_is_silent_once_answered(one):
    if one.effect is not Effect.ASK_FIRST:
        assert one.sentence
        return
    met = facts_for(one.when, knowledge().catalogue.ends)
    answered = Reading(one.ask, Choice("x"), How.CALIPER, "x")
    assert not holds(
        one.when, dataclasses.replace(met, readings={**met.readings, one.ask: answered})
    )


@pytest.mark.parametrize("one", RULES)
def test_rule_speaks_plainly(one):
    assert not one.sentence[0].islower()
    assert one.sentence.endswith(".")
    assert not one.because.endswith(".")
    for part in one.sentence.rstrip(".").split(". "):
        assert len(part.split()) <= 32, part


def test_there_are_rules_enough():
    rules = knowledge().book.rules
    assert len(rules) >= 40
    assert {one.effect for one in rules} == set(Effect)
    assert len({one.key for one in rules}) == len(rules)


# What the trade would expect on real ends. Thread pairs: SAE J514 and ISO 8434-1 as the tables
# hold them; the measured case of the flange is a public safety notice.


def test_flares_of_one_thread_want_the_seat_angle():
    ranking = ((end("flare37:-8:male"), 0.7), (end("flare45:-8:male"), 0.2))
    assert "flare-37-or-45" in fired(ranking=ranking)
    angle = Reading(Feature.SEAT_ANGLE, Angle(37, Basis.HALF), How.GAUGE, "37 deg half")
    assert "flare-37-or-45" not in fired(angle, ranking=ranking)


def test_light_and_heavy_want_the_tube():
    ranking = ((end("cone24_L:15L:male"), 0.5), (end("cone24_S:14S:male"), 0.4))
    assert "light-or-heavy-male" in fired(ranking=ranking)
    assert "light-or-heavy-female" not in fired(ranking=ranking)
    tube = Reading(Feature.TUBE_BORE, Length(15.1), How.CALIPER, "15.1 mm")
    assert "light-or-heavy-male" not in fired(tube, ranking=ranking)


def test_code_61_and_62_want_both_spacings():
    ranking = ((end("flange61:1-in:flange"), 0.5), (end("flange62:1-in:flange"), 0.4))
    long = Reading(Feature.BOLT_SPACING_LONG, Length(52.4), How.CALIPER, "52.4 mm")
    short = Reading(Feature.BOLT_SPACING_SHORT, Length(26.2), How.CALIPER, "26.2 mm")
    assert "code-61-or-62" in fired(long, ranking=ranking)
    assert "code-61-or-62" not in fired(long, short, ranking=ranking)


@pytest.mark.parametrize(
    ("name", "rule_key"),
    [
        ("gas_weld:G1/4-RH/LH:female-g", "welding-gas"),
        ("brake_tube:M10x1:male-bubble", "brake-line"),
        ("airbrake_comp:1/4-tube:male", "air-brake"),
        ("garden:3/4-11.5-NH:male", "not-a-hydraulic-end"),
    ],
)
def test_guarded_ends_are_refused(name, rule_key):
    warnings = fire(knowledge().book.rules, facts(ranking=((end(name), 0.9),)))
    assert warnings[0].effect is Effect.REFUSE
    assert [one.rule for one in warnings if one.effect is Effect.REFUSE] == [rule_key]


def test_every_guarded_family_is_refused_when_it_leads():
    guarded = [one for one in knowledge().catalogue.ends if one.refuse]
    assert guarded
    for one in guarded:
        effects = {w.effect for w in fire(knowledge().book.rules, facts(ranking=((one, 0.9),)))}
        assert Effect.REFUSE in effects, one.id


def test_no_hydraulic_end_is_refused_on_dimensions():
    for one in knowledge().catalogue.ends:
        if not one.refuse:
            warnings = fire(knowledge().book.rules, facts(ranking=((one, 0.9),)))
            assert Effect.REFUSE not in {w.effect for w in warnings}, one.id


def test_left_hand_thread_is_refused():
    left = Reading(Feature.HAND, Choice("left"), How.EYE, "left")
    assert "left-hand-thread" in fired(left)


@pytest.mark.parametrize(
    ("mark", "stops"),
    [("AN6-8", False), ("MS21902-8", True), ("NAS 1760", True), ("CAN 12", False), ("12L", False),
     ("MAN", False), ("AS4395", True)],
)  # fmt: skip
def test_aircraft_marks(mark, stops):
    read = Reading(Feature.MARKING, Marking(mark), How.EYE, mark)
    assert ("aerospace-mark" in fired(read)) is stops


@pytest.mark.parametrize(("mark", "warns"), [("AN6-8", True), ("AN", True), ("MAN", False)])
def test_an_is_said_of_industrial_flares_too(mark, warns):
    read = Reading(Feature.MARKING, Marking(mark), How.EYE, mark)
    assert ("an-mark" in fired(read)) is warns
    assert not warns or Effect.REFUSE not in {
        one.effect for one in fire(knowledge().book.rules, facts(read))
    }


@pytest.mark.parametrize(
    ("mark", "stops"), [("O2", True), ("OXYGEN", True), ("NO2", False), ("O25", False)]
)
def test_gas_marks(mark, stops):
    read = Reading(Feature.MARKING, Marking(mark), How.EYE, mark)
    assert ("gas-or-air-mark" in fired(read)) is stops


@pytest.mark.parametrize(
    ("pitch", "says"),
    [
        (Pitch(25.4 / 18, inch=True), True),  # a gauge leaf
        (Pitch(25.4 / 18, inch=True, pitches=5), True),
        (Pitch(25.4 / 18, inch=True, pitches=10), False),
        (Pitch(25.4 / 20, inch=True), False),
    ],
)
def test_18_and_19_tpi_want_ten_pitches(pitch, says):
    read = Reading(Feature.PITCH, pitch, How.GAUGE, "typed")
    assert ("pitch-18-19" in fired(read)) is says


def test_an_unlikely_end_no_longer_stands():
    both = ((end("flare37:-8:male"), 0.97), (end("flare45:-8:male"), 0.019))
    assert "flare-37-or-45" not in fired(ranking=both)


# The engine


@pytest.mark.parametrize(
    ("slope", "word"),
    [(Slope(0.5, 8), "tapered"), (Slope(0.1, 8), "parallel"), (Slope(0.25, 8), "tapered")],
)
def test_a_measured_taper_counts_as_its_word(slope, word):
    for said in ("tapered", "parallel"):
        when = Condition(Check.READING, reading=ReadingPattern(Feature.TAPER, words=(said,)))
        read = Reading(Feature.TAPER, slope, How.CALIPER, "typed")
        assert holds(when, facts(read)) is (said == word)


@pytest.mark.parametrize(
    ("basis", "read", "expected"),
    [("unsaid", None, True), ("unsaid", Basis.HALF, False), ("half", Basis.HALF, True),
     ("half", None, False), ("included", Basis.HALF, False)],
)  # fmt: skip
def test_angle_basis(basis, read, expected):
    when = Condition(Check.READING, reading=ReadingPattern(Feature.SEAT_ANGLE, basis=basis))
    reading = Reading(Feature.SEAT_ANGLE, Angle(45, read), How.GAUGE, "45 deg")
    assert holds(when, facts(reading)) is expected


@pytest.mark.parametrize(
    ("mm", "inside"), [(9.5, True), (10.4, True), (9.49, False), (10.41, False)]
)
def test_bounds_belong_to_the_range(mm, inside):
    pattern = ReadingPattern(Feature.THREAD_OD, low=9.5, high=10.4)
    read = Reading(Feature.THREAD_OD, Length(mm), How.CALIPER, "typed")
    assert holds(Condition(Check.READING, reading=pattern), facts(read)) is inside


def test_all_any_not():
    yes = Condition(Check.MISSING, features=(Feature.HEX,))
    no = Condition(Check.READING, reading=ReadingPattern(Feature.HEX))
    known = facts()
    assert holds(Condition(Check.ALL, parts=(yes, yes)), known)
    assert not holds(Condition(Check.ALL, parts=(yes, no)), known)
    assert holds(Condition(Check.ANY, parts=(no, yes)), known)
    assert not holds(Condition(Check.ANY, parts=(no, no)), known)
    assert holds(Condition(Check.NOT, parts=(no,)), known)
    assert not holds(Condition(Check.NOT, parts=(yes,)), known)


def test_top_is_the_first_end_only():
    top = Condition(Check.TOP, ends=(EndPattern(families=("flare45",)),))
    ranking = ((end("flare37:-8:male"), 0.6), (end("flare45:-8:male"), 0.3))
    assert not holds(top, facts(ranking=ranking))
    assert holds(top, facts(ranking=ranking[1:]))
    assert not holds(top, facts())


def test_standing_names_the_most_probable_of_several_families():
    pattern = EndPattern(families=("flare45", "flare37"))
    when = Condition(Check.STANDING, ends=(pattern,), at_least=0.02)
    ranking = ((end("flare37:-8:male"), 0.6), (end("flare45:-8:male"), 0.3))
    (warning,) = fire([rule(when)], facts(ranking=ranking))
    title = end("flare37:-8:male").title
    assert warning.because == f"because {title}, male is still possible: so it is"


def test_because_joins_facts_and_reason():
    when = Condition(
        Check.ALL,
        parts=(
            Condition(Check.READING, reading=ReadingPattern(Feature.HEX)),
            Condition(Check.MISSING, features=(Feature.THREAD_OD, Feature.PITCH, Feature.TAPER)),
            Condition(
                Check.NOT, parts=(Condition(Check.VERDICT, verdicts=(VerdictKind.IDENTIFIED,)),)
            ),
        ),
    )
    read = Reading(Feature.HEX, Length(19), How.CALIPER, "19 mm")
    (warning,) = fire([rule(when)], facts(read))
    od, pitch = FEATURES[Feature.THREAD_OD].words, FEATURES[Feature.PITCH].words
    assert warning.because == (
        f'because hex was read as 19 mm (caliper) and neither "{od}" nor '
        f'"{pitch}" nor 1 more is known: so it is'
    )


def test_no_because_claims_certainty():
    when = Condition(Check.TOP, ends=(EndPattern(genders=("male",)),))
    (warning,) = fire([rule(when)], facts(ranking=((end("flare37:-8:male"), 1.0),)))
    assert warning.because.endswith("male is most likely: so it is")


def test_gravest_first():
    when = Condition(Check.MISSING, features=(Feature.HEX,))
    order = [
        rule(when, key="asks", effect=Effect.ASK_FIRST, hazard=Hazard.HIGH, ask=Feature.HEX),
        rule(when, key="low", hazard=Hazard.LOW),
        rule(when, key="caution", effect=Effect.CAUTION, hazard=Hazard.HIGH),
        rule(when, key="high", hazard=Hazard.HIGH),
        rule(when, key="refuse", effect=Effect.REFUSE, hazard=Hazard.LOW),
    ]
    keys = [one.rule for one in fire(order, facts())]
    assert keys == ["refuse", "high", "low", "caution", "asks"]
