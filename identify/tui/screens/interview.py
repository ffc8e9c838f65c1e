"""The interview: question and entry, picture, ranking, what must not be missed."""

from textual.app import ComposeResult
from textual.containers import Container
from textual.events import Paste
from textual.message import Message

from identify.drawing.render import Style
from identify.model.rule import Tool
from identify.model.verdict import VerdictKind
from identify.tui.keys import Act, Meaning, meaning
from identify.tui.messages import (
    Answered,
    CannotTell,
    Opened,
    RetakeWanted,
    StartedAgain,
    SteppedBack,
    UnitToggled,
)
from identify.tui.screens.base import Face, common
from identify.tui.snapshot import Reference, Snapshot
from identify.tui.view.entry import Unit, how_word, typed_text, units
from identify.tui.view.picture import picture_lines
from identify.tui.view.question import Ask, ask_of, question_lines
from identify.tui.view.ranking import notice_lines, ranking_lines
from identify.tui.widgets.entry import Entry
from identify.tui.widgets.pane import Pane

OPENS = {
    "t": "tools",
    "a": "answers",
    "w": "why",
    "x": "why_not",
    "l": "lookalikes",
    "s": "tables",
    "v": "verdict",
    "d": "picture",
    "g": "guide",
}


class InterviewScreen(Face):
    """Puts the open question and reports the answer."""

    CSS_PATH = "interview.tcss"

    def __init__(self, reference: Reference, snapshot: Snapshot, style: Style) -> None:
        super().__init__(reference, snapshot)
        self.style = style
        self.ask: Ask | None = None
        self.tool_at = 0
        self.unit_at = 0

    def body(self) -> ComposeResult:
        """Question and entry on the left, picture and ranking on the right."""
        with Container(id="desk"):
            with Container(id="left"):
                yield Pane(id="question")
                yield Entry(id="entry")
            with Container(id="right"):
                yield Pane(id="picture")
                yield Pane(id="ranking")
        yield Pane(id="notices")

    def redraw(self) -> None:
        """Draw the snapshot; a new question clears what was typed for the old one."""
        ask = ask_of(self.snapshot, self.reference)
        entry = self.query_one(Entry)
        if (ask and ask.text.feature) != (self.ask and self.ask.text.feature):
            self.tool_at = self.unit_at = 0
            entry.typed, entry.opened = "", False
        self.ask = ask
        entry.display = ask is not None and (ask.measured or entry.opened or ask.worded)
        entry.problem = self.snapshot.problem
        entry.unit, entry.hint = self._unit_words(), self._hint(ask)
        super().redraw()
        snapshot, reference, tool, style = self.snapshot, self.reference, self.tool, self.style
        self.query_one("#question", Pane).show(
            lambda width, height: question_lines(snapshot, reference, tool, width, height)
        )
        self.query_one("#picture", Pane).show(
            lambda width, height: picture_lines(snapshot, reference, style, width, height)
        )
        self.query_one("#ranking", Pane).show(
            lambda width, height: ranking_lines(snapshot, reference, width, height)
        )
        rows = 3 if self.size.height >= 30 else 2
        self.query_one("#notices", Pane).show(
            lambda width, height: notice_lines(snapshot, width, min(height, rows))
        )

    @property
    def tool(self) -> Tool | None:
        """The tool the reading is taken with."""
        return self.ask.tools[self.tool_at % len(self.ask.tools)] if self.ask else None

    @property
    def unit(self) -> Unit | None:
        """The unit that is added to a bare number."""
        if self.ask is None or self.tool is None:
            return None
        how = self.ask.how(self.tool)
        offered = units(self.ask.text.feature, how, inch=self.snapshot.inch)
        return offered[self.unit_at % len(offered)] if offered else None

    def _unit_words(self) -> str:
        unit = self.unit
        return unit.label if unit else ""

    def _hint(self, ask: Ask | None) -> str:
        if ask is None:
            return ""
        if ask.worded:
            return f"Enter: type it, such as {ask.text.example}   0: cannot tell"
        if not ask.measured:
            return f"Such as {ask.text.example}"
        return "u: other unit   0 Enter: cannot tell"

    def hint_words(self) -> str:
        """Return the keys worth naming at this moment."""
        if self.query_one(Entry).opened or self.query_one(Entry).typed:
            return "Enter sends   Backspace rubs out   0 Enter cannot tell"
        if self.ask is None:
            return "Enter verdict   b back   ? all keys   q quit"
        if self.snapshot.verdict.kind is VerdictKind.IDENTIFIED and self.snapshot.verdict.readings:
            return "v verdict   b back   ? all keys   q quit"
        return "0 cannot tell   b back   ? all keys   q quit"

    def press(self, key: str, character: str | None) -> None:
        """Handle a key."""
        entry = self.query_one(Entry)
        what = meaning(self.ask, entry.typed, entry.opened, key, character)
        match what.act:
            case Act.TYPE:
                entry.typed += what.text
            case Act.ERASE:
                entry.typed = entry.typed[:-1]
            case Act.OPEN:
                entry.opened = entry.display = True
            case Act.SHUT:
                entry.opened = False
                entry.display = self.ask is not None and not self.ask.text.choices
            case _:
                self._report(what)
        if what.act in (Act.TYPE, Act.ERASE, Act.OPEN, Act.SHUT):
            super().redraw()

    def on_paste(self, event: Paste) -> None:
        """Take pasted text as typed."""
        if self.ask:
            self.query_one(Entry).typed += " ".join(event.text.split())[:200]

    def _report(self, what: Meaning) -> None:
        ask, entry = self.ask, self.query_one(Entry)
        if what.act is Act.BACK:
            self.post_message(SteppedBack())
        elif what.act is Act.COMMAND:
            self._command(what.text)
        elif ask is None:
            return
        elif what.act is Act.CANNOT:
            self.post_message(CannotTell(ask.text.feature))
        elif what.act is Act.CHOOSE:
            self.post_message(Answered(ask.text.feature, what.text))
        elif what.act is Act.SEND:
            how = ask.how(self.tool) if self.tool else None
            text = typed_text(entry.typed, self.unit, ask.text.feature)
            self.post_message(
                Answered(ask.text.feature, text, how_word(text, ask.text.feature, how))
            )

    def _command(self, letter: str) -> None:
        if letter == "u":
            self._turn_unit()
        elif letter == "m" and self.ask:
            self.tool_at += 1
            self.unit_at = 0
            self.redraw()
        elif message := self._message(letter):
            self.post_message(message)

    def _turn_unit(self) -> None:
        if self.ask and self.unit:
            if self.unit.label in ("mm", "in"):
                self.post_message(UnitToggled())
            else:
                self.unit_at += 1
                self.redraw()

    def _message(self, letter: str) -> Message | None:
        if letter == "enter":
            return Opened("verdict") if self.ask is None else None
        if letter in OPENS:
            return Opened(OPENS[letter])
        plain: dict[str, type[Message]] = {"b": SteppedBack, "r": RetakeWanted, "n": StartedAgain}
        return plain[letter]() if letter in plain else common(letter)
