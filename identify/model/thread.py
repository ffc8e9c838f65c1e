"""A thread of one size, with its limits of size."""

import math

from identify.frozen import dataclass
from identify.model.source import Provenance


@dataclass(frozen=True, slots=True)
class Band:
    """A closed interval [mm]."""

    low_mm: float
    high_mm: float

    def __post_init__(self) -> None:
        if not self.low_mm <= self.high_mm:
            raise ValueError(f"limits reversed: {self.low_mm} mm is above {self.high_mm} mm")

    @property
    def middle_mm(self) -> float:
        """Middle of the band [mm]."""
        return (self.low_mm + self.high_mm) / 2


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of size of a male or a female thread.

    `crest` is what a caliper reads: the major diameter of a male, the minor diameter of a female.
    On a taper thread it spans all a caliper may read between the small end and the last full
    thread (male), or at the mouth (female). `pitch` is the pitch diameter; on a taper thread it
    holds at the gauge plane.
    """

    crest: Band
    pitch: Band


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread as its standard designates it.

    `taper` is growth of diameter per length along the axis (1/16 for pipe taper, 0 parallel).
    `major_mm`, `pitch_diameter_mm`, `minor_mm` are basic diameters, on a taper thread at the gauge
    plane. `small_end_mm` and `large_end_mm` are the basic crest diameters of a taper male at its
    small end and at the end of its useful thread, `gauge_length_mm` the distance from small end to
    gauge plane, `useful_length_mm` the length of useful thread. `external` or `internal` is None
    where the designation exists as one of the two only (R is male, Rc female).
    """

    COLUMNS = ("pitch_mm", "reach_mm")  # told of every thread before it is made

    designation: str
    system: str
    pitch_mm: float
    tpi: float | None
    flank_angle_deg: float
    taper: float
    major_mm: float
    pitch_diameter_mm: float
    minor_mm: float
    external: Limits | None
    internal: Limits | None
    provenance: Provenance
    small_end_mm: float | None = None
    large_end_mm: float | None = None
    gauge_length_mm: float | None = None
    useful_length_mm: float | None = None
    left_hand: bool = False

    def crest(self, gender: str) -> Band | None:
        """Return what a caliper reads across the crests of a new end [mm], None if not known."""
        limits = self.internal if gender == "female" else self.external
        return limits.crest if limits else None

    @property
    def reach_mm(self) -> tuple[float, float, float, float] | None:
        """How far a parallel thread reaches, as diameters [mm]; None of a taper.

        The smallest and the mean crest of a male, endless where there is none; the mean crest and
        the largest root of a female, 0 where there is none.
        """
        if self.taper:
            return None
        low = mean = math.inf
        bore = root = 0.0
        if self.external:
            crest = self.external.crest
            low, mean = crest.low_mm, (crest.low_mm + crest.high_mm) / 2
        if self.internal:
            bore = (self.internal.crest.low_mm + self.internal.crest.high_mm) / 2
            root = self.internal.pitch.high_mm + self.major_mm - self.pitch_diameter_mm
        return low, mean, bore, root

    @property
    def height_mm(self) -> float:
        """Basic height of thread engagement on one side [mm]."""
        return (self.major_mm - self.minor_mm) / 2

    @property
    def pitch_words(self) -> str:
        """The pitch as the standard states it."""
        return f"{self.tpi:g} tpi" if self.tpi else f"{self.pitch_mm:g} mm"
