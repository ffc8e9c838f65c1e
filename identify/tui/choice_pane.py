"""The small pictures of the answers of a question, side by side and all of one size."""

from functools import lru_cache
from math import ceil
from typing import NamedTuple

from identify.drawing.choices import FRAME, choice_sheet
from identify.drawing.outline import Sheet
from identify.drawing.render import render_sign
from identify.drawing.style import Style
from identify.interview.snapshot import Ask
from identify.model.feature import Feature
from identify.pages.blocks import Line
from identify.tui.lines import caption, cut

LEAST_WIDTH, LEAST_HEIGHT = 8, 4  # of a picture, in cells; smaller ones show nothing
MOST_WIDTH, MOST_HEIGHT = 20, 9


class Grid(NamedTuple):
    """So many pictures in a row, each so wide and so high, its name under it."""

    across: int
    width: int
    height: int


def pictured(ask: Ask | None, gender: str | None) -> bool:
    """Tell whether each answer of a question has its picture."""
    return bool(ask and ask.choices) and all(_sheets(ask, gender))


def choice_lines(
    ask: Ask, gender: str | None, style: Style, width: int, height: int
) -> tuple[Line, ...]:
    """Return a picture of each answer, with its number and name; nothing where they do not fit."""
    grid = grid_of(len(ask.choices), width, height - 1)
    if grid is None:
        return ()
    feature = ask.text.feature
    cells = []
    for number, choice in enumerate(ask.choices, 1):
        name = choice.label if ask.by_value else f"{number} {choice.label}"
        rows = _drawn(feature, choice.word, gender, style, grid.width, grid.height)
        cells.append((*rows, cut(name, grid.width)))
    lines = [caption("What each answer looks like", width)]
    for first in range(0, len(cells), grid.across):
        row = cells[first : first + grid.across]
        lines += [Line(" ".join(parts).rstrip()) for parts in zip(*row, strict=True)]
    return tuple(lines)


def grid_of(count: int, width: int, height: int) -> Grid | None:
    """Return the arrangement in which the pictures are largest, None where none fits."""
    found = []
    for across in range(1, count + 1):
        wide = min((width + 1) // across - 1, MOST_WIDTH)
        high = min(height // ceil(count / across) - 1, MOST_HEIGHT)
        if wide >= LEAST_WIDTH and high >= LEAST_HEIGHT:
            found.append(Grid(across, wide, high))
    return max(
        found, key=lambda grid: (min(grid.width, 2 * grid.height), grid.across), default=None
    )


def _sheets(ask: Ask | None, gender: str | None) -> list[Sheet | None]:
    return (
        [choice_sheet(ask.text.feature, each.word, gender) for each in ask.choices] if ask else []
    )


@lru_cache(maxsize=128)
def _drawn(
    feature: Feature, word: str, gender: str | None, style: Style, width: int, height: int
) -> tuple[str, ...]:
    sheet = choice_sheet(feature, word, gender)
    return render_sign(sheet, FRAME, width, height, style) if sheet else ()
