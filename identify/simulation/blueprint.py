"""What the tables say a part shows of each feature, as something parts can be drawn from.

Read straight from the rows, not by way of `reasoning.traits`, so that a fault there cannot hide in
the proof as well.
"""

from typing import TypeVar

from identify.frozen import NamedTuple, dataclass, field
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import (
    FEATURES,
    SHARES,
    SIZES,
    STATED,
    Feature,
    applies,
    gender_told,
)
from identify.model.rulebook import RuleBook
from identify.model.thread import Thread
from identify.reasoning.weigh_length import BORES


class Size(NamedTuple):
    """A length that makers aim at the middle of, with an even allowance beside it [mm]."""

    low: float
    high: float
    below: float
    above: float


class Span(NamedTuple):
    """A length of which only a span is known: even in its logarithm [mm].

    `chance` is how often there is anything to measure at all.
    """

    low: float
    high: float
    chance: float = 1.0


class Cone(NamedTuple):
    """A seat a gauge can be laid on: half angle [deg], and whether it is only a port's chamfer."""

    half_deg: float
    chamfer: bool


Truth = str | float | Cone
"""What one part really has of a feature; lengths in mm."""


class Options(NamedTuple):
    """A discrete figure: what it may be and how often; the shares total 1."""

    values: tuple[Truth, ...]
    shares: tuple[float, ...]


class Hexagons(NamedTuple):
    """Hexagons the tables name [mm], empty where none; and the thread they go round [mm]."""

    known_mm: tuple[float, ...]
    thread_mm: float


Figure = Size | Span | Options | Hexagons
LONGEST_MM = 100.0  # what nothing is known of, or is measured by mistake, lies within a caliper
ANY_HOSE = Options(tuple(map(float, BORES)), (1 / len(BORES),) * len(BORES))
T = TypeVar("T")
OIL_BORE = (0.3, 0.8)  # of the thread: where people measure when there is no step for a tube


@dataclass(frozen=True)
class Blueprint:
    """One way to make one row, or a stranger's way: what it is seen as, the figure of each feature.

    `seen_as` is the answer of `SEEN` that is right for it.
    """

    seen_as: str
    figures: dict[Feature, Figure] = field(default_factory=dict)


def certain(value: Truth) -> Options:
    """Return the figure that is always `value`."""
    return Options((value,), (1.0,))


def options(figure: Figure | None, sort: type[T]) -> list[tuple[T, float]]:
    """Return what of this sort a discrete figure may be, and how often; nothing of any other."""
    if not isinstance(figure, Options):
        return []
    return [(v, share) for v, share in zip(*figure, strict=True) if isinstance(v, sort)]


def anywhere(feature: Feature) -> Span:
    """Return the figure of a length of which nothing is known."""
    info = FEATURES[feature]
    high = min(info.high, LONGEST_MM)
    return Span(max(info.low, 0.06 * high), high)


def blueprint_of(end: EndConnection, seat: Seat, catalogue: Catalogue, book: RuleBook) -> Blueprint:
    """Return what a row shows when it is made with one of its seats."""
    model = book.observation
    thread = catalogue.thread_of(end, seat.thread)
    figures: dict[Feature, Figure] = {Feature.GENDER: certain(end.seen_as)}
    for feature in SIZES:
        figure = end.sizes.get(feature)
        if thread and end.is_eye and FEATURES[feature].unstated == "bolt":
            figure = figure or thread.major_mm
        if figure is not None and applies(feature, end.seen_as):
            slack = model.tolerances[feature]
            figures[feature] = Size(figure, figure, slack.below_mm, slack.above_mm)
    if end.gender == "flange":  # what the tables do not know can be measured all the same
        own = (feature for feature in SIZES if gender_told(feature) == "flange")
        figures = {feature: anywhere(feature) for feature in own} | figures
    if end.hose_dn:
        figures[Feature.HOSE_BORE] = certain(float(end.hose_dn))
    elif end.gender == "male":  # a port has no hose
        figures[Feature.HOSE_BORE] = ANY_HOSE
    if end.hexagons or thread:
        known = tuple(sorted({each.mm for each in end.hexagons}))
        figures[Feature.HEX] = Hexagons(known, thread.major_mm if thread else known[0])
    figures |= {feature: certain(getattr(end, feature)) for feature in STATED}
    for feature in SHARES:
        if applies(feature, end.seen_as):
            share = end.shares.get(feature, 0.0)
            figures[feature] = Options(FEATURES[feature].shown_or_not, (share, 1 - share))
    if thread is not None and end.gender in ("male", "female"):
        figures = thread_figures(end.gender, thread, book) | figures
        figures[Feature.HAND] = Options(("left", "right"), (end.left_hand, 1 - end.left_hand))
    half = None if seat.shape in (Shape.FLAT, Shape.BALL) else seat.half_angle_deg
    return Blueprint(end.seen_as, figures | seat_figures(str(seat.shape), half, seat.o_ring))


def thread_figures(gender: str, thread: Thread, book: RuleBook) -> dict[Feature, Figure]:
    """Return what a thread shows: crest, pitch, taper, form."""
    male = gender == "male"
    limits = thread.external if male else thread.internal
    crest = Feature.THREAD_OD if male else Feature.THREAD_ID
    figures: dict[Feature, Figure] = {
        Feature.PITCH: certain(thread.pitch_mm),
        Feature.TAPER: certain(thread.taper),
        Feature.FLANK_ANGLE: certain(f"{thread.flank_angle_deg:g}"),
    }
    if limits:
        slack = book.observation.tolerances[crest]
        figures[crest] = Size(
            limits.crest.low_mm, limits.crest.high_mm, slack.below_mm, slack.above_mm
        )
    if male:  # asked for a step that is not there, people measure the oil bore
        low, high = OIL_BORE
        oil = Span(low * thread.major_mm, high * thread.major_mm, book.observation.elsewhere)
        figures |= {each: oil for each in SIZES if FEATURES[each].unstated == "oil bore"}
    return figures


def seat_figures(shape: str, half_deg: float | None, o_ring: str) -> dict[Feature, Figure]:
    """Return what a seat shows: shape, place of a ring, angle where there is a cone."""
    figures: dict[Feature, Figure] = {
        Feature.SEAT_SHAPE: certain(shape),
        Feature.O_RING: certain(o_ring),
    }
    if half_deg is not None:
        figures[Feature.SEAT_ANGLE] = certain(Cone(half_deg, shape == "chamfer"))
    return figures
