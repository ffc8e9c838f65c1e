"""Jobs on the full screen: a list narrowed by typing, and one job with what can be done to it."""

from collections.abc import Callable, Sequence

from identify.interview.snapshot import Snapshot
from identify.jobs.facts import Field, Place, place_said
from identify.jobs.journal import Kept
from identify.jobs.listing import Listed
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.jobs import FIELD_WORDS, deed_blocks, job_blocks, jobs_blocks, none_found
from identify.reasoning.engine import Engine
from identify.tui.messages import (
    HandWanted,
    JobDiscarded,
    JobOpened,
    JobTaken,
    JobTold,
    SheetWanted,
)
from identify.tui.pane import Pane
from identify.tui.screens.search import SearchScreen


class JobsScreen(SearchScreen):
    """The jobs begun last, or those that bear the words typed; a scanner types a reference."""

    heading = "Jobs"

    def __init__(
        self,
        engine: Engine,
        snapshot: Snapshot,
        find: Callable[[str], Sequence[Listed]],
        typed: str = "",
    ) -> None:
        super().__init__(engine, snapshot)
        self.find, self.wanted = find, typed

    def hint_words(self) -> str:
        """Return the keys of this mode."""
        if self.typing:
            return "type a reference or words   Enter then choose   Esc back"
        return super().hint_words()

    def on_screen_resume(self) -> None:
        """Draw what the screen before may have changed."""
        self.redraw()

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the jobs; none found is said."""
        found = jobs_blocks(self.find(self.wanted))
        return found or [Block(none_found(self.wanted) if self.wanted else "No job is kept yet.")]

    def press(self, key: str, character: str | None) -> None:
        """Enter opens the only job that is left."""
        if key == "enter" and self.typing and len(found := self.find(self.wanted)) == 1:
            self.post_message(JobOpened(found[0].job))
        else:
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Open a job."""
        self.post_message(JobOpened(pick))


class JobScreen(SearchScreen):
    """One job: what is kept of it, its interviews to go on with, and facts to be said."""

    typing = False
    field: Field | None = None
    place = Place()

    def __init__(self, engine: Engine, snapshot: Snapshot, kept: Kept) -> None:
        super().__init__(engine, snapshot)
        self.kept = kept

    def redraw(self) -> None:
        """Show the line only where something is typed."""
        self.query_one("#entry", Pane).display = self.typing
        super().redraw()

    def heading_words(self) -> str:
        """Return the job, or the fact that is being typed."""
        return FIELD_WORDS[self.field] if self.field else f"Job {self.kept.job.reference}"

    def hint_words(self) -> str:
        """Return the keys of this mode."""
        if self.typing:
            return "type   Enter keeps it, empty takes it back   Esc back"
        return "1-9 choose   Space next page   l label   b back   ? help"

    def blocks(self, snapshot: Snapshot) -> list[Block]:
        """Return the job with what can be done to it, or what a fact says now."""
        if self.field:
            return [Block(f"Type it: {FIELD_WORDS[self.field].lower()}.", Tone.HEAD)]
        return [*job_blocks(self.kept, self.engine.book), BLANK, *deed_blocks(self.kept.job)]

    def press(self, key: str, character: str | None) -> None:
        """Type a fact, or choose."""
        if self.typing and key == "enter" and self.field:
            told = JobTold(self.kept, self.place, self.field, self.wanted)
            self._done()
            self.post_message(told)
        elif self.typing and key == "escape":
            self._done()
        elif not self.typing and character == "l":
            self.post_message(HandWanted("label", self.kept))
        elif self.typing or character != "s":
            super().press(key, character)

    def picked(self, pick: str) -> None:
        """Go on with an interview, hand the job over, discard it, or begin to type a fact."""
        deed, _, about = pick.partition(" ")
        if deed == "take":
            self.post_message(JobTaken(self.kept, place_said(about)))
        elif deed == "hand":
            self.post_message(HandWanted(about, self.kept))
        elif deed == "sheet":
            self.post_message(SheetWanted(int(about), self.kept))
        elif deed == "discard":
            self.post_message(JobDiscarded(self.kept))
        else:
            name, _, place = about.partition(" ")
            self.field, self.place = Field(name), place_said(place)
            self.wanted, self.typing, self.at = "", True, 0
            self.redraw()

    def _done(self) -> None:
        self.field, self.wanted, self.typing, self.at = None, "", False, 0
        self.redraw()
