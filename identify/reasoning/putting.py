"""An offer as it is put: in words, with its reason and what it is hoped to separate."""

from identify.light import Sequence
from identify.model.connection import EndConnection
from identify.model.reading import gender_said
from identify.model.verdict import Question
from identify.reasoning.naming import Group
from identify.reasoning.openings import Offer
from identify.reasoning.posterior import Posterior, best_way
from identify.reasoning.question import Chooser
from identify.reasoning.sentences import AGAIN_WHY, once_more, separates

NEARLY_ALL = 0.98  # of the probability: the ends that hold it are those that still stand


def put(
    chooser: Chooser, state: Posterior, offer: Offer, why: str, groups: Sequence[Group]
) -> Question:
    """Return an offer as a question.

    Args:
        chooser: Knows which answers are expected.
        state: What is known.
        offer: The measurement.
        why: Why it is to be made now.
        groups: Leading answers, as `Engine.groups` returns them.
    """
    text, ends = offer.text, state.space.ends
    leads = groups and groups[0][1] >= chooser.limits.named
    others = parted(chooser, state, offer, groups)
    return Question(
        feature=text.feature,
        text=_asked(offer, gender_said(state.readings)),
        why=AGAIN_WHY if offer.before and why == text.why else why,
        how=offer.tool,
        bits=offer.bits,
        minutes=offer.minutes,
        separates=separates(ends[groups[0][0]] if leads else None, others, _standing(state)),
        known=offer.known,
        again=bool(offer.before),
    )


def parted(
    chooser: Chooser, state: Posterior, offer: Offer, groups: Sequence[Group]
) -> list[EndConnection]:
    """Return the answers beside the leading one for which another reading is expected."""
    if not groups:
        return []
    ways = [best_way(state, head) for head, _, _ in groups]
    return [
        state.space.ends[head]
        for (head, _, _), apart in zip(
            groups[1:], chooser.tells_apart(offer, ways[0], ways[1:]), strict=True
        )
        if apart
    ]


def _asked(offer: Offer, gender: str | None) -> str:
    """Return the question of an offer: on a known part, once more, or as the rules put it."""
    if offer.known:
        return f"Try it on a known {offer.known}, by hand: what does it do?"
    question = offer.text.put(offer.tool, gender).question
    if offer.put_off:
        return f"You could not tell before; a second try would help. {question}"
    if offer.before:
        return once_more(question, (each.entered for each in offer.before))
    return question


def _standing(state: Posterior) -> int:
    """Return how many rows, the most probable, hold nearly all that the tables hold."""
    wanted, count, held = NEARLY_ALL * state.listed(), 0, 0.0
    shares = [share for _, share in state.standing]
    if sum(shares) < wanted:  # hardly any row stands at all
        shares = sorted(state.rows, reverse=True)
    for share in shares:
        if held >= wanted:
            break
        count, held = count + 1, held + share
    return count
