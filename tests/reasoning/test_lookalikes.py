"""Lookalikes found by computation; hazards of taking the one for the other."""

from functools import cache

import pytest

from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.verdict import Hazard
from identify.reasoning.differences import differences
from identify.reasoning.hazards import Hazards, worst_mating
from identify.reasoning.lookalikes import Lookalike, lookalikes_of
from identify.reasoning.threaded_joint import NIBBLED_TURNS
from tests.reasoning.tables import end, shipped
from tests.shipped import knowledge

MODEL = knowledge().book.observation
HAZARDS = Hazards(shipped())

# The trade's named pairs, what is said to tell them apart, and how a mistake ends: common practice.
# Where nothing touches (a flare in a boss) the oil runs out at once; a line of contact holds first.
NAMED = [
    ("flare37:-8:male", "flare45:-8:male", Feature.SEAT_ANGLE, Hazard.HIGH),
    ("flare37:-8:male", "orb_un:-8:male", Feature.SEAT_SHAPE, Hazard.LOW),
    ("flare37:-8:male", "flareless24_inch:-8:male", Feature.SEAT_SHAPE, Hazard.MEDIUM),
    ("orfs:-4:male", "flare37:-6:male", Feature.SEAT_SHAPE, Hazard.HIGH),
    ("jis30_g:G1/2:male", "bspp60:G1/2:male", Feature.SEAT_SHAPE, Hazard.MEDIUM),
    ("cone24_L:15L:male", "cone24_S:14S:male", Feature.TUBE_BORE, Hazard.HIGH),
    ("cone24_L:22L:male", "cone24_S:20S:male", Feature.TUBE_BORE, Hazard.HIGH),
    (
        "orb_metric:M22x1.5:female",
        "port_metric_flat:M22x1.5:female",
        Feature.SEAT_SHAPE,
        Hazard.HIGH,
    ),
    ("npt:1/2-NPT:male", "bspp60:G1/2:male", Feature.TAPER, Hazard.HIGH),
    ("flange61:1-in:flange", "flange62:1-in:flange", Feature.FLANGE_HEAD_OD, Hazard.HIGH),
    (
        "flange62:1-in:flange",
        "flange62_thick:1-in:flange",
        Feature.FLANGE_HEAD_THICKNESS,
        Hazard.HIGH,
    ),
]  # fmt: skip


@cache
def found_pairs() -> dict[tuple[str, str], Lookalike]:
    """Return what is computed for every row, by the ids of both ends."""
    return {
        (one.end.id, one.rival.id): one
        for each in shipped().ends
        for one in lookalikes_of(shipped(), each, MODEL, HAZARDS)
    }


@pytest.mark.parametrize(("one", "other", "tell", "hazard"), NAMED)
def test_named_lookalikes_are_found_judged_and_told_apart(
    one: str, other: str, tell: Feature, hazard: Hazard
) -> None:
    for pair in ((one, other), (other, one)):
        found = found_pairs()[pair]
        assert found.hazard is hazard
        assert found.tell is not None
        assert found.tell.feature is tell
        assert found.tell.resolved


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("orfs:-12:male", "cone24_S:20S:male"),  # 1 3/16-12 and M30x2
        ("flare37:-12:male", "orb_metric:M27x2:male"),  # 1 1/16-12 and M27x2
    ],
)
def test_inch_and_metric_of_nearly_one_size(one: str, other: str) -> None:
    assert (one, other) in found_pairs()
    assert max(found_pairs()[one, other].hazard, found_pairs()[other, one].hazard) != Hazard.LOW


def test_no_lookalike_is_a_mate() -> None:
    for found in found_pairs().values():
        assert found.end.gender == found.rival.gender
        if found.end.gender != "flange":
            assert found.rival not in shipped().mates_of(found.end)


def test_the_relation_has_no_direction() -> None:
    assert {(b, a) for a, b in found_pairs()} == set(found_pairs())


def test_a_tell_is_resolved_by_its_tool() -> None:
    for found in found_pairs().values():
        assert found.tell is None or found.tell.times >= 1


def test_one_end_alone_gives_the_same_as_all_at_once() -> None:
    for name in ("flare37:-8:male", "cone24_L:15L:female-o-ring-nose", "flange61:1-in:flange"):
        alone = lookalikes_of(shipped(), end(name), MODEL, Hazards(shipped()))
        assert {one.rival.id: one.hazard for one in alone} == {
            b: one.hazard for (a, b), one in found_pairs().items() if a == name
        }


@pytest.mark.parametrize("step", range(0, 97, 12))
def test_threads_that_cannot_engage_need_no_mating(step: int) -> None:
    """`Hazards` skips them; here nothing is skipped."""
    for truth in shipped().ends[step::97]:
        for taken in shipped().ends[step // 2 :: 31]:
            if truth.gender == taken.gender and truth.id != taken.id:
                expected = worst_mating(shipped(), truth, taken).hazard
                assert HAZARDS.of(truth, taken) is expected


@pytest.mark.parametrize(
    "refused", [end for end in shipped().ends if end.refuse][::3], ids=lambda end: end.id
)
def test_what_is_left_alone_is_no_danger_where_it_does_not_go_on(refused: EndConnection) -> None:
    """The pairs that hold for less than a turn: nobody can screw the one on for the other."""
    for truth in shipped().ends[::5]:
        if truth.gender == refused.gender and truth.id != refused.id:
            worst = worst_mating(shipped(), truth, refused)
            held = worst.fit is None or worst.fit.turns.loosest >= NIBBLED_TURNS
            assert held or worst.hazard is Hazard.LOW
            assert HAZARDS.of(truth, refused) is worst.hazard


def test_an_end_does_not_differ_from_itself() -> None:
    for one in shipped().ends:
        assert differences(shipped(), one, one, MODEL) == ()
