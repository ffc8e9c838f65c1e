"""Hoses of the published standards: a type, its sizes, and what each figure rests on.

One row of the tables is a `Hose`: a type in one size. Frozen; all lengths in millimetres.
"""

from identify.frozen import StrEnum, dataclass
from identify.model.hose_habits import LineHabits
from identify.model.reading import How, Length
from identify.model.source import Confidence, Provenance, Support

SUPPORTED = (Support.STANDARD_TEXT, Support.PRINTED, Support.COMPUTED, Support.OPEN_DATASET)
"""A pressure is stated on such a basis only; one from memory is to be looked up."""


LOOK_UP = "look up: ____"
"""Stands in place of such a figure; whoever has the data fills it in."""


class LayerKind(StrEnum):
    """What the reinforcement is, as it looks at a cut end."""

    WIRE_BRAID = "wire-braid"
    WIRE_SPIRAL = "wire-spiral"
    TEXTILE = "textile"
    WIRE_UNDER_CLOTH = "wire-under-cloth"
    BARE_BRAID = "bare-braid"
    OPEN_HELIX = "open-helix"
    ANY = "any"  # the standard leaves it to the maker; of a row only


@dataclass(frozen=True, slots=True)
class Between:
    """Two limits [mm], `low_mm` not above `high_mm`."""

    low_mm: float
    high_mm: float

    def __post_init__(self) -> None:
        if not 0 < self.low_mm <= self.high_mm:
            raise ValueError(f"limits reversed: {self.low_mm} to {self.high_mm} mm")


@dataclass(frozen=True, slots=True)
class OtherPressure:
    """A working pressure [bar] that another edition or table gives the same hose.

    `of` says whose it is; `until` is the year from which it no longer held, 0 where none is known.
    """

    bar: float
    of: str
    until: int
    source: str
    basis: Support


@dataclass(frozen=True, slots=True)
class Service:
    """What a type stands, each None where it is not known.

    Temperatures [deg C] of oil and of water; impulse cycles at `impulse_percent` of the working
    pressure and `impulse_c`; change of length under pressure [percent] longer and shorter. Each
    group has its own basis.
    """

    low_c: float | None = None
    high_c: float | None = None
    water_c: float | None = None
    temperature_basis: Support | None = None
    impulse_cycles: int | None = None
    impulse_percent: float | None = None
    impulse_c: float | None = None
    impulse_basis: Support | None = None
    impulse_note: str = ""
    longer_percent: float | None = None
    shorter_percent: float | None = None
    length_basis: Support | None = None
    media: str = ""
    not_for: str = ""


@dataclass(frozen=True, slots=True)
class HoseType:
    """A type of hose.

    `names` holds for each standard what is printed for the type; the first standard is the row's
    own. `trade` are trade words that may stand for it. `layers` are the numbers of reinforcement
    layers it may have, empty where the standard leaves them open. `dash_means` is "bore" or "tube":
    what the dash counts in 1/16 inch. `withdrawn` is the year it left its standard, 0 if it did
    not. `tell` says how it looks, `near` what is easily taken for it.
    """

    group: str
    key: str
    names: tuple[tuple[str, tuple[str, ...]], ...]
    trade: tuple[str, ...]
    layers: tuple[int, ...]
    layer_kind: LayerKind
    dash_means: str
    withdrawn: int
    tell: str
    near: str
    note: str
    service: Service

    @property
    def standards(self) -> tuple[str, ...]:
        """The standards that name the type."""
        return tuple(standard for standard, _ in self.names)


@dataclass(frozen=True, slots=True)
class Hose:
    """One type in one size.

    `dn` is the nominal size, `dash` as printed ("-8"), `nominal_mm` the bore that is ordered.
    `bore` and `outside` are limits, None where no source has them; of an `outside` with
    `outside_most_only` the lower limit is not known and stands as the bore's. `outside_seen` is
    the span of products that were measured. `rating_bar` is the working pressure on
    `rating_basis`; `others` are other pressures seen.
    """

    kind: HoseType
    dn: int
    dash: str
    nominal_mm: float
    bore: Between | None
    outside: Between | None
    outside_most_only: bool
    outside_seen: Between | None
    reinforcement: Between | None
    bend_radius_mm: float | None
    bend_basis: Support | None
    rating_bar: float | None
    rating_basis: Support | None
    others: tuple[OtherPressure, ...]
    confidence: Confidence
    provenance: Provenance
    bore_provenance: Provenance

    @property
    def id(self) -> str:
        """Name of the row: type and nominal size, as "2SN:12"."""
        return f"{self.kind.key}:{self.dn}"

    @property
    def name(self) -> str:
        """Type and nominal size in words: "2SN DN 12"."""
        return f"{self.kind.key} DN {self.dn}"

    @property
    def supported_bar(self) -> float | None:
        """The working pressure [bar] where its basis allows to state it."""
        return self.rating_bar if self.rating_basis in SUPPORTED else None


@dataclass(frozen=True, slots=True)
class HoseTables:
    """All hoses, in table order, and how their lines are read."""

    hoses: tuple[Hose, ...]
    habits: LineHabits


@dataclass(frozen=True, slots=True)
class Measured:
    """A length of a hose and how it was taken; `entered` is as typed."""

    length: Length
    how: How
    entered: str


@dataclass(frozen=True, slots=True)
class HoseMeasures:
    """What was measured and counted on a hose, each None where it was not.

    `layers` is the number of reinforcement layers, `kind` what they are.
    """

    bore: Measured | None = None
    outside: Measured | None = None
    layers: int | None = None
    kind: LayerKind | None = None

    @property
    def any(self) -> bool:
        """Whether there is anything."""
        return any(each is not None for each in (self.bore, self.outside, self.layers, self.kind))
