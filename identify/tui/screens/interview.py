"""The interview: question and entry, picture, ranking, what must not be missed."""

from textual.app import ComposeResult
from textual.containers import Container
from textual.events import Paste
from textual.message import Message

from identify.drawing.style import Style
from identify.interview.bare import Unit, unit_of, whole_leaf
from identify.interview.snapshot import Ask, Snapshot, ask_of
from identify.model.feature import Feature
from identify.model.verdict import VerdictKind
from identify.pages.question import cannot_words
from identify.reading.manner import split_person
from identify.reasoning.engine import Engine
from identify.tui.keys import Act, Meaning, meaning
from identify.tui.messages import (
    AnotherWanted,
    Answered,
    Asked,
    CannotTell,
    HandWanted,
    OnceMoreWanted,
    Opened,
    RetakeWanted,
    SteppedBack,
    SteppedForward,
    ToolTurned,
    UnitTurned,
    WriteWanted,
)
from identify.tui.pane import Pane
from identify.tui.panes import notice_lines, picture_lines, ranking_lines, readings_lines
from identify.tui.question_pane import Typing, entry_hint, question_lines
from identify.tui.screens.base import Face, common

_OLD_HINT = "Your answer. Backspace changes it, Enter sends it, a digit begins anew."
NARROW = 60  # below this the drawing is not beside the question
OPENS = {
    "t": "tools",
    "a": "answers",
    "y": "why",
    "x": "why_not",
    "z": "lookalikes",
    "s": "tables",
    "v": "verdict",
    "d": "picture",
    "g": "guide",
    "o": "short",
    "h": "claims",
    "n": "onward",
    "j": "jobs",
}


