"""The sheet of a hose that is to be made: what was entered of it, read into values.

Lengths in millimetres, pressures in bar, temperatures in degrees Celsius, angles in degrees. None
or "" stands for what nobody entered. The fields of a part carry the names under which a person
enters them (`sheets.entries`), so that a field and its question cannot drift apart.
"""

from identify.frozen import StrEnum, dataclass
from identify.model.connection import EndConnection
from identify.model.hose import Hose, Measured
from identify.model.hose_line import HoseLine


class EndShape(StrEnum):
    """How an end leaves the hose."""

    STRAIGHT = "straight"
    BENT_45 = "45"
    BENT_90 = "90"
    BANJO = "banjo"
    BLOCK = "block"

    @property
    def bent(self) -> bool:
        """Whether it points away from the hose, so that its position matters."""
        return self is not EndShape.STRAIGHT


@dataclass(frozen=True, slots=True)
class SheetEnd:
    """One end of the hose and the port it goes to.

    `held` is "swivel" or "fixed". `position` is where it points [deg], seen along the hose from A
    to B, counted counter-clockwise from 12 o'clock. `known` and `port_known` are "measured" or
    "claimed". `measured_to` is the point the length is
    measured from. `cut_off` and `insertion` are entered from the data of the end (`data`); `bore`
    is the narrowest bore of its insert. `hand` and `port_hand` are "right" or "left". `rating` and
    `port_rating` are entered from the data that `rating_from` and `port_rating_from` name.
    """

    end: EndConnection | None = None
    known: str = ""
    shape: EndShape | None = None
    held: str = ""
    hand: str = ""
    position: float | None = None
    measured_to: str = ""
    pieces: str = ""
    cut_off: float | None = None
    insertion: float | None = None
    bore: float | None = None
    data: str = ""
    rating: float | None = None
    rating_from: str = ""
    port: EndConnection | None = None
    port_known: str = ""
    port_hand: str = ""
    port_rating: float | None = None
    port_rating_from: str = ""


@dataclass(frozen=True, slots=True)
class SheetHose:
    """The old hose, as far as it is known, and the new one.

    `line`, `bore`, `outside`, `layers` are of the old hose; `new` is the type and size to make it
    of, None where it is to be as the old one. `rating` and `bend` (least radius to the inside) are
    those of the new hose by the data that `data` names. `stated_by` says, where no old hose is at
    hand, who states bore and pressure.
    """

    line: HoseLine | None = None
    bore: Measured | None = None
    outside: Measured | None = None
    layers: str = ""
    stated_by: str = ""
    new: Hose | None = None
    rating: float | None = None
    bend: float | None = None
    data: str = ""


@dataclass(frozen=True, slots=True)
class SheetLength:
    """The overall length, how it was measured, the tolerance that holds for it.

    `error`, `cut_error`, `data_error` are how far measuring, cutting and each of cut-off and
    insertion may be off.
    """

    overall: float | None = None
    how: str = ""
    tolerance: str = ""
    error: float | None = None
    cut_error: float | None = None
    data_error: float | None = None


@dataclass(frozen=True, slots=True)
class SheetAngle:
    """The angle of two bent ends as it was stated, from end A on, and in which convention."""

    angle: float | None = None
    convention: str = ""


@dataclass(frozen=True, slots=True)
class Span:
    """Two limits, `low` not above `high`."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class SheetUse:
    """What the hose is for and how it lies.

    `line` is pressure, return or suction. `peaks` are the highest pressures that occur. `route`
    is the shortest length that the way needs between the measuring points; `bend_radius` its
    tightest bend to the inside, over `bend_angle`; `travel` how far one end moves. `viscosity` is
    that at the temperature of the oil, `cold_viscosity` at a cold start.
    """

    medium: str = ""
    temperature: Span | None = None
    pressure: float | None = None
    peaks: float | None = None
    line: str = ""
    routing: str = ""
    route: float | None = None
    bend_radius: float | None = None
    bend_angle: float | None = None
    travel: float | None = None
    flow: float | None = None
    viscosity: float | None = None
    cold_viscosity: float | None = None
    density: float | None = None


@dataclass(frozen=True, slots=True)
class SheetMaking:
    """What the workshop enters: nothing of it is proposed.

    `target`, `plus`, `minus` are the diameter to squeeze to and how far it may be off, by `data`;
    `dies` those at hand; `division` what one division of the dial stands for. `squeezed_a` and
    `squeezed_b` were measured afterwards. `clean` is the class wanted, `counted` the one found.
    """

    target: float | None = None
    plus: float | None = None
    minus: float | None = None
    data: str = ""
    dies: tuple[float, ...] = ()
    division: float | None = None
    squeezed_a: tuple[float, ...] = ()
    squeezed_b: tuple[float, ...] = ()
    clean: tuple[int, ...] = ()
    counted: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetJob:
    """Whose hose it is, how many, and who answers for the figures."""

    reference: str = ""
    machine: str = ""
    quantity: int | None = None
    measured_by: str = ""
    checked_by: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class HoseSheet:
    """All that was entered of one hose; `entered` holds it as it was typed, by path."""

    job: SheetJob = SheetJob()
    a: SheetEnd = SheetEnd()
    b: SheetEnd = SheetEnd()
    hose: SheetHose = SheetHose()
    length: SheetLength = SheetLength()
    angle: SheetAngle = SheetAngle()
    use: SheetUse = SheetUse()
    making: SheetMaking = SheetMaking()
    entered: tuple[tuple[str, str], ...] = ()
