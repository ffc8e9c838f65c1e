"""What an exercise is: a part, what is shown of it, what may be answered. It holds no answer."""

from identify.drawing.outline import Sheet
from identify.frozen import NamedTuple, StrEnum, dataclass
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.model.rule import Tool
from identify.model.verdict import Hazard
from identify.simulation.parts import Part


class Kind(StrEnum):
    """The sorts of exercise."""

    CONE = "cone"  # does the cone point out, or is it cut in?
    PIPE = "pipe"  # G, NPT or R
    LEAF = "leaf"  # which leaf of the pitch gauge, and what thread
    ANGLE = "angle"  # half or included
    SIZE = "size"  # trade size against measure
    PART = "part"  # a whole part


TITLES = {
    Kind.CONE: "Cone: out or in?",
    Kind.PIPE: "Pipe thread: G, R or NPT?",
    Kind.LEAF: "Which leaf, and what thread?",
    Kind.ANGLE: "Seat angle: half or included?",
    Kind.SIZE: "Trade size against measure",
    Kind.PART: "A whole part",
}
_CREST = (Feature.THREAD_OD, Feature.THREAD_ID)
ABOUT: dict[Kind, tuple[Feature, ...]] = {
    Kind.CONE: (Feature.SEAT_SHAPE,),
    Kind.PIPE: (*_CREST, Feature.PITCH, Feature.TAPER, Feature.FLANK_ANGLE),
    Kind.LEAF: (*_CREST, Feature.PITCH),
    Kind.ANGLE: (Feature.SEAT_ANGLE,),
    Kind.SIZE: (*_CREST, Feature.PITCH),
    Kind.PART: tuple(Feature),
}
"""The features that a kind of exercise is about."""
CANNOT_TELL, STOP = "cannot-tell", "stop"
"""Answers that name no end: the readings leave it open; it is no hydraulic end."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two that are confused. The schedule knows nothing smaller.

    `one` and `other` name them (a family, a thread system, a pitch, a half angle), `words` says
    both to a person, `sides` each; the second side is empty where one family is confused in itself.
    `examples` are rows of the tables that show it, the first of each as `one`. `hazard` is the
    worse of taking either for the other, `common` how usual the rows are.
    """

    kind: Kind
    one: str
    other: str
    words: str
    sides: tuple[str, str]
    examples: tuple[tuple[int, int], ...]
    hazard: Hazard = Hazard.LOW
    common: float = 0.0

    @property
    def key(self) -> str:
        """Its name in a file."""
        return f"{self.kind}/{self.one}/{self.other}"


Shown = tuple[str, Sheet]
"""A picture; with a label it is one of several strips under each other."""


class Option(NamedTuple):
    """One answer: its key, its words, and the rows of the tables that it names."""

    key: str
    words: str
    rows: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise.

    `truth` is the row that lies there and `part` the piece made from it, `confused` the row that it
    is taken for. `shown` are the readings on the displays; `whole` what a full measurement without
    a slip gives. `by_eye` tells that the answer is seen on the picture, so that the engine is asked
    with the whole measurement. `pictures` are drawn above the question. `tools` lie on the bench
    beside a whole part; `left_open` tells that even the engine's own way leaves it open.
    """

    pair: Pair
    seed: str
    level: int
    truth: EndConnection
    confused: EndConnection
    part: Part
    question: str
    options: tuple[Option, ...]
    shown: tuple[Reading, ...]
    whole: tuple[Reading, ...]
    pictures: tuple[Shown, ...] = ()
    tools: frozenset[Tool] = frozenset()
    by_eye: bool = False
    left_open: bool = False

    @property
    def judged(self) -> tuple[Reading, ...]:
        """The readings that the engine is asked with."""
        return self.whole if self.by_eye else self.shown
