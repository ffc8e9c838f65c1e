"""Whether a claimed identity stands against readings."""

from dataclasses import dataclass
from enum import StrEnum

from identify.model.verdict import Danger, Evidence, Question, Ranked, Suspect


class Standing(StrEnum):
    """What may be said of a claim."""

    STANDS = "stands"
    DOUBTFUL = "doubtful"
    REFUTED = "refuted"


@dataclass(frozen=True, slots=True)
class Claim:
    """A claimed identity, held against readings.

    `claimed` is the claimed end with its probability and what each reading says of it. `against`
    holds the evidence that speaks against it, strongest first. `rivals` are the lookalikes the
    readings have not ruled out, likeliest first; `leader` is the end that fits best where it is
    another. `check` is the one measurement that would tell most about the claim, None where none
    would or the claim is refuted.
    """

    standing: Standing
    claimed: Ranked
    against: tuple[Evidence, ...]
    rivals: tuple[Danger, ...]
    leader: Ranked | None
    none_of_these: float
    suspects: tuple[Suspect, ...]
    check: Question | None
