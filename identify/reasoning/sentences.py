"""The sentences of a verdict: what was found, what still stands, what a question separates."""

from identify.model.connection import EndConnection
from identify.model.verdict import Danger, Ranked, VerdictKind, percent


def separates(lead: EndConnection | None, parted: list[EndConnection], standing: int) -> str:
    """Return what the next measurement is hoped to separate.

    Args:
        lead: The leading end, None while none leads clearly.
        parted: Other leading ends for which another answer is expected.
        standing: How many ends of the tables still stand at all.
    """
    if lead is None:
        return f"It narrows down the {standing} ends that still stand."
    if not parted:
        return f"It would show whether {lead.title} holds."
    other = parted[0]
    name = other.size if other.family == lead.family else other.title
    more = f" and {len(parted) - 1} more" if len(parted) > 1 else ""
    return f"It would separate {lead.title} from {name}{more}."


def headline(
    kind: VerdictKind,
    ranking: tuple[Ranked, ...],
    none: float,
    dangers: tuple[Danger, ...],
    first: str = "",
) -> str:
    """Return the verdict in one or two sentences.

    Args:
        kind: The verdict.
        ranking: Leading groups; may be empty only for abstain.
        none: Probability of none-of-these.
        dangers: Dangerous lookalikes that still stand, likeliest first.
        first: What experience asks for before anything is named, empty if nothing.
    """
    if kind is VerdictKind.ABSTAIN:
        return (
            f"No end in the tables fits these readings well ({percent(none)} that it is none of "
            "them). Check the readings; if they stand, this is an end the tables do not hold."
        )
    lead = ranking[0]
    name = f"{lead.end.named} ({percent(lead.probability)})"
    if kind is VerdictKind.IDENTIFIED:
        return f"Identified: {name}."
    if first:
        return f"Not identified yet. Most likely {name}. {first}"
    if dangers and lead.probability > 0.9:
        rival = dangers[0]
        look = "Look again. " if rival.again else ""
        clear = f" {look}It differs in {rival.tell}." if rival.tell else ""
        return (
            f"Not identified yet. Most likely {name}, but {rival.end.title} is still possible "
            f"({percent(rival.probability)}) and would be dangerous to confuse with it.{clear}"
        )
    return f"Not identified yet. Most likely {name}; other ends still fit."
