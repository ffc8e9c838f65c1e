"""The course of an interview: one snapshot to the next, with every step on the disk."""

from collections.abc import Iterator
from contextlib import suppress

from identify.errors import WhichendError
from identify.frozen import TYPE_CHECKING, replace
from identify.interview.answer import answered, reading_of
from identify.interview.journal import Saved
from identify.interview.saving import Autosave
from identify.interview.session import (
    Equipped,
    Event,
    SessionState,
    apply,
    back,
    conclude,
    replay,
)
from identify.interview.snapshot import Snapshot, ask_of
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    from identify.model.reading import Reading
    from identify.model.verdict import Verdict
    from identify.reasoning.engine import Situation

    Known = dict[tuple[str, tuple[Reading, ...], Situation], Verdict]


class Course:
    """Leads on from a snapshot, for both faces.

    Args:
        engine: Reasons.
        autosave: Keeps the answers.
    """

    def __init__(self, engine: Engine, autosave: Autosave) -> None:
        self.engine, self.autosave = engine, autosave
        self._ahead: Known = {}

    def foresee(self, snapshot: Snapshot) -> Iterator[str]:
        """Conclude on every answer that the open question lists, one a step, while somebody reads.

        The verdict on the answer then given is known; those on the others are forgotten at the
        next question. Yields the answer.
        """
        self._ahead = {}
        ask, state = ask_of(snapshot, self.engine.book), snapshot.state
        if ask is None:
            return
        for number, choice in enumerate(ask.choices, 1):
            with suppress(WhichendError):  # it will be said when it is typed
                reading = reading_of(ask, f"{number}", state.tools, self.engine.catalogue.threads)
                after = apply(state, answered(ask, reading))
                self._ahead[_known_by(after)] = conclude(self.engine, after)
            yield choice.word

    def blank(self) -> Snapshot:
        """Return an interview of which nothing is concluded yet."""
        return Snapshot(trouble=self.autosave.trouble)

    def begin(self, before: Snapshot | None = None) -> Snapshot:
        """Return an interview with nothing answered, in the unit of the one before."""
        return self._concluded(Snapshot(inch=before.inch if before else False))

    def take_up(self, saved: Saved) -> Snapshot:
        """Return an interview that was broken off as it stood, to go on with.

        Who measures is as it was, unless the engine was made for somebody.
        """
        word = self.autosave.take_up(saved)
        state, note, who = replay(saved.events), self.autosave.note, self.engine.care
        taken = self._concluded(Snapshot(state, saved=word, note=note))
        if who in ("", state.care):
            return taken
        return replace(self.happen(taken, Equipped(state.tools, who)), note=note)

    def happen(self, snapshot: Snapshot, *events: Event) -> Snapshot:
        """Return what events make of an interview, and keep them.

        Raises:
            ReadingError: An answer cannot be weighed, such as a trial on a part nobody knows;
                nothing is kept then.
        """
        state, word = snapshot.state, snapshot.saved
        for event in events:
            state = apply(state, event)
        after = self._after(snapshot, state)
        for event in events:
            word = self.autosave.keep(event)
        return replace(after, saved=word, trouble=self.autosave.trouble)

    def undo(self, snapshot: Snapshot) -> Snapshot:
        """Return an interview without its last event, and keep that it was taken back."""
        undone = (*snapshot.state.events[-1:], *snapshot.undone)
        word = self.autosave.back()
        return replace(self._after(snapshot, back(snapshot.state)), saved=word, undone=undone)

    def redo(self, snapshot: Snapshot) -> Snapshot:
        """Return an interview with the event again that was taken back last, if there is one."""
        first, *rest = snapshot.undone or (None,)
        if first is None:
            return snapshot
        return replace(self.happen(snapshot, first), undone=tuple(rest))

    def _after(self, snapshot: Snapshot, state: SessionState) -> Snapshot:
        return self._concluded(Snapshot(state, inch=snapshot.inch))

    def _concluded(self, snapshot: Snapshot) -> Snapshot:
        state = snapshot.state
        verdict = self._ahead.get(_known_by(state)) or conclude(self.engine, state)
        return replace(snapshot, verdict=verdict, trouble=self.autosave.trouble)


def _known_by(state: SessionState) -> "tuple[str, tuple[Reading, ...], Situation]":
    """Return all of a state that a verdict depends on."""
    return state.care, state.readings, state.situation
