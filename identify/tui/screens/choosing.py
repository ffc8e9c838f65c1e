"""Screens on which something is chosen: tools and access, answers, an interview to go on with."""

from enum import Enum

from textual.message import Message

from identify.interview.snapshot import Snapshot
from identify.jobs.facts import Place
from identify.jobs.journal import Saved
from identify.model.feature import Feature
from identify.model.rule import Access, Tool
from identify.pages.blocks import Block
from identify.pages.interview import (
    WHO,
    access_blocks,
    answered,
    answers_blocks,
    care_blocks,
    care_picked,
    change_blocks,
    resume_blocks,
    tool_blocks,
)
from identify.pages.onward import SHEET, STAY, onward_blocks
from identify.reasoning.engine import Engine
from identify.tui.messages import (
    Asked,
    BrokenOffDiscarded,
    CannotTell,
    GoOn,
    Opened,
    Prepared,
    SheetWanted,
    StartedAgain,
    TakenBack,
    WentBack,
)
from identify.tui.screens.paged import PagedScreen

_ALREADY = {"g": "guide", "o": "short", "j": "jobs"}
"""Screens that may be wanted before the first question."""


class Step(Enum):
    """What the page of tools asks."""

    TOOLS = "Tools"
    CARE = "Who measures?"
    ACCESS = "How is the end now?"


class ToolsScreen(PagedScreen):
    """Asks what is to hand, who measures if one wants to say, then how far the end is reached."""

    def __init__(
        self,
        engine: Engine,
        snapshot: Snapshot,
        chosen: frozenset[Tool],
        care: str,
        *,
        known: bool = False,
    ) -> None:
        super().__init__(engine, snapshot)
        self.chosen, self.care = chosen, care
        self.step = Step.ACCESS if known else Step.TOOLS

    def heading_words(self) -> str:
        """Return which of them is asked."""
        return self.step.value

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the tools, who measures, or the access."""
        if self.step is Step.TOOLS:
            return tool_blocks(self.chosen, self.care)
        return care_blocks() if self.step is Step.CARE else access_blocks(self.engine.book)

    def hint_words(self) -> str:
        """Return the keys of the step."""
        if self.step is Step.TOOLS:
            return "1-8 tick   Enter go on   9 who measures   ? help   q quit"
        return f"1-{len(self.page.picks)} choose   b tools   ? help   q quit"

    def press(self, key: str, character: str | None) -> None:
        """Enter ends the ticking."""
        if key == "enter" and self.step is Step.TOOLS:
            self._to(Step.ACCESS)
        elif character in _ALREADY:
            self.post_message(Opened(_ALREADY[character]))
        else:
            super().press(key, character)

    def leave(self) -> None:
        """Back from the others to tools; from tools to where it was called."""
        if self.step is Step.TOOLS:
            super().leave()
        else:
            self._to(Step.TOOLS)

    def picked(self, pick: str) -> None:
        """Tick a tool, ask or take who measures, or end with the access."""
        if self.step is Step.ACCESS:
            self.post_message(Prepared(self.chosen, Access(pick), self.care))
        elif self.step is Step.CARE:
            self.care = care_picked(pick)
            self._to(Step.TOOLS)
        elif pick == WHO:
            self._to(Step.CARE)
        else:
            self.chosen = self.chosen ^ {Tool(pick)}
            self.redraw()

    def zero(self) -> None:
        """Nothing to hand."""
        if self.step is Step.TOOLS:
            self.chosen = frozenset()
            self._to(Step.ACCESS)

    def _to(self, step: Step) -> None:
        self.step, self.at = step, 0
        self.redraw()


class AnswersScreen(PagedScreen):
    """Choose an answer to change it, or an open question to answer it now."""

    feature: Feature | None = None

    def heading_words(self) -> str:
        """Return the title."""
        return "Your answers"

    def hint_words(self) -> str:
        """Return the keys; r only where there is a suspect."""
        retake = "r retake the suspect   " if self.snapshot.verdict.suspects else ""
        return f"1-9 choose   {self.turning}{retake}b back"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the list, or the deeds for one answer."""
        if self.feature is not None:
            return change_blocks(snapshot, self.engine.book, self.feature)
        return answers_blocks(snapshot, self.engine.book)

    def picked(self, pick: str) -> None:
        """Choose an answer, or do something with it."""
        if self.feature is None:
            if not answered(self.snapshot, Feature(pick)):
                self.post_message(Asked(Feature(pick)))
                return
            self.feature = Feature(pick)
        else:
            feature, self.feature = self.feature, None
            deeds: dict[str, Message] = {
                "anew": Asked(feature),
                "once_more": Asked(feature, once_more=True),
                "other_person": Asked(feature, once_more=True, other_person=True),
                "withdraw": TakenBack(feature),
                "give_up": CannotTell(feature),
            }
            self.post_message(deeds[pick])
        self.at = 0
        self.redraw()

    def press(self, key: str, character: str | None) -> None:
        """One key retakes the suspect."""
        suspects = self.snapshot.verdict.suspects
        if character == "r" and suspects:
            self.post_message(Asked(suspects[0].reading.feature))
        else:
            super().press(key, character)

    def leave(self) -> None:
        """Back from one answer to the list."""
        if self.feature is None:
            super().leave()
        else:
            self.feature = None
            self.redraw()


class OnwardScreen(PagedScreen):
    """Asks which end or job comes next."""

    heading = "What comes next?"
    about = "1-9 choose   b stay with this end"

    def __init__(
        self, engine: Engine, snapshot: Snapshot, here: Place, end: Place | None, hose: Place | None
    ) -> None:
        super().__init__(engine, snapshot)
        self.places = here, end, hose

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the choice."""
        return onward_blocks(len(snapshot.state.answers), *self.places, sheet=True)

    def picked(self, pick: str) -> None:
        """Report the choice."""
        if pick == SHEET:
            self.post_message(SheetWanted(0))
        else:
            self.post_message(WentBack() if pick == STAY else StartedAgain(pick))


class ResumeScreen(PagedScreen):
    """Shows what was answered before and asks whether to go on."""

    heading = "An interview was broken off"
    about = "1 go on   2 begin a new one   3 discard it   q quit"

    def __init__(self, engine: Engine, snapshot: Snapshot, saved: Saved) -> None:
        super().__init__(engine, snapshot)
        self.saved = saved

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return when it began and what was answered."""
        jobs = Block("All jobs: find one, go on with it, discard it.", pick="jobs")
        return [*resume_blocks(self.saved, self.engine.book), jobs]

    def picked(self, pick: str) -> None:
        """Report the choice."""
        if pick == "jobs":
            self.post_message(Opened("jobs"))
        else:
            self.post_message(BrokenOffDiscarded() if pick == "discard" else GoOn(pick == "on"))

    def leave(self) -> None:
        """There is no screen to go back to."""
