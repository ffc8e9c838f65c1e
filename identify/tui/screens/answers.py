"""The list of answers, and what may be done with one of them."""

from identify.interview.snapshot import Snapshot
from identify.model.feature import Feature
from identify.tui.messages import Asked, CannotTell, RetakeWanted, TakenBack
from identify.tui.screens.paged import PagedScreen
from identify.tui.view.answers import answer_blocks, answered, choice_blocks
from identify.tui.view.lines import Block


class AnswersScreen(PagedScreen):
    """Choose an answer to change it, or an open question to answer it now."""

    feature: Feature | None = None

    def heading_words(self) -> str:
        """Return the title."""
        return "Your answers"

    def hint_words(self) -> str:
        """Return the keys; r only where there is a suspect."""
        retake = "r retake the suspect   " if self.snapshot.verdict.suspects else ""
        turn = "n next page   " if len(self.pages) > 1 else ""
        return f"1-9 choose   {turn}{retake}b back"

    def blocks(self, snapshot: Snapshot) -> tuple[Block, ...]:
        """Return the list, or the deeds for one answer."""
        if self.feature is not None:
            return choice_blocks(snapshot, self.reference, self.feature)
        return answer_blocks(snapshot, self.reference)

    def picked(self, pick: str) -> None:
        """Choose an answer, or do something with it."""
        if self.feature is None:
            if not answered(self.snapshot, Feature(pick)):
                self.post_message(Asked(Feature(pick)))
                return
            self.feature = Feature(pick)
        else:
            feature, self.feature = self.feature, None
            deeds = {"anew": Asked, "withdraw": TakenBack, "give_up": CannotTell}
            self.post_message(deeds[pick](feature))
        self.at = 0
        self.redraw()

    def press(self, key: str, character: str | None) -> None:
        """One key retakes the suspect."""
        if character == "r":
            self.post_message(RetakeWanted())
        else:
            super().press(key, character)

    def leave(self) -> None:
        """Back from one answer to the list."""
        if self.feature is None:
            super().leave()
        else:
            self.feature = None
            self.redraw()
