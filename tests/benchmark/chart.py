"""The printed-chart method, to compare with: nearest nominal size and pitch, then the seat."""

import math
from collections.abc import Sequence

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat
from identify.model.feature import SIZES, Feature, agrees
from identify.model.reading import Angle, Basis, Choice, Length, Pitch, Reading, Value
from identify.model.thread import Thread

NEAR_MM = 0.3  # one step of a chart in diameter
NEAR_PITCH = 0.03  # and in pitch, relative
ANGLE_DEG = 3.0


def chart_ranking(readings: Sequence[Reading], catalogue: Catalogue) -> list[int]:
    """Return rows as a chart gives them, best first; ties stand in the order of the tables.

    A chart lists one nominal figure a size. The thread is the one nearest in diameter and pitch;
    of the ends on it the one whose seat differs least from what was seen. Ends without a thread go
    by their other figures.
    """
    said = {reading.feature: reading.value for reading in readings}
    gender = said.get(Feature.GENDER)
    rows = [
        row
        for row, end in enumerate(catalogue.ends)
        if not isinstance(gender, Choice) or agrees(gender.word, end.seen_as)
    ]
    scored = [(_away(said, catalogue, row), row) for row in rows]
    return [row for _, row in sorted(scored)]


def _away(said: dict[Feature, Value], catalogue: Catalogue, row: int) -> tuple[float, float]:
    end = catalogue.ends[row]
    thread = catalogue.thread_of(end)
    size = _thread(said, end, thread) if thread and end.gender in ("male", "female") else 0.0
    if thread is None and said.keys() & {Feature.PITCH, Feature.THREAD_OD, Feature.THREAD_ID}:
        size = 1e6  # a thread was measured
    plain = [
        (value.mm - end.sizes[feature]) / NEAR_MM
        if feature in end.sizes
        else 10.0 * (thread is None)
        for feature in SIZES
        if isinstance(value := said.get(feature), Length)
    ]
    other = sum(each**2 for each in plain)
    seat = min(_seat(said, each) for each in end.seats)
    return (round(size, 2), seat + other) if thread else (size + other, seat)


def _thread(said: dict[Feature, Value], end: EndConnection, thread: Thread) -> float:
    away = 0.0
    male = end.gender == "male"
    crest = said.get(Feature.THREAD_OD if male else Feature.THREAD_ID)
    if isinstance(crest, Length):
        away += ((crest.mm - (thread.major_mm if male else thread.minor_mm)) / NEAR_MM) ** 2
    pitch = said.get(Feature.PITCH)
    if isinstance(pitch, Pitch):
        away += (math.log(pitch.mm / thread.pitch_mm) / NEAR_PITCH) ** 2
    taper = said.get(Feature.TAPER)
    if isinstance(taper, Choice) and (taper.word == "tapered") != (thread.taper > 0):
        away += 1.0
    return away


def _seat(said: dict[Feature, Value], seat: Seat) -> float:
    away = 0.0
    shape, angle, ring = (
        said.get(f) for f in (Feature.SEAT_SHAPE, Feature.SEAT_ANGLE, Feature.O_RING)
    )
    if isinstance(shape, Choice) and shape.word != seat.shape:
        away += 1.0
    if isinstance(ring, Choice) and ring.word != seat.o_ring:
        away += 1.0
    if isinstance(angle, Angle) and seat.half_angle_deg is not None:
        half = angle.deg if angle.basis is not Basis.INCLUDED else angle.deg / 2
        if abs(half - seat.half_angle_deg) > ANGLE_DEG:
            away += 1.0
    elif isinstance(angle, Angle):
        away += 1.0
    return away
