"""Why an end stands where it stands: every reading for and against, in plain words."""

from collections.abc import Iterable
from dataclasses import dataclass

from identify.interview.snapshot import Reference, Snapshot
from identify.model.connection import EndConnection
from identify.model.verdict import Evidence, Ranked
from identify.model.words import percent
from identify.pages.words import bar, end_words, likely_words, reason_words
from identify.tui.view.lines import Block, Tone

_BAR = 8


@dataclass(frozen=True, slots=True)
class WhyNot:
    """What the readings say of an end that was picked, beside the end that leads.

    `probability` is of the end alone [0..1].
    """

    end: EndConnection
    probability: float
    evidence: tuple[Evidence, ...]
    leader: Ranked | None


def why_blocks(snapshot: Snapshot, reference: Reference) -> tuple[Block, ...]:
    """Return the ranking with the reasons of each candidate."""
    verdict = snapshot.verdict
    if not verdict.readings:
        return (Block("Nothing has been measured yet, so nothing can be ranked."),)
    blocks: list[Block] = []
    for ranked in verdict.ranking:
        if ranked.probability < 0.005 and blocks:
            continue
        words = f"{percent(ranked.probability)} {likely_words(ranked.probability)}"
        blocks.append(Block(f"{end_words(ranked.end)}: {words}", Tone.HEAD, pick=ranked.end.id))
        blocks += evidence_blocks(ranked.evidence, reference)
        if ranked.twins:
            names = ", ".join(end_words(twin) for twin in ranked.twins)
            blocks.append(Block(f"No measurement tells it from: {names}.", mark="   "))
        blocks.append(Block(""))
    none = verdict.none_of_these
    blocks.append(Block(f"None of these: {percent(none)} {likely_words(none)}", Tone.HEAD))
    blocks.append(Block("The end may be one that the tables do not hold.", mark="   "))
    return tuple(blocks)


def evidence_blocks(evidence: Iterable[Evidence], reference: Reference) -> list[Block]:
    """Return one block a reading, the sign in front: + for, - against, = neither."""
    return [Block(reason_words(each), mark=f" {_sign(each.weight_nats)} ") for each in evidence]


def _sign(weight_nats: float) -> str:
    if abs(weight_nats) < 0.1:
        return "="
    return "+" if weight_nats > 0 else "-"


def why_not_blocks(found: WhyNot, reference: Reference) -> tuple[Block, ...]:
    """Return why an end is not the answer, or how far it still stands."""
    blocks = [
        Block(f"{end_words(found.end)}: {percent(found.probability)}", Tone.HEAD),
        Block(f"{found.end.form}. {bar(found.probability, _BAR).rstrip()} "
              f"{likely_words(found.probability)}"),
        Block(""),
    ]  # fmt: skip
    against = [each for each in found.evidence if each.weight_nats <= -0.1]
    rest = [each for each in found.evidence if each.weight_nats > -0.1]
    if not found.evidence:
        blocks.append(Block("Nothing has been measured yet, so nothing speaks against it."))
    if against:
        blocks.append(Block("What speaks against it", Tone.HEAD))
        blocks += evidence_blocks(sorted(against, key=lambda each: each.weight_nats), reference)
    elif found.evidence:
        blocks.append(Block("No reading speaks against it.", Tone.HEAD))
    if rest:
        blocks += [Block(""), Block("What speaks for it, or says nothing", Tone.HEAD)]
        blocks += evidence_blocks(rest, reference)
    leader = found.leader
    if leader and leader.end.id != found.end.id:
        text = f"In front: {end_words(leader.end)}, {percent(leader.probability)}"
        blocks += [Block(""), Block(text, Tone.HEAD), *evidence_blocks(leader.evidence, reference)]
    if found.end.tell_by:
        blocks += [Block(""), Block(f"How it is known: {found.end.tell_by}")]
    return tuple(blocks)
