"""The interview as a dialogue: one question, one line of answer, nothing lost between them."""

from __future__ import annotations

from identify.errors import ReadingError, WhichendError
from identify.frozen import TYPE_CHECKING
from identify.interview.asking import (
    NOTHING_YET,
    in_other_unit,
    in_question,
    may_be_stamped,
    put_anew,
    put_once_more,
    put_to_another,
    with_other_tool,
)
from identify.interview.bare import unit_of
from identify.interview.habits import Habits
from identify.interview.session import (
    FIRST_TOOLS,
    Equipped,
    Event,
    Reached,
    SessionState,
    Withdrawn,
)
from identify.interview.snapshot import EMPTY_VERDICT, Ask, Snapshot, ask_of
from identify.jobs.course import Course
from identify.jobs.saving import Autosave
from identify.light import Callable, suppress
from identify.model.feature import Feature
from identify.model.rule import Moment
from identify.model.verdict import Verdict, VerdictKind
from identify.pages import interview as page
from identify.pages.question import (
    STAMP,
    answer_blocks,
    help_blocks,
    letters,
    question_blocks,
)
from identify.pages.words import said
from identify.plain.console import Console, Stopped, Wanted
from identify.plain.opening import ask_access, ask_tools, picks
from identify.plain.telling import Telling
from identify.plain.words import lesson_words
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    from identify.jobs.facts import Place
    from identify.jobs.journal import Kept, Saved


