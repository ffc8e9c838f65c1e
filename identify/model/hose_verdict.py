"""What was concluded of a hose: its ranked readings, what is missing, what does not agree."""

from identify.frozen import dataclass
from identify.model.hose import Hose
from identify.model.hose_line import PrintedDate
from identify.model.source import Support
from identify.model.verdict import VerdictKind


@dataclass(frozen=True, slots=True)
class HosePressure:
    """The working pressure of one reading [bar], and why it is that or is not stated.

    `bar` is None where nothing supports one; it is then to be looked up. `printed_bar` is that on
    the line, `table_bar` that of the tables where its basis allows to state it; where the two
    disagree (`conflict`) the lower of them is `bar`. `why` is a sentence.
    """

    bar: float | None
    printed_bar: float | None
    table_bar: float | None
    basis: Support | None
    conflict: bool
    why: str


@dataclass(frozen=True, slots=True)
class HoseReading:
    """One reading of a line or of what was measured.

    `standard` and `type_name` are as printed where they are legible, else the hose's own. `shown`
    are the words of the line that this reading explains, by field; `others_on_line` the words for
    another type or size that it does not.
    """

    hose: Hose
    standard: str
    type_name: str
    probability: float
    pressure: HosePressure
    shown: tuple[tuple[str, str], ...]
    types_beside: tuple[str, ...]
    sizes_beside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LowerHolds:
    """Readings that stand and carry different pressures.

    `bar` is the lowest where the tables support it, None where that is from memory.
    `types` are the types that stand, the lowest first; `ask` says what would tell them apart.
    """

    bar: float | None
    types: tuple[str, ...]
    ask: str


@dataclass(frozen=True, slots=True)
class AssemblyMark:
    """The mark of a made-up hose: its highest working pressure [bar], the month it was made."""

    bar: float
    month: str


@dataclass(frozen=True, slots=True)
class HoseVerdict:
    """The whole answer. `refused` says why the line is of no hydraulic hose, empty if it may be."""

    kind: VerdictKind
    readings: tuple[HoseReading, ...]
    none_of_these: float
    dates: tuple[PrintedDate, ...]
    missing: tuple[str, ...]
    lower: LowerHolds | None
    refused: str = ""
    assembly: AssemblyMark | None = None

    @property
    def date(self) -> str | None:
        """The one date on the line, None where there is none or it has two readings."""
        found = {text for each in self.dates for text in each.readings}
        return found.pop() if len(found) == 1 else None
