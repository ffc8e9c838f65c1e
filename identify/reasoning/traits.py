"""What of an end connection each feature shows: the part of a row that decides a reading.

A trait is a small hashable value. Rows with equal traits answer a reading alike, so a reading is
weighed once a trait and not once a row.
"""

from collections.abc import Callable
from math import ceil, floor
from typing import NamedTuple

from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import FEATURES, Feature
from identify.model.observation import ObservationModel
from identify.model.thread import Thread

UNKNOWN = "unknown"  # the end has this feature, the tables do not give the figure
ABSENT = "absent"  # the end has no such feature: a reading of it is a mistake
Trait = object


class Subject(NamedTuple):
    """One way to make one row, or a thread with a seat we do not know (`end` and `seat` None)."""

    gender: str
    thread: Thread | None
    end: EndConnection | None
    seat: Seat | None


class Interval(NamedTuple):
    """Where a dimension of a new part lies [mm]."""

    low: float
    high: float


class OilBore(NamedTuple):
    """No step takes a tube here; who is asked for one measures the oil bore, if anything."""

    thread_mm: float


class Cone(NamedTuple):
    """A seat as a gauge meets it: half angle from the axis [deg], None where there is no cone."""

    half_deg: float | None
    shape: str


LENGTH_FIELDS = {
    Feature.TUBE_OD: "tube_od_mm",
    Feature.TUBE_BORE: "bore_mm",
    Feature.PLUG_OD: "plug_od_mm",
    Feature.SOCKET_BORE: "bore_mm",
    Feature.FLANGE_HEAD_OD: "flange_head_od_mm",
    Feature.FLANGE_HEAD_THICKNESS: "flange_head_thickness_mm",
    Feature.BOLT_SPACING_LONG: "bolt_spacing_long_mm",
    Feature.BOLT_SPACING_SHORT: "bolt_spacing_short_mm",
    Feature.EYE_BORE: "eye_bore_mm",
    Feature.RING_ID: "ring_id_mm",
    Feature.RING_OD: "ring_od_mm",
    Feature.RING_THICKNESS: "ring_thickness_mm",
}


_OF_NONE = {
    True: (Feature.EYE_BORE, Feature.TUBE_OD),
    False: (Feature.RING_ID, Feature.RING_OD, Feature.RING_THICKNESS),
}  # of an eye, of a washer


