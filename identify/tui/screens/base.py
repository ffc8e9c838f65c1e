"""What all screens share: a frozen snapshot, the size that is too small, the keys everywhere."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.events import Key
from textual.message import Message
from textual.reactive import reactive
from textual.screen import Screen

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot
from identify.jobs.reference import ALPHABET
from identify.pages.blocks import Line, Tone
from identify.reasoning.engine import Engine
from identify.tui.lines import wrapped
from identify.tui.messages import Left, Opened, ThemeWanted, WentBack
from identify.tui.pane import Pane
from identify.tui.title import title_line

FEWEST_COLUMNS, FEWEST_ROWS = 36, 16


class Face(Screen[None]):
    """Draws a snapshot and reports keys; a subclass says what and which."""

    BINDINGS: ClassVar[list[BindingType]] = []
    DEFAULT_CSS = """
    Face { layout: vertical; }
    Face > #title { height: 1; }
    Face > #hints { height: 1; }
    Face > #note { height: auto; max-height: 4; display: none; }
    Face.-noted > #note { display: block; }
    Face > #small { display: none; }
    Face.-small > *, Face.-small.-noted > #note { display: none; }
    Face.-small > #small { display: block; }
    """

    snapshot: reactive[Snapshot] = reactive(Snapshot())
    hints: str = "b back   ? help   q quit"

    def __init__(self, engine: Engine, snapshot: Snapshot) -> None:
        super().__init__()
        self.style = Style.BRAILLE
        self._engine = engine
        self.set_reactive(Face.snapshot, snapshot)

    @property
    def engine(self) -> Engine:
        """The engine that reasons for the one who measures now."""
        return self._engine.measured_by(self.snapshot.state.care)

    def compose(self) -> ComposeResult:
        """Title, body, hints; and the sentence for a window that is too small."""
        yield Pane(id="title")
        yield from self.body()
        yield Pane(id="note")
        yield Pane(id="hints")
        yield Pane(id="small")

    def body(self) -> ComposeResult:
        """Yield what stands between title and hints."""
        yield Pane(id="body")

    def on_mount(self) -> None:
        """Draw for the first time."""
        self.query_one("#small", Pane).show(_too_small)
        self.redraw()

    @property
    def small(self) -> bool:
        """Whether the window is too small to show anything; no key means anything then but q."""
        size = self.app.size
        return size.width < FEWEST_COLUMNS or size.height < FEWEST_ROWS

    def on_resize(self) -> None:
        """Say so if the window is too small; hints and pages change with the size."""
        self.set_class(self.small, "-small")
        self.call_after_refresh(self.redraw)

    def watch_snapshot(self) -> None:
        """A new state came."""
        if self.is_mounted:
            self.redraw()

    def redraw(self) -> None:
        """Draw title and hints; a subclass draws the rest."""
        snapshot, hints = self.snapshot, self.hint_words()
        self.query_one("#title", Pane).show(lambda width, _: self.title_lines(snapshot, width))
        self.query_one("#hints", Pane).show(lambda width, _: (hint_line(hints, width),))
        if snapshot.note or self.has_class("-noted"):
            self.set_class(bool(snapshot.note), "-noted")
            self.query_one("#note", Pane).show(
                lambda width, _: wrapped(snapshot.note, width, Tone.HEAD)
            )

    def title_lines(self, snapshot: Snapshot, width: int) -> tuple[Line, ...]:
        """Return the line at the top."""
        return title_line(snapshot, width)

    def hint_words(self) -> str:
        """Return the keys worth naming at this moment, four at most."""
        return self.hints

    def on_key(self, event: Key) -> None:
        """Turn a key into an intention."""
        event.stop()
        event.prevent_default()
        if not self.small:
            self.press(event.key, event.character)
        elif event.character == "q":
            self.post_message(Left())

    def press(self, key: str, character: str | None) -> None:
        """Handle a key; a subclass handles its own first."""
        if message := common(character):
            self.post_message(message)
        elif key == "escape" or character == "b":
            self.leave()

    def leave(self) -> None:
        """Go back to the screen before."""
        self.post_message(WentBack())

    def take_what_is_typed(self) -> None:
        """Take what stands on an open line, as somebody leaves; nothing unless a subclass can."""

    def restyle(self, style: Style) -> None:
        """Draw in other colours; a screen with a drawing takes the strokes too."""
        self.style = style
        self.redraw()


def common(character: str | None) -> Message | None:
    """Return what a letter means on every screen, None if it has no such meaning."""
    if character == "?":
        return Opened("help")
    if character == "i":
        return Opened("words")
    if character == "q":
        return Left()
    if character and character in ALPHABET and character.isupper():
        return Opened("jobs", character)  # as a scanner, or a hand, begins a reference
    return ThemeWanted() if character == "c" else None


def hint_line(hints: str, width: int) -> Line:
    """Return the hints, those that do not fit left out whole."""
    kept = ""
    for hint in hints.split("   "):
        longer = f"{kept}   {hint}" if kept else f" {hint}"
        if len(longer) > width:
            break
        kept = longer
    return Line(kept, Tone.QUIET)


def _too_small(width: int, height: int) -> tuple[Line, ...]:
    text = (
        f"The window is {width} by {height}; the interview needs {FEWEST_COLUMNS} by "
        f"{FEWEST_ROWS}. Make it larger, or leave with q and start whichend --plain."
    )
    return wrapped(text, width)
