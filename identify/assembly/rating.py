"""The rating of a made-up hose: its lowest part, and what proof and burst follow from it."""

from collections.abc import Sequence

from identify.errors import AssemblyError
from identify.frozen import dataclass
from identify.model.assembly import AssemblyRules
from identify.model.hose import LOOK_UP, SUPPORTED
from identify.model.source import Support


@dataclass(frozen=True, slots=True)
class RatedPart:
    """A part of the assembly: hose, end or port.

    `bar` is its working pressure, None where it is not known. `basis` None means that it was
    entered from the data of the part; `source` says from which.
    """

    name: str
    bar: float | None
    source: str
    basis: Support | None = None

    def __post_init__(self) -> None:
        if self.bar is not None and not 0 < self.bar < 10_000:
            raise AssemblyError(f"{self.name}: {self.bar:g} bar is no working pressure.")
        if self.bar is not None and not self.source.strip():
            raise AssemblyError(f"{self.name}: a pressure without its source; say who states it.")

    @property
    def supported_bar(self) -> float | None:
        """The pressure where it may be stated: entered from data, or on a basis that was seen."""
        return self.bar if self.basis is None or self.basis in SUPPORTED else None


@dataclass(frozen=True, slots=True)
class Rating:
    """The rating of the whole.

    `bar` is the rating, None unless every part is known. `at_most_bar` is the lowest known part:
    the whole carries no more than that. `lowest` names the parts that decide, `look_up` those whose
    pressure is unknown or from memory.
    """

    bar: float | None
    at_most_bar: float | None
    lowest: tuple[str, ...]
    look_up: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """The rating in words; a blank stands for what must be looked up."""
        if self.bar is not None:
            return f"{self.bar:.4g} bar, by {' and '.join(self.lowest)}."
        blanks = "; ".join(f"{name}, {LOOK_UP}" for name in self.look_up)
        if self.at_most_bar is None:
            return f"Rating not known: {blanks}."
        return f"At most {self.at_most_bar:.4g} bar, rating not known: {blanks}."


def assembly_rating(parts: Sequence[RatedPart]) -> Rating:
    """Return the rating of an assembly: the lowest of hose, ends and ports.

    A part of unknown pressure never counts as one without a limit.

    Raises:
        AssemblyError: There is no part.

    Source:
        ISO 18752:2014 and SAE J517 JUL2020, scopes: an assembly is rated by its lowest part.
    """
    if not parts:
        raise AssemblyError("No part was named; a rating needs hose, ends and ports.")
    known = [(part.supported_bar, part.name) for part in parts if part.supported_bar is not None]
    look_up = tuple(part.name for part in parts if part.supported_bar is None)
    least = min((bar for bar, _ in known), default=None)
    lowest = tuple(name for bar, name in known if bar == least)
    return Rating(None if look_up else least, least, lowest, look_up)


@dataclass(frozen=True, slots=True)
class ProofAndBurst:
    """Pressures that follow from a rating [bar], and how long the proof is held [s]."""

    proof_bar: float
    burst_bar: float
    low_s: float
    high_s: float


def proof_and_burst(rating_bar: float, rules: AssemblyRules) -> ProofAndBurst:
    """Return proof and burst pressure of an assembly, by the rating of the whole.

    Not by that of the hose: a swivel of 210 bar must not see twice 275. The burst test is a type
    test; no hose that is to be used goes through it.

    Source:
        ISO 6605:2017, 5.2.1 (proof); ISO 7751, ratio of burst to working pressure.
    """
    if not rating_bar > 0:
        raise AssemblyError(f"{rating_bar:g} bar is no rating; there is no proof test without one.")
    proof = rules.proof
    return ProofAndBurst(
        rating_bar * proof.times, rating_bar * rules.burst.times, proof.low_s, proof.high_s
    )
