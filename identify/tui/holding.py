"""What the application knows of an interview, and the one way to a new state."""

import os
from collections.abc import Iterator
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.reactive import reactive

from identify.drawing.style import Style
from identify.frozen import TYPE_CHECKING
from identify.interview.habits import Habits
from identify.interview.session import (
    Equipped,
    Event,
    Reached,
)
from identify.interview.snapshot import EMPTY_VERDICT, Snapshot
from identify.jobs.course import Course
from identify.jobs.journal import Saved
from identify.jobs.saving import Autosave
from identify.model.connection import EndConnection
from identify.model.rule import Tool
from identify.model.verdict import VerdictKind
from identify.reasoning.engine import Engine
from identify.tui import themes
from identify.tui.screens.base import Face
from identify.tui.screens.choosing import ToolsScreen
from identify.tui.warming import bits

WARM_EVERY_S = 0.05
DRAWN_S = 0.2  # by then an answer is on the screen, and nobody gives the next so soon

if TYPE_CHECKING:
    from identify.sheets.desk import Desk

_TELLING = frozenset({"verdict", "why", "why_not", "lookalikes", "picture"})
"""Screens that tell what an end is."""


class Holding(App[int]):
    """Holds where the interview stands, and shows it.

    Args:
        engine: Reasons over tables and rules.
        autosave: Keeps the answers.
        habits: What need not be asked.
        saved: An interview that was broken off.
        offer: Ask whether to go on with it; else it is taken up at once.
        theme: One of `themes.NAMES`; with NO_COLOR set it is "terminal".
        spare: Show no picture until it is asked for, as over a slow line.
    """

    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (60, "-normal"), (110, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-least"), (19, "-low"), (22, "-tall"), (38, "-high")]  # noqa: RUF012 - as the base declares it
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+c", "leave", show=False, priority=True),
        Binding("ctrl+q", "leave", show=False, priority=True),
        Binding("ctrl+z", "suspend_process", show=False, priority=True),
    ]
    CSS = "Screen { background: $background; color: $foreground; }"

    snapshot: reactive[Snapshot] = reactive(Snapshot(), init=False)

    def __init__(
        self,
        engine: Engine,
        autosave: Autosave,
        habits: Habits = Habits(),  # noqa: B008 - it is frozen
        *,
        saved: Saved | None = None,
        offer: bool = True,
        theme: str = themes.DARK.name,
        spare: bool = False,
    ) -> None:
        self.colourless = bool(os.environ.get("NO_COLOR"))
        super().__init__(ansi_color=True if self.colourless else None)
        for each in themes.THEMES:
            self.register_theme(each)
        self.theme = themes.TERMINAL.name if self.colourless else theme
        self.autosave = autosave
        self.course = Course(engine, autosave, habits)
        self.saved, self.offer, self.spare = saved, offer, spare
        self.desk: Desk | None = None  # of the sheet that is open
        self._bits = bits(engine)
        self._ahead: Iterator[str] = iter(())
        self.set_reactive(Holding.snapshot, self.course.blank())

    def _begin_warming(self) -> None:
        self._warming = self.set_interval(WARM_EVERY_S, self._warm_up)

    def _warm_up(self) -> None:
        """Get ready, bit by bit, for what comes after the next answer, while somebody reads."""
        if next(self._ahead, None) is None and next(self._bits, None) is None:
            self._warming.pause()

    @property
    def engine(self) -> Engine:
        """The engine that reasons for the one who measures now."""
        return self.course.engine.measured_by(self.snapshot.state.care)

    @property
    def style(self) -> Style:
        """The strokes of drawings: heavy ones for sunlight."""
        return Style.BLOCKS if self.theme == themes.SUNLIGHT.name else Style.BRAILLE

    @property
    def leader(self) -> EndConnection | None:
        """The end that leads, None before anything was measured."""
        verdict = self.snapshot.verdict
        return verdict.ranking[0].end if verdict.ranking and verdict.readings else None

    # The one way to a new state.

    def happen(self, *events: Event) -> None:
        """Let events change the state, as `Course.happen` does."""
        self.become(self.course.happen(self.snapshot, *events))

    def prepare(self, equipped: Equipped, reached: Reached) -> None:
        """Take tools and access, as `Course.prepare` does."""
        self.become(self.course.prepare(self.snapshot, equipped, reached))

    def become(self, snapshot: Snapshot) -> None:
        """Show a concluded snapshot; an end just identified at once, unless a rule asks first."""
        before, self.snapshot = _found(self.snapshot), snapshot
        self._ahead = self.course.foresee(snapshot)
        self._warming.pause()
        self.set_timer(DRAWN_S, self._warming.resume)
        if _found(self.snapshot) and not before:
            self.to_interview()
            self._open("verdict")

    def watch_snapshot(self, snapshot: Snapshot) -> None:
        """Hand the snapshot to the screen in front; others get it when they come to the front."""
        if self.is_running and isinstance(self.screen, Face):
            self.screen.snapshot = snapshot

    def to_interview(self) -> None:
        """Close all screens that stand over the interview."""
        from identify.tui.screens.interview import InterviewScreen  # after the first frame

        while not isinstance(self.screen, InterviewScreen) and len(self.screen_stack) > 1:
            self.pop_screen()
        if not isinstance(self.screen, InterviewScreen):
            interview = InterviewScreen(self.course.engine, self.snapshot, self.style)
            interview.set_class(self.spare, "-spare")
            self.push_screen(interview)
        self.watch_snapshot(self.snapshot)

    def _conclude_first(self) -> None:
        """Conclude on nothing measured, where nothing was concluded yet."""
        if self.snapshot.verdict is EMPTY_VERDICT:
            self.snapshot = self.course.begin(self.snapshot)

    def _open(self, name: str, end: str = "") -> None:
        from identify.tui.opening import screen_named  # nearly all screens, not needed at once

        self._conclude_first()
        if self.snapshot.hidden and name in _TELLING:
            name, end = "guess", ""
        if screen := screen_named(self, name, end):
            self.push_screen(screen)

    def _ask_tools(self, chosen: frozenset[Tool], care: str) -> None:
        self.push_screen(ToolsScreen(self.engine, self.snapshot, chosen, care))

    @property
    def unfinished(self) -> bool:
        """Tell whether the next start should offer to go on."""
        return not _found(self.snapshot)


def _found(snapshot: Snapshot) -> bool:
    verdict = snapshot.verdict
    return verdict.kind is VerdictKind.IDENTIFIED and bool(verdict.readings)
