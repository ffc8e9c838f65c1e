"""`whichend show ID`: all the tables know of one end connection, and who says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from identify.commands.layout import labelled
from identify.commands.tables import add_tables_option
from identify.knowledge.compiled import load_catalogue
from identify.model.reading import Angle, Basis
from identify.model.verdict import Hazard
from identify.reasoning.joint import Outcome
from identify.reasoning.mating import mates_of
from identify.units import words_angle, words_length

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from identify.model.catalogue import Catalogue
    from identify.model.connection import EndConnection, Seat
    from identify.model.source import Provenance
    from identify.model.thread import Limits, Thread
    from identify.reasoning.joint import Mating

CAUTION = (
    "This describes a standard, not the part in your hand. A thread that fits is not a joint that "
    "holds. The machine's maker, local codes and the lowest rated part of the assembly decide. "
    "Release stored pressure before you open a joint; never feel for a leak by hand."
)

SHOWN_NEVER = 6  # ways in which something goes on and must not be used

_DIMENSIONS = (
    ("tube_od_mm", "tube outside diameter"),
    ("bore_mm", "bore for tube, plug or spigot"),
    ("seat_mouth_mm", "mouth of the seat"),
    ("spotface_mm", "spotface"),
    ("plug_od_mm", "plug or spigot outside diameter"),
    ("side_mm", "side of the square"),
    ("eye_bore_mm", "bore of the eye"),
    ("ring_id_mm", "washer inside diameter"),
    ("ring_od_mm", "washer outside diameter"),
    ("ring_thickness_mm", "washer thickness"),
    ("flange_head_od_mm", "flange head outside diameter"),
    ("flange_head_thickness_mm", "flange head thickness"),
    ("bolt_spacing_long_mm", "larger bolt spacing"),
    ("bolt_spacing_short_mm", "smaller bolt spacing"),
)


def add_arguments(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser("show", help="show one end connection with all its figures")
    parser.add_argument("end", nargs="+", help='its id ("flare37:-4:male") or words that name it')
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print one end connection."""
    catalogue = load_catalogue(args.tables)
    print(show(catalogue, catalogue.find(" ".join(args.end))))
    return 0


def show(catalogue: Catalogue, end: EndConnection) -> str:
    """Return everything the tables know of one end, in 80 columns."""
    lines = [f"{end.title}, {end.form_key.replace('-', ' ')}", end.id, ""]
    before = ""
    for label, text in _entries(catalogue, end):
        if text:
            lines.append(labelled(label if label != before else "", text))
            before = label
    return "\n".join([*lines, "", labelled("CAUTION", CAUTION)])


def _entries(catalogue: Catalogue, end: EndConnection) -> Iterator[tuple[str, str]]:
    yield "REFUSED", end.refuse
    yield "Form", end.form
    yield "Standard", ", ".join(end.standards) or "none named in the tables"
    yield "Know it by", end.tell_by
    yield from _thread(end, catalogue.thread_of(end))
    for seat in end.seats:
        yield "Seat", _seat(seat, len(end.seats) > 1)
        if seat.thread:
            yield from _thread(end, catalogue.threads[seat.thread])
    yield "Seal", end.seal
    yield "O-ring", end.o_ring_size or ""
    hose = [f"DN {end.hose_dn:g}" if end.hose_dn else "", f"dash {end.dash}" if end.dash else ""]
    yield "Hose", ", ".join(filter(None, hose))
    for field, words in _DIMENSIONS:
        value = getattr(end, field)
        if value is not None:
            yield "Size", f"{words} {words_length(value, 2)}"
    bolts = " or ".join(filter(None, (end.bolt_metric, end.bolt_inch)))
    yield "Bolts", bolts
    for hexagon in end.hexagons:
        who = _cited(catalogue, hexagon.provenance)
        yield "Hexagon", f"{hexagon.part} {words_length(hexagon.mm, 2)} across flats; {who}"
    for other in catalogue.mates_of(end):
        yield "Mates", f"{other.id}: {other.title}, {other.form}"
    yield from _meetings(catalogue, end)
    yield "Rating", _rating(end)
    yield from (("Note", note) for note in end.notes)
    yield "Source", _cited(catalogue, end.provenance)
    yield "Checked", _checked(catalogue, end.provenance)
    for figure in end.figures:
        yield "Figure", f"{_words(figure.field)}: {_cited(catalogue, figure.provenance)}"
    for seen in end.also_seen:
        note = f"; {seen.note}" if seen.note else ""
        title = catalogue.sources[seen.source].title
        yield "Also seen", f"{_words(seen.field)} {seen.value} ({title}){note}"
    yield "Confidence", str(end.confidence)
    yield "Beware", end.provenance.caveat
    yield "Row", f"{end.provenance.file}:{end.provenance.line}"


