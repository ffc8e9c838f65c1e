"""A line in short within an interview, and leaves that are sent once they are whole."""

from itertools import combinations

import pytest

from identify.errors import ReadingError
from identify.interview.bare import whole_leaf
from identify.interview.in_short import read_in_short
from identify.interview.session import Equipped, SessionState, replay
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.feature import Feature
from identify.model.reading import How
from identify.model.rule import Tool
from tests.shipped import knowledge

BAG = (Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE)


def with_tools(*tools: Tool) -> SessionState:
    return replay((Equipped(frozenset(tools)),))


def hows(line: str, *tools: Tool) -> list[How]:
    told = knowledge()
    taken = read_in_short(line, with_tools(*tools), told.book, told.catalogue.threads)
    return [each.reading.how for each in taken]


@pytest.mark.parametrize(
    ("tools", "found"),
    [
        ((Tool.CALIPER, *BAG), [How.EYE, How.CALIPER, How.GAUGE, How.GAUGE]),
        ((Tool.RULE, Tool.COMBS, Tool.PROTRACTOR), [How.EYE, How.RULE, How.COMBS, How.PROTRACTOR]),
    ],
)
def test_a_reading_was_taken_with_what_is_in_the_bag(tools, found):
    assert hows("m 20.9 14t 60i", *tools) == found


@pytest.mark.parametrize(
    ("token", "remedies"),
    [
        ("14t", ["14t:gauge", "14t:counted", "6g9.05"]),
        ("60i", ["60i:gauge", "60i:protractor", "60i:eye"]),
        ("20.9", ["20.9:caliper", "20.9:rule", "20.9:eye"]),
    ],
)
def test_what_nothing_at_hand_gives_is_refused_and_every_remedy_is_taken(token, remedies):
    with pytest.raises(ReadingError) as refused:
        hows(f"m {token}", Tool.KNOWN_ENDS)
    for each in remedies:
        assert each in refused.value.problem
        assert len(hows(f"m {each}", Tool.KNOWN_ENDS)) == 2


@pytest.mark.parametrize("feature", [Feature.PITCH, Feature.SEAT_ANGLE, Feature.FLANK_ANGLE])
@pytest.mark.parametrize("bag", [bag for size in (1, 2, 3) for bag in combinations(BAG, size)])
def test_no_leaf_is_sent_before_its_last_figure(feature: Feature, bag: tuple[Tool, ...]):
    state, sent = with_tools(*bag), 0
    ask = ask_of(Snapshot(state, asking=feature), knowledge().book)
    assert ask is not None
    words = {each.word for each in ask.choices} | {
        each.word for wording in ask.text.wordings if {*bag} & {*wording.tools}
        for each in wording.choices
    }  # fmt: skip
    for leaf in (word.split()[0] for word in words):
        typed = [leaf[:length] for length in range(1, len(leaf) + 1)]
        first = next((each for each in typed if whole_leaf(ask, each, state.tools)), leaf)
        assert first == leaf
        sent += whole_leaf(ask, leaf, state.tools)
    assert bool(sent) == ask.by_value
