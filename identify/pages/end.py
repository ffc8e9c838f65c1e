"""One row of the tables: figures, what goes on it, who says so; as blocks and as JSON."""

from identify.drawing.ends import asked_view
from identify.light import Iterator, Sequence
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.thread import Thread
from identify.model.verdict import Hazard
from identify.pages.blocks import BLANK, Block, Tone, labelled
from identify.pages.words import (
    bolts_words,
    checked_words,
    cited,
    crest_words,
    end_words,
    field_words,
    length_words,
    rating_words,
    seat_words,
    sizes_words,
    thread_words,
)
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.mating import Mates

A_STANDARD = "This describes a standard, not the part in your hand."
SHOWN_NEVER = 6  # ways in which something goes on and must not be used
Entry = tuple[str, str]


def end_blocks(
    catalogue: Catalogue, end: EndConnection, mates: Mates, cautions: Sequence[str]
) -> list[Block]:
    """Return all the tables know of one end, and what to mind before it is used.

    Args:
        catalogue: The tables.
        end: A row of them.
        mates: What it meets, as `mates_of` finds it.
        cautions: Sentences to end with.
    """
    blocks = [Block(end_words(end), Tone.HEAD), Block(end.id), BLANK]
    before = ""
    for label, text in _entries(catalogue, end, mates):
        if text:
            blocks.append(labelled(label if label != before else "", text, _tone(label)))
            before = label
    blocks.append(BLANK)
    for place, text in enumerate((A_STANDARD, *cautions)):
        blocks.append(labelled("" if place else "CAUTION", text))
    return blocks


def _tone(label: str) -> Tone:
    return Tone.WARN if label in ("REFUSED", "NEVER ON") else Tone.PLAIN


def _entries(catalogue: Catalogue, end: EndConnection, mates: Mates) -> Iterator[Entry]:
    yield "REFUSED", end.refuse
    yield "Form", end.form
    yield "Standard", ", ".join(end.standards) or "none named in the tables"
    yield "Know it by", end.tell_by
    yield from _thread(end, catalogue.thread_of(end))
    for seat in end.seats:
        share = f", {seat.share:.0%} of such ends" if len(end.seats) > 1 else ""
        yield "Seat", f"{seat_words(seat)}{share}"
        if seat.thread:
            yield from _thread(end, catalogue.threads[seat.thread])
    yield "Seal", end.seal
    yield "O-ring", end.o_ring_size or ""
    yield "Made of", f"usually {end.material}"
    hose = [f"DN {end.hose_dn:g}" if end.hose_dn else "", f"dash {end.dash}" if end.dash else ""]
    yield "Hose", ", ".join(filter(None, hose))
    for words, _, mm in sizes_words(end):
        yield "Size", f"{words} {length_words(mm)}"
    yield "Bolts", bolts_words(end)
    for hexagon in end.hexagons:
        who = cited(catalogue, hexagon.provenance)
        yield "Hexagon", f"{hexagon.part} {length_words(hexagon.mm)} across flats; {who}"
    for feature, part in end.shares.items():
        heading, sentence = FEATURES[feature].told
        yield heading, sentence.format(share=f"{part:.0%}")
    if end.left_hand:
        yield "Hand", f"left-hand thread on {end.left_hand:.0%} of such ends"
    for other in catalogue.mates_of(end):
        yield "Mates", f"{other.id}: {other.title}, {other.form}"
    yield from _meetings(mates)
    yield "Rating", rating_words(end.rating)
    yield from (("Note", note) for note in end.notes)
    yield "Picture", picture_words(catalogue, end)
    yield from _support(catalogue, end)


def _support(catalogue: Catalogue, end: EndConnection) -> Iterator[Entry]:
    yield "Source", cited(catalogue, end.provenance)
    yield "Checked", checked_words(catalogue, end.provenance)
    for figure in end.figures:
        yield "Figure", f"{field_words(figure.field)}: {cited(catalogue, figure.provenance)}"
    for seen in end.also_seen:
        note = f"; {seen.note}" if seen.note else ""
        title = catalogue.sources[seen.source].title
        yield "Also seen", f"{field_words(seen.field)} {seen.value} ({title}){note}"
    yield "Confidence", str(end.confidence)
    yield "Beware", end.provenance.caveat
    yield "Row", f"{end.provenance.file}:{end.provenance.line}"


def _meetings(mates: Mates) -> Iterator[Entry]:
    """Yield what else seals on an end, and what goes on it and must not be used."""
    if mates.fits_too:
        names = ", ".join(one.b for one in mates.fits_too)
        yield "Also seals", f"with {names} (calculated; the tables do not name the pair)"
    told: dict[str, list[str]] = {}
    for one in sorted(mates.dangers, key=_closeness):
        if one.outcome is not Outcome.UNKNOWN:
            told.setdefault(f"{one.words}. {one.reason}", []).append(one.b)
    for what, ids in list(told.items())[:SHOWN_NEVER]:
        yield "NEVER ON", f"{', '.join(ids)}: {what}"
    if left := sum(len(ids) for ids in list(told.values())[SHOWN_NEVER:]):
        yield "", f'{left} more go on part of the way; "whichend compare" tells of any pair'


def _closeness(one: Mating) -> tuple[bool, bool, bool]:
    """Return an order: can injure first, then what runs fully, then what is not guarded anyway."""
    return one.hazard is not Hazard.HIGH, one.outcome is not Outcome.NO_SEAL, one.guarded


def _thread(end: EndConnection, thread: Thread | None) -> Iterator[Entry]:
    if thread is None:
        return
    yield "Thread", thread_words(thread)
    if crest := thread.crest(end.gender):
        inside = end.gender == "female"
        words = "bore across the crests" if inside else "outside diameter over the crests"
        yield "", f"{words} {crest_words(crest)}"
    says = thread.provenance
    yield "", f"{says.basis}: {says.where or says.source}"
    yield "", says.caveat


def picture_words(catalogue: Catalogue, end: EndConnection, ask: Feature | None = None) -> str:
    """Return the drawing of an end in words, with the dimension that is asked for."""
    return asked_view(end, catalogue.thread_of(end), ask).described
