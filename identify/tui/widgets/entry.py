"""The line on which values are typed."""

from textual.reactive import reactive

from identify.tui.view.lines import Line, Tone, wrap
from identify.tui.widgets.pane import Pane


class Entry(Pane):
    """A typed value with its unit, the hint under it, and what was wrong with the last one.

    What was typed stays until it is sent or rubbed out; the cursor is always at its end, which is
    all that gloved fingers can use.
    """

    DEFAULT_CSS = "Entry { height: auto; }"

    typed: reactive[str] = reactive("")
    unit: reactive[str] = reactive("")
    hint: reactive[str] = reactive("")
    problem: reactive[str] = reactive("")
    opened: reactive[bool] = reactive(False)

    def on_mount(self) -> None:
        """Draw for the first time."""
        self.redraw()

    def redraw(self) -> None:
        """Draw the line as it stands."""
        self.show(self._lines)

    def _lines(self, width: int, height: int) -> tuple[Line, ...]:
        cursor = "█" if self.opened or self.typed else "_"
        unit = f"  {self.unit}" if self.unit else ""
        room = width - 3 - len(unit)
        shown = self.typed[-room:] if room > 0 else self.typed
        lines = [Line(f"> {shown}{cursor}{unit}", Tone.HEAD)]
        if self.problem:
            lines += wrap(self.problem, width, Tone.WARN, "! ")
        elif self.hint:
            lines += wrap(self.hint, width, Tone.QUIET, indent="  ")
        return tuple(lines)

    def watch_typed(self) -> None:
        """A key was typed."""
        self.redraw()

    watch_unit = watch_hint = watch_problem = watch_opened = watch_typed
