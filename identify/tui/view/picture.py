"""The picture pane: a half-section of the leading end with the asked dimension on it."""

from functools import lru_cache

from identify.drawing.ends import half_section
from identify.drawing.render import FEWEST_COLUMNS, FEWEST_ROWS, Style, render
from identify.interview.ask import ask_of
from identify.interview.snapshot import Reference, Snapshot
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.pages.words import end_short
from identify.tui.view.lines import Line, Tone, caption, wrap


def picture_lines(
    snapshot: Snapshot, reference: Reference, style: Style, width: int, height: int
) -> tuple[Line, ...]:
    """Return the picture pane; nothing where there is no room, words until an end leads."""
    if height < FEWEST_ROWS + 1 or width < FEWEST_COLUMNS:
        return ()
    if not snapshot.verdict.readings or not snapshot.verdict.ranking:
        return _before(width, height)
    end = snapshot.verdict.ranking[0].end
    ask = ask_of(snapshot, reference)
    rows = drawn(reference, end, ask.text.feature if ask else None, style, width, height - 1)
    return (caption(f"Leading: {end_short(end)}", width), *(Line(row) for row in rows))


@lru_cache(maxsize=64)
def drawn(
    reference: Reference,
    end: EndConnection,
    ask: Feature | None,
    style: Style,
    width: int,
    height: int,
) -> tuple[str, ...]:
    """Return the rows of a half-section, drawn once for each size and question."""
    sheet = half_section(end, reference.catalogue.thread_of(end), ask)
    return render(sheet, width, height, style)


def _before(width: int, height: int) -> tuple[Line, ...]:
    lines = [
        caption("Picture", width),
        *wrap("The end that leads is drawn here as soon as something is known of it.", width),
        Line(""),
        *wrap("Clean the end first. Let no pressure be in the hose.", width, Tone.WARN),
    ]
    return tuple(lines[:height])
