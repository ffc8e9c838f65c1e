"""The application: the one place where a message becomes a new state."""

import os
from collections.abc import Callable, Iterator
from typing import ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.reactive import reactive

from identify.drawing.style import Style
from identify.errors import ReadingError, UnknownEndError, WhichendError
from identify.frozen import TYPE_CHECKING, replace
from identify.interview.answer import answered, check_answer, declined, reading_of
from identify.interview.asking import (
    in_other_unit,
    in_question,
    put_anew,
    put_once_more,
    put_to_another,
    with_other_tool,
)
from identify.interview.bare import unit_of
from identify.interview.doubt import doubt_of
from identify.interview.habits import Habits
from identify.interview.session import (
    FIRST_TOOLS,
    Again,
    Equipped,
    Event,
    GivenUp,
    Observed,
    Reached,
    Unclaimed,
    Withdrawn,
)
from identify.interview.snapshot import EMPTY_VERDICT, Snapshot, ask_of
from identify.jobs.course import Course
from identify.jobs.journal import Saved
from identify.jobs.saving import Autosave
from identify.model.connection import EndConnection
from identify.model.rule import Tool
from identify.model.verdict import VerdictKind
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from identify.tui import messages, themes
from identify.tui.screens.base import Face
from identify.tui.screens.choosing import ResumeScreen, ToolsScreen
from identify.tui.warming import bits

WARM_EVERY_S = 0.05
DRAWN_S = 0.2  # by then an answer is on the screen, and nobody gives the next so soon

if TYPE_CHECKING:
    from identify.sheets.desk import Desk

_TELLING = frozenset({"verdict", "why", "why_not", "lookalikes", "picture"})
"""Screens that tell what an end is."""


