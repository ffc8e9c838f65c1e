"""The interview as a dialogue: one question, one line of answer, nothing lost between them."""

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path

from identify.errors import ReadingError, RecordError
from identify.interview.answer import answered, check_answer, declined, reading_of
from identify.interview.journal import Saved
from identify.interview.saving import Keeper
from identify.interview.session import (
    FIRST_TOOLS,
    Equipped,
    Event,
    Observed,
    Reached,
    SessionState,
    Withdrawn,
    apply,
    back,
    conclude,
    replay,
)
from identify.interview.snapshot import Ask, Snapshot, ask_of
from identify.model.feature import Feature
from identify.model.reading import Trial
from identify.model.rule import Moment
from identify.model.verdict import Verdict, VerdictKind
from identify.pages import interview as page
from identify.pages.end import picture_words
from identify.pages.question import answer_blocks, help_blocks, letters, question_blocks
from identify.pages.verdict import verdict_text
from identify.pages.words import said, suspect_words
from identify.pages.written import write_verdict
from identify.plain.console import Console, Stopped
from identify.plain.opening import ask_access, ask_tools, picks
from identify.reasoning.engine import Engine


class Dialogue:
    """One interview, from the tools to the verdict.

    Args:
        engine: Reasons.
        console: Speaks and listens.
        keeper: Keeps the answers.
        saved: An interview to go on with; a new one by default.
    """

    def __init__(
        self,
        engine: Engine,
        console: Console,
        keeper: Keeper,
        saved: Saved | None = None,
    ) -> None:
        self.engine, self.console, self.keeper = engine, console, keeper
        self.saved = saved
        self.state = replay(saved.events) if saved else SessionState()
        if saved:
            keeper.take_up(saved)
        self.verdict: Verdict = conclude(engine, self.state)
        self.asking: Feature | None = None  # a question taken out of turn
        self.shown: Verdict | None = None
        self.complained = False
        self.warned: set[str] = set()
        self.suspected: set[Feature] = set()
        self.deeds: dict[str, Callable[[], None]] = {
            "b": self._back,
            "?": self._help,
            "a": self._answers,
            "t": self._prepare,
            "v": self._show,
            "r": self._retake,
            "x": self._withdraw,
            "w": self._write,
            "q": self._stop,
        }

    def hold(self) -> None:
        """Hold the interview until the person stops or the input ends; then say the verdict."""
        try:
            with suppress(Stopped):
                self._begin()
                while True:
                    self._turn()
            self._end()
        finally:
            self.keeper.let_go()

    def farewell(self) -> str:
        """Return what became of the answers."""
        if self.keeper.trouble:
            return self.keeper.trouble
        if not self._answered():
            return "Nothing was answered, so nothing is kept."
        if self._done():
            return "The interview is finished."
        return 'Your answers are saved; "whichend ask --resume" goes on with them.'

    # ---- turns

    def _begin(self) -> None:
        for caution in self.engine.book.cautions_at(Moment.BEFORE):
            self.console.say(caution, "Caution: ")
        self.console.say()
        if self.saved:
            self.console.show(page.broken_off(self.saved, self.engine.book))
            self.console.say("It goes on here.")
            if self.keeper.note:
                self.console.say(self.keeper.note)
            self._report()
        else:
            self._prepare()
        self.console.say()

    def _turn(self) -> None:
        """Put one question until it is answered or left."""
        ask = self._ask()
        if ask is None:
            self.console.say("No question is left.")
            self.console.show(page.nothing_left_blocks(self._snapshot()))
            self._show()
        else:
            number = len(self.state.readings) + len(self.state.given_up) + 1
            self.console.show(question_blocks(ask, number))
        state, asking = self.state, self.asking
        while self.state is state and self.asking is asking:
            if ask:
                self.console.show(answer_blocks(ask))
            known = ask is not None and self._known(ask.text.feature)
            retake = bool(self.suspected) and self.asking is None
            self.console.say(letters(ask, retake=retake, answered=known))
            self._obey(ask, self.console.hear())
        self.console.say()

    def _obey(self, ask: Ask | None, line: str) -> None:
        if line.lower() in self.deeds:
            self.deeds[line.lower()]()
        elif ask is None:
            if not line:
                raise Stopped
            self.console.say("No question is open. Type one of these letters, or Enter to stop.")
        elif not line:
            self.console.say("Nothing was typed. Type an answer, or ? for how to measure it.")
        elif line == "0":
            self._keep(declined(ask))
            self._noted(f"{ask.text.title}: cannot tell.")
            self._report()
        else:
            self._answer(ask, line)

    def _answer(self, ask: Ask, line: str) -> None:
        try:
            reading = reading_of(ask, line, self.state.tools, self.engine.catalogue.threads)
            check_answer(self.state, reading)
            if isinstance(reading.value, Trial):  # on a part that nobody knows it is not kept
                conclude(self.engine, apply(self.state, Observed(reading)))
        except ReadingError as error:
            self.console.say(str(error))
            return
        self._keep(answered(ask, reading))
        self._noted(f"{ask.text.title}: {said(reading, ask.text)}.")
        self._report()

    def _ask(self) -> Ask | None:
        return ask_of(self._snapshot(), self.engine.book)

    def _snapshot(self) -> Snapshot:
        return Snapshot(self.state, self.verdict, self.asking)

    def _known(self, feature: Feature) -> bool:
        return page.answered(self._snapshot(), feature)

    # ---- letters

    def _back(self) -> None:
        if self.asking is not None:
            self.asking = None
            self.console.say("Left as it was.")
            return
        if not self.state.events:
            self.console.say("There is nothing to take back.")
            return
        last = self.state.events[-1]
        self.state = back(self.state)
        self.keeper.back()
        self.verdict = conclude(self.engine, self.state)
        self.console.say(f"Taken back: {page.event_words(last)}.")
        self._report()

    def _help(self) -> None:
        ask = self._ask()
        if ask is None:
            self.console.say("No question is open.")
            return
        self.console.show(help_blocks(ask, self._picture(ask)))
        self.console.say()

    def _picture(self, ask: Ask) -> str:
        """Return the leading end in words; empty until something is known of it."""
        if not self.verdict.readings or not self.verdict.ranking:
            return ""
        return picture_words(self.engine.catalogue, self.verdict.ranking[0].end, ask.text.feature)

    def _answers(self) -> None:
        blocks = page.answers_blocks(self._snapshot(), self.engine.book)
        self.console.show(blocks)
        self.console.say("Type a number to answer it, change it or withdraw it. Enter goes back.")
        found = picks(blocks)
        while (line := self.console.hear()) not in found:
            if line in ("", "b"):
                self.asking = None
                return
            self.console.say(f"Type a number from 1 to {len(found)}, or Enter to go back.")
        self.asking = Feature(found[line])

    def _withdraw(self) -> None:
        ask = self._ask()
        if ask is None or not self._known(ask.text.feature):
            self.console.say("There is no answer to withdraw here; a lists your answers.")
            return
        self._keep(Withdrawn(ask.text.feature))
        self._noted(f"{ask.text.title}: withdrawn, as if it had never been answered.")
        self._report()

    def _retake(self) -> None:
        if self.verdict.suspects:
            self.asking = self.verdict.suspects[0].reading.feature
        else:
            self.console.say("No reading is suspect; a lists your answers, any can be changed.")

    def _prepare(self) -> None:
        """Ask for tools and access."""
        tools = ask_tools(self.console, self.state.tools if self.state.events else FIRST_TOOLS)
        access = ask_access(self.console, self.state.access)
        self._keep(Equipped(tools), Reached(access))
        self._noted(f"To hand: {page.tool_names(tools)}. The end: {page.access_words(access)}.")

    def _show(self) -> None:
        self.console.say()
        self.console.tell(verdict_text(self.engine, self.verdict, whole=True))
        self.shown = self.verdict

    def _write(self) -> None:
        """Write the verdict beside where the program was started, and say where it lies."""
        now = datetime.now().astimezone()
        try:
            path = write_verdict(self.engine, self.state, self.verdict, Path.cwd(), now)
            self.console.say(f"Written: {path}")
        except RecordError as error:
            self.console.say(str(error))

    def _stop(self) -> None:
        raise Stopped

    # ---- what follows an answer

    def _keep(self, *events: Event) -> None:
        """Take events onto the disk and into the state."""
        for event in events:
            self.keeper.keep(event)
            self.state = apply(self.state, event)
        self.asking = None
        self.verdict = conclude(self.engine, self.state)

    def _noted(self, sentence: str) -> None:
        """Say what was taken, and whether it is on the disk; why not, only once."""
        trouble = self.keeper.trouble
        self.console.say(sentence, "Not saved. " if trouble else "Saved. ")
        if trouble and not self.complained:
            self.console.say(f"{trouble} The interview goes on without.")
            self.complained = True

    def _report(self) -> None:
        """Say where things stand, and what is new: suspects, warnings, an identity."""
        self.console.say(page.standing(self.verdict))
        for suspect in self.verdict.suspects:
            if suspect.reading.feature not in self.suspected:
                self.console.say(f"{suspect_words(suspect)} Type r to do so.", "Suspect: ")
        self.suspected = {each.reading.feature for each in self.verdict.suspects}
        told, waiting = page.new_warnings(self.verdict, self.warned)
        for warning in told:
            self.console.say(page.beware(warning))
        self.warned |= {each.rule for each in told}
        if waiting:
            self.console.say(page.more_warnings(waiting))
        if self.verdict.kind is VerdictKind.IDENTIFIED and self.verdict.question:
            self.console.say(f"{self.verdict.sentence} {page.MAY_STOP}")

    def _end(self) -> None:
        if self.shown is not self.verdict:
            self._show()
        if self._done():
            self.keeper.finish()
        self.console.say()
        self.console.say(self.farewell())

    def _done(self) -> bool:
        """Tell whether the interview need not be offered again."""
        verdict = self.verdict
        over = verdict.kind is VerdictKind.IDENTIFIED or verdict.question is None
        return over or not self._answered()

    def _answered(self) -> bool:
        return bool(self.state.answers or self.state.given_up)
