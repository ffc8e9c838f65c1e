"""A second reading taken otherwise than by the same person in the same way, and what that tells."""

from __future__ import annotations

from collections.abc import Collection

from identify.frozen import TYPE_CHECKING
from identify.model.rule import Tool
from identify.model.verdict import Other
from identify.reasoning.openings import Offer, Wish, wished
from identify.reasoning.posterior import Posterior
from identify.reasoning.question import Chooser

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

FETCH_MINUTES = 0.5  # to ask somebody over; judgement, nobody has timed it


def others(
    chooser: Chooser, state: Posterior, offer: Offer, tools: Collection[Tool]
) -> Steps[tuple[Other, ...]]:
    """Return what tells more than a second reading that is offered, best first.

    With each other tool at hand, and by somebody else; only what tells clearly more is named.

    Args:
        chooser: Weighs the measurements.
        state: What is known.
        offer: A second reading.
        tools: What is in the bag.
    """
    feature, mass = offer.text.feature, state.doubts().mass(offer.text.feature)
    ways = [(tool, False) for tool in chooser.tools[feature] if tool in tools]
    if not any(each.other_person for each in offer.before):
        ways.append((offer.tool, True))
    ways = [way for way in ways if way != (offer.tool, False)]
    text, known = offer.text, (offer.gauges, offer.before)
    wishes = [Wish(feature, text.taken_as[tool], mass, *known, other) for tool, other in ways]
    (told,) = yield from wished([wishes], state.memory.told)
    found = []
    for (tool, other), (_, bits) in zip(ways, told, strict=True):
        if bits * chooser.limits.nearly_as_good >= offer.bits:
            minutes = text.minutes[tool] + (FETCH_MINUTES if other else 0.0)
            found.append(Other(tool, other, bits, minutes, bits / offer.bits))
    return tuple(sorted(found, key=lambda each: (-each.bits / each.minutes, each.how)))
