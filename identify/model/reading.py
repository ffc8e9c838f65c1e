"""A reading: one feature, its value, how it was taken, and the words that were typed."""

from identify.frozen import StrEnum, dataclass
from identify.light import Iterable, cache
from identify.model.feature import Feature, Kind, applies


class How(StrEnum):
    """How a reading was taken; what error each carries is data in `rules/`."""

    CALIPER = "caliper"
    RULE = "rule"
    GAUGE = "gauge"
    COUNTED = "counted"
    PROTRACTOR = "protractor"
    COMBS = "combs"  # the printed comb-and-silhouette page
    EYE = "eye"


USUAL = {
    Kind.LENGTH: How.CALIPER,
    Kind.PITCH: How.GAUGE,
    Kind.ANGLE: How.GAUGE,
    Kind.TAPER: How.EYE,
    Kind.CHOICE: How.EYE,
    Kind.TEXT: How.EYE,
    Kind.TRIAL: How.GAUGE,  # the known end is the gauge
}
"""How a reading is taken where nobody says so."""


class Basis(StrEnum):
    """Whether an angle is measured from the axis or from side to side."""

    HALF = "half"
    INCLUDED = "included"


@dataclass(frozen=True, slots=True)
class Length:
    """A length [mm]; `spread_mm` is half the width when a range was given, else 0."""

    mm: float
    spread_mm: float = 0.0

    def __post_init__(self) -> None:
        if not self.mm > 0 or not self.spread_mm >= 0:
            raise ValueError(f"not a length: {self.mm} mm +- {self.spread_mm} mm")


@dataclass(frozen=True, slots=True)
class Pitch:
    """A pitch [mm]; `inch` tells that it was said in threads per inch.

    `spread_mm` is half the width of a range; `pitches` the number counted over, 0 for a leaf.
    """

    mm: float
    inch: bool = False
    spread_mm: float = 0.0
    pitches: float = 0.0

    def __post_init__(self) -> None:
        if not self.mm > 0 or not self.spread_mm >= 0 or not self.pitches >= 0:
            raise ValueError(f"not a pitch: {self}")


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle [deg]; `basis` None where nobody said half or included.

    `over_mm` is how far apart along the axis two diameters of the cone were measured that give it,
    0 where the angle itself was read.
    """

    deg: float
    basis: Basis | None = None
    over_mm: float = 0.0

    def __post_init__(self) -> None:
        if not 0 < self.deg <= 180 or not self.over_mm >= 0:
            raise ValueError(f"not a seat angle: {self}")


@dataclass(frozen=True, slots=True)
class Choice:
    """One of the answers a feature allows."""

    word: str


@dataclass(frozen=True, slots=True)
class Slope:
    """Growth of the crest diameter [mm] over a distance along the thread [mm]."""

    rise_mm: float
    over_mm: float

    def __post_init__(self) -> None:
        if not self.over_mm > 0:
            raise ValueError(f"no distance to divide by: {self.over_mm} mm")


@dataclass(frozen=True, slots=True)
class Marking:
    """Stamped text as read."""

    text: str


class Outcome(StrEnum):
    """What a trial fit on a known end did."""

    NO_START = "does not start"
    BINDS = "binds"
    FULL = "runs fully by hand"
    LOOSE = "loose"


@dataclass(frozen=True, slots=True)
class Trial:
    """A trial fit: the known end's identity as typed, the outcome, and the turns made if it bound.

    `known` is matched to an end connection's id before it is weighed.
    """

    known: str
    outcome: Outcome
    turns: float | None = None


Value = Length | Pitch | Angle | Choice | Slope | Marking | Trial


@dataclass(frozen=True, slots=True)
class Reading:
    """One observation. `entered` keeps the person's own words so that a report can quote them.

    `other_person` tells that somebody else took it than whoever took the others.
    """

    feature: Feature
    value: Value
    how: How
    entered: str
    other_person: bool = False

    def __hash__(self) -> int:
        """Hash the words alone: readings that say the same in the same words are mostly one."""
        return hash((self.feature, self.entered))


def gender_said(readings: Iterable[Reading]) -> str | None:
    """Return the gender that was read, None while it is open."""
    for each in readings:
        if each.feature is Feature.GENDER and isinstance(each.value, Choice):
            return each.value.word
    return None


def lacked(readings: Iterable[Reading]) -> frozenset[Feature]:
    """Return the features that an end of the gender read has not; none while it is open."""
    return lacked_by(gender_said(readings))


@cache
def lacked_by(gender: str | None) -> frozenset[Feature]:
    """Return the features that an end seen as this has not; none while it is open."""
    return frozenset(feature for feature in Feature if not applies(feature, gender))
