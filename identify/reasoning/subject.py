"""What of an end connection each feature shows: from a row of the tables to a trait."""

from identify.frozen import NamedTuple
from identify.light import Callable
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import FEATURES, SHARES, SIZES, STATED, Feature, applies
from identify.model.observation import ObservationModel
from identify.model.thread import Thread
from identify.reasoning.traits import (
    ABSENT,
    UNKNOWN,
    Cone,
    HexagonOf,
    Hexagons,
    HoseBore,
    Interval,
    Marks,
    OilBore,
    OneOf,
    Share,
    ThreadOf,
    ThreadPitch,
    ThreadTaper,
    Trait,
    Word,
)


class Subject(NamedTuple):
    """One way to make one row, or an end in no table (`end` and `seat` None).

    Of an end in no table `shapes` are those its seat may have: with a thread we know none that is
    listed with it, unless a cone of another angle. `family` is set for a family of the tables in
    a size that they do not hold: then `seat` is the family's and only the sizes are open.
    """

    gender: str
    thread: Thread | None
    end: EndConnection | None
    seat: Seat | None
    shapes: tuple[str, ...] = ()
    family: str = ""
    mount: str = ""

    @property
    def share(self) -> float:
        """How many of the row's ends are made this way [0..1]."""
        return self.seat.share if self.seat else 1.0

    @property
    def seen_as(self) -> str:
        """The right answer to the question of gender."""
        return self.end.seen_as if self.end else self.gender


UNLISTED = "unlisted"  # a seat nobody lists, in the tables of reports


def trait(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    """Return what `feature` shows of `subject`."""
    return _TRAITS[feature](feature, subject, model)


def _gender(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.seen_as)


def _crest(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    wanted = "male" if feature is Feature.THREAD_OD else "female"
    thread = subject.thread
    if subject.gender == "none" and subject.end is None:
        return UNKNOWN
    if subject.gender != wanted:
        return ABSENT
    if thread is None:
        return ABSENT if subject.end else UNKNOWN
    crest = thread.crest(wanted)
    if crest is None:
        return UNKNOWN
    slack = model.tolerances[feature]  # plating; the limits are those before it
    return Interval(crest.low_mm - slack.below_mm, crest.high_mm + slack.above_mm)


def _length(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    info = FEATURES[feature]
    if not applies(feature, subject.seen_as):
        return ABSENT
    end = subject.end
    if info.plain and subject.thread and not (end and end.sizes.get(feature)):
        return ABSENT  # a thread is no plain plug and no plain socket
    if end is None:
        return UNKNOWN
    figure = end.sizes.get(feature)
    if figure is None and info.unstated and subject.thread:
        figure = subject.thread.major_mm
        if info.unstated == "oil bore":
            return OilBore(figure)
    if figure is None:
        return UNKNOWN
    slack = model.tolerances[feature]
    return Interval(figure - slack.below_mm, figure + slack.above_mm)


def _threaded(show: Callable[[Thread], Trait]) -> Callable[..., Trait]:
    def look(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
        if subject.thread is not None:
            return show(subject.thread) if subject.gender in ("male", "female") else ABSENT
        return ABSENT if subject.end else UNKNOWN

    return look


def _hand(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    if subject.end is None:
        return Share(model.unlisted[feature])
    return ABSENT if subject.thread is None else Share(round(subject.end.left_hand, 3))


def _shape(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(str(subject.seat.shape)) if subject.seat else OneOf(subject.shapes)


def _angle(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.seat is None:
        return UNKNOWN
    shape = subject.seat.shape
    half = 90.0 if shape is Shape.FLAT else subject.seat.half_angle_deg
    return Cone(None if shape is Shape.BALL else half, str(shape))


def _o_ring(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.seat.o_ring if subject.seat else UNLISTED)


def _share(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    if subject.end is None:
        return Share(model.unlisted[feature])
    return Share(subject.end.shares.get(feature, 0.0))


def _hexagon(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end and subject.end.hexagons:
        return Hexagons(tuple(sorted({h.mm for h in subject.end.hexagons})))
    return HexagonOf(subject.thread.major_mm) if subject.thread is not None else UNKNOWN


def _hose(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    return HoseBore(end.hose_dn) if end and end.hose_dn else UNKNOWN


def _stated(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    if subject.end is None:
        if feature is Feature.MOUNT and subject.mount:
            return Word(subject.mount)
        name = f"{UNLISTED} {subject.gender}"
        return Word(name) if name in model.reports[feature] else UNKNOWN
    return Word(getattr(subject.end, feature))


def _family(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.end.family) if subject.end else UNKNOWN


def _marks(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    if end is None:
        return Marks(frozenset())
    from identify.reading.names import size_names  # a start reads what was laid out

    return Marks(size_names(end))


def _identity(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.thread is None:
        return ABSENT if subject.end else UNKNOWN
    return ThreadOf(subject.gender, subject.thread.designation)


_TRAITS: dict[Feature, Callable[[Feature, Subject, ObservationModel], Trait]] = {
    **dict.fromkeys(SIZES, _length),
    **dict.fromkeys(SHARES, _share),
    **dict.fromkeys(STATED, _stated),
    Feature.GENDER: _gender,
    Feature.THREAD_OD: _crest,
    Feature.THREAD_ID: _crest,
    Feature.PITCH: _threaded(lambda thread: ThreadPitch(thread.pitch_mm)),
    Feature.TAPER: _threaded(lambda thread: ThreadTaper(thread.taper)),
    Feature.FLANK_ANGLE: _threaded(lambda thread: Word(f"{thread.flank_angle_deg:g}")),
    Feature.HAND: _hand,
    Feature.SEAT_SHAPE: _shape,
    Feature.SEAT_ANGLE: _angle,
    Feature.O_RING: _o_ring,
    Feature.HEX: _hexagon,
    Feature.HOSE_BORE: _hose,
    Feature.ORIGIN: _family,
    Feature.MARKING: _marks,
    Feature.TRIAL_FIT: _identity,
}
