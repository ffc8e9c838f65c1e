"""Lookalikes of the leading end, and two of them laid over each other."""

from functools import lru_cache

from identify.drawing.render import FEWEST_COLUMNS, FEWEST_ROWS, Style, render
from identify.drawing.seat_detail import seat_detail
from identify.interview.snapshot import Reference, Snapshot
from identify.model.connection import EndConnection
from identify.pages.words import HAZARDS, end_words
from identify.reasoning.lookalikes import Lookalike
from identify.tui.view.lines import Block, Line, Tone, caption, wrap


def lookalike_blocks(
    snapshot: Snapshot, end: EndConnection, found: tuple[Lookalike, ...]
) -> tuple[Block, ...]:
    """Return what may be taken for an end, those still standing first, then by hazard."""
    verdict = snapshot.verdict
    standing = {each.end.id: each.probability for each in verdict.ranking}
    noted = {each.end.id: each for each in (*verdict.lookalikes, *verdict.dangers)}
    blocks = [
        Block(f"Easily taken for {end_words(end)}", Tone.HEAD),
        Block("A digit lays it over the leading end."),
        Block(""),
    ]
    if not found:
        blocks.append(Block("The tables hold none."))
    ordered = sorted(
        found,
        key=lambda one: (-standing.get(one.rival.id, 0), -one.hazard.rank, one.rival.id),
    )
    for one in ordered:
        note = noted.get(one.rival.id)
        hazards = (one.hazard, note.hazard) if note else (one.hazard,)
        mark, words = HAZARDS[max(hazards, key=lambda each: each.rank)]
        still = "still standing; " if standing.get(one.rival.id, 0) >= 0.01 else ""
        under = [f"alike: {one.alike}. Mixed up it {words}.", tell_words(one)]
        if note and note.goes_wrong:
            under.append(note.goes_wrong)
        text = f"{mark} {end_words(one.rival)} ({still}{one.rival.form})"
        blocks.append(Block(text, pick=one.rival.id, under=tuple(under)))
    return tuple(blocks)


def tell_words(one: Lookalike) -> str:
    """Return the one observation that tells two ends apart, in a sentence."""
    tell = one.tell
    if tell is None:
        return "No measurement of the end tells them apart."
    feature = tell.feature.replace("_", " ")
    gap = f", {tell.size:.2g} apart" if tell.size is not None else ""
    return f"Tell them apart by {feature}: {tell.one} against {tell.other}{gap} ({tell.tool})."


@lru_cache(maxsize=32)
def overlay_lines(
    reference: Reference, end: str, rival: str, style: Style, width: int, height: int
) -> tuple[Line, ...]:
    """Return the overlay and, under it, the differences in words."""
    catalogue = reference.catalogue
    one, other = catalogue.by_id[end], catalogue.by_id[rival]
    sheet = seat_detail(one, catalogue.thread_of(one), other, catalogue.thread_of(other))
    words = [line for text in sheet.words for line in wrap(text, width, head="- ")]
    rows = height - len(words) - 1
    if rows < FEWEST_ROWS or width < FEWEST_COLUMNS:
        return tuple(words[:height])
    drawing = (Line(row) for row in render(sheet, width, rows, style))
    return (caption("Leading end solid, lookalike dashed", width), *drawing, *words)