class Interview(App[int]):
    """The full-screen interview.

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
        self.set_reactive(Interview.snapshot, self.course.blank())

    def on_mount(self) -> None:
        """Show what comes before the interview; it is made, and anything concluded, after that."""
        self._warming = self.set_interval(WARM_EVERY_S, self._warm_up)
        if self.saved and not self.offer:
            self._take_up(self.saved)
        else:
            self.offer_or_begin()

    def offer_or_begin(self) -> None:
        """Offer an interview that was broken off; where there is none, begin with the tools."""
        if self.saved:
            self.push_screen(ResumeScreen(self.engine, self.snapshot, self.saved))
        else:
            self._ask_first_tools()

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

    def _ask_first_tools(self) -> None:
        tools, care = self.course.habits.tools, self.course.engine.care
        known = tools is not None
        screen = ToolsScreen(self.engine, self.snapshot, tools or FIRST_TOOLS, care, known=known)
        self.push_screen(screen)

    # Answers.

    def on_answered(self, message: messages.Answered) -> None:
        """Take an answer; one that cannot be read is said to be so and changes nothing."""
        try:
            event = self._event(message)
            check_answer(self.snapshot.state, event.reading)
            doubt = doubt_of(event.reading, self.snapshot.verdict, self.engine.catalogue)
            if doubt and self.snapshot.doubted != event.reading.entered:
                again = f"{doubt} Enter once more takes it as it is."
                entered = event.reading.entered
                self.snapshot = replace(self.snapshot, problem=again, doubted=entered)
            else:
                self.happen(event)
        except WhichendError as error:
            sentence = error.problem if isinstance(error, ReadingError) else str(error)
            self.snapshot = replace(self.snapshot, problem=sentence)

    def _event(self, message: messages.Answered) -> Observed | Again:
        threads = self.engine.catalogue.threads
        ask, snapshot = ask_of(self.snapshot, self.engine.book), self.snapshot
        if ask is None or ask.text.feature is not message.feature:
            return Observed(reading_from(message.feature, message.typed, threads=threads))
        unit = unit_of(snapshot, ask)
        reading = reading_of(ask, message.typed, snapshot.state.tools, threads, unit)
        return answered(ask, reading)

    def on_in_short(self, message: messages.InShort) -> None:
        """Take the readings of a line; one that cannot be read changes nothing."""
        try:
            after, _ = self.course.enter(self.snapshot, message.line)
        except ReadingError as error:
            self.snapshot = replace(self.snapshot, note=error.problem)
            return
        self.to_interview()
        self.become(after)

    def on_claims(self, message: messages.Claims) -> None:
        """Take what somebody says the end is; what was hidden till then is told."""
        hidden = self.snapshot.hidden
        try:
            after = self.course.claim(self.snapshot, message.text, message.by)
        except (ReadingError, UnknownEndError) as error:
            self.snapshot = replace(self.snapshot, note=str(error))
            return
        self.become(after)
        if hidden and not after.hidden:
            from identify.pages.claim import last_claim  # as all pages, after the first frame

            self._tell()
            told = last_claim(self.engine, after.state, after.verdict)
            self.snapshot = replace(self.snapshot, note=told)

    def on_unclaims(self, message: messages.Unclaims) -> None:
        """Take back what was said."""
        self.happen(Unclaimed(message.words))

    def on_guess_passed(self) -> None:
        """Tell all."""
        self.snapshot = self.course.pass_by(self.snapshot)
        self._tell()

    def _tell(self) -> None:
        self.to_interview()
        self._open("verdict")

    def on_cannot_tell(self, message: messages.CannotTell) -> None:
        """Give a question up, or its second reading."""
        ask = ask_of(self.snapshot, self.engine.book)
        if ask is not None and ask.text.feature is message.feature:
            self.happen(declined(ask))
        else:
            self.happen(GivenUp(message.feature))

    def on_taken_back(self, message: messages.TakenBack) -> None:
        """Withdraw an answer."""
        self.happen(Withdrawn(message.feature))

    def on_prepared(self, message: messages.Prepared) -> None:
        """Take tools and access."""
        said = Equipped(message.tools, message.care), Reached(message.access)
        if self.snapshot.verdict is EMPTY_VERDICT:  # the interview is not there yet
            self.prepare(*said)
            self.to_interview()
        else:
            self.to_interview()
            self.prepare(*said)

    def on_asked(self, message: messages.Asked) -> None:
        """Put a question out of turn."""
        feature, other = message.feature, message.other_person
        if message.once_more:
            self._put(lambda snapshot: put_once_more(snapshot, feature, other_person=other))
        else:
            self._put(lambda snapshot: put_anew(snapshot, feature))

    def on_retake_wanted(self) -> None:
        """Put the question of the reading in question anew."""
        if feature := in_question(self.snapshot, self.engine.book):
            self.on_asked(messages.Asked(feature))

    def on_once_more_wanted(self) -> None:
        """Put the question of the reading in question once more."""
        if feature := in_question(self.snapshot, self.engine.book):
            self.on_asked(messages.Asked(feature, once_more=True))

    def on_another_wanted(self) -> None:
        """Let somebody else take the reading in question."""
        self._put(lambda snapshot: put_to_another(snapshot, self.engine.book))

    def _put(self, change: Callable[[Snapshot], Snapshot]) -> None:
        """Put another question on the interview screen, or say why not."""
        try:
            self.snapshot = change(self.snapshot)
        except ReadingError as error:
            self.snapshot = replace(self.snapshot, note=error.problem)
        self.to_interview()

    def on_stepped_back(self) -> None:
        """Undo the last answer; before the first one go back to tools and access."""
        snapshot = self.snapshot
        if snapshot.asking is not None:
            self.snapshot = put_anew(snapshot, None)
        elif all(isinstance(event, Equipped | Reached) for event in snapshot.state.events):
            self._ask_tools(snapshot.state.tools, snapshot.state.care)
        else:
            before = self.course.undo(snapshot)
            last, left = snapshot.state.events[-1], before.state.events[-1]
            if isinstance(last, Reached) and isinstance(left, Equipped):  # said together
                before = self.course.undo(before)
            self.become(before)

    def on_stepped_forward(self) -> None:
        """Give again what was taken back last."""
        after = self.course.redo(self.snapshot)
        if after.undone and isinstance(after.undone[0], Reached):  # said together with tools
            after = self.course.redo(after)
        self.become(after)

    def on_unit_turned(self) -> None:
        """Let bare numbers take the next unit."""
        self.snapshot = in_other_unit(self.snapshot, self.engine.book)

    def on_tool_turned(self) -> None:
        """Take the reading with the next tool."""
        self.snapshot = with_other_tool(self.snapshot, self.engine.book)

    # Screens.

    def on_opened(self, message: messages.Opened) -> None:
        """Show a screen over the present one."""
        self.snapshot = replace(self.snapshot, note="")
        self._open(message.screen, message.end)

    def on_went_back(self) -> None:
        """Show the screen under the present one as things stand now."""
        if len(self.screen_stack) > 2:
            self.snapshot = replace(self.snapshot, note="")
            self.pop_screen()
            self.watch_snapshot(self.snapshot)
        elif self.snapshot.verdict is EMPTY_VERDICT:
            self._conclude_first()
            self.to_interview()

    def on_theme_wanted(self) -> None:
        """Change the colours, and with them the strokes of drawings."""
        if self.colourless:
            note = "The colours stay: NO_COLOR is set. Unset it and start again to choose."
            self.snapshot = replace(self.snapshot, note=note)
            return
        self.theme = themes.after(self.theme)
        for screen in self.screen_stack:
            if isinstance(screen, Face):
                screen.restyle(self.style)

    def on_write_wanted(self) -> None:
        """Write the verdict beside where the program was started, and say where it lies."""
        from identify.pages.written import write_verdict

        self._conclude_first()
        note = write_verdict(self.engine, self.snapshot.state, self.snapshot.verdict)
        self.snapshot = replace(self.snapshot, note=note)

    def on_hand_wanted(self, message: messages.HandWanted) -> None:
        """Write slip, label or report, and say where it lies."""
        from identify.tui import keeping  # after the first frame

        keeping.hand_job(self, message)

    def on_sheet_wanted(self, message: messages.SheetWanted) -> None:
        """Show the sheet of a hose."""
        from identify.tui import keeping  # after the first frame

        self._conclude_first()
        keeping.open_sheet(self, message)

    # Beginning and end.

    def on_go_on(self, message: messages.GoOn) -> None:
        """Take up the interview that was broken off, or leave it."""
        self.pop_screen()
        if message.resume and self.saved:
            self._take_up(self.saved)
        else:
            self._ask_first_tools()

    def _take_up(self, saved: Saved) -> None:
        self.to_interview()
        self.become(self.course.take_up(saved))

    def on_broken_off_discarded(self) -> None:
        """Discard the interview that is offered."""
        from identify.tui import keeping  # after the first frame

        keeping.discard_broken_off(self)

    def on_job_opened(self, message: messages.JobOpened) -> None:
        """Show a job."""
        from identify.tui import keeping  # after the first frame

        keeping.open_job(self, message)

    def on_job_told(self, message: messages.JobTold) -> None:
        """Keep a fact of a job."""
        from identify.tui import keeping  # after the first frame

        keeping.tell_job(self, message)

    def on_job_discarded(self, message: messages.JobDiscarded) -> None:
        """Discard a job."""
        from identify.tui import keeping  # after the first frame

        keeping.discard_job(self, message)

    def on_job_taken(self, message: messages.JobTaken) -> None:
        """Go on with an end of a job."""
        from identify.tui import keeping  # after the first frame

        keeping.take_job(self, message)

    def on_started_again(self, message: messages.StartedAgain) -> None:
        """Begin the next end or job; what was answered stays on the disk."""
        from identify.tui import keeping  # after the first frame

        keeping.go_on(self, message)

    def action_leave(self) -> None:
        """Leave; a finished interview is not offered again."""
        if isinstance(self.screen, Face):
            self.screen.take_what_is_typed()
        self.course.close(self.snapshot, finished=not self.unfinished)
        self.exit(0)

    on_left = action_leave

    @property
    def unfinished(self) -> bool:
        """Tell whether the next start should offer to go on."""
        return not _found(self.snapshot)


def _found(snapshot: Snapshot) -> bool:
    verdict = snapshot.verdict
    return verdict.kind is VerdictKind.IDENTIFIED and bool(verdict.readings)
