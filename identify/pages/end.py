"""One row of the tables: figures, what goes on it, who says so; as blocks and as JSON."""

from collections.abc import Iterator, Sequence
from typing import Any

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat
from identify.model.feature import Feature
from identify.model.source import Provenance
from identify.model.thread import Band, Limits, Thread
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
    yield "Made of", f"{end.material} as a rule"
    hose = [f"DN {end.hose_dn:g}" if end.hose_dn else "", f"dash {end.dash}" if end.dash else ""]
    yield "Hose", ", ".join(filter(None, hose))
    for words, _, mm in sizes_words(end):
        yield "Size", f"{words} {length_words(mm)}"
    yield "Bolts", bolts_words(end)
    for hexagon in end.hexagons:
        who = cited(catalogue, hexagon.provenance)
        yield "Hexagon", f"{hexagon.part} {length_words(hexagon.mm)} across flats; {who}"
    if end.port_ridge is not None:
        yield "Port", f"raised ring on the face of {end.port_ridge:.0%} of such ports"
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
        yield "Seals too", f"by calculation, though no table names it: {names}"
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
    limits, words = (
        (thread.internal, "bore across the crests")
        if end.gender == "female"
        else (thread.external, "outside diameter over the crests")
    )
    if limits:
        yield "", f"{words} {crest_words(limits.crest)}"
    says = thread.provenance
    yield "", f"{says.basis}: {says.where or says.source}"
    yield "", says.caveat


def picture_words(catalogue: Catalogue, end: EndConnection, ask: Feature | None = None) -> str:
    """Return the half-section of an end in words, with the dimension that is asked for."""
    from identify.drawing.ends import half_section  # only where a picture is asked for

    return half_section(end, catalogue.thread_of(end), ask).described


def end_json(catalogue: Catalogue, end: EndConnection, mates: Mates) -> dict[str, Any]:
    """Return every field of a row, with who says so, limits of its threads, and what it meets."""
    names = dict.fromkeys(filter(None, (end.thread, *(seat.thread for seat in end.seats))))
    return {
        "id": end.id,
        "family": end.family,
        "family_name": end.family_name,
        "size": end.size,
        "dash": end.dash,
        "gender": end.gender,
        "form": end.form,
        "form_key": end.form_key,
        "standards": list(end.standards),
        "sealing": end.sealing,
        "seal": end.seal,
        "seats": [_seat_json(seat, end) for seat in end.seats],
        "threads": [thread_json(catalogue.threads[name]) for name in names],
        "sizes_mm": {
            **{str(feature): mm for feature, mm in end.sizes.items()},
            **{
                name: mm
                for name, mm in (
                    ("seat_mouth", end.seat_mouth_mm),
                    ("spotface", end.spotface_mm),
                    ("side", end.side_mm),
                )
                if mm is not None
            },
        },
        "hexagons": [
            {
                "part": str(each.part),
                "across_flats_mm": each.mm,
                "provenance": provenance_json(each.provenance),
            }
            for each in end.hexagons
        ],
        "bolt_metric": end.bolt_metric,
        "bolt_inch": end.bolt_inch,
        "o_ring_size": end.o_ring_size,
        "hose_dn": end.hose_dn,
        "material": end.material,
        "port_ridge_share": end.port_ridge,
        "left_hand_share": end.left_hand,
        "rating": {
            "bar": end.rating.bar,
            "basis": str(end.rating.basis) if end.rating.basis else None,
            "note": end.rating.note or None,
        },
        "tell_by": end.tell_by or None,
        "refuse": end.refuse or None,
        "notes": list(end.notes),
        "mates": [other.id for other in catalogue.mates_of(end)],
        "seals_too": [one.b for one in mates.fits_too],
        "never_on": [{"id": one.b, **mating_json(one)} for one in mates.dangers],
        "confidence": str(end.confidence),
        "provenance": provenance_json(end.provenance),
        "figures": [
            {"field": each.field, "provenance": provenance_json(each.provenance)}
            for each in end.figures
        ],
        "also_seen": [
            {
                "field": each.field,
                "value": each.value,
                "source": each.source,
                "note": each.note or None,
            }
            for each in end.also_seen
        ],
    }


def mating_json(one: Mating) -> dict[str, Any]:
    """Return what happens where two ends meet; `turns` is None unless it starts and binds."""
    binds = one.outcome is Outcome.BINDS and one.fit is not None
    return {
        "outcome": str(one.outcome),
        "hazard": str(one.hazard),
        "turns": round(one.fit.turns.mean, 2) if binds and one.fit else None,
        "reason": one.reason,
    }


def provenance_json(says: Provenance) -> dict[str, Any]:
    """Return who says so."""
    return {
        "source": says.source,
        "where": says.where or None,
        "basis": str(says.basis),
        "checked_against": list(says.checked_against),
        "checked_note": says.checked_note or None,
        "caveat": says.caveat or None,
        "file": says.file or None,
        "line": says.line or None,
    }


def _seat_json(seat: Seat, end: EndConnection) -> dict[str, Any]:
    return {
        "shape": str(seat.shape),
        "half_angle_deg": seat.half_angle_deg,
        "o_ring": seat.o_ring,
        "share": seat.share,
        "thread": seat.thread or end.thread,
        "part": seat.part or None,
    }


def thread_json(thread: Thread) -> dict[str, Any]:
    """Return a thread with its basic sizes and limits of size [mm]."""
    return {
        "designation": thread.designation,
        "system": thread.system,
        "pitch_mm": thread.pitch_mm,
        "tpi": thread.tpi,
        "flank_angle_deg": thread.flank_angle_deg,
        "taper": thread.taper,
        "left_hand": thread.left_hand,
        "major_mm": thread.major_mm,
        "pitch_diameter_mm": thread.pitch_diameter_mm,
        "minor_mm": thread.minor_mm,
        "small_end_mm": thread.small_end_mm,
        "large_end_mm": thread.large_end_mm,
        "gauge_length_mm": thread.gauge_length_mm,
        "useful_length_mm": thread.useful_length_mm,
        "external": _limits_json(thread.external),
        "internal": _limits_json(thread.internal),
        "provenance": provenance_json(thread.provenance),
    }


def _limits_json(limits: Limits | None) -> dict[str, Any] | None:
    if limits is None:
        return None
    return {"crest_mm": _band_json(limits.crest), "pitch_mm": _band_json(limits.pitch)}


def _band_json(band: Band) -> list[float]:
    return [round(band.low_mm, 4), round(band.high_mm, 4)]
