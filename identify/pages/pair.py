"""Two ends beside each other: what tells them apart, what happens when they meet."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.light import Iterator
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Shape
from identify.model.feature import FEATURES, Feature
from identify.model.rule import LookalikeNote
from identify.model.rulebook import RuleBook
from identify.model.verdict import Verdict
from identify.pages.blocks import BLANK, Block, Rows, Table, Tone, labelled
from identify.pages.words import (
    HAZARDS,
    UNTOLD,
    bolts_words,
    end_words,
    rating_words,
    seat_words,
    sentence,
    sizes_words,
    taper_words,
)
from identify.reasoning.differences import Difference, differences
from identify.reasoning.hazards import worst_mating
from identify.reasoning.joint import Mating
from identify.reasoning.lookalikes import Lookalike
from identify.reasoning.mating import mate

if TYPE_CHECKING:
    from typing import Any


CALCULATED = (
    "Calculated from the tables' limits for new, clean parts; never tested. A thread that runs is "
    "no proof of a joint. Release stored pressure before you open or try one."
)


class Pair(NamedTuple):
    """Two ends with all that is found of them.

    `together` is what happens when they meet, None where both are of one gender; `b_for_a` what
    happens where B is fitted in place of A, `a_for_b` the reverse, None where they are of two
    genders. Of two flanges A in place of B is the head of A on the pad of B. `apart` holds the
    differences of two ends of one gender, `notes` what experience says of the two.
    """

    a: EndConnection
    b: EndConnection
    together: Mating | None
    b_for_a: Mating | None
    a_for_b: Mating | None
    apart: tuple[Difference, ...]
    notes: tuple[LookalikeNote, ...]


def pair_of(catalogue: Catalogue, book: RuleBook, a: EndConnection, b: EndConnection) -> Pair:
    """Work out all that is to be said of two ends."""
    notes = tuple(book.notes_on(a, b))
    if a.gender != b.gender:
        return Pair(a, b, mate(catalogue, a, b), None, None, (), notes)
    found = differences(catalogue, a, b, book.observation)
    if a.gender == "flange":
        return Pair(a, b, None, mate(catalogue, b, a), mate(catalogue, a, b), found, notes)
    taken = worst_mating(catalogue, a, b), worst_mating(catalogue, b, a)
    return Pair(a, b, None, *taken, found, notes)


def pair_blocks(
    catalogue: Catalogue, pair: Pair, drawing: tuple[str, ...] = ()
) -> list[Block | Table | Rows]:
    """Return the whole comparison, with a drawing if one was made."""
    blocks: list[Block | Table | Rows] = []
    for letter, end in (("A", pair.a), ("B", pair.b)):
        blocks += [Block(end.id, mark=f"{letter}  "), Block(f"{end.title}, {end.form}", mark="   ")]
    blocks += [BLANK, _side_by_side(catalogue, pair)]
    if pair.a.gender == pair.b.gender:
        blocks += [BLANK, *_apart(pair.apart)]
    for note in pair.notes:
        blocks += [
            labelled("Experience" if note is pair.notes[0] else "", note.tell_apart),
            labelled("Goes wrong", note.what_goes_wrong),
        ]
    blocks += [BLANK, *_meeting(pair)]
    if drawing:
        blocks += [BLANK, Rows(drawing)]
    return [*blocks, BLANK, labelled("CAUTION", CALCULATED)]


def _side_by_side(catalogue: Catalogue, pair: Pair) -> Table:
    left, right = (dict(_figures(catalogue, end)) for end in (pair.a, pair.b))
    names = [*left, *(name for name in right if name not in left)]
    rows = tuple((name, left.get(name, "-"), right.get(name, "-")) for name in names)
    return Table(("", "A", "B"), rows)


def _figures(catalogue: Catalogue, end: EndConnection) -> Iterator[tuple[str, str]]:
    yield "gender", end.gender
    if thread := catalogue.thread_of(end):
        yield "thread", thread.designation
        if crest := thread.crest(end.gender):
            name = "bore" if end.gender == "female" else "OD"
            yield f"crest {name}", f"{crest.low_mm:.2f} to {crest.high_mm:.2f} mm"
        yield "pitch", f"{thread.pitch_mm:.3f} mm ({25.4 / thread.pitch_mm:.4g} tpi)"
        yield "flanks", f"{thread.flank_angle_deg:g} deg, {taper_words(thread)}"
    yield "seat", " or ".join(dict.fromkeys(seat_words(seat, short=True) for seat in end.seats))
    yield "O-ring", " or ".join(dict.fromkeys(seat.o_ring for seat in end.seats))
    for _, name, size in sizes_words(end):
        yield name, f"{size:g} mm"
    if bolts := bolts_words(end):
        yield "bolts", bolts
    yield "rating", rating_words(end.rating, noted=False)


def _apart(found: tuple[Difference, ...]) -> Iterator[Block]:
    resolved = [difference_words(each) for each in found if each.resolved]
    for text in resolved or [sentence(UNTOLD)]:
        yield labelled("Tell apart" if text is (resolved or [text])[0] else "", text)
    hidden = [FEATURES[each.feature].words for each in found if not each.resolved]
    if hidden:
        yield labelled("", f"Too close to decide on: {', '.join(hidden)}.")


def difference_words(each: Difference) -> str:
    """Return one difference: the feature, both values, how far apart, what measures it."""
    gap = f", {each.size:.2g} {_unit(each)} apart" if each.size is not None else ""
    return (
        f"{FEATURES[each.feature].words}: {each.one} against {each.other}{gap} ({by_words(each)})"
    )


def by_words(each: Difference) -> str:
    """Return what measures a difference."""
    return "by eye" if each.tool == "eye" else each.tool


def _unit(each: Difference) -> str:
    return "deg" if each.feature in (Feature.SEAT_ANGLE, Feature.FLANK_ANGLE) else "mm"


def _meeting(pair: Pair) -> Iterator[Block]:
    if pair.together:
        yield labelled("Together", _told(pair.together))
    elif pair.a.gender == "flange":
        for label, made in (("A on B", pair.a_for_b), ("B on A", pair.b_for_a)):
            if made:
                yield labelled(label, f"Head of {label[0]} on pad of {label[-1]}: {_told(made)}")
    else:
        yield labelled("Together", f"Both are {pair.a.gender}: not made to meet.")
        for label, made in (("B for A", pair.b_for_a), ("A for B", pair.a_for_b)):
            if made:
                where = f"{label[0]} fitted where {label[-1]} was, on {made.b}"
                yield labelled(label, f"{where}: {_told(made)}")


def _told(found: Mating) -> str:
    meant = " The tables name them as mates." if found.meant else ""
    return f"{found.words}. Hazard {found.hazard}. {found.reason}{meant}"


def cones_meet(one: EndConnection, other: EndConnection) -> bool:
    """Tell whether a cone enters a funnel of another angle, which only a picture makes plain."""
    cones = {seat.shape: seat.half_angle_deg for end in (one, other) for seat in end.seats}
    out, into = cones.get(Shape.CONVEX), cones.get(Shape.CONCAVE)
    return out is not None and into is not None and out != into and len(cones) == 2


def pair_json(pair: Pair) -> dict[str, Any]:
    """Return the comparison as plain values, ready for `json.dumps`."""
    from identify.pages.tables_json import mating_json

    return {
        "a": pair.a.id,
        "b": pair.b.id,
        "together": mating_json(pair.together) if pair.together else None,
        "b_for_a": mating_json(pair.b_for_a) if pair.b_for_a else None,
        "a_for_b": mating_json(pair.a_for_b) if pair.a_for_b else None,
        "tell_apart": [
            {
                "reading": str(each.feature),
                "a": each.one,
                "b": each.other,
                "apart": round(each.size, 4) if each.size is not None else None,
                "unit": _unit(each) if each.size is not None else None,
                "tool": each.tool,
                "resolved": each.resolved,
            }
            for each in pair.apart
        ],
        "experience": [
            {
                "tell_apart": note.tell_apart,
                "goes_wrong": note.what_goes_wrong,
                "source": note.source,
                "basis": str(note.basis),
            }
            for note in pair.notes
        ],
    }


def lookalike_blocks(
    verdict: Verdict, end: EndConnection, found: tuple[Lookalike, ...], book: RuleBook
) -> list[Block]:
    """Return what may be taken for an end, those still standing first, then by hazard."""
    standing = {each.end.id: each.probability for each in verdict.ranking}
    named = {each.end.id: each.hazard for each in (*verdict.lookalikes, *verdict.dangers)}
    blocks = [
        Block(f"Easily taken for {end_words(end)}", Tone.HEAD),
        Block("Press its number to overlay it on the leading end."),
        BLANK,
    ]
    if not found:
        blocks.append(Block("The tables hold none."))
    for one in sorted(
        found,
        key=lambda one: (-standing.get(one.rival.id, 0), -one.hazard.rank, one.rival.id),
    ):
        notes = list(book.notes_on(end, one.rival))
        both_ways = (one.hazard, named.get(one.rival.id, one.hazard))
        mark, words = HAZARDS[max(both_ways, key=lambda hazard: hazard.rank)]
        still = "still standing; " if standing.get(one.rival.id, 0) >= 0.01 else ""
        under = [f"Alike: {one.alike}. If confused, it {words}.", tell_words(one)]
        for note in notes:
            under += [note.tell_apart, note.what_goes_wrong]
        text = f"{mark} {end_words(one.rival)} ({still}{one.rival.form})"
        blocks.append(Block(text, pick=one.rival.id, under=tuple(under)))
    return blocks


def tell_words(one: Lookalike) -> str:
    """Return the one observation that tells two ends apart, in a sentence."""
    if one.tell is None:
        return sentence(UNTOLD)
    return f"Tell them apart by {difference_words(one.tell)}."
