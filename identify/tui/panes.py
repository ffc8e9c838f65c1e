"""Panes beside the question: picture, ranking, what must not be missed; cut to their size."""

from functools import lru_cache

from identify.drawing.ends import half_section
from identify.drawing.render import render
from identify.drawing.seat_detail import seat_detail
from identify.drawing.style import FEWEST_COLUMNS, FEWEST_ROWS, Style
from identify.interview.snapshot import Snapshot, ask_of
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.verdict import Danger, Hazard, percent
from identify.pages.blocks import Line, Tone
from identify.pages.pair import difference_words
from identify.pages.words import (
    HAZARDS,
    UNTOLD,
    bar,
    end_short,
    likely_words,
    retake_words,
    sentence,
)
from identify.reading.manner import split_person
from identify.reasoning.differences import differences
from identify.reasoning.engine import Engine
from identify.tui.choice_pane import choice_lines, pictured
from identify.tui.lines import caption, cut, wrapped

WHOLE_FROM = 25  # rows of the ranking from which on names stand whole
_HIDDEN = "Told when you have said what you think it is: v."
SHOWN_FROM = 0.005  # candidates below this are counted, not listed


def ranking_lines(snapshot: Snapshot, engine: Engine, width: int, height: int) -> tuple[Line, ...]:
    """Return the ranking pane: as many candidates as there is room for, each in two rows.

    On a high window names stand whole. No digits: those choose an answer of the question.
    """
    verdict = snapshot.verdict
    if snapshot.hidden:
        return (caption("Ranking", width), *wrapped(_HIDDEN, width))[:height]
    if not verdict.readings:
        lines = [caption("Ranking", width)]
        count = len(engine.catalogue.ends)
        lines += wrapped(f"Nothing measured yet. {count} ends in the tables still stand.", width)
        return tuple(lines[:height])
    shown = [each for each in verdict.ranking if each.probability >= SHOWN_FROM]
    lines = [caption(f"Ranking; none of these: {percent(verdict.none_of_these)}", width)]
    room = max((height - 1) // 2, 1)
    told = 0
    for each in shown[: len(shown) if height >= WHOLE_FROM else room]:
        more = f" or {len(each.twins)} more" if each.twins else ""
        if height >= WHOLE_FROM:
            name = wrapped(f"{end_short(each.end)}{more}", width, head="  ")
        else:
            name = (Line(f"  {cut(end_short(each.end), width - 2 - len(more)).rstrip()}{more}"),)
        if len(lines) + 1 + len(name) > height:
            break
        lines += [_bar_line(each.probability, width), *name]
        told += 1
    left = len(shown) - told
    if left > 0 and len(lines) < height:
        lines.append(Line(f"  and {left} more", Tone.QUIET))
    return tuple(lines[:height])


def _bar_line(probability: float, width: int) -> Line:
    words = likely_words(probability)
    length = max(width - 8 - len(words), 4)
    return Line(f"{percent(probability):>5} {bar(probability, length)} {words}"[:width])


def readings_lines(snapshot: Snapshot, width: int) -> tuple[Line, ...]:
    """Return what was read so far, in a line; a sign says if the first of it is left out."""
    words = []
    for feature in dict.fromkeys(each.feature for each in snapshot.state.readings):
        said = (split_person(each.entered)[0] for each in snapshot.state.given(feature))
        words.append(f"{FEATURES[feature].label} {' and '.join(said)}")
    text = f" {'; '.join(words)}"
    return (Line(text if len(text) <= width else f" …{text[-width + 2 :]}", Tone.QUIET),)


def notice_lines(snapshot: Snapshot, width: int, height: int) -> tuple[Line, ...]:
    """Return the lines that must not be missed: suspect reading, dangers that stand, warnings.

    What does not fit is counted and found on the verdict screen.
    """
    verdict = snapshot.verdict
    found: list[tuple[Line, ...]] = []
    if snapshot.trouble:
        found.append(wrapped(snapshot.trouble, width, Tone.WARN, "! "))
    for suspect in verdict.suspects:
        found.append(wrapped(retake_words(suspect), width, Tone.WARN, "! "))
    for danger in verdict.dangers if not snapshot.hidden else ():
        if danger.hazard is Hazard.HIGH:
            found.append(wrapped(danger_words(danger), width, Tone.WARN, "!!! "))
    for warning in verdict.warnings if verdict.readings and not snapshot.hidden else ():
        mark = HAZARDS[warning.hazard][0]
        found.append(wrapped(warning.sentence, width, Tone.WARN, f"{mark} "))
    lines: list[Line] = []
    for number, each in enumerate(found):
        if lines and len(lines) + len(each) > height:
            return _ended(lines[:height], len(found) - number, width)
        lines += each
    if len(lines) > height:
        return _ended(lines[:height], len(found) - 1, width)
    return tuple(lines)


def danger_words(danger: Danger) -> str:
    """Return a lookalike that still stands, with the one observation that separates it."""
    still = f"{end_short(danger.end)} ({percent(danger.probability)})"
    return f"Still standing: {still}. {sentence(danger.tell or UNTOLD)}"


def _ended(lines: list[Line], left: int, width: int) -> tuple[Line, ...]:
    """Return lines whose last says how many warnings are not shown."""
    end = f" … {left} more, press v" if left else " … press v"
    text = lines[-1].text
    if len(text) + len(end) > width:
        text = text[: width - len(end) + 1].rpartition(" ")[0] or text[: width - len(end)]
    return (*lines[:-1], Line(text + end, lines[-1].tone))


def picture_lines(
    snapshot: Snapshot, engine: Engine, style: Style, width: int, height: int
) -> tuple[Line, ...]:
    """Return the picture pane; nothing where there is no room, words until an end leads.

    Where each answer of the question has a picture of its own, those are shown and never the
    leading end alone, which would put its answer into a mouth.
    """
    ask, gender = ask_of(snapshot, engine.book), snapshot.state.gender
    if ask and pictured(ask, gender):
        return choice_lines(ask, gender, style, width, height)
    if height < FEWEST_ROWS + 1 or width < FEWEST_COLUMNS:
        return ()
    if snapshot.hidden or not snapshot.verdict.readings or not snapshot.verdict.ranking:
        return _before(width, height)
    end = snapshot.verdict.ranking[0].end
    rows = drawn(engine, end, ask.text.feature if ask else None, style, width, height - 1)
    return (caption(f"Leading: {end_short(end)}", width), *(Line(row) for row in rows))


@lru_cache(maxsize=64)
def drawn(
    engine: Engine,
    end: EndConnection,
    ask: Feature | None,
    style: Style,
    width: int,
    height: int,
) -> tuple[str, ...]:
    """Return the rows of a half-section, drawn once for each size and question."""
    sheet = half_section(end, engine.catalogue.thread_of(end), ask)
    return render(sheet, width, height, style)


def _before(width: int, height: int) -> tuple[Line, ...]:
    lines = [
        caption("Picture", width),
        *wrapped("The end that leads is drawn here as soon as something is known of it.", width),
        Line(""),
        *wrapped(
            "Clean the end first. Make sure that there is no pressure in the hose.",
            width,
            Tone.WARN,
        ),
    ]
    return tuple(lines[:height])


@lru_cache(maxsize=32)
def overlay_lines(
    engine: Engine, end: str, rival: str, style: Style, width: int, height: int
) -> tuple[Line, ...]:
    """Return the overlay and, under it, the differences in words."""
    catalogue = engine.catalogue
    one, other = catalogue.by_id[end], catalogue.by_id[rival]
    found = differences(catalogue, one, other, engine.book.observation)
    sheet = seat_detail(
        one,
        catalogue.thread_of(one),
        other,
        catalogue.thread_of(other),
        [sentence(difference_words(each)) for each in found],
    )
    words = [line for text in sheet.words for line in wrapped(text, width, head="- ")]
    rows = height - len(words) - 1
    if rows < FEWEST_ROWS or width < FEWEST_COLUMNS:
        return tuple(words[:height])
    drawing = (Line(row) for row in render(sheet, width, rows, style))
    return (caption("Leading end solid, lookalike dashed", width), *drawing, *words)
