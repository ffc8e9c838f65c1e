"""Ends from the tables: the list that is searched, and one row with its figures and sources."""

from identify.errors import WhichendError
from identify.interview.picture import picture_words
from identify.interview.snapshot import Reference
from identify.interview.words import end_words, rating_words
from identify.model.connection import EndConnection
from identify.model.source import Provenance
from identify.tui.view.lines import Block, Tone

MOST_LISTED = 90
_FIGURES = (
    ("tube_od_mm", "tube outside diameter"),
    ("bore_mm", "bore that takes tube, plug or spigot"),
    ("seat_mouth_mm", "mouth of the seat"),
    ("plug_od_mm", "plug diameter"),
    ("flange_head_od_mm", "flange head diameter"),
    ("flange_head_thickness_mm", "flange head thickness"),
    ("bolt_spacing_long_mm", "bolt spacing, long"),
    ("bolt_spacing_short_mm", "bolt spacing, short"),
    ("eye_bore_mm", "bore of the eye"),
    ("ring_id_mm", "washer inside diameter"),
    ("ring_od_mm", "washer outside diameter"),
    ("ring_thickness_mm", "washer thickness"),
)


def search(reference: Reference, wanted: str) -> tuple[EndConnection, ...]:
    """Return the ends that bear every word typed; all for no word.

    An end that has the words whole ("12" in 12L) stands before one that has them inside others
    ("12" in M12x1.5), an end that is to be left alone behind the hydraulic ones.
    """
    words = wanted.lower().replace(",", " ").split()
    found = [end for end in reference.catalogue.ends if all(word in _names(end) for word in words)]

    def rank(end: EndConnection) -> tuple[bool, int]:
        whole = set(_names(end).replace(":", " ").split())
        return bool(end.refuse), -sum(word in whole for word in words)

    return tuple(sorted(found, key=rank))


def _names(end: EndConnection) -> str:
    parts = (end.id, end.family_name, end.size, end.gender, end.form, end.thread or "")
    return " ".join((*parts, *end.standards)).lower()


def list_blocks(reference: Reference, wanted: str) -> tuple[Block, ...]:
    """Return the ends found, each to be chosen; families first while nothing is typed."""
    if not wanted.strip():
        blocks = [Block("Type part of a family, a size, a thread or a standard.", Tone.HEAD)]
        for family in reference.catalogue.families.values():
            count = sum(1 for end in reference.catalogue.ends if end.family == family.key)
            guard = " (not hydraulic: leave alone)" if family.refuse else ""
            blocks.append(Block(f"{family.name}: {count} rows{guard}", pick=f"family {family.key}"))
        return tuple(blocks)
    found = search(reference, wanted)
    if not found:
        text = f'Nothing in the tables bears "{wanted.strip()}". Try fewer letters.'
        return (Block(text),)
    blocks = [Block(f"{len(found)} found", Tone.HEAD)]
    blocks += [Block(f"{end_words(end)}: {end.form}", pick=end.id) for end in found[:MOST_LISTED]]
    if len(found) > MOST_LISTED:
        blocks.append(Block(f"and {len(found) - MOST_LISTED} more: type another word"))
    return tuple(blocks)


def end_blocks(reference: Reference, end: EndConnection) -> tuple[Block, ...]:
    """Return one row of the tables: figures, support, doubts."""
    blocks = [
        Block(end_words(end), Tone.HEAD),
        Block(f"{end.form}. Type name {end.id}."),
        Block(f"Standards: {', '.join(end.standards) or 'none known'}."),
    ]
    if end.refuse:
        blocks.append(Block(f"Leave it alone. {end.refuse}", Tone.WARN, mark="!!! "))
    blocks += [Block(""), *_thread(reference, end), *_seats(end)]
    for name, words in _FIGURES:
        value = getattr(end, name)
        if value is not None:
            blocks.append(Block(f"{words}: {value:g} mm ({value / 25.4:.3f} in)"))
    blocks += [Block(f"hexagon on the {each.part}: {each.mm:g} mm") for each in end.hexagons]
    blocks += [Block(f"seals by: {end.seal}"), Block(rating_words(end.rating)), Block("")]
    if end.tell_by:
        blocks += [Block(f"How it is known: {end.tell_by}"), Block("")]
    blocks += [Block("Picture in words", Tone.HEAD), *_picture(reference, end), Block("")]
    return tuple([*blocks, *_support(reference, end)])


def _picture(reference: Reference, end: EndConnection) -> list[Block]:
    return [Block(picture_words(reference, end))]


def _thread(reference: Reference, end: EndConnection) -> list[Block]:
    try:
        thread = reference.catalogue.thread_of(end)
    except WhichendError:
        thread = None
    if thread is None:
        return [Block("thread: none")]
    blocks = [Block(f"thread: {thread.designation}, pitch {thread.pitch_words}, "
                    f"{thread.flank_angle_deg:g} deg form, "
                    f"{'tapered' if thread.taper else 'parallel'}")]  # fmt: skip
    limits = thread.external if end.gender == "male" else thread.internal
    if limits:
        what = "over the crests" if end.gender == "male" else "bore across the crests"
        crest = limits.crest
        blocks.append(Block(f"{what}: {crest.low_mm:.2f} to {crest.high_mm:.2f} mm"))
    return blocks


def _seats(end: EndConnection) -> list[Block]:
    blocks = []
    for seat in end.seats:
        angle = seat.half_angle_deg
        cone = f", {angle:g} deg half ({2 * angle:g} included)" if angle else ""
        ring = "" if seat.o_ring == "none" else f", O-ring: {seat.o_ring}"
        share = f" ({seat.share:.0%} of them)" if len(end.seats) > 1 else ""
        part = f" on the {seat.part}" if seat.part else ""
        blocks.append(Block(f"seat: {seat.shape}{cone}{ring}{part}{share}"))
    return blocks


def _support(reference: Reference, end: EndConnection) -> list[Block]:
    blocks = [Block("Who says so", Tone.HEAD), Block(_says(reference, end.provenance))]
    blocks += [
        Block(f"{figure.field}: {_says(reference, figure.provenance)}") for figure in end.figures
    ]
    for seen in end.also_seen:
        note = f" {seen.note}" if seen.note else ""
        title = _title(reference, seen.source)
        blocks.append(Block(f"Also seen: {seen.field} {seen.value} in {title}.{note}"))
    if end.provenance.caveat:
        blocks.append(Block(f"Doubt: {end.provenance.caveat}", mark="! "))
    blocks.append(Block(f"Confidence of the table keeper: {end.confidence}."))
    blocks += [Block(note) for note in end.notes]
    return blocks


def _says(reference: Reference, provenance: Provenance) -> str:
    where = f", {provenance.where}" if provenance.where else ""
    text = f"{_title(reference, provenance.source)}{where} [{provenance.basis}]."
    if provenance.checked_against:
        names = "; ".join(_title(reference, key) for key in provenance.checked_against)
        text += f" Checked against {names}."
    return text


def _title(reference: Reference, key: str) -> str:
    source = reference.catalogue.sources.get(key)
    return source.title if source else key
