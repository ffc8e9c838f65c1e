"""What a screen draws: one frozen value, and the knowledge it looks names up in."""

from dataclasses import dataclass, field

from identify.interview.session import SessionState
from identify.model.catalogue import Catalogue
from identify.model.feature import Feature
from identify.model.rule import QuestionText
from identify.model.rulebook import RuleBook
from identify.model.verdict import Verdict, VerdictKind

EMPTY_VERDICT = Verdict(VerdictKind.ABSTAIN, "Nothing has been measured yet.", (), 1.0, ())


@dataclass(frozen=True, slots=True)
class Snapshot:
    """Where the interview stands, as the screens need to know it.

    `asking` is a question taken out of turn, None for the one the engine offers. `problem` is the
    sentence about the last answer that could not be read, `saved` what became of the last answer
    on the disk. `inch` is the unit in which lengths are typed,
    `trouble` says why answers are not kept, `note` what the last key did that no screen shows.
    """

    state: SessionState = field(default_factory=SessionState)
    verdict: Verdict = EMPTY_VERDICT
    asking: Feature | None = None
    problem: str = ""
    saved: str = ""
    inch: bool = False
    trouble: str = ""
    note: str = ""


@dataclass(frozen=True, eq=False)
class Reference:
    """Tables and rules: what does not change during an interview. Equal only to itself."""

    catalogue: Catalogue
    book: RuleBook

    def question(self, feature: Feature) -> QuestionText | None:
        """Return how a feature is asked for."""
        return next((text for text in self.book.questions if text.feature is feature), None)
