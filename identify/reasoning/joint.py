"""What two ends brought together make: the outcome in words, with its hazard.

Hazard. HIGH: the joint holds a first test and gives way later under pressure: a line of contact, a
ring that is not held, a thread that strips or jams. MEDIUM: it may hold a first test and weep, or
be forced by a turn or two. LOW: it seals, or the fault shows at once: nothing touches, or the two
do not go together.
"""

from math import inf

from identify.frozen import StrEnum, dataclass, replace
from identify.model.connection import EndConnection
from identify.model.verdict import Hazard
from identify.reasoning.flange_fit import FlangeFit
from identify.reasoning.seat_fit import SeatFit
from identify.reasoning.thread_fit import ThreadFit

RATING_SHARE = 0.95  # ratings nearer than this differ only by rounding


class Outcome(StrEnum):
    """What happens, in words."""

    SEALS = "mates and seals"
    SOME = "seals only if made the right way"
    NO_SEAL = "threads run but it does not seal"
    BINDS = "starts, then binds"
    LOOSE = "loose"
    NO_START = "does not start"
    NO_CATCH = "slips past without catching"
    BOLTS = "bolts do not line up"
    UNCLAMPED = "bolts line up but the clamp does not hold the head"
    APART = "not made to meet"
    UNKNOWN = "the tables do not say"


@dataclass(frozen=True, slots=True)
class Mating:
    """Two ends brought together. All figures are calculated.

    `meant` tells that the tables name the two as mates, `guarded` that one of them is no hydraulic
    end and must be left alone. `fit` is None where no thread is run,
    `seat` where no seat is reached, `flange` but for two flanges.
    """

    a: str
    b: str
    outcome: Outcome
    hazard: Hazard
    reason: str
    meant: bool = False
    guarded: bool = False
    fit: ThreadFit | None = None
    seat: SeatFit | None = None
    flange: FlangeFit | None = None

    @property
    def words(self) -> str:
        """The outcome with its number of turns, and what else of it must be said at once."""
        if self.outcome is Outcome.BINDS and self.fit:
            return f"{self.outcome} after {turns_words(self.fit.turns.mean)}"
        if self.outcome is Outcome.NO_START and self.hazard is not Hazard.LOW:
            return "starts only at the loosest fit"
        return str(self.outcome)


def turns_words(turns: float) -> str:
    """Return a number of turns as a person would say it."""
    if turns < 0.75:
        return "about half a turn"
    if turns == inf:
        return "the whole way"
    whole = round(turns)
    return f"about {whole} turn{'s' if whole != 1 else ''}"


def sealing(made: Mating, one: EndConnection, other: EndConnection, reason: str) -> Mating:
    """Return a joint that seals; two ratings that differ make it a matter of care."""
    low, high = sorted((one.rating.bar or 0.0, other.rating.bar or 0.0))
    if low and low < RATING_SHARE * high:
        reason = f"{reason} The lower rating, {low:g} bar, governs."
    return replace(made, outcome=Outcome.SEALS, hazard=Hazard.LOW, reason=reason)
