"""The end in hand, and what follows from it: what to order, what goes on it, what to mind."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import Iterator
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.rule import Moment
from identify.model.rulebook import RuleBook
from identify.model.verdict import Form, Ranked, Verdict, VerdictKind, open_forms, percent
from identify.pages.blocks import Block, Tone, dashed
from identify.pages.words import (
    HAZARDS,
    end_words,
    forms_words,
    likely_words,
    rating_words,
    sentence,
    twins_words,
)

if TYPE_CHECKING:
    from identify.reasoning.engine import Engine
    from identify.reasoning.mating import Mates

SHOWN_MATINGS = 4
HOSE_TOO = "Give the hose bore and the working pressure too. Take the old end along."


def what_it_is(lead: Ranked, head: str) -> list[Block]:
    """Return an end that leads, with its rating and what there is to doubt, under a head."""
    end = lead.end
    text = f"{end_words(end)}: {percent(lead.probability)}, {likely_words(lead.probability)}"
    blocks = [
        Block(head, Tone.HEAD),
        Block(text, pick=end.id),
        Block(f"Form: {end.form}."),
        Block(f"Standards: {', '.join(end.standards)}. Thread: {end.thread or 'none'}."),
        Block(f"Seal: {end.seal}."),
        Block(f"Working pressure: {rating_words(end.rating)}."),
    ]
    if lead.twins:
        twins = sentence(twins_words(lead.twins, len(lead.twins)))
        blocks.append(Block(twins, Tone.WARN, mark="! "))
    if forms := forms_words(lead):
        blocks.append(Block(sentence(forms)))
    if end.refuse:
        blocks.append(Block(f"Leave it alone. {end.refuse}", Tone.WARN, mark="!!! "))
    if end.provenance.caveat:
        blocks.append(Block(f"Doubt about the tables: {end.provenance.caveat}", mark="! "))
    return blocks


def order_blocks(lead: Ranked, book: RuleBook) -> list[Block]:
    """Return what to ask for over a counter, and what a replacement must mind."""
    end = lead.end
    if end.refuse:
        return []
    blocks = [Block("What to order, in words", Tone.HEAD)]
    blocks.append(dashed(f"The same end: {order_words(end, end.form)}."))
    blocks += [dashed(text) for text in either(open_forms(lead))]
    if any(each.worn for each in lead.evidence):
        blocks.append(dashed("Order a new one in any case: this one is worn beyond its limits."))
    if end.o_ring_size:
        blocks.append(dashed(f"A new seal with it: O-ring {end.o_ring_size}."))
    blocks.append(dashed(HOSE_TOO))
    return [*blocks, *(Block(each, mark="! ") for each in book.cautions_at(Moment.REPLACEMENT))]


def either(forms: tuple[Form, ...]) -> Iterator[str]:
    """Yield what else may be ordered where the form is open."""
    if not forms:
        return
    names = " or ".join(form.end.form for form in forms)
    yield f"Any of these goes on the same mates: {names}."
    ringed = [form.end for form in forms if any(s.o_ring != "none" for s in form.end.seats)]
    if ringed and len(ringed) < len(forms):
        yield "If you can choose, take the one with an O-ring (common practice)."


def order_words(end: EndConnection, form: str) -> str:
    """Return an end as it would be asked for over a counter; without a form where that is open."""
    parts = [end.family_name, end.size]
    if end.gender in ("male", "female"):
        parts.append(end.gender)
    if form:
        parts.append(form)
    if end.thread:
        parts.append(f"thread {end.thread}")
    if end.sizes.get(Feature.TUBE_OD):
        parts.append(f"for {end.sizes[Feature.TUBE_OD]:g} mm tube")
    parts.append(end.standards[0] if end.standards else "no standard known")
    return ", ".join(parts)


def goes_on(
    end: EndConnection, mates: Mates | None, catalogue: Catalogue, head: str
) -> list[Block]:
    """Return what is meant for an end, each to be picked, and what must not go on it."""
    if mates is None:
        return []
    blocks = [Block(head, Tone.HEAD)]
    for one in mates.meant:
        other = catalogue.by_id[one.b if one.a == end.id else one.a]
        blocks.append(Block(f"{end_words(other)}: meant for it", pick=other.id))
    if not mates.meant:
        blocks.append(Block("The tables name no mate."))
    for one in mates.dangers[:SHOWN_MATINGS]:
        mark, words = HAZARDS[one.hazard]
        other = catalogue.by_id[one.b if one.a == end.id else one.a]
        text = f"{end_words(other)}, {other.form}: NOT for it; {one.words}, {words}."
        blocks.append(Block(text, Tone.WARN, mark=f"{mark} "))
    left = len(mates.dangers) - SHOWN_MATINGS
    if left > 0:
        blocks.append(Block(f"and {left} more that must not be used (calculated).", mark="!  "))
    elif mates.dangers:
        blocks.append(Block("Calculated from table values, never tested on parts.", Tone.QUIET))
    return blocks


def mates_of_lead(engine: Engine, verdict: Verdict) -> Mates | None:
    """Return what an end that was identified meets; None where none was."""
    if verdict.kind is not VerdictKind.IDENTIFIED:
        return None
    from identify.reasoning.mating import mates_of  # not needed for a short answer

    return mates_of(engine.catalogue, verdict.ranking[0].end, engine.book)


def after_fitting(end: EndConnection, book: RuleBook) -> list[Block]:
    """Return what to mind at the first test and where a leak is looked for."""
    if end.refuse:
        return []
    cautions = [Block(each, mark="! ") for each in book.cautions_at(Moment.LEAK)]
    return [Block("After fitting", Tone.HEAD), *cautions] if cautions else []
