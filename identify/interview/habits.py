"""What is so at every start of one shop, unless it is said otherwise."""

from identify.frozen import dataclass
from identify.interview.session import Event, Observed
from identify.model.feature import Feature
from identify.model.reading import Choice, How, Reading
from identify.model.rule import Tool


@dataclass(frozen=True, slots=True)
class Habits:
    """Tools that are to hand, None where they are asked; unit; where the machines come from; stock.

    `origin` is one of `ORIGINS`, empty where it is asked; it counts as an answer of the person and
    can be changed or withdrawn as such. `label` is the size of label stock as it was typed, "" for
    the usual one. With `guess` nothing is told of what an end is before the person has said what
    he thinks it is.
    """

    tools: frozenset[Tool] | None = None
    inch: bool = False
    origin: str = ""
    label: str = ""
    guess: bool = False

    @property
    def answers(self) -> tuple[Event, ...]:
        """What is answered from the start."""
        if not self.origin:
            return ()
        word = self.origin
        return (Observed(Reading(Feature.ORIGIN, Choice(word), How.EYE, word)),)
