"""What would tell more than is offered: another tool, the end undone, a question tried again.

The chooser is asked once more with every tool, the end in the hand and nothing given up. Where it
has no offer even then, to measure more would tell next to nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from identify.frozen import TYPE_CHECKING
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import lacked
from identify.model.rule import Access, QuestionText, Tool
from identify.model.verdict import Beyond, Lack
from identify.reasoning.naming import Group
from identify.reasoning.openings import AT_ONCE, Offer
from identify.reasoning.posterior import ROUNDING, Posterior
from identify.reasoning.putting import parted, put
from identify.reasoning.question import Chooser
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

EVERY_TOOL = frozenset(Tool)
NEARLY = 0.5  # of the best: what tells so much is named before it, if it is easier to come by
_ORDER = tuple(Lack)


def further(
    chooser: Chooser,
    state: Posterior,
    groups: Sequence[Group],
    tools: Collection[Tool],
    access: Access,
    given_up: Collection[Feature],
    least: float = 0.0,
) -> Steps[Beyond | None]:
    """Return the best measurement that is not offered as things stand, None if none would tell.

    Of those that tell nearly as much, what lacks a tool is named first, then what lacks access,
    last a question that was given up.

    Args:
        chooser: Weighs the measurements.
        state: What is known.
        groups: Leading answers, as `Engine.groups` returns them.
        tools: What is in the bag.
        access: How much of the end can be reached.
        given_up: Features of which nothing can be told.
        least: What it must tell to be worth naming [bits].
    """
    has = tools, access, given_up
    openings = chooser.openings(state, lacked(state.readings), EVERY_TOOL, Access.END_OFF)
    lacking: list[tuple[Lack, Offer]] = []
    enough = least
    left = [
        each
        for each in sorted(openings.by_feature.values(), key=lambda one: -one.most)
        if any(lack_of(each.text, tool, *has) for tool in each.tools)
    ]
    for number, each in enumerate(left):
        if each.most * ROUNDING < enough:
            break
        if number % AT_ONCE == 0:
            beside = (one.text.feature for one in left[number : number + AT_ONCE])
            yield from openings.look_at(beside)
        offer = yield from openings.offer(each.text.feature)
        if offer and offer.bits >= least and (lack := lack_of(offer.text, offer.tool, *has)):
            lacking.append((lack, offer))
            enough = max(enough, NEARLY * offer.bits)
    if not lacking:
        return None
    near = [each for each in lacking if each[1].bits >= enough]
    lack, offer = min(near, key=lambda each: (_ORDER.index(each[0]), -each[1].bits, each[1].place))
    leads = groups and groups[0][1] >= chooser.limits.named
    others = parted(chooser, state, offer, groups)
    ends = state.space.ends
    return Beyond(
        lack,
        _missing(offer.tool, tools),
        put(chooser, state, offer, offer.text.why, groups),
        _values(chooser, offer, ends[groups[0][0]], others[0]) if leads and others else (),
        _share_of_doubt(state, offer.bits),
    )


def lack_of(
    text: QuestionText,
    tool: Tool,
    tools: Collection[Tool],
    access: Access,
    given_up: Collection[Feature],
) -> Lack | None:
    """Return what a measurement lacks, None if it can be made as things stand.

    What could not be told for want of a tool lacks the tool.
    """
    if access not in text.access:
        return Lack.ACCESS
    if tool is not Tool.NONE and _missing(tool, tools) not in tools:
        return Lack.TOOL
    return Lack.ANSWER if text.feature in given_up else None


def _missing(tool: Tool, tools: Collection[Tool]) -> Tool:
    """Return the tool to get for a measurement: its own, or the other pitch gauge beside it."""
    if tool in tools and tool in GAUGES:
        return min(GAUGES.difference(tools), default=tool)
    return tool


def _values(
    chooser: Chooser, offer: Offer, lead: EndConnection, other: EndConnection
) -> tuple[str, ...]:
    """Return what two ends should show of the feature, in words; empty where no row says so."""
    from identify.reasoning.differences import differences  # not needed for most verdicts

    space = chooser.space
    found = differences(space.catalogue, lead, other, space.model)
    return next(((d.one, d.other) for d in found if d.feature is offer.text.feature), ())


def _share_of_doubt(state: Posterior, bits: float) -> float:
    """Return the part of all doubt that so many bits are [0..1]."""
    doubt = state.doubt()
    return min(1.0, bits / doubt) if doubt > 0 else 0.0
