"""A pane of lines that repaints only the rows that changed."""

from collections.abc import Callable

from rich.segment import Segment
from textual.app import RenderResult
from textual.color import Color, ColorParseError
from textual.events import Resize
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.style import Style
from textual.widget import Widget

from identify.pages.blocks import Line, Tone
from identify.transliterate import inert

Draw = Callable[[int, int], tuple[Line, ...]]
"""From width and height in cells to the lines that are to stand there."""

TALLEST = 200  # rows offered to a pane whose height follows its text


class Pane(Widget):
    """Shows what a pure function makes of its size.

    Over a slow line a row that stays as it was must not be sent again, so lines are compared and
    only those that differ are repainted, each in one style.
    """

    DEFAULT_CSS = "Pane { height: 1fr; width: 1fr; }"

    def __init__(self, id: str | None = None) -> None:
        super().__init__(id=id)
        self.draw: Draw = lambda width, height: ()
        self.lines: tuple[Line, ...] = ()

    def show(self, draw: Draw) -> None:
        """Show what `draw` makes of the size of this pane, now and after each change of size."""
        self.draw = draw
        if self.styles.height and self.styles.height.is_auto:
            wanted = len(draw(self.size.width or 1, TALLEST))
            if wanted != self.size.height:
                self.refresh(layout=True)
        self._renew()

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Return the rows its text takes, for a pane whose height follows its text."""
        return len(self.draw(width, TALLEST))

    def on_resize(self, event: Resize) -> None:
        """Draw again for the new size."""
        self._renew()

    def _renew(self) -> None:
        width, height = self.size
        if not width or not height:
            return
        old, self.lines = self.lines, self.draw(width, height)
        blank = Line("")
        changed = [
            Region(0, row, width, 1)
            for row in range(max(len(old), len(self.lines)))
            if _at(old, row, blank) != _at(self.lines, row, blank)
        ]
        if changed:
            self.refresh(*changed)

    def render(self) -> RenderResult:
        """Return the text for whoever asks for it whole; rows are drawn by `render_line`."""
        return "\n".join(line.text for line in self.lines)

    def render_line(self, y: int) -> Strip:
        """Return one row as a single run of one style."""
        line = _at(self.lines, y, Line(""))
        text = inert(line.text).ljust(self.size.width)[: self.size.width]
        style = self.visual_style + tone_style(self.app.theme_variables, line.tone)
        return Strip([Segment(text, style.rich_style)], len(text))


def _at(lines: tuple[Line, ...], row: int, blank: Line) -> Line:
    return lines[row] if row < len(lines) else blank


def tone_style(variables: dict[str, str], tone: Tone) -> Style:
    """Return the look of a tone in a theme, from its variable "tone-NAME": "bold INK on PAPER"."""
    spec = variables.get(f"tone-{tone}", "")
    before, _, paper = spec.partition(" on ")
    words = before.split()
    colours = [word for word in words if word not in ("bold", "reverse")]
    try:
        return Style(
            background=Color.parse(paper) if paper else None,
            foreground=Color.parse(colours[0]) if colours else None,
            bold=True if "bold" in words else None,
            reverse=True if "reverse" in words else None,
        )
    except ColorParseError:
        return Style()
