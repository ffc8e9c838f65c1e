"""What a letter does that is typed instead of an answer."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.interview.asking import (
    NOTHING_YET,
    in_other_unit,
    in_question,
    put_once_more,
    put_to_another,
    with_other_tool,
)
from identify.interview.session import (
    FIRST_TOOLS,
    Equipped,
    Reached,
    Withdrawn,
)
from identify.light import Callable, suppress
from identify.model.feature import Feature
from identify.pages import interview as page
from identify.pages.question import (
    help_blocks,
)
from identify.plain.console import Stopped
from identify.plain.held import Held
from identify.plain.opening import ask_access, ask_tools, picks
from identify.plain.words import lesson_words

if TYPE_CHECKING:
    pass


class Letters(Held):
    """An interview in which letters may be typed; the arguments are those of `Held`."""

    @property
    def deeds(self) -> dict[str, Callable[[], None]]:
        """What each letter does."""
        return {
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
