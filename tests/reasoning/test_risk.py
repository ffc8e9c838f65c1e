"""What it would cost to be wrong, as a verdict names it."""

from dataclasses import replace

import pytest

from identify.model.verdict import Hazard
from identify.reasoning.hazards import Hazards, worst_mating
from identify.reasoning.lookalikes import lookalikes_of
from identify.reasoning.risk import Risk
from tests.reasoning.tables import end, shipped
from tests.shipped import knowledge

HAZARDS = Hazards(shipped())
BOOK = replace(knowledge().book, lookalikes=())
RISK = Risk(shipped(), BOOK, HAZARDS)


@pytest.mark.parametrize("name", ["bspp60:G1/2:male", "flare37:-4:male", "flange61:1-in:flange"])
def test_a_lookalike_carries_the_hazard_of_mixing_the_two_up_either_way_round(name: str) -> None:
    """By the meaning of `Danger`: one hazard for a pair, of the two ways round the worse."""
    taken = end(name)
    named = RISK.lookalikes(taken)
    for danger in named:
        ways = [
            worst_mating(shipped(), danger.end, taken).hazard,
            worst_mating(shipped(), taken, danger.end).hazard,
        ]
        assert danger.hazard is max(ways, key=lambda hazard: hazard.rank)
        assert ways[0] is not Hazard.LOW  # saying this end when it is the other does harm
        assert RISK.danger(danger.end, taken, 0.1).hazard is danger.hazard
    rank = [(-each.hazard.rank, bool(each.end.refuse), each.end.id) for each in named]
    assert rank == sorted(rank)
    missing = {each.rival.id for each in lookalikes_of(shipped(), taken, BOOK.observation, HAZARDS)}
    missing -= {danger.end.id for danger in named}
    assert all(HAZARDS.of(end(rival), taken) is Hazard.LOW for rival in missing)