class Dialogue:
    """One interview, from the tools to the verdict.

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
        self.deeds: dict[str, Callable[[], None]] = {
            "b": self._back,
            "f": self._forward,
            "?": self._help,
            "a": self._answers,
            "t": self._prepare,
            "v": self._show,
            "r": self._retake,
            "e": self._once_more,
            "p": self._another,
            "m": self._other_tool,
            "u": self._other_unit,
            "x": self._withdraw,
            "k": self._stamp,
            "o": self._in_short,
            "h": self._claims,
            "n": self._next,
            "w": self._write,
            "l": self._label,
            "j": self._jobs,
            "q": self._stop,
        }

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

    def hold(self) -> None:
        """Hold the interview until the person stops or the input ends; then say the verdict."""
        try:
            with suppress(Stopped):
                self._heeding(self._begin)
                while True:
                    self._heeding(self._turn)
            self._end()
        finally:
            self.autosave.let_go()

    def farewell(self) -> str:
        """Return what became of the answers."""
        if self.autosave.trouble:
            return self.autosave.trouble
        if not self._begun():
            return "Nothing was answered, so nothing is kept."
        if self._done():
            return "The interview is finished."
        return 'Your answers are saved; "whichend ask --resume" goes on with them.'

    def _job(self) -> str:
        if not self._begun():
            return ""
        from identify.pages.jobs import how_to_make, where_kept

        kept = self.autosave
        where = where_kept(kept.reference, kept.path)
        return f"{where}\n{how_to_make(kept.reference)}" if where else ""

    # ---- turns

    def _heeding(self, part: Callable[[], None]) -> None:
        """Hold a part of the interview; leave it where an end of another job is wanted."""
        try:
            part()
        except Wanted as wanted:
            self._take_job(*wanted.what)

    def _take_job(self, kept: Kept, place: Place) -> None:
        """Go on with an end of a job; the running interview is kept."""
        from identify.jobs.taking import taken  # with it comes a database
        from identify.pages.onward import place_words

        before, self.console.offers = self.snapshot, {}
        try:
            self.snapshot = taken(self.course, before, kept, place, finished=self._done())
        except WhichendError as error:
            self.snapshot = self.course.begin(before)
            self.console.say(str(error))
        if self.state.events:
            self.console.say(f"Job {self.autosave.reference}, {place_words(place)}. It goes on.")
            self._report()
        elif before.state.events:
            told = Equipped(before.state.tools, before.state.care), Reached(before.state.access)
            self.snapshot = self.course.prepare(self.snapshot, *told)
            self.console.say(f"Job {self.autosave.reference}, {place_words(place)}.")
        else:
            self._prepare()
        self.console.say()

    def _begin(self) -> None:
        for caution in self.engine.book.cautions_at(Moment.BEFORE):
            self.console.say(caution, "Caution: ")
        self.console.say()
        if self.saved:
            self.console.show(page.broken_off(self.saved, self.engine.book))
            self.console.say("It goes on here.")
            if self.snapshot.note:
                self.console.say(self.snapshot.note)
            self._report()
        else:
            self._prepare()
        self.console.say()

    def _turn(self) -> None:
        """Put one question until it is answered or left."""
        ask = self._ask()
        if ask is None:
            self.console.say("No question is left.")
            self.console.show(page.nothing_left_blocks(self.snapshot))
            self._show()
        else:
            number = len(self.state.readings) + len(self.state.given_up) + 1
            self.console.show(question_blocks(ask, number))
            if may_be_stamped(self.snapshot):
                self.console.say(STAMP)
        before = self.snapshot
        while self.snapshot == before:
            if ask:
                self.console.show(answer_blocks(ask, unit_of(self.snapshot, ask)))
            known = ask is not None and page.answered(self.snapshot, ask.text.feature)
            undone = bool(self.snapshot.undone)
            self.console.say(letters(ask, answered=known, again=self._again(), undone=undone))
            self._obey(ask, self.console.hear())
        self.console.say()

    def _obey(self, ask: Ask | None, line: str) -> None:
        if line.lower() in self.deeds:
            self.deeds[line.lower()]()
        elif ask is None:
            if not line:
                raise Stopped
            self.console.say("No question is open. Type one of these letters, or Enter to stop.")
        elif not line and ask.given and not ask.again:
            self._asked(None)
            self.console.say(f"{ask.text.title}: left as it was.")
        elif not line:
            self.console.say("Nothing was typed. Type an answer, or ? for how to measure it.")
        elif line == "0":
            from identify.interview.answer import declined

            left = "left at that" if ask.again else "cannot tell"
            self._answered(f"{ask.text.title}: {left}.", declined(ask))
        else:
            self._answer(ask, line)

    def _answer(self, ask: Ask, line: str) -> None:
        # What reads an answer is not needed before there is one: the first question comes sooner.
        from identify.interview.answer import answered, check_answer, reading_of
        from identify.interview.doubt import doubt_of

        try:
            threads, unit = self.engine.catalogue.threads, unit_of(self.snapshot, ask)
            event = answered(ask, reading_of(ask, line, self.state.tools, threads, unit))
            check_answer(self.state, event.reading)
            doubt = doubt_of(event.reading, self.verdict, self.engine.catalogue)
            if doubt and self.doubted != event.reading.entered:
                self.doubted = event.reading.entered
                self.console.say(f"{doubt} Type it once more to have it taken as it is.")
                return
            self._answered(f"{ask.text.title}: {said(event.reading, ask.text)}.", event)
        except ReadingError as error:
            self.console.say(str(error))

    def _ask(self) -> Ask | None:
        return ask_of(self.snapshot, self.engine.book)

    def _asked(self, feature: Feature | None) -> None:
        """Put a question out of turn; None goes back to the one that is due."""
        self.snapshot = put_anew(self.snapshot, feature)

    # ---- letters

    def _back(self) -> None:
        if self.snapshot.asking is not None:
            self._asked(None)
            self.console.say("Left as it was.")
            return
        if not self.state.events:
            self.console.say("There is nothing to take back.")
            return
        last = self.state.events[-1]
        self.snapshot = self.course.undo(self.snapshot)
        self.console.say(f"Taken back: {page.event_words(last)}.")
        self._report()

    def _forward(self) -> None:
        if not self.snapshot.undone:
            self.console.say("Nothing was taken back.")
            return
        self.snapshot = self.course.redo(self.snapshot)
        self.console.say(f"Given again: {page.event_words(self.state.events[-1])}.")
        self._report()

    def _help(self) -> None:
        ask = self._ask()
        if ask is None:
            self.console.say("No question is open.")
            return
        picture = ""  # until something is known of the end
        if self.verdict.readings and self.verdict.ranking and not self.snapshot.hidden:
            from identify.pages.end import picture_words

            lead = self.verdict.ranking[0].end
            picture = picture_words(self.engine.catalogue, lead, ask.text.feature)
        self.console.show(help_blocks(ask, picture))
        self.console.say()

    def _answers(self) -> None:
        blocks = page.answers_blocks(self.snapshot, self.engine.book)
        self.console.show(blocks)
        self.console.say("Type a number to answer it, change it or withdraw it. Enter goes back.")
        found = picks(blocks)
        while (line := self.console.hear()) not in found:
            if line in ("", "b"):
                self._asked(None)
                return
            self.console.say(f"Type a number from 1 to {len(found)}, or Enter to go back.")
        self._asked(Feature(found[line]))

    def _withdraw(self) -> None:
        ask = self._ask()
        if ask is None or not page.answered(self.snapshot, ask.text.feature):
            self.console.say("There is no answer to withdraw here; a lists your answers.")
            return
        words = f"{ask.text.title}: withdrawn, as if it had never been answered."
        self._answered(words, Withdrawn(ask.text.feature))

    def _in_question(self) -> Feature | None:
        return in_question(self.snapshot, self.engine.book)

    def _again(self) -> str:
        """Return what r and e are about, in words."""
        feature, ask = self._in_question(), self._ask()
        if feature is None:
            return ""
        if feature in self.telling.suspected:
            return "the suspect reading"
        return "it" if ask and ask.text.feature is feature else "the last answer"

    def _stamp(self) -> None:
        self._asked(Feature.MARKING)

    def _retake(self) -> None:
        if feature := self._in_question():
            self._asked(feature)
        else:
            self.console.say(NOTHING_YET)

    def _once_more(self) -> None:
        if feature := self._in_question():
            self._put(lambda: put_once_more(self.snapshot, feature))
        else:
            self.console.say(NOTHING_YET)

    def _another(self) -> None:
        self._put(lambda: put_to_another(self.snapshot, self.engine.book))

    def _other_tool(self) -> None:
        self.snapshot = with_other_tool(self.snapshot, self.engine.book)

    def _other_unit(self) -> None:
        self.snapshot = in_other_unit(self.snapshot, self.engine.book)

    def _put(self, change: Callable[[], Snapshot]) -> None:
        """Put another question, or say why not."""
        try:
            self.snapshot = change()
        except ReadingError as error:
            self.console.say(error.problem)

    def _prepare(self) -> None:
        """Ask for tools, who measures, and access."""
        had = FIRST_TOOLS, self.course.engine.care
        if self.state.events:
            had = self.state.tools, self.state.care
        known = self.course.habits.tools
        if known is not None and not self.state.events:
            tools, care = known, self.course.engine.care
        else:
            tools, care = ask_tools(self.console, *had)
        access = ask_access(self.console, self.state.access)
        words = f"To hand: {page.tool_names(tools)}. The end: {page.access_words(access)}."
        if care:
            words += f" The readings are weighed as those of somebody {care}."
        self.snapshot = self.course.prepare(self.snapshot, Equipped(tools, care), Reached(access))
        self.telling.noted(words, self.autosave.trouble)

    def _show(self) -> None:
        from identify.pages.verdict import verdict_text

        if self.snapshot.hidden:
            from identify.plain.counter import hear_guess

            with suppress(Stopped):
                self._hear(hear_guess)
        self.console.say()
        self.console.tell(verdict_text(self.engine, self.verdict, whole=True))
        self.shown = self.verdict
        if self.verdict.readings and self.verdict.ranking:
            self.console.say(lesson_words(self.verdict.ranking[0].end))
        if self.state.claims:
            from identify.pages.claim import claims_blocks

            self.console.say()
            self.console.show(claims_blocks(self.engine, self.state, self.verdict))

    def _write(self) -> None:
        from identify.pages.written import write_verdict

        self.console.say(write_verdict(self.engine, self.state, self.verdict))

    def _label(self) -> None:
        from identify.pages.written import write_handed

        self.autosave.conclude(self.verdict, self.engine.catalogue)
        stock = self.course.habits.label
        self.console.say(write_handed(self.engine, self.autosave, "label", size=stock))

    def _jobs(self) -> None:
        from identify.plain.jobs import list_jobs

        list_jobs(self.console, self.autosave.folder)

    def _stop(self) -> None:
        raise Stopped

    def _in_short(self) -> None:
        from identify.plain.counter import hear_line

        self._hear(hear_line)

    def _claims(self) -> None:
        from identify.plain.counter import hear_claims

        self._hear(hear_claims)

    def _next(self) -> None:
        from identify.plain.counter import hear_next

        self._hear(hear_next)

    def _hear(self, what: Callable[[Console, Course, Snapshot], Snapshot]) -> None:
        """Hear what is no answer to a question, and say what follows."""
        before = self.snapshot
        self.snapshot = what(self.console, self.course, before)
        if self.snapshot is before:
            return
        self.telling.noted("", self.autosave.trouble)
        if self.state.readings != before.state.readings or before.hidden:
            self._report()

    # ---- what follows an answer

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

    def _end(self) -> None:
        if self.verdict is EMPTY_VERDICT:  # it ended before the first question
            self.snapshot = self.course.begin()
        if self.shown is not self.verdict:
            self._show()
        self.course.close(self.snapshot, finished=self._done())
        self.console.say()
        if (where := self._job()) and not self.autosave.trouble:
            self.console.tell(where)  # a path is not broken
        self.console.say(self.farewell())

    def _done(self) -> bool:
        """Tell whether the interview need not be offered again."""
        verdict = self.verdict
        over = verdict.kind is VerdictKind.IDENTIFIED or verdict.question is None
        return over or not self._begun()

    def _begun(self) -> bool:
        return bool(self.state.answers or self.state.given_up)
