"""Laws of the layout, over every end of the tables, every question and many canvas sizes."""

import re
import unicodedata
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from identify.drawing.ends import half_section
from identify.drawing.layout import Layout
from identify.drawing.outline import Sheet
from identify.drawing.render import render, text_layout
from identify.drawing.seat_detail import seat_detail
from identify.drawing.style import Style
from identify.model.feature import FEATURES, Feature
from identify.reading.names import one_end
from tests.drawing.parts import CATALOGUE

ends = st.sampled_from(CATALOGUE.ends)
WIDEST_LABEL = 34  # columns of the narrowest canvas that a label may take
asked = st.sampled_from([None, *FEATURES])
widths, heights = st.integers(36, 120), st.integers(12, 40)


@st.composite
def sheets(draw: st.DrawFn) -> Sheet:
    end = draw(ends)
    if draw(st.booleans()):
        return half_section(end, CATALOGUE.thread_of(end), draw(asked))
    other = draw(ends)
    return seat_detail(end, CATALOGUE.thread_of(end), other, CATALOGUE.thread_of(other))


def cells(layout: Layout) -> list[tuple[int, int]]:
    return [(label.row, column) for label in layout.labels for column in label.cells]


@given(sheets(), widths, heights)
@settings(max_examples=400, deadline=None, derandomize=True)
def test_no_label_covers_another_or_leaves_the_canvas(
    sheet: Sheet, columns: int, rows: int
) -> None:
    layout = text_layout(sheet, columns, rows)
    covered = cells(layout)
    assert len(covered) == len(set(covered))
    assert all(0 <= row < rows - 1 and 0 <= column < columns for row, column in covered)
    placed = Counter(label.text for label in layout.labels)
    assert placed <= Counter(item.label for item in sheet.labelled)


@given(sheets(), widths, heights, st.sampled_from(tuple(Style)))
@settings(max_examples=400, deadline=None, derandomize=True)
def test_every_placed_label_can_be_read_and_the_scale_stands_below(
    sheet: Sheet, columns: int, rows: int, style: Style
) -> None:
    lines = render(sheet, columns, rows, style)
    assert len(lines) == rows
    assert all(len(line) <= columns for line in lines)
    for label in text_layout(sheet, columns, rows).labels:
        text = label.text if style is not Style.ASCII else label.text.replace("°", "d")
        assert lines[label.row][label.start :].startswith(text)
    bar = r"\|-+\|" if style is Style.ASCII else "├─+┤"
    dot = "column" if style is Style.ASCII else "dot"
    assert re.match(rf"{bar} [\d.]+ mm, 1 {dot} = [\d.]+ mm", lines[-1])


@given(ends, asked.filter(bool), widths, heights)
@settings(max_examples=300, deadline=None, derandomize=True)
def test_what_is_asked_for_is_never_left_out_of_the_picture(end, ask, columns, rows) -> None:
    sheet = half_section(end, CATALOGUE.thread_of(end), ask)
    placed = [label.text for label in text_layout(sheet, columns, rows).labels]
    assert sorted(placed) == sorted(item.label for item in sheet.labelled)


@given(sheets(), widths, heights)
@settings(max_examples=200, deadline=None, derandomize=True)
def test_only_characters_one_column_wide_are_used_and_empty_cells_are_spaces(
    sheet: Sheet, columns: int, rows: int
) -> None:
    for style in Style:
        text = "".join(render(sheet, columns, rows, style))
        assert "\u2800" not in text
        assert all(unicodedata.east_asian_width(mark) not in "WF" for mark in text)
        assert not any(unicodedata.combining(mark) for mark in text)
        assert style is not Style.ASCII or text.isascii()


def test_every_end_can_be_drawn_on_the_smallest_canvas() -> None:
    for end in CATALOGUE.ends:
        sheet = half_section(end, CATALOGUE.thread_of(end))
        assert len(render(sheet, 36, 12)) == 12
        layout = text_layout(sheet, 36, 12)
        assert len(cells(layout)) == len(set(cells(layout)))


def test_no_label_is_longer_than_the_narrowest_canvas_allows() -> None:
    """What is asked for bears no figure, so that one row of each form stands for all of it."""
    of_each = {(end.family, end.gender, end.form): end for end in CATALOGUE.ends}
    asked = [(end, ask) for end in of_each.values() for ask in FEATURES]
    for end, ask in [*((end, None) for end in CATALOGUE.ends), *asked]:
        sheet = half_section(end, CATALOGUE.thread_of(end), ask)
        assert all(len(item.label) <= WIDEST_LABEL for item in sheet.labelled)


def test_a_reading_is_written_at_the_dimension_and_the_tables_figure_is_not() -> None:
    end = one_end(CATALOGUE, "flare37:-8:male")
    thread = CATALOGUE.thread_of(end)
    (asked_for,) = half_section(end, thread, Feature.THREAD_OD).labelled
    (answered,) = half_section(end, thread, Feature.THREAD_OD, "18.9 mm").labelled
    assert asked_for.label == "thread OD: measure here"
    assert answered.label == "thread OD 18.9 mm"
