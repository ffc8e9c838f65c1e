"""The course of an interview: one snapshot to the next, with every step on the disk."""

from identify.frozen import replace
from identify.interview.habits import Habits
from identify.interview.session import (
    Claimed,
    Equipped,
    Event,
    Reached,
    SessionState,
    apply,
    back,
    conclude,
    replay,
)
from identify.interview.snapshot import Snapshot
from identify.jobs.facts import Back
from identify.jobs.journal import Saved
from identify.jobs.saving import Autosave, utc
from identify.reading.claims import claim_of
from identify.reading.names import understand
from identify.reasoning.engine import Engine


class Course:
    """Leads on from a snapshot, for both faces.

    Args:
        engine: Reasons.
        autosave: Keeps the answers.
        habits: What need not be asked.
    """

    def __init__(
        self,
        engine: Engine,
        autosave: Autosave,
        habits: Habits = Habits(),  # noqa: B008 - it is frozen
    ) -> None:
        self.engine, self.autosave, self.habits = engine, autosave, habits

    def blank(self) -> Snapshot:
        """Return an interview of which nothing is concluded yet."""
        return Snapshot(trouble=self.autosave.trouble, inch=self.habits.inch)

    def begin(self, before: Snapshot | None = None) -> Snapshot:
        """Return an interview with nothing answered, in the unit of the one before."""
        return self._concluded(Snapshot(inch=before.inch if before else self.habits.inch))

    def take_up(self, saved: Saved) -> Snapshot:
        """Return an interview that was broken off as it stood, to go on with.

        Who measures is as it was, unless the engine was made for somebody.
        """
        word = self.autosave.take_up(saved)
        state, note, who = replay(saved.events), self.autosave.note, self.engine.care
        taken = self._concluded(Snapshot(state, saved=word, note=note, inch=self.habits.inch))
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

    def prepare(self, snapshot: Snapshot, equipped: Equipped, reached: Reached) -> Snapshot:
        """Take tools and access; what the shop always answers goes with them at the start."""
        always = self.habits.answers if not snapshot.state.events else ()
        return self.happen(snapshot, equipped, reached, *always)

    def claim(self, snapshot: Snapshot, text: str) -> Snapshot:
        """Return an interview with what somebody says the end is, such as "JIC 8 by the driver".

        Raises:
            UnknownEndError: The words name no end.
            ReadingError: The text is no claim.
        """
        said = claim_of(text)
        ends = tuple(end.id for end in understand(self.engine.catalogue, said.words).ends)
        at = utc(self.autosave.now())
        return self.happen(snapshot, Claimed(said.words, said.by, at, ends, said.anyway))

    def undo(self, snapshot: Snapshot) -> Snapshot:
        """Return an interview without its last event, and keep that it was taken back."""
        undone = (*snapshot.state.events[-1:], *snapshot.undone)
        word = self.autosave.keep(Back())
        return replace(self._after(snapshot, back(snapshot.state)), saved=word, undone=undone)

    def redo(self, snapshot: Snapshot) -> Snapshot:
        """Return an interview with the event again that was taken back last, if there is one."""
        first, *rest = snapshot.undone or (None,)
        if first is None:
            return snapshot
        return replace(self.happen(snapshot, first), undone=tuple(rest))

    def close(self, snapshot: Snapshot, *, finished: bool) -> None:
        """Keep the verdict, and let go of the file; one that is not finished is offered again."""
        self.autosave.conclude(snapshot.verdict, self.engine.catalogue)
        if finished:
            self.autosave.finish()
        else:
            self.autosave.let_go()

    def _after(self, snapshot: Snapshot, state: SessionState) -> Snapshot:
        return self._concluded(Snapshot(state, inch=snapshot.inch))

    def _concluded(self, snapshot: Snapshot) -> Snapshot:
        verdict = conclude(self.engine, snapshot.state)
        return replace(snapshot, verdict=verdict, trouble=self.autosave.trouble)
