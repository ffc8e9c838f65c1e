"""A drawing as lines, cut regions, threads, dimensions and notes [mm].

The axis of a part is the line y = 0, its connecting end looks to the left, y grows upwards.
"""

from identify.frozen import StrEnum, dataclass, field
from identify.light import Iterable

Point = tuple[float, float]

NOT_TO_SCALE = "Proportions are not to scale where the tables give no figure."


class Kind(StrEnum):
    """What a line stands for, after ISO 128."""

    OUTLINE = "outline"  # visible edge: thick, continuous
    THREAD = "thread"  # crest, root and flank of a thread
    CENTRE = "centre"  # axis: thin, long dash and dot
    HATCH = "hatch"  # hatching, break and construction lines: thin, continuous
    HIDDEN = "hidden"  # hidden edge, or the lookalike laid over a candidate: dashed


class Fill(StrEnum):
    """What a closed region is made of."""

    CUT = "cut"  # metal, hatched rising to the right
    CUT_OTHER = "cut_other"  # metal of the neighbouring part, hatched falling to the right
    SEAL = "seal"  # elastomer, filled solid


class Side(StrEnum):
    """Where a label stands, seen from the part."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class Line:
    """A chain of straight pieces [mm]."""

    kind: Kind
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Region:
    """A closed region [mm]; its boundary is drawn by lines of its own."""

    fill: Fill
    points: tuple[Point, ...]


BROKEN = 4
"""Of so many teeth of a worn thread one is drawn broken, the first beginning."""


@dataclass(frozen=True, slots=True)
class ThreadRun:
    """A length of thread seen in profile, drawn as teeth or simplified by the back end.

    `start` and `end` lie on the crest line [mm]; `depth_mm` is the height of the profile, towards
    the axis for a male and away from it for a female. `cut` is None where the thread is seen from
    outside, else the fill of the metal. `kind` tells candidate from lookalike. `worn_mm` is what is
    gone from the crests: they are lower by it, and broader, and every `BROKEN`th tooth is mostly
    gone, so that wear is seen where it is less than a dot.
    """

    start: Point
    end: Point
    pitch_mm: float
    depth_mm: float
    male: bool
    flank_angle_deg: float = 60.0
    cut: Fill | None = None
    kind: Kind = Kind.THREAD
    left_hand: bool = False
    worn_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class Dimension:
    """A distance between two points [mm], measured along one axis.

    `side` says where the dimension line stands: left or right of the part for one along y, above
    or below it for one along x. `asked` marks the one a person is to measure.
    """

    start: Point
    end: Point
    side: Side
    label: str
    asked: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """A label with a leader to a point [mm]."""

    at: Point
    side: Side
    label: str
    asked: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """One drawing. `words` says the same in sentences, for those who cannot see it.

    `to_scale` tells that lengths can be read off it; a diagram has no scale bar.
    """

    title: str
    lines: tuple[Line, ...] = ()
    regions: tuple[Region, ...] = ()
    threads: tuple[ThreadRun, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    notes: tuple[Note, ...] = ()
    words: tuple[str, ...] = field(default=(NOT_TO_SCALE,))
    to_scale: bool = True

    @property
    def labelled(self) -> tuple[Dimension | Note, ...]:
        """All that carries a label, the least needed last."""
        return (*self.dimensions, *self.notes)

    @property
    def described(self) -> str:
        """The same content in sentences: for screen readers, line mode and small windows."""
        return " ".join(sentence.strip() for sentence in self.words if sentence.strip())

    def bounds(self) -> tuple[float, float, float, float]:
        """Return left, bottom, right, top of all that is drawn [mm], labels excepted."""
        points = [
            *(point for line in self.lines for point in line.points),
            *(point for region in self.regions for point in region.points),
            *(point for run in self.threads for point in (run.start, run.end)),
        ]
        across, up = [point[0] for point in points], [point[1] for point in points]
        return min(across), min(up), max(across), max(up)


def add_sheets(title: str, parts: Iterable[Sheet], words: tuple[str, ...]) -> Sheet:
    """Return one sheet holding everything the parts hold, with `words` in place of theirs."""
    parts = tuple(parts)
    return Sheet(
        title,
        tuple(line for part in parts for line in part.lines),
        tuple(region for part in parts for region in part.regions),
        tuple(run for part in parts for run in part.threads),
        tuple(dimension for part in parts for dimension in part.dimensions),
        tuple(note for part in parts for note in part.notes),
        words,
    )
