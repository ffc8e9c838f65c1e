"""Answers, as the screens report them: each becomes a new state, or a sentence why not."""

from collections.abc import Callable

from identify.errors import ReadingError, UnknownEndError, WhichendError
from identify.frozen import replace
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
from identify.interview.session import (
    Again,
    Equipped,
    GivenUp,
    Observed,
    Reached,
    Unclaimed,
    Withdrawn,
)
from identify.interview.snapshot import EMPTY_VERDICT, Snapshot, ask_of
from identify.reading.parse import reading_from
from identify.tui import messages
from identify.tui.holding import Holding


class Answering(Holding):
    """Takes answers; the arguments are those of `Holding`."""

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
