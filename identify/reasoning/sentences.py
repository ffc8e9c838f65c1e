"""The sentences of a verdict: what was found, what still stands, what a question separates."""

from collections.abc import Iterable

from identify.model.connection import EndConnection
from identify.model.verdict import Danger, Ranked, VerdictKind, open_forms, percent

AGAIN_WHY = "A second reading shows whether the first was a slip, and halves the doubt if not."


def once_more(question: str, so_far: Iterable[str]) -> str:
    """Return a question that is put although it was answered, beside what was read so far."""
    read = tuple(so_far)
    stays = f"{' and '.join(read)} {'stays and counts' if len(read) == 1 else 'stay and count'} too"
    return f"Read it once more ({stays}). {question}"


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
        return f"Identified: {name}.{_open(lead)}"
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


def _open(lead: Ranked) -> str:
    """Return which forms of an identified end are open, and that it does not matter to its mate."""
    names = [form.end.form for form in open_forms(lead)]
    if not names:
        return ""
    return f" Its form is still open: {' or '.join(names)}. The same mates take each."
