"""An interview that is held line by line: where it stands, and what follows an answer."""

from __future__ import annotations

from identify.errors import ReadingError
from identify.frozen import TYPE_CHECKING
from identify.interview.asking import (
    put_anew,
)
from identify.interview.habits import Habits
from identify.interview.session import (
    Event,
    SessionState,
)
from identify.interview.snapshot import Ask, Snapshot, ask_of
from identify.jobs.course import Course
from identify.jobs.saving import Autosave
from identify.light import Callable
from identify.model.feature import Feature
from identify.model.verdict import Verdict
from identify.plain.console import Console
from identify.plain.telling import Telling
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    from identify.jobs.journal import Saved


class Held:
    """An interview on a console.

    Args:
        engine: Reasons.
        console: Speaks and listens.
        autosave: Keeps the answers.
        saved: An interview to go on with; a new one by default.
        habits: What need not be asked.
    """

    def __init__(
        self,
        engine: Engine,
        console: Console,
        autosave: Autosave,
        saved: Saved | None = None,
        habits: Habits = Habits(),  # noqa: B008 - it is frozen
    ) -> None:
        self.console, self.autosave = console, autosave
        self.saved = saved
        self.course = Course(engine, autosave, habits)
        self.snapshot = self.course.take_up(saved) if saved else self.course.blank()
        self.shown: Verdict | None = None
        self.doubted = ""  # an answer that was asked about
        self.telling = Telling(console)

    @property
    def engine(self) -> Engine:
        """The engine that reasons for the one who measures now."""
        return self.course.engine.measured_by(self.state.care)

    @property
    def state(self) -> SessionState:
        """What was answered so far."""
        return self.snapshot.state

    @property
    def verdict(self) -> Verdict:
        """What follows from it."""
        return self.snapshot.verdict

    def _ask(self) -> Ask | None:
        return ask_of(self.snapshot, self.engine.book)

    def _asked(self, feature: Feature | None) -> None:
        """Put a question out of turn; None goes back to the one that is due."""
        self.snapshot = put_anew(self.snapshot, feature)

    def _put(self, change: Callable[[], Snapshot]) -> None:
        """Put another question, or say why not."""
        try:
            self.snapshot = change()
        except ReadingError as error:
            self.console.say(error.problem)

    def _hear(self, what: Callable[[Console, Course, Snapshot], Snapshot]) -> None:
        """Hear what is no answer to a question, and say what follows."""
        before = self.snapshot
        self.snapshot = what(self.console, self.course, before)
        if self.snapshot is before:
            return
        self.telling.noted("", self.autosave.trouble)
        if self.state.readings != before.state.readings or before.hidden:
            self._report()

    def _report(self) -> None:
        if not self.snapshot.hidden:
            self.telling.report(self.verdict)

    def _take(self, sentence: str, *events: Event) -> None:
        """Take events into the interview and onto the disk, and say so."""
        self.snapshot = self.course.happen(self.snapshot, *events)
        self.telling.noted(sentence, self.autosave.trouble)

    def _answered(self, sentence: str, event: Event) -> None:
        self._take(sentence, event)
        self._report()
