"""Screens of practice: an exercise, and what is told of its answer."""

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot
from identify.model.feature import Feature
from identify.pages.blocks import BLANK
from identify.pages.debrief import debrief_blocks
from identify.pages.exercise import (
    ANSWER,
    GO_ON,
    NEED,
    READ,
    exercise_blocks,
    hint_words,
    so_far_blocks,
)
from identify.pages.lessons import pair_pick
from identify.pages.progress import CHOOSE
from identify.practice.exercise import CANNOT_TELL
from identify.practice.sitting import Sitting
from identify.tui.messages import Opened
from identify.tui.screens.practice_lists import NeedScreen, Page, PracticePage


class ExerciseScreen(PracticePage):
    """The open exercise: pictures, displays, and the answers by number.

    A number chooses an answer; until Enter judges it another may be chosen, or none.
    """

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting, snapshot, style)
        self.hint = self.chosen = ""

    def hint_words(self) -> str:
        """Return the keys."""
        if self.chosen:
            return f"{self.turning}Enter judge it   1-9 another   b none   h hint   q quit"
        more = "r read   t type a name   " if self.sitting.whole else ""
        return f"{self.turning}1-9 choose   {more}h hint   g progress   ? keys   q quit"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the exercise, with what was read and the hint."""
        sitting = self.sitting
        taken = so_far_blocks(sitting.taken, sitting.room.book, sitting.minutes)
        shown = exercise_blocks(sitting, self.chosen, self.hint)
        if not sitting.taken:
            return shown
        pictures = len(sitting.made.pictures)
        return [*taken, *shown[pictures:], BLANK, *shown[:pictures]]

    def press(self, key: str, character: str | None) -> None:
        """Judge the chosen answer, read, type a name, or get a hint."""
        if key == "enter":
            if self.chosen:
                super().picked(self.chosen)
        elif character in ("r", "t") and self.sitting.whole:
            self.post_message(Opened("bench" if character == "r" else "name"))
        elif character == "h":
            self.hint = hint_words(self.sitting.hint(), self.sitting.room.book)
            self.redraw()
        elif key == "escape" or character == "b":
            self.choose("")
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Choose an answer; who cannot tell a whole part says next what is needed."""
        if pick == f"{ANSWER}{CANNOT_TELL}" and self.sitting.whole:
            super().picked(pick)
        else:
            self.choose(pick)

    def choose(self, pick: str) -> None:
        """Mark an answer as chosen, or with "" none."""
        self.chosen = pick
        self.redraw()


class DebriefScreen(PracticePage):
    """Right or wrong, what each reading said, the quickest way, the machine."""

    def hint_words(self) -> str:
        """Return the keys."""
        return f"{self.turning}Enter go on   l lesson   s choose a pair   g progress   q quit"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return what is told."""
        told = self.sitting.told
        return debrief_blocks(self.sitting, told) if told else []

    def press(self, key: str, character: str | None) -> None:
        """Go on with Enter; l opens the lesson."""
        if key == "enter":
            self.picked(GO_ON)
        elif character == "l" and self.sitting.told:
            told = self.sitting.told
            self.picked(pair_pick(told.truth.id, told.taken.id))
        elif key == "escape" or character == "b":
            return  # the answer stands
        else:
            super().press(key, character)


def screen_after(pick: str, sitting: Sitting, snapshot: Snapshot, style: Style) -> PracticePage:
    """Do what a pick stands for and return the page to show then."""
    what, _, name = pick.partition(" ")
    if what == READ.strip():
        sitting.read(Feature(name))
    elif pick == GO_ON:
        sitting.go_on()
    elif pick.startswith(CHOOSE):
        sitting.choose(pick.removeprefix(CHOOSE))
    elif pick == f"{ANSWER}{CANNOT_TELL}" and sitting.whole:
        return NeedScreen(sitting, snapshot, style)
    else:
        need = Feature(name) if what == NEED.strip() else None
        sitting.answer(CANNOT_TELL if need else name, need)
        return DebriefScreen(sitting, snapshot, style)
    return ExerciseScreen(sitting, snapshot, style)
