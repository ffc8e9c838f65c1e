"""What a made-up hose is worked out with: tolerances, measuring points, factors, guidance.

All are read from `rules/assembly.yaml`; each says who says so.
"""

from identify.frozen import StrEnum, dataclass
from identify.model.source import Support


@dataclass(frozen=True, slots=True)
class Says:
    """Who says so: the key of a source and what was seen of it."""

    source: str
    basis: Support


@dataclass(frozen=True, slots=True)
class LengthTolerance:
    """How far a length may be off: of what, for which sizes, over and up to which length [mm].

    `to_mm` is None where there is no upper end. `plus` and `minus` are millimetres, or percent of
    the length where `percent`.
    """

    standard: str
    of: str
    dn_low: int
    dn_high: int
    over_mm: float
    to_mm: float | None
    plus: float
    minus: float
    percent: bool
    says: Says


class EndKind(StrEnum):
    """Kinds of ends, as far as they are measured in different ways."""

    STRAIGHT_MALE = "straight-male"
    STRAIGHT_FEMALE_INCH = "straight-female-inch"  # 37 degree flare, pipe swivel, JIS
    STRAIGHT_FEMALE = "straight-female"  # all other swivels
    STRAIGHT_FLANGE = "straight-flange"
    ELBOW = "elbow"
    BANJO = "banjo"
    BLOCK = "block"
    ELBOW_FLANGE_45 = "elbow-flange-45"


@dataclass(frozen=True, slots=True)
class MeasuringPoint:
    """From where a length is measured on one kind of end; several points must be asked for."""

    end: EndKind
    points: tuple[str, ...]
    ask: str
    says: Says


@dataclass(frozen=True, slots=True)
class VelocityRange:
    """Velocities usual in a line [m/s]: guidance, no standard's figure."""

    line: str
    low_m_s: float
    high_m_s: float
    says: Says


@dataclass(frozen=True, slots=True)
class Factor:
    """Times something; a test is held for `low_s` to `high_s` seconds, 0 where that is not said."""

    times: float
    low_s: float
    high_s: float
    says: Says


@dataclass(frozen=True, slots=True)
class AngleTolerance:
    """How far the angle of two elbows may be off [deg], up to a length [mm], None for all above."""

    to_mm: float | None
    plus_minus_deg: float
    says: Says


@dataclass(frozen=True, slots=True)
class CleanlinessTarget:
    """A class of ISO 4406 that is usual for something."""

    of: str
    code: str
    says: Says


@dataclass(frozen=True, slots=True)
class MakingStep:
    """One step of the work: its `name`, what to `do`, and the `caution` at that decision."""

    name: str
    do: str
    caution: str
    says: Says


@dataclass(frozen=True, slots=True)
class AssemblyRules:
    """All of it.

    `straight` is the straight part before a bend in times of the outside diameter, `shortening`
    how much a hose may shorten under pressure (times its length). `codes` are the most particles
    per ml of each code of ISO 4406, from code 0 on. `making` is the work in its order.
    """

    length_tolerances: tuple[LengthTolerance, ...]
    measuring_points: tuple[MeasuringPoint, ...]
    velocities: tuple[VelocityRange, ...]
    proof: Factor
    burst: Factor
    angles: tuple[AngleTolerance, ...]
    straight: Factor
    shortening: Factor
    codes: tuple[float, ...]
    codes_say: Says
    targets: tuple[CleanlinessTarget, ...]
    making: tuple[MakingStep, ...]

    @property
    def cited(self) -> tuple[str, ...]:
        """The key of a source once for every time a line cites it."""
        said = [
            *(row.says for row in self.length_tolerances),
            *(row.says for row in self.measuring_points),
            *(row.says for row in self.velocities),
            *(row.says for row in self.angles),
            *(row.says for row in self.targets),
            *(row.says for row in self.making),
            *(row.says for row in (self.proof, self.burst, self.straight, self.shortening)),
            self.codes_say,
        ]
        return tuple(each.source for each in said)
