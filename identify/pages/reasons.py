"""Why an end stands where it stands: every reading for and against, in plain words."""

from identify.frozen import NamedTuple
from identify.light import Iterable
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES
from identify.model.verdict import NEITHER_NATS, Evidence, Ranked, Verdict, percent
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.words import (
    bar,
    care_words,
    end_words,
    forms_words,
    likely_words,
    sentence,
    twins_words,
)

_BAR = 8
_CERTAINLY_MISTAKEN = 0.95
_PLAIN_NATS, _STRONG_NATS = 0.7, 2.3  # natural logs: 2 times and 10 times likelier than chance
WORN = "if this is the end, it is worn: do not use it again"
_SIGNS = {1: "+", 0: "=", -1: "-"}


class WhyNot(NamedTuple):
    """What the readings say of an end that was picked, beside the end that leads.

    `probability` is of the end alone [0..1].
    """

    end: EndConnection
    probability: float
    evidence: tuple[Evidence, ...]
    leader: Ranked | None


def why_blocks(verdict: Verdict) -> list[Block]:
    """Return the ranking with the reasons of each candidate."""
    if not verdict.readings:
        return [Block("Nothing has been measured yet, so nothing can be ranked.")]
    blocks: list[Block] = [*weighed_blocks(verdict)]
    for number, ranked in enumerate(verdict.ranking):
        if ranked.probability < 0.005 and number:
            continue
        words = f"{percent(ranked.probability)} {likely_words(ranked.probability)}"
        blocks.append(Block(f"{end_words(ranked.end)}: {words}", Tone.HEAD, pick=ranked.end.id))
        blocks += evidence_blocks(ranked.evidence)
        if ranked.twins:
            twins = sentence(twins_words(ranked.twins, len(ranked.twins)))
            blocks.append(Block(twins, mark="   "))
        if forms := forms_words(ranked):
            blocks.append(Block(sentence(forms), mark="   "))
        blocks.append(BLANK)
    none = verdict.none_of_these
    blocks.append(Block(f"None of these: {percent(none)} {likely_words(none)}", Tone.HEAD))
    blocks.append(Block("The end may be one that the tables do not hold.", mark="   "))
    return blocks


def weighed_blocks(verdict: Verdict) -> list[Block]:
    """Return whose readings they are weighed as; nothing where that was not told."""
    if not verdict.care:
        return []
    return [Block(f"Readings weighed as those of: {care_words(verdict.care)}.")]


def evidence_blocks(evidence: Iterable[Evidence]) -> list[Block]:
    """Return one block a reading, the sign in front: + for, - against, = neither."""
    return [Block(reason_words(each), mark=f" {_SIGNS[each.side]} ") for each in evidence]


def why_not_blocks(found: WhyNot) -> list[Block]:
    """Return why an end is not the answer, or how far it still stands."""
    chance = found.probability
    blocks = [
        Block(f"{end_words(found.end)}: {percent(chance)}", Tone.HEAD),
        Block(f"{found.end.form}. {bar(chance, _BAR).rstrip()} {likely_words(chance)}"),
        BLANK,
    ]
    against = [each for each in found.evidence if each.side < 0]
    rest = [each for each in found.evidence if each.side >= 0]
    if not found.evidence:
        blocks.append(Block("Nothing has been measured yet, so nothing speaks against it."))
    if against:
        blocks.append(Block("What speaks against it", Tone.HEAD))
        blocks += evidence_blocks(sorted(against, key=lambda each: each.weight_nats))
    elif found.evidence:
        blocks.append(Block("No reading speaks against it.", Tone.HEAD))
    if rest:
        blocks += [BLANK, Block("What speaks for it, or says nothing", Tone.HEAD)]
        blocks += evidence_blocks(rest)
    leader = found.leader
    if leader and leader.end.id != found.end.id:
        text = f"In front: {end_words(leader.end)}, {percent(leader.probability)}"
        blocks += [BLANK, Block(text, Tone.HEAD), *evidence_blocks(leader.evidence)]
    if found.end.tell_by:
        blocks += [BLANK, Block(f"How it is known: {found.end.tell_by}")]
    return blocks


# ---- one reading and one end


def strength_words(evidence: Evidence) -> str:
    """Return how strongly a reading speaks for or against an end."""
    nats, side = evidence.weight_nats, evidence.side
    if not side:
        return "says nothing either way"
    if side < 0 and nats > -NEITHER_NATS:  # rarer still elsewhere
        sure = "can only" if evidence.mistaken >= _CERTAINLY_MISTAKEN else "can well"
        return f"{sure} be a mistake if this is the end"
    word, size = "for" if side > 0 else "against", abs(nats)
    if size < _PLAIN_NATS:
        return f"speaks weakly {word} it"
    return f"speaks {word} it" if size < _STRONG_NATS else f"speaks strongly {word} it"


def reason_words(evidence: Evidence) -> str:
    """Return what one reading says of one end: the reading, the comparison, how strongly."""
    title = FEATURES[evidence.feature].title
    return f"{title}: {evidence_words(evidence)}"


def evidence_words(evidence: Evidence) -> str:
    """Return the comparison, what it says of the part's state, and how strongly it speaks."""
    worn = f"; {WORN}" if evidence.worn else ""
    return f"{evidence.sentence}{worn}; {strength_words(evidence)}"
