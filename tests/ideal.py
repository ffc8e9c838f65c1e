"""The readings of a perfect part by a perfect person: every known figure at its middle."""

from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import FEATURES, SIZES, Feature, Kind, applies
from identify.model.reading import Angle, Basis, Choice, How, Length, Pitch, Reading, Value
from identify.model.thread import Thread

_SHOWN = {Shape.CHAMFER: "none", Shape.PLUG: "none"}


def ideal_readings(end: EndConnection, seat: Seat, thread: Thread | None) -> tuple[Reading, ...]:
    """Return a reading of every figure the tables give for one way of making an end.

    Args:
        end: The row.
        seat: One of its seats.
        thread: The thread of that seat, None where there is none.
    """
    values: dict[Feature, Value] = {Feature.GENDER: Choice(end.seen_as)}
    for feature in SIZES:
        figure = end.sizes.get(feature)
        if figure is not None and applies(feature, end.seen_as):
            values[feature] = Length(figure)
    if thread is not None and "eye" in end.form_key:
        values.setdefault(Feature.EYE_BORE, Length(thread.major_mm))
    if thread is not None and end.gender in ("male", "female"):
        values |= _thread(end.gender, thread)
        values[Feature.MOUNT] = Choice(end.mount)
    values[Feature.SEAT_SHAPE] = Choice(_SHOWN.get(seat.shape, str(seat.shape)))
    values[Feature.O_RING] = Choice(seat.o_ring)
    if seat.half_angle_deg is not None and seat.shape is not Shape.FLAT:
        values[Feature.SEAT_ANGLE] = Angle(seat.half_angle_deg, Basis.HALF)
    return tuple(Reading(f, values[f], _how(f), "") for f in FEATURES if f in values)


def _thread(gender: str, thread: Thread) -> dict[Feature, Value]:
    values: dict[Feature, Value] = {
        Feature.PITCH: Pitch(thread.pitch_mm, thread.tpi is not None),
        Feature.FLANK_ANGLE: Choice(f"{thread.flank_angle_deg:g}"),
        Feature.TAPER: Choice("tapered" if thread.taper else "parallel"),
    }
    if gender == "male" and thread.external:
        values[Feature.THREAD_OD] = Length(thread.external.crest.middle_mm)
    if gender == "female" and thread.internal:
        values[Feature.THREAD_ID] = Length(thread.internal.crest.middle_mm)
    return values


def _how(feature: Feature) -> How:
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return How.CALIPER
    return How.GAUGE if kind in (Kind.PITCH, Kind.ANGLE) else How.EYE
