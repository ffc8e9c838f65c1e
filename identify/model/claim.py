"""What somebody says an end is, and how far it stands against what was read."""

from identify.frozen import StrEnum, dataclass
from identify.model.connection import EndConnection
from identify.model.verdict import Danger, Evidence, Question, Ranked, Suspect


@dataclass(frozen=True, slots=True)
class Said:
    """A claim as it was said: "JIC 8", by whom, and why it is ordered although it does not stand.

    `by` is empty where nobody is named, `anyway` where nothing is ordered against the readings.
    """

    words: str
    by: str = ""
    anyway: str = ""


class Standing(StrEnum):
    """What may be said of a claim, or of one part of it."""

    STANDS = "stands"
    DOUBTFUL = "doubtful"
    REFUTED = "refuted"


class Aspect(StrEnum):
    """What of an end a claim speaks of."""

    THREAD = "thread"
    SEAT = "seat"
    FAMILY = "family"
    SIZE = "size"


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a claim: the values it allows, how likely one of them is [0..1], its standing.

    A thread is a designation, a seat its shape and half angle [deg], a family its key. The value
    that is likeliest stands first.
    """

    aspect: Aspect
    values: tuple[str, ...]
    probability: float
    standing: Standing


@dataclass(frozen=True, slots=True)
class Against:
    """A reading that speaks against a claim.

    `times` is how many times likelier it is for the end that fits best, 1 where that is the claim.
    `alone` tells that only this comparison speaks against it, not the reading by itself.
    """

    evidence: Evidence
    times: float
    alone: bool


@dataclass(frozen=True, slots=True)
class Claim:
    """A claim, held against readings.

    `ends` are all that its words name; `probability` [0..1] that it is one of them, or what is one
    answer with it. `parts` tell which part of the claim stands. `claimed` is the likeliest of the
    ends, with what each reading says of it; `open` the answers among them that the readings leave,
    likeliest first, empty where one is left. `against` holds what speaks against the claim, the
    strongest first. `rivals` are the answers that the readings have not ruled out, likeliest first;
    `leader` is the end that fits best where it is none of the claim. `check` is the measurement
    that would tell most: whether the claim is true, or of one that stands, which of its ends it is;
    None where none would or the claim is refuted.
    """

    said: Said
    ends: tuple[EndConnection, ...]
    standing: Standing
    probability: float
    parts: tuple[Part, ...]
    claimed: Ranked
    open: tuple[Ranked, ...]
    against: tuple[Against, ...]
    rivals: tuple[Danger, ...]
    leader: Ranked | None
    none_of_these: float
    suspects: tuple[Suspect, ...]
    check: Question | None
