"""The sentences of a verdict: what was found, what still stands, what a question separates."""

from identify.light import Iterable
from identify.model.connection import EndConnection
from identify.model.verdict import Danger, Ranked, VerdictKind, open_forms, percent
from identify.reasoning.posterior import DIGITS

AGAIN_WHY = "A second reading shows whether the first was a slip."


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
    name = beside_name(parted[0], lead)
    more = f" and {len(parted) - 1} more" if len(parted) > 1 else ""
    return f"It would separate {lead.title} from {name}{more}."


def beside_name(other: EndConnection, lead: EndConnection) -> str:
    """Return what an end is called beside another: only what is not the same of both."""
    if other.family != lead.family:
        return other.title
    return other.form if other.size == lead.size else other.size


def lead_name(lead: Ranked, others: Iterable[EndConnection]) -> str:
    """Return what an answer is called before others: its form too, where that is all that differs.

    Where several forms of it are open, all are named.
    """
    end = lead.end
    if not any((each.family, each.size) == (end.family, end.size) for each in others):
        return end.named
    forms = [each.end.form for each in open_forms(lead)] or [end.form]
    return f"{end.named}, {' or '.join(forms)}"


def headline(
    kind: VerdictKind,
    ranking: tuple[Ranked, ...],
    none: float,
    dangers: tuple[Danger, ...],
    first: str = "",
    named: float = 0.0,
    unlisted: str = "",
) -> str:
    """Return the verdict in one or two sentences.

    Args:
        kind: The verdict.
        ranking: Leading groups; may be empty only for abstain.
        none: Probability of none-of-these.
        dangers: Dangerous lookalikes that still stand, gravest risk first.
        first: What experience asks for before anything is named, empty if nothing.
        named: A leader less likely than this [0..1] is one of many.
        unlisted: The family it looks like in a size the tables do not hold, empty if none.
    """
    if kind is VerdictKind.ABSTAIN:
        looks = (
            f"it looks like {unlisted}, or a family with the same seat, in a size that is not in "
            "the tables"
        )
        return (
            f"No end in the tables fits these readings well ({percent(none)} that it is none of "
            "them). Check the readings; if they stand, "
            f"{looks if unlisted else 'this is an end the tables do not hold'}."
        )
    lead = ranking[0]
    others = [each.end for each in ranking[1:3]] + [each.end for each in dangers[:1]]
    named_so = lead.end.named if kind is VerdictKind.IDENTIFIED else lead_name(lead, others)
    name = f"{named_so} ({percent(lead.probability)})"
    if kind is VerdictKind.IDENTIFIED:
        return f"Identified: {name}.{_open(lead)}"
    if first:
        return f"Not identified yet. Most likely {name}. {first}"
    if lead.probability < named:
        return f"Not identified yet. Many ends fit; the first of them is {name}."
    if dangers and lead.probability > _NEAR:
        rival = dangers[0]
        look = "Look again. " if rival.again else ""
        clear = f" {look}It differs in {rival.tell}." if rival.tell else ""
        return (
            f"Not identified yet. Most likely {name}, but "
            f"{beside_name(rival.end, lead.end)} is still possible ({percent(rival.probability)}) "
            f"and must not be taken for it.{clear}"
        )
    return f"Not identified yet. Most likely {name}{_still(lead, ranking[1:], none)}."


_NEAR = 0.9  # a leader from this probability on has no rival but a dangerous one
_WORTH_SAYING = 0.01  # what is less likely does not stand in the verdict itself


def _still(lead: Ranked, others: tuple[Ranked, ...], none: float) -> str:
    """Return what else fits, likeliest first: two answers at most, or an end in no table."""
    found = [(each.probability, beside_name(each.end, lead.end)) for each in others[:2]]
    found.append((none, "an end in no table"))
    found.sort(key=lambda each: -round(each[0], DIGITS))
    told = [f"{name} ({percent(p)})" for p, name in found[:2] if p >= _WORTH_SAYING]
    if not told:
        return "; whatever else fits is less likely than 1 in 100"
    return f", or {' or '.join(told)}"


def _open(lead: Ranked) -> str:
    """Return which forms of an identified end are open, and that it does not matter to its mate."""
    names = [form.end.form for form in open_forms(lead)]
    if not names:
        return ""
    return f" Its form is still open: {' or '.join(names)}. The same mates take each."
