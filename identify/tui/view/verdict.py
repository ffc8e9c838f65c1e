"""The verdict screen: what it is, what it mates with, what to order, what to beware of."""

from identify.interview.snapshot import Reference, Snapshot
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.verdict import Ranked, Verdict, VerdictKind
from identify.model.words import percent
from identify.pages.words import HAZARDS, end_words, likely_words, rating_words, retake_words
from identify.reasoning.mating import Mates
from identify.tui.view.lines import Block, Tone
from identify.tui.view.ranking import danger_words
from identify.tui.view.why import evidence_blocks

_DANGERS_SHOWN = 4


def verdict_blocks(
    snapshot: Snapshot, reference: Reference, mates: Mates | None
) -> tuple[Block, ...]:
    """Return the verdict in full.

    Args:
        snapshot: Where the interview stands.
        reference: Tables and rules.
        mates: What the leading end meets, None where no end leads.
    """
    verdict = snapshot.verdict
    blocks = [Block(verdict.sentence, Tone.HEAD)]
    blocks.append(Block(""))
    if verdict.readings and verdict.ranking and verdict.kind is not VerdictKind.ABSTAIN:
        lead = verdict.ranking[0]
        blocks += _what_it_is(lead)
        if verdict.kind is VerdictKind.IDENTIFIED:
            blocks += _order(lead.end)
        blocks += _mates(lead.end, mates, reference)
    blocks += _beware(verdict)
    if verdict.readings and verdict.ranking:
        blocks += _rests_on(verdict, reference)
    if verdict.cautions:
        blocks += [Block("Cautions", Tone.HEAD)]
        blocks += [Block(caution, mark="! ") for caution in verdict.cautions]
    return tuple(blocks)


def _what_it_is(lead: Ranked) -> list[Block]:
    end = lead.end
    text = f"{end_words(end)}: {percent(lead.probability)}, {likely_words(lead.probability)}"
    blocks = [
        Block("What it is", Tone.HEAD),
        Block(text, pick=end.id),
        Block(f"Form: {end.form}."),
        Block(f"Standards: {', '.join(end.standards)}. Thread: {end.thread or 'none'}."),
        Block(f"Seals by: {end.seal}."),
        Block(rating_words(end.rating)),
    ]
    if lead.twins:
        names = "; ".join(end_words(twin) for twin in lead.twins)
        blocks.append(Block(f"Could not be told from it: {names}.", Tone.WARN, mark="! "))
    if end.refuse:
        blocks.append(Block(f"Leave it alone. {end.refuse}", Tone.WARN, mark="!!! "))
    if end.provenance.caveat:
        blocks.append(Block(f"Doubt about the tables: {end.provenance.caveat}", mark="! "))
    return [*blocks, Block("")]


def _order(end: EndConnection) -> list[Block]:
    if end.refuse:
        return []
    blocks = [Block("What to order, in words", Tone.HEAD)]
    blocks += [Block(f"The same end: {order_words(end)}.", mark="- ")]
    ring = f" O-ring {end.o_ring_size}." if end.o_ring_size else ""
    if ring:
        blocks.append(Block(f"A new seal with it:{ring}", mark="- "))
    blocks.append(
        Block("Give the hose bore and the working pressure too. Take the old end along.", mark="- ")
    )
    return [*blocks, Block("")]


def order_words(end: EndConnection) -> str:
    """Return an end as it would be asked for over a counter."""
    parts = [end.family_name, end.size]
    if end.gender in ("male", "female"):
        parts.append(end.gender)
    parts.append(end.form)
    if end.thread:
        parts.append(f"thread {end.thread}")
    if end.sizes.get(Feature.TUBE_OD):
        parts.append(f"for {end.sizes.get(Feature.TUBE_OD):g} mm tube")
    parts.append(end.standards[0] if end.standards else "no standard known")
    return ", ".join(parts)


def _mates(end: EndConnection, mates: Mates | None, reference: Reference) -> list[Block]:
    if mates is None:
        return []
    by_id = reference.catalogue.by_id
    blocks = [Block("What goes on it", Tone.HEAD)]
    meant = [by_id[_other(one.a, one.b, end)] for one in mates.meant]
    for other in meant:
        blocks.append(Block(f"{end_words(other)}: meant for it", pick=other.id))
    if not meant:
        blocks.append(Block("The tables name no mate."))
    for one in mates.dangers[:_DANGERS_SHOWN]:
        mark, words = HAZARDS[one.hazard]
        other = by_id[_other(one.a, one.b, end)]
        text = f"{end_words(other)}: NOT for it; {one.words}, {words}."
        blocks.append(Block(text, Tone.WARN, mark=f"{mark} "))
    left = len(mates.dangers) - _DANGERS_SHOWN
    if left > 0:
        blocks.append(Block(f"and {left} more that must not be used (calculated).", mark="!  "))
    elif mates.dangers:
        blocks.append(Block("Calculated from table values, never tested on parts.", Tone.QUIET))
    return [*blocks, Block("")]


def _other(a: str, b: str, end: EndConnection) -> str:
    return b if a == end.id else a


def _beware(verdict: Verdict) -> list[Block]:
    blocks: list[Block] = []
    if verdict.suspects or verdict.dangers or verdict.warnings:
        blocks.append(Block("Beware", Tone.HEAD))
    for suspect in verdict.suspects:
        blocks.append(Block(retake_words(suspect), Tone.WARN, mark="! "))
    for danger in verdict.dangers:
        mark, words = HAZARDS[danger.hazard]
        under = tuple(filter(None, (f"Mixed up it {words}.", danger.goes_wrong)))
        blocks.append(Block(danger_words(danger), Tone.WARN, mark=f"{mark} ", under=under))
    for warning in verdict.warnings:
        mark, words = HAZARDS[warning.hazard]
        under = (f"{words}, {warning.because} [{warning.basis}]",)
        blocks.append(Block(warning.sentence, Tone.WARN, mark=f"{mark} ", under=under))
    return [*blocks, Block("")] if blocks else []


def _rests_on(verdict: Verdict, reference: Reference) -> list[Block]:
    lead = verdict.ranking[0]
    blocks = [Block(f"What speaks for and against {end_words(lead.end)}", Tone.HEAD)]
    return [*blocks, *evidence_blocks(lead.evidence, reference), Block("")]
