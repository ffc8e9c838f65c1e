"""Screens of practice: an exercise, what can be read of a part, what is told of an answer."""

from identify.drawing.style import Style
from identify.interview.snapshot import Snapshot
from identify.model.feature import Feature
from identify.pages.blocks import BLANK, Block, Picture, Rows
from identify.pages.exercise import (
    ANSWER,
    GO_ON,
    NEED,
    READ,
    bench_blocks,
    debrief_blocks,
    exercise_blocks,
    exercise_heading,
    hint_words,
    need_blocks,
    practice_keys,
    so_far_blocks,
)
from identify.pages.glossary import TRAP
from identify.pages.progress import progress_blocks
from identify.practice.exercise import CANNOT_TELL
from identify.practice.sitting import Sitting
from identify.tui.messages import Opened
from identify.tui.screens.paged import PagedScreen

Page = list[Block | Picture | Rows]


class PracticePage(PagedScreen):
    """A page of practice; keys that mean the same on all of them."""

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting.room.engine, snapshot)
        self.sitting, self.style = sitting, style

    def heading_words(self) -> str:
        """Return the number and title of the exercise."""
        return exercise_heading(self.sitting)

    def press(self, key: str, character: str | None) -> None:
        """Show progress, lessons or the keys; the rest is as on every page."""
        if character in ("g", "?"):
            self.post_message(Opened({"g": "progress", "?": "keys"}[character]))
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Do what a chosen block stands for."""
        self.post_message(Opened("word" if pick.startswith(f"{TRAP} ") else "pick", pick))


class ExerciseScreen(PracticePage):
    """The open exercise: pictures, displays, and the answers by number."""

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting, snapshot, style)
        self.hint = ""

    def hint_words(self) -> str:
        """Return the keys."""
        more = "r read   " if self.sitting.whole else ""
        turn = "n next page   " if len(self.pages) > 1 else ""
        return f"{turn}1-9 answer   {more}h hint   g progress   q quit"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the exercise, with what was read and the hint."""
        sitting = self.sitting
        hint: Page = [Block(self.hint)] if self.hint else []
        taken = so_far_blocks(sitting.taken, sitting.room.book, sitting.minutes)
        shown = exercise_blocks(sitting)
        if not sitting.taken:
            return [*shown, *hint]
        pictures = len(sitting.made.pictures)
        return [*taken, *shown[pictures:], *hint, BLANK, *shown[:pictures]]

    def press(self, key: str, character: str | None) -> None:
        """Read, or get a hint."""
        if character == "r" and self.sitting.whole:
            self.post_message(Opened("bench"))
        elif character == "h":
            self.hint = hint_words(self.sitting.hint())
            self.redraw()
        elif key == "escape" or character == "b":
            return  # there is nothing under it
        else:
            super().press(key, character)


class BenchScreen(PracticePage):
    """What can be read of the part, and its minutes."""

    about = "1-9 read it   b back   ? keys"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the list."""
        return bench_blocks(self.sitting)


class NeedScreen(PracticePage):
    """What is needed by who cannot tell."""

    about = "1-9 I need it   b back   ? keys"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the list."""
        return need_blocks(self.sitting)


class DebriefScreen(PracticePage):
    """Right or wrong, what each reading said, the quickest way, the machine."""

    def hint_words(self) -> str:
        """Return the keys."""
        turn = "n next page   " if len(self.pages) > 1 else ""
        return f"{turn}Enter next exercise   l lesson   g progress   q quit"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return what is told."""
        told = self.sitting.told
        return debrief_blocks(self.sitting, told) if told else []

    def press(self, key: str, character: str | None) -> None:
        """Go on with Enter; l opens the lesson."""
        if key == "enter":
            self.picked(GO_ON)
        elif character == "l":
            lessons = [block.pick for block in self.blocks(self.snapshot)
                       if isinstance(block, Block) and block.pick not in ("", GO_ON)]  # fmt: skip
            for pick in lessons:
                self.picked(pick)
        elif key == "escape" or character == "b":
            return  # the answer stands
        else:
            super().press(key, character)


class ProgressScreen(PracticePage):
    """The confusion table and what comes next."""

    about = "b back   q quit"

    def heading_words(self) -> str:
        """Return the title."""
        return "Progress"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the page."""
        return progress_blocks(self.sitting.room, self.sitting.logbook.history)


class KeysScreen(PracticePage):
    """What the keys of practice do."""

    about = "b back   q quit"

    def heading_words(self) -> str:
        """Return the title."""
        return "Keys of practice"

    def blocks(self, snapshot: Snapshot) -> Page:
        """Return the keys."""
        return [*practice_keys()]


def screen_after(pick: str, sitting: Sitting, snapshot: Snapshot, style: Style) -> PracticePage:
    """Do what a pick stands for and return the page to show then."""
    what, _, name = pick.partition(" ")
    if what == READ.strip():
        sitting.read(Feature(name))
    elif pick == GO_ON:
        sitting.go_on()
    elif pick == f"{ANSWER}{CANNOT_TELL}" and sitting.whole:
        return NeedScreen(sitting, snapshot, style)
    else:
        need = Feature(name) if what == NEED.strip() else None
        sitting.answer(CANNOT_TELL if need else name, need)
        return DebriefScreen(sitting, snapshot, style)
    return ExerciseScreen(sitting, snapshot, style)
