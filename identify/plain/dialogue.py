"""The interview as a dialogue: one question, one line of answer, nothing lost between them."""

from __future__ import annotations

from identify.errors import ReadingError, WhichendError
from identify.frozen import TYPE_CHECKING
from identify.interview.asking import (
    may_be_stamped,
)
from identify.interview.bare import unit_of
from identify.interview.session import (
    Equipped,
    Reached,
)
from identify.interview.snapshot import EMPTY_VERDICT, Ask
from identify.light import Callable, suppress
from identify.model.rule import Moment
from identify.model.verdict import VerdictKind
from identify.pages import interview as page
from identify.pages.question import (
    STAMP,
    answer_blocks,
    letters,
    question_blocks,
)
from identify.pages.words import said
from identify.plain.console import Stopped, Wanted
from identify.plain.letters import Letters

if TYPE_CHECKING:
    from identify.jobs.facts import Place
    from identify.jobs.journal import Kept


class Dialogue(Letters):
    """One interview, from the tools to the verdict; the arguments are those of `Held`."""

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
