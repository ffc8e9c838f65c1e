"""The kinds of thing a feature may show: a closed set, one small hashable value each.

A trait is the part of a row that decides a reading. Rows with equal traits answer a reading alike,
so a reading is weighed once a trait and not once a row. `subject` says which trait a row shows.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, NamedTuple, StrEnum

if TYPE_CHECKING:
    from typing import Final


class Missing(StrEnum):
    """Why there is no figure."""

    UNKNOWN = "unknown"  # the end has this feature, the tables do not give the figure
    ABSENT = "absent"  # the end has no such feature: a reading of it is a mistake


UNKNOWN: Final = Missing.UNKNOWN
ABSENT: Final = Missing.ABSENT


class Interval(NamedTuple):
    """Where a dimension of a new part lies [mm]."""

    low: float
    high: float


class OilBore(NamedTuple):
    """No step takes a tube here; who is asked for one measures the oil bore, if anything."""

    thread_mm: float


class Hexagons(NamedTuple):
    """Hexagons the tables name, across flats [mm], smallest first."""

    known_mm: tuple[float, ...]


class HexagonOf(NamedTuple):
    """No hexagon is named; it goes round a thread of this diameter [mm]."""

    thread_mm: float


class HoseBore(NamedTuple):
    """The hose this end is crimped to, by nominal bore [mm]."""

    nominal_mm: float


class ThreadPitch(NamedTuple):
    """A pitch [mm]."""

    mm: float


class ThreadTaper(NamedTuple):
    """Growth of the diameter per length along the axis, 0 for a parallel thread."""

    growth: float

    @property
    def word(self) -> str:
        """The answer that is right for it."""
        return "tapered" if self.growth else "parallel"


class Cone(NamedTuple):
    """A seat as a gauge meets it: half angle from the axis [deg], None where there is no cone."""

    half_deg: float | None
    shape: str


class Word(NamedTuple):
    """What is there, as the tables of reports name it."""

    name: str


class OneOf(NamedTuple):
    """One of several things, each as often, as the tables of reports name them."""

    names: tuple[str, ...]


class Share(NamedTuple):
    """How many of such ends show it: a left-hand thread, a ridge round the port [0..1]."""

    share: float


class Marks(NamedTuple):
    """What may be stamped on it, as `mark_key` writes marks."""

    keys: frozenset[str]


class ThreadOf(NamedTuple):
    """Gender and designation of its thread."""

    gender: str
    designation: str


Sized = Interval | OilBore | Hexagons | HexagonOf | HoseBore
Trait = (
    Sized | ThreadPitch | ThreadTaper | Cone | Word | OneOf | Share | Marks | ThreadOf | Missing
)  # fmt: skip
