"""The course of an interview: one snapshot to the next, with every step on the disk."""

from __future__ import annotations

from identify.errors import WhichendError
from identify.frozen import TYPE_CHECKING, replace
from identify.interview.habits import Habits
from identify.interview.session import (
    Again,
    Claimed,
    Equipped,
    Event,
    Observed,
    Reached,
    SessionState,
    apply,
    back,
    conclude,
    following,
    replay,
)
from identify.interview.snapshot import Snapshot, ask_of
from identify.jobs.facts import Back, Place
from identify.jobs.saving import Autosave, utc
from identify.light import Iterator, suppress
from identify.model.feature import Feature
from identify.reading.consistency import implied_gender
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    from identify.jobs.journal import Saved
    from identify.model.reading import Reading
    from identify.model.verdict import Verdict
    from identify.reading.quick import Taken
    from identify.reasoning.engine import Situation

    Known = dict[tuple[str, tuple[Reading, ...], Situation], Verdict]

YOU = "you"  # who says what an end is where the one who measures says so


class Course:
    """Leads on from a snapshot, for both faces.

    Args:
        engine: Reasons.
        autosave: Keeps the answers.
        habits: What need not be asked, and whether one says first what one thinks it is.
    """

    def __init__(
        self,
        engine: Engine,
        autosave: Autosave,
        habits: Habits = Habits(),  # noqa: B008 - it is frozen
    ) -> None:
        self.engine, self.autosave, self.habits = engine, autosave, habits
        self.passed = False
        self._ahead: Known = {}

    def foresee(self, snapshot: Snapshot) -> Iterator[str]:
        """Conclude on every answer that the open question lists, one a step, while somebody reads.

        The verdict on the answer then given is known; those on the others are forgotten at the
        next question. Yields the answer.
        """
        from identify.interview.answer import answered, reading_of

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
        return Snapshot(trouble=self.autosave.trouble, inch=self.habits.inch)

    def begin(self, before: Snapshot | None = None) -> Snapshot:
        """Return an interview with nothing answered, in the unit of the one before."""
        self.passed = False
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
        if events:
            word = self.autosave.keep(*events)
        return replace(after, saved=word, trouble=self.autosave.trouble, where=self._where())

    def prepare(self, snapshot: Snapshot, equipped: Equipped, reached: Reached) -> Snapshot:
        """Take tools and access; what the shop always answers goes with them at the start."""
        always = self.habits.answers if not snapshot.state.events else ()
        return self.happen(snapshot, equipped, reached, *always)

    def next_end(self, before: Snapshot, place: Place, *, repeat: bool = False) -> Snapshot:
        """Return the interview on another end of the job, the one before being done.

        Args:
            before: It stays on the disk.
            place: The end.
            repeat: Begin with the answers of the one before.
        """
        self.autosave.conclude(before.verdict, self.engine.catalogue)
        self.autosave.go_on(place)
        return self._following(before, repeat=repeat)

    def next_job(self, before: Snapshot) -> Snapshot:
        """Return the interview on the first end of another job, the one before being done."""
        self.close(before, finished=True)
        return self._following(before, repeat=False)

    def enter(self, snapshot: Snapshot, line: str) -> tuple[Snapshot, tuple[Taken, ...]]:
        """Return an interview with the readings of a line in short, and what each token became.

        Raises:
            ReadingError: As `read_in_short`, or a reading cannot be weighed or cannot stand beside
                the others; nothing is kept then.
        """
        from identify.interview.answer import check_answer
        from identify.interview.in_short import read_in_short

        state, events = snapshot.state, list[Event]()
        taken = read_in_short(line, state, self.engine.book, self.engine.catalogue.threads)
        readings = [each.reading for each in taken]
        said = any(each.feature is Feature.GENDER for each in readings)
        implied_gender(readings if said else (*state.given(Feature.GENDER), *readings))
        for number, reading in enumerate(readings):
            check_answer(state, reading)
            more = any(each.feature is reading.feature for each in readings[:number])
            events.append(Again(reading) if more else Observed(reading))
            state = apply(state, events[-1])
        return self.happen(snapshot, *events), taken

    def claim(self, snapshot: Snapshot, text: str, by: str = "") -> Snapshot:
        """Return an interview with what somebody says the end is, such as "JIC 8 by the driver".

        Args:
            snapshot: Where it stands.
            text: What was typed.
            by: Who says so, where the text does not say.

        Raises:
            UnknownEndError: The words name no end.
            ReadingError: The text is no claim.
        """
        from identify.reading.claims import claim_of
        from identify.reading.names import understand

        said = claim_of(text)
        ends = tuple(end.id for end in understand(self.engine.catalogue, said.words).ends)
        at = utc(self.autosave.now())
        return self.happen(snapshot, Claimed(said.words, said.by or by, at, ends, said.anyway))

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

    def _following(self, before: Snapshot, *, repeat: bool) -> Snapshot:
        always = () if repeat else self.habits.answers
        return self.happen(self.begin(before), *following(before.state, repeat=repeat), *always)

    def _after(self, snapshot: Snapshot, state: SessionState) -> Snapshot:
        return self._concluded(Snapshot(state, inch=snapshot.inch))

    def _concluded(self, snapshot: Snapshot) -> Snapshot:
        state = snapshot.state
        verdict = self._ahead.get(_known_by(state)) or conclude(self.engine, state)
        hidden = self.habits.guess and not self.passed and not guessed(snapshot.state)
        trouble, where = self.autosave.trouble, self._where()
        return replace(snapshot, verdict=verdict, trouble=trouble, hidden=hidden, where=where)

    def _where(self) -> str:
        """Return the job and the end of it that is measured, "" before anything is kept."""
        kept = self.autosave
        return f"{kept.reference} {kept.place}" if kept.running else ""

    def pass_by(self, snapshot: Snapshot) -> Snapshot:
        """Return an interview of which all is told, though the person did not say what it is."""
        self.passed = True
        return replace(snapshot, hidden=False)


def guessed(state: SessionState) -> bool:
    """Tell whether the person who measures has said what the end is."""
    return any(each.by == YOU for each in state.claims)


def onward(course: Course, before: Snapshot, way: str) -> Snapshot:
    """Return the interview on what comes next.

    Args:
        course: Leads on.
        before: What is done.
        way: "end" the next of the job, "same" that with the same answers, "hose" the first of the
            next hose, "job" another job; any other stays.
    """
    if way == "job":
        return course.next_job(before)
    place = course.autosave.next_place(hose=way == "hose")
    if way not in ("end", "same", "hose") or place is None:
        return before
    return course.next_end(before, place, repeat=way == "same")


def _known_by(state: SessionState) -> tuple[str, tuple[Reading, ...], Situation]:
    """Return all of a state that a verdict depends on."""
    return state.care, state.readings, state.situation