def _meetings(catalogue: Catalogue, end: EndConnection) -> Iterator[tuple[str, str]]:
    """Yield what else seals on an end, and what goes on it and must not be used."""
    found = mates_of(catalogue, end)
    if found.fits_too:
        names = ", ".join(one.b for one in found.fits_too)
        yield "Seals too", f"by calculation, though no table names it: {names}"
    told: dict[str, list[str]] = {}
    for one in sorted(found.dangers, key=_closeness):
        if one.outcome is Outcome.UNKNOWN:
            continue
        told.setdefault(f"{one.words}. {one.reason}", []).append(one.b)
    for what, ids in list(told.items())[:SHOWN_NEVER]:
        yield "NEVER ON", f"{', '.join(ids)}: {what}"
    if left := sum(len(ids) for ids in list(told.values())[SHOWN_NEVER:]):
        yield "", f'{left} more go on part of the way; "whichend compare" tells of any pair'


def _closeness(one: Mating) -> tuple[bool, bool, bool]:
    """Return an order: can injure first, then what runs fully, then what is not guarded anyway."""
    guarded = "is not a hydraulic end" in one.reason
    return one.hazard is not Hazard.HIGH, one.outcome is not Outcome.NO_SEAL, guarded


def _thread(end: EndConnection, thread: Thread | None) -> Iterator[tuple[str, str]]:
    if thread is None:
        return
    taper = f"taper 1:{1 / thread.taper:g}" if thread.taper else "parallel"
    hand = ", left hand" if thread.left_hand else ""
    yield (
        "Thread",
        f"{thread.designation}: {thread.pitch_words}, flanks {thread.flank_angle_deg:g} deg, "
        f"{taper}{hand}",
    )
    if end.gender == "female":
        yield "", _crest(thread.internal, "bore across the crests")
    else:
        yield "", _crest(thread.external, "outside diameter over the crests")
    yield "", f"{thread.provenance.basis}: {thread.provenance.where or thread.provenance.source}"


def _crest(limits: Limits | None, words: str) -> str:
    if limits is None:
        return ""
    low, high = limits.crest.low_mm, limits.crest.high_mm
    return f"{words} {low:.2f} to {high:.2f} mm ({low / 25.4:.4f} to {high / 25.4:.4f} in)"


def _seat(seat: Seat, one_of_several: bool) -> str:
    angle = seat.half_angle_deg
    words = [
        str(seat.shape),
        words_angle(Angle(angle, Basis.HALF)) if angle is not None else "",
        seat.part,
        f"O-ring: {seat.o_ring}" if seat.o_ring != "none" else "",
        f"{seat.share:.0%} of such ends" if one_of_several else "",
    ]
    return ", ".join(filter(None, words))


def _rating(end: EndConnection) -> str:
    note = f"; {end.rating.note}" if end.rating.note else ""
    if end.rating.bar is None:
        return f"unknown{note}"
    return f"{end.rating.bar:g} bar ({end.rating.basis}){note}"


def _cited(catalogue: Catalogue, provenance: Provenance) -> str:
    title = catalogue.sources[provenance.source].title
    where = f", {provenance.where}" if provenance.where else ""
    return f"{title}{where} ({provenance.basis})"


def _checked(catalogue: Catalogue, provenance: Provenance) -> str:
    titles = "; ".join(catalogue.sources[key].title for key in provenance.checked_against)
    note = f": {provenance.checked_note}" if provenance.checked_note else ""
    return f"{titles}{note}" if titles else "against no second source"


def _words(field: str) -> str:
    return field.replace("_", " ")