class InterviewScreen(Face):
    """Puts the open question and reports the answer."""

    CSS_PATH = "interview.tcss"

    def __init__(self, engine: Engine, snapshot: Snapshot, style: Style) -> None:
        super().__init__(engine, snapshot)
        self.style = style
        self.ask: Ask | None = None
        self.typed, self.opened = "", False
        self.old = ""  # the answer that would be replaced, until a key changes it
        self.marked = ""  # the word of the answer that the arrow keys chose
        self.whole = False  # a leaf was sent with its last figure: an Enter behind it is spent

    def body(self) -> ComposeResult:
        """Question and entry on the left, picture and ranking on the right."""
        yield Pane(id="readings")
        with Container(id="desk"):
            with Container(id="left"):
                yield Pane(id="question")
            with Container(id="right"):
                yield Pane(id="picture")
                yield Pane(id="ranking")
        yield Pane(id="notices")

    def redraw(self) -> None:
        """Draw the snapshot; a new question clears what was typed for the old one."""
        ask = ask_of(self.snapshot, self.engine.book)
        if _which(ask) != _which(self.ask):
            self.typed, self.marked = "", ""
            # Who chose a question that is answered in words is about to type them.
            self.opened = bool(ask and ask.worded and self.snapshot.asking)
            self.old = _old(ask, unit_of(self.snapshot, ask) if ask else None)
        self.ask = ask
        snapshot, engine, style = self.snapshot, self.engine, self.style
        self.query_one("#readings", Pane).show(lambda width, _: readings_lines(snapshot, width))
        self.query_one("#picture", Pane).show(
            lambda width, height: picture_lines(snapshot, engine, style, width, height)
        )
        self.query_one("#ranking", Pane).show(
            lambda width, height: ranking_lines(snapshot, engine, width, height)
        )
        self.query_one("#notices", Pane).show(
            lambda width, height: notice_lines(snapshot, width, height)
        )
        self.redraw_question()

    def redraw_question(self) -> None:
        """Draw what a key press changes: the entry line and the hints."""
        super().redraw()
        snapshot, book = self.snapshot, self.engine.book
        typing = self._typing()
        self.query_one("#question", Pane).show(
            lambda width, height: question_lines(snapshot, book, typing, width, height)
        )

    def _typing(self) -> Typing | None:
        """Return what stands on the entry line, None where there is no such line."""
        ask = self.ask
        if ask is None or not (ask.measured or ask.worded or self.opened or self.typed):
            return None
        unit, problem = unit_of(self.snapshot, ask), self.snapshot.problem
        if self.old and not self.typed:
            return Typing(self.old, True, unit.label if unit else "", _OLD_HINT, problem)
        label, hint = unit.label if unit else "", entry_hint(ask, unit)
        return Typing(self.typed, self.opened, label, hint, problem, self.marked)

    def hint_words(self) -> str:
        """Return the keys worth naming at this moment."""
        if self.opened and not self.typed:
            return f"Type it, then Enter   Esc: keys again   0 Enter {cannot_words(self.ask)}"
        if self.typed:
            return f"Enter sends   Backspace deletes   0 Enter {cannot_words(self.ask)}"
        if self.ask is None:
            return "Enter verdict   b back   ? all keys   q quit"
        if self.snapshot.verdict.kind is VerdictKind.IDENTIFIED and self.snapshot.verdict.readings:
            return "v verdict   b back   ? all keys   q quit"
        listed = self.ask.choices and self.ask.typed and not self.ask.by_value
        typed = "Enter type a value   " if listed else ""
        zero = f"{'0 Enter' if self.ask.measured else '0'} {cannot_words(self.ask)}"
        if self.size.width < NARROW:
            first = "" if self.ask.measured else f"{zero}   "  # the entry line says it then
            return f"{first}b back   ? keys   d drawing"
        if self.ask.again:
            anew = "" if self.snapshot.verdict.suspects else "r replace   "
            tool = "m other tool   " if len(self.ask.tools) > 1 else ""
            person = "p other person   " if self.ask.another else ""
            return f"{zero}   {tool}{person}{anew}b back"
        more = typed or ("e once more   " if self.ask.given else "")
        return f"{zero}   {more}b back   ? all keys" + ("" if more else "   q quit")

    def press(self, key: str, character: str | None) -> None:
        """Handle a key."""
        spent, self.whole = self.whole and key == "enter", False
        if spent:
            return
        if self.old and key in ("backspace", "enter") and not self.typed:
            self.typed, self.old = self.old[:-1] if key == "backspace" else self.old, ""
            if key == "backspace":
                self.redraw_question()
                return
        what = meaning(self.ask, self.typed, self.opened, key, character, self.marked)
        match what.act:
            case Act.TYPE:
                self.typed += what.text
                self.old = self.marked = ""
                if self.ask and whole_leaf(self.ask, self.typed, self.snapshot.state.tools):
                    self.whole = True
                    self._report(Meaning(Act.SEND))
            case Act.MARK:
                self.marked = what.text
            case Act.ERASE:
                self.typed = self.typed[:-1]
            case Act.OPEN:
                self.opened = True
            case Act.SHUT:
                self.opened = False
            case _:
                self._report(what)
                return
        self.redraw_question()

    def on_paste(self, event: Paste) -> None:
        """Take pasted text as typed."""
        if self.ask and not self.small:
            self.typed += " ".join(event.text.split())[:200]
            self.marked = ""
            self.redraw_question()

    def _report(self, what: Meaning) -> None:
        ask = self.ask
        if what.act is Act.COMMAND:
            self._command(what.text)
        elif ask is None:
            return
        elif what.act is Act.CANNOT:
            self.typed, self.opened = "", False  # the same question may be asked once more
            self.post_message(CannotTell(ask.text.feature))
        elif what.act is Act.CHOOSE:
            self.post_message(Answered(ask.text.feature, ask.answer(what.text)))
        elif what.act is Act.SEND:
            self.post_message(Answered(ask.text.feature, self.typed.strip()))

    def _command(self, letter: str) -> None:
        if message := self._message(letter):
            self.post_message(message)

    def _message(self, letter: str) -> Message | None:
        if letter == "enter":
            return Opened("verdict") if self.ask is None else None
        if letter == "k":
            return Asked(Feature.MARKING)
        if letter in OPENS:
            return Opened(OPENS[letter])
        plain: dict[str, type[Message]] = {
            "b": SteppedBack,
            "r": RetakeWanted,
            "e": OnceMoreWanted,
            "p": AnotherWanted,
            "u": UnitTurned,
            "m": ToolTurned,
            "f": SteppedForward,
            "w": WriteWanted,
        }
        if letter == "l":
            return HandWanted("label")
        return plain[letter]() if letter in plain else common(letter)


def _old(ask: Ask | None, unit: Unit | None) -> str:
    """Return the answer that an answer typed now would replace, to be changed or sent again."""
    if ask is None or ask.again or ask.choices or not ask.given:
        return ""
    entered = split_person(ask.given[-1].entered)[0]
    head, _, tail = unit.forms[0].partition("{}") if unit else ("", "", "")
    bare = entered.removesuffix(tail)
    return bare if tail and not head and "{}" not in tail and bare != entered else entered


def _which(ask: Ask | None) -> tuple[object, ...]:
    """Return what makes a question another one than before."""
    return (ask.text.feature, ask.tool, ask.again, ask.given) if ask else ()