def trait(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    """Return what `feature` shows of `subject`, a hashable value that `likelihood` understands."""
    return _TRAITS[feature](feature, subject, model)


def _gender(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end and subject.thread is None and subject.end.plug_od_mm:
        return "plug"
    if subject.end and subject.thread is None and subject.end.bore_mm:
        return "socket"
    return subject.gender


def _crest(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    wanted = "male" if feature is Feature.THREAD_OD else "female"
    thread = subject.thread
    if subject.gender == "none" and subject.end is None:
        return UNKNOWN
    if subject.gender != wanted:
        return ABSENT
    if thread is None:
        return ABSENT if subject.end else UNKNOWN
    limits = thread.external if wanted == "male" else thread.internal
    if limits is None:
        return UNKNOWN
    slack = model.tolerances[feature]
    return Interval(limits.crest.low_mm - slack.below_mm, limits.crest.high_mm + slack.above_mm)


def _length(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    genders = FEATURES[feature].genders
    if genders and subject.gender not in genders:
        return ABSENT
    end = subject.end
    plain = LENGTH_FIELDS[feature] if feature in (Feature.PLUG_OD, Feature.SOCKET_BORE) else ""
    if plain and subject.thread and not (end and getattr(end, plain)):
        return ABSENT  # a thread is no plain plug and no plain socket
    if end is None:
        return UNKNOWN
    if end.gender == "none" and feature not in _OF_NONE["eye" in end.form_key]:
        return ABSENT  # a washer is no eye, an eye no washer
    figure = getattr(end, LENGTH_FIELDS[feature])
    if figure is None and feature is Feature.EYE_BORE and subject.thread:
        figure = subject.thread.major_mm  # the bolt passes through the eye
    if figure is None and feature is Feature.TUBE_BORE and subject.thread:
        return OilBore(subject.thread.major_mm)
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


def _hand(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end is None:
        return 0.01
    return ABSENT if subject.thread is None else round(subject.end.left_hand, 3)


def _shape(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return str(subject.seat.shape) if subject.seat else "unlisted"


def _angle(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.seat is None:
        return UNKNOWN
    shape = subject.seat.shape
    half = 90.0 if shape is Shape.FLAT else subject.seat.half_angle_deg
    return Cone(None if shape is Shape.BALL else half, str(shape))


def _o_ring(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return subject.seat.o_ring if subject.seat else "unlisted"


def _ridge(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end is None:
        return 0.05
    return subject.end.port_ridge or 0.0


def _hexagon(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end and subject.end.hexagons:
        return tuple(sorted({h.mm for h in subject.end.hexagons}))
    if subject.thread is not None:
        return subject.thread.major_mm
    return UNKNOWN


def _hose(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    return end.hose_dn if end and end.hose_dn else UNKNOWN


def _material(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return subject.end.material if subject.end else UNKNOWN


def _family(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return subject.end.family if subject.end else UNKNOWN


def _marks(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    if end is None:
        return frozenset()
    marks = (
        end.size,
        end.dash or "",
        *_bore_marks(end.hose_dn or 0),
        *_thread_marks(end.thread or ""),
    )
    return frozenset(mark_key(mark) for mark in marks if mark)


def _bore_marks(dn: float) -> tuple[str, ...]:
    """Return a hose bore as it may be stamped: DN 12.5 also as DN 12 and DN 13."""
    return tuple(f"DN {each:g}" for each in (dn, floor(dn), ceil(dn)) if each)


def _thread_marks(designation: str) -> tuple[str, ...]:
    """Return a thread as it may be stamped: whole, short, and in the trade's letters for pipe."""
    letters, _, size = designation.partition(" ")
    if designation.startswith("M"):
        return designation, letters.split("x")[0]
    if letters == "G":
        return designation, f"{size} BSP", f"{size} BSPP"
    if letters in ("R", "Rc", "Rp"):
        return designation, f"{size} BSP", f"{size} BSPT", f"{size} PT"
    named, _, series = designation.rpartition(" ")
    if series.startswith("UN"):  # "3/4-16 UNF", of which the series is often left off
        return designation, named
    if series.startswith("NP"):  # "1/2-14 NPT", mostly stamped without its pitch
        return designation, f"{named.rpartition('-')[0]} {series}"
    return (designation,)


def mark_key(text: str) -> str:
    """Return a stamped mark without blanks, in capitals, with × written X."""
    return "".join(text.upper().replace("×", "X").split())


def _identity(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.thread is None:
        return ABSENT if subject.end else UNKNOWN
    return (subject.gender, subject.thread.designation)


_TRAITS: dict[Feature, Callable[[Feature, Subject, ObservationModel], Trait]] = {
    **dict.fromkeys(LENGTH_FIELDS, _length),
    Feature.GENDER: _gender,
    Feature.THREAD_OD: _crest,
    Feature.THREAD_ID: _crest,
    Feature.PITCH: _threaded(lambda thread: thread.pitch_mm),
    Feature.TAPER: _threaded(lambda thread: thread.taper),
    Feature.FLANK_ANGLE: _threaded(lambda thread: f"{thread.flank_angle_deg:g}"),
    Feature.HAND: _hand,
    Feature.SEAT_SHAPE: _shape,
    Feature.SEAT_ANGLE: _angle,
    Feature.O_RING: _o_ring,
    Feature.PORT_RIDGE: _ridge,
    Feature.HEX: _hexagon,
    Feature.HOSE_BORE: _hose,
    Feature.MATERIAL: _material,
    Feature.ORIGIN: _family,
    Feature.MARKING: _marks,
    Feature.TRIAL_FIT: _identity,
}
