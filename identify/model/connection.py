"""An end connection: thread, seat and sealing means of one size and gender."""

from identify.frozen import StrEnum, dataclass, field
from identify.light import Mapping, Sequence
from identify.model.feature import FEATURES, PLAIN, Feature
from identify.model.source import Confidence, Provenance, Support


class Shape(StrEnum):
    """What a seat truly is; what people report of it is `Feature.SEAT_SHAPE`."""

    CONVEX = "convex"
    CONCAVE = "concave"
    FLAT = "flat"
    BALL = "ball"
    CHAMFER = "chamfer"  # mouth of an O-ring boss port
    PLUG = "plug"  # plain cylindrical spigot
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Seat:
    """One way the seat of an end is made.

    `half_angle_deg` is from the axis, None where there is no cone. `o_ring` says where a ring or
    its groove is seen on THIS part. `share` is the part of all ends of the row made this way;
    the shares of a row total 1. `thread` names the thread of this variant where a row allows
    several (Rc or Rp), else the row's own. `part` says in words which piece carries the seat.
    """

    shape: Shape
    half_angle_deg: float | None = None
    o_ring: str = "none"
    share: float = 1.0
    thread: str = ""
    part: str = ""


class Across(StrEnum):
    """Which hexagon a figure belongs to."""

    NUT = "nut"
    BODY = "body"


@dataclass(frozen=True, slots=True)
class Hexagon:
    """A hexagon seen on this end [mm across flats]."""

    part: Across
    mm: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Rating:
    """Highest working pressure [bar] the tables support; `bar` None means unknown."""

    bar: float | None
    basis: Support | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class AlsoSeen:
    """A second value found for one field and not taken; it is shown beside the first.

    `value` is in the source's own words, `note` says why it was not taken.
    """

    field: str
    value: str
    source: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """Support of a single field where it is not that of the whole row."""

    field: str
    provenance: Provenance


UNASKED = {
    "seat_mouth": "mouth of the seat",
    "spotface": "spotface",
    "side": "side of the square",
}
"""Fields of a row that hold a figure [mm] nobody is asked to measure, in words."""


@dataclass(frozen=True, slots=True)
class EndConnection:
    """One row of the catalogue.

    `id` is what a person types: family, size and form key ("flare37:-4:male"); `family` and `size`
    are table keys, `size` as the trade writes it, `dash` sixteenths of an inch as text. `gender`
    is one of `GENDERS`, `mount` one of `MOUNTS`: the thread turns on the hose, tube or stem
    (swivel), is cut on the body (fixed), into a block (port) or on what goes into one and seals at
    its shoulder (stud), or nothing is screwed (none). `sizes` holds what of `feature.SIZES` the
    tables know [mm], the three fields after it what nobody is asked to measure (`UNASKED` names
    them), None where the tables do not know it; `shares` what they know of `feature.SHARES` [0..1].
    `seats` has at least one entry. `mates` lists what it is meant for, as "family:form_key" of the
    same size or as a full id. `tell_by` is one sentence on how to recognise it. `refuse` is empty,
    or says why this end must not be handled as a hydraulic one. `figures` names the fields whose
    support differs from `provenance`, `also_seen` the values found and not taken. `usual_name` is
    what the trade mostly calls the family, empty where it uses the family's own name; `also_called`
    are names of this form alone.
    """

    COLUMNS = (
        "id",
        "gender",
        "thread",
        "threads",
        "family",
        "form_key",
        "hose_dn",
    )  # told of every row before it is made

    id: str
    family: str
    family_name: str
    standards: tuple[str, ...]
    gender: str
    form: str
    form_key: str
    mount: str
    size: str
    thread: str | None
    seats: tuple[Seat, ...]
    sealing: str
    seal: str
    provenance: Provenance
    confidence: Confidence
    rating: Rating
    dash: str | None = None
    hose_dn: float | None = None
    sizes: Mapping[Feature, float] = field(default_factory=dict, hash=False)
    seat_mouth_mm: float | None = None
    spotface_mm: float | None = None
    side_mm: float | None = None
    bolt_metric: str | None = None
    bolt_inch: str | None = None
    o_ring_size: str | None = None
    shares: Mapping[Feature, float] = field(default_factory=dict, hash=False)
    left_hand: float = 0.0  # share of such ends with a left-hand thread
    hexagons: tuple[Hexagon, ...] = ()
    material: str = "steel"
    mates: tuple[str, ...] = ()
    tell_by: str = ""
    refuse: str = ""
    notes: tuple[str, ...] = ()
    figures: Sequence[Figure] = ()
    also_seen: Sequence[AlsoSeen] = ()
    usual_name: str = ""
    also_called: tuple[str, ...] = ()

    @property
    def threads(self) -> tuple[str, ...]:
        """The threads it is made with, by designation; nothing but a seat names another."""
        named = (seat.thread or self.thread for seat in self.seats)
        return tuple(sorted({name for name in named if name}))

    @property
    def is_washer(self) -> bool:
        """Whether it goes between two others."""
        return Feature.RING_ID in self.sizes

    @property
    def is_eye(self) -> bool:
        """Whether a bolt passes through it."""
        return self.seen_as == "eye"

    @property
    def seen_as(self) -> str:
        """The answer of `SEEN` that is right for it: its gender, or what it is without a thread."""
        if self.gender == "none":
            return "washer" if self.is_washer else "eye"
        plain = (FEATURES[each].plain for each in PLAIN if not self.thread and each in self.sizes)
        return next(plain, self.gender)

    @property
    def title(self) -> str:
        """Family and size in words, for a heading."""
        usual = f" ({self.usual_name})" if self.usual_name else ""
        return f"{self.family_name}{usual}, {self.size}"

    @property
    def named(self) -> str:
        """The title with the gender, where the end has one."""
        return f"{self.title}, {self.gender}" if self.gender in ("male", "female") else self.title


@dataclass(frozen=True, slots=True)
class Family:
    """What all sizes of one standard family share.

    `usual_name` is what the trade mostly calls it, empty where it uses `name`; `also_called` are
    other names in general use by the trade or a standard.
    """

    key: str
    name: str
    standards: tuple[str, ...]
    sealing: str
    about: str = ""
    refuse: str = ""
    file: str = ""
    usual_name: str = ""
    also_called: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """Its name, with what the trade mostly calls it."""
        return f"{self.name} ({self.usual_name})" if self.usual_name else self.name
