"""Lists of practice: what can be read or needed, names, pairs, progress, keys; and their base."""

from textual.message import Message

from identify.drawing.style import Style
from identify.errors import WhichendError
from identify.interview.snapshot import Snapshot
from identify.pages.blocks import Block, Picture, Rows, Tone
from identify.pages.exercise import bench_blocks, exercise_heading, need_blocks, practice_keys
from identify.pages.glossary import TRAP
from identify.pages.progress import pairs_blocks, progress_blocks
from identify.practice.naming import named
from identify.practice.sitting import Sitting
from identify.tui.messages import Opened
from identify.tui.screens.entry import EntryScreen
from identify.tui.screens.paged import PagedScreen
from identify.tui.screens.search import SearchScreen

Page = list[Block | Picture | Rows]
_PAGES = {"g": "progress", "s": "pairs", "?": "keys"}


class PracticePage(PagedScreen):
    """A page of practice; keys that mean the same on all of them."""

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting.room.engine, snapshot)
        self.sitting, self.style = sitting, style

    def heading_words(self) -> str:
        """Return the number and title of the exercise."""
        return exercise_heading(self.sitting)

    def press(self, key: str, character: str | None) -> None:
        """Show progress, pairs or the keys; the rest is as on every page."""
        if character in _PAGES:
            self.post_message(Opened(_PAGES[character]))
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Do what a chosen block stands for."""
        self.post_message(Opened("word" if pick.startswith(f"{TRAP} ") else "pick", pick))


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


class NameScreen(EntryScreen):
    """A whole part is named in the trainee's own words; what they mean stands below."""

    heading = "What is it? Type its name and size, such as JIC 8"

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting.room.engine, snapshot)
        self.sitting, self.style = sitting, style

    def hint_words(self) -> str:
        """Return the keys."""
        return "Enter chooses it   Esc back"

    def message(self, line: str) -> Message:
        """Report the name."""
        return Opened("named", line)

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the answer that the words mean, or why they mean none."""
        if not self.wanted.strip():
            return [Block("The answers that are listed are not the only ones that may be right.")]
        try:
            option = named(self.sitting.room, self.sitting.made, self.wanted.strip())
        except WhichendError as error:
            return [Block(str(error))]
        return [Block(option.words, Tone.HEAD)]


class PairsScreen(SearchScreen):
    """All pairs, narrowed by typing; a digit puts an exercise on one."""

    heading = "Which pair do you want to practise?"
    typing = False

    def __init__(self, sitting: Sitting, snapshot: Snapshot, style: Style) -> None:
        super().__init__(sitting.room.engine, snapshot)
        self.sitting, self.style = sitting, style

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the pairs that bear the words typed."""
        return pairs_blocks(self.sitting.room, self.sitting.logbook.history, self.wanted)

    def picked(self, pick: str) -> None:
        """Put an exercise on it."""
        self.post_message(Opened("pick", pick))


class ProgressScreen(PracticePage):
    """The confusion table and what comes next."""

    about = "s choose a pair   b back   q quit"

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
