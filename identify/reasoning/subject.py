"""What of an end connection each feature shows: from a row of the tables to a trait."""

from collections.abc import Callable
from typing import NamedTuple

from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import FEATURES, SIZES, Feature
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
    Share,
    ThreadOf,
    ThreadPitch,
    ThreadTaper,
    Trait,
    Word,
    mark_key,
)


class Subject(NamedTuple):
    """One way to make one row, or a thread with a seat we do not know (`end` and `seat` None)."""

    gender: str
    thread: Thread | None
    end: EndConnection | None
    seat: Seat | None

    @property
    def share(self) -> float:
        """How many of the row's ends are made this way [0..1]."""
        return self.seat.share if self.seat else 1.0


UNLISTED = "unlisted"  # a seat nobody lists, in the tables of reports
_OF_NONE = {
    True: (Feature.EYE_BORE, Feature.TUBE_OD),
    False: (Feature.RING_ID, Feature.RING_OD, Feature.RING_THICKNESS),
}  # of an eye, of a washer


def trait(feature: Feature, subject: Subject, model: ObservationModel) -> Trait:
    """Return what `feature` shows of `subject`."""
    return _TRAITS[feature](feature, subject, model)


def _gender(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end and subject.thread is None and subject.end.sizes.get(Feature.PLUG_OD):
        return Word("plug")
    return Word(subject.gender)


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
    genders = FEATURES[feature].genders
    if genders and subject.gender not in genders:
        return ABSENT
    end = subject.end
    if (
        feature is Feature.PLUG_OD
        and subject.thread
        and not (end and end.sizes.get(Feature.PLUG_OD))
    ):
        return ABSENT  # a thread is no plain plug
    if end is None:
        return UNKNOWN
    if end.gender == "none" and feature not in _OF_NONE["eye" in end.form_key]:
        return ABSENT  # a washer is no eye, an eye no washer
    figure = end.sizes.get(feature)
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


def _hand(_f: Feature, subject: Subject, model: ObservationModel) -> Trait:
    if subject.end is None:
        return Share(model.left_unlisted)
    return ABSENT if subject.thread is None else Share(round(subject.end.left_hand, 3))


def _shape(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(str(subject.seat.shape) if subject.seat else UNLISTED)


def _angle(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.seat is None:
        return UNKNOWN
    shape = subject.seat.shape
    half = 90.0 if shape is Shape.FLAT else subject.seat.half_angle_deg
    return Cone(None if shape is Shape.BALL else half, str(shape))


def _o_ring(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.seat.o_ring if subject.seat else UNLISTED)


def _ridge(_f: Feature, subject: Subject, model: ObservationModel) -> Trait:
    if subject.end is None:
        return Share(model.ridge_unlisted)
    return Share(subject.end.port_ridge or 0.0)


def _hexagon(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.end and subject.end.hexagons:
        return Hexagons(tuple(sorted({h.mm for h in subject.end.hexagons})))
    return HexagonOf(subject.thread.major_mm) if subject.thread is not None else UNKNOWN


def _hose(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    return HoseBore(end.hose_dn) if end and end.hose_dn else UNKNOWN


def _material(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.end.material) if subject.end else UNKNOWN


def _family(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    return Word(subject.end.family) if subject.end else UNKNOWN


def _marks(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    end = subject.end
    if end is None:
        return Marks(frozenset())
    marks = (end.size, end.dash or "", f"DN {end.hose_dn:g}" if end.hose_dn else "")
    every = (*marks, *_thread_marks(end.thread or ""))
    return Marks(frozenset(mark_key(mark) for mark in every if mark))


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


def _identity(_f: Feature, subject: Subject, _m: ObservationModel) -> Trait:
    if subject.thread is None:
        return ABSENT if subject.end else UNKNOWN
    return ThreadOf(subject.gender, subject.thread.designation)


_TRAITS: dict[Feature, Callable[[Feature, Subject, ObservationModel], Trait]] = {
    **dict.fromkeys(SIZES, _length),
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
    Feature.PORT_RIDGE: _ridge,
    Feature.HEX: _hexagon,
    Feature.HOSE_BORE: _hose,
    Feature.MATERIAL: _material,
    Feature.ORIGIN: _family,
    Feature.MARKING: _marks,
    Feature.TRIAL_FIT: _identity,
}
