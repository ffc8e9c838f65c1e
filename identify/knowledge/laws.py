"""What must hold of every thread, end and family, whatever the source: geometry and order.

Each law takes checked values and yields one sentence for each breach; it knows no file. They are
applied when tables are read, and again by the tests to every shipped row.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from math import hypot

from identify.model.connection import Across, EndConnection, Shape
from identify.model.feature import FEATURES, Feature
from identify.model.thread import Limits, Thread

NUT_TO_THREAD = (1.05, 2.4)  # across flats over thread diameter, common practice
BODY_TO_THREAD = (0.85, 3.0)
_MOUNTS = {"male": ("swivel", "fixed", "stud"), "female": ("swivel", "fixed", "port")}
TUBE_PLAY_MM = 0.6  # the counterbore of a 24 deg male is bored to the tube, H11 or wider


def thread_laws(thread: Thread) -> Iterator[str]:
    """Yield what is wrong with one thread."""
    name = f'thread "{thread.designation}"'
    if thread.tpi and abs(thread.tpi * thread.pitch_mm - 25.4) > 1e-6:
        yield f"{name}: {thread.tpi:g} tpi is not a pitch of {thread.pitch_mm:g} mm; give one only"
    if not thread.minor_mm < thread.pitch_diameter_mm < thread.major_mm:
        yield f"{name}: minor, pitch and major diameter do not ascend; check pitch and major"
    for words, limits in (("male", thread.external), ("female", thread.internal)):
        if limits and not limits.pitch.low_mm > 0:
            yield f"{name}: the {words} limits reach zero; check the pitch"
        if limits and not _crest_outside_pitch(limits, words == "male"):
            yield f"{name}: the {words} crest lies on the wrong side of the pitch diameter"


def _crest_outside_pitch(limits: Limits, male: bool) -> bool:
    if male:
        return limits.crest.high_mm > limits.pitch.high_mm
    return limits.crest.low_mm < limits.pitch.low_mm


def end_laws(end: EndConnection, thread: Thread | None) -> Iterator[str]:
    """Yield what is wrong with one row; `thread` is its own thread."""
    for feature, value in end.sizes.items():
        info = FEATURES[feature]
        if not info.low <= value <= info.high:
            yield (
                f"{info.field} is {value:g} mm, outside {info.low:g} to "
                f"{info.high:g} mm; check the unit"
            )
    may = _MOUNTS.get(end.gender, ())
    may = may if may and thread else (*may, "none")
    if end.mount not in may:
        yield f"mount is {end.mount}; of this end it is one of {', '.join(may)}"
    yield from _order_laws(end)
    yield from _flange_laws(end)
    if thread:
        yield from _thread_laws_of(end, thread)


def _order_laws(end: EndConnection) -> Iterator[str]:
    for small, large, why in (
        (Feature.RING_ID, Feature.RING_OD, "a washer is wider outside than inside"),
        (Feature.BOLT_SPACING_SHORT, Feature.BOLT_SPACING_LONG, "exchange them"),
        (Feature.TUBE_OD, Feature.TUBE_BORE, "the tube goes into the bore"),
    ):
        low, high = end.sizes.get(small), end.sizes.get(large)
        equal_is_fine = small is not Feature.RING_ID
        if low and high and not (low < high or (equal_is_fine and low == high)):
            names = FEATURES[small].field, FEATURES[large].field
            yield f"{names[0]} {low:g} mm is not below {names[1]} {high:g} mm; {why}"
    bore, tube = end.sizes.get(Feature.TUBE_BORE), end.sizes.get(Feature.TUBE_OD)
    if bore and end.seat_mouth_mm and not bore < end.seat_mouth_mm:
        yield (
            f"bore {bore:g} mm is not below seat_mouth {end.seat_mouth_mm:g} mm; "
            "a cone is widest at its mouth"
        )
    if tube and bore and bore - tube > TUBE_PLAY_MM:
        yield (
            f"bore {bore:g} mm is more than {TUBE_PLAY_MM:g} mm above tube_od {tube:g} mm; "
            "the tube would rattle in it"
        )


def _flange_laws(end: EndConnection) -> Iterator[str]:
    long, short, head = (
        end.sizes.get(Feature.BOLT_SPACING_LONG),
        end.sizes.get(Feature.BOLT_SPACING_SHORT),
        end.sizes.get(Feature.FLANGE_HEAD_OD),
    )
    if bool(long) != bool(short):
        yield "gives one bolt spacing only; give bolt_spacing_long and bolt_spacing_short"
    if long and short and head:
        bolt = float(Fraction((end.bolt_metric or "M0").split("x")[0].lstrip("M")))
        if not hypot(long, short) > head + bolt:
            yield (
                f"bolts {hypot(long, short):.1f} mm apart corner to corner cut into a head of "
                f"{head:g} mm; check spacing and head"
            )
    if end.side_mm and long and not end.side_mm > long:
        yield f"side {end.side_mm:g} mm is not above the bolt spacing {long:g} mm; exchange them"


def _thread_laws_of(end: EndConnection, thread: Thread) -> Iterator[str]:
    if end.gender == "male" and not thread.external:
        yield f'thread "{thread.designation}" is a female thread on a male end; name the male one'
    if end.gender == "female" and not thread.internal:
        yield f'thread "{thread.designation}" is a male thread on a female end; name the female one'
    for hexagon in end.hexagons:
        low, high = NUT_TO_THREAD if hexagon.part is Across.NUT else BODY_TO_THREAD
        if not low <= hexagon.mm / thread.major_mm <= high:
            yield (
                f"{hexagon.part} hexagon of {hexagon.mm:.4g} mm is unlikely on a thread of "
                f"{thread.major_mm:.4g} mm; check figure and unit"
            )
    if end.spotface_mm and not end.spotface_mm > thread.major_mm:
        yield (
            f"spotface {end.spotface_mm:g} mm is not wider than the thread "
            f"{thread.major_mm:.4g} mm; check it"
        )
    cone_inside = end.gender == "male" and any(s.shape is Shape.CONCAVE for s in end.seats)
    if cone_inside and end.seat_mouth_mm and not end.seat_mouth_mm < thread.major_mm:
        yield (
            f"seat_mouth {end.seat_mouth_mm:g} mm is not inside the male thread of "
            f"{thread.major_mm:.4g} mm; check it"
        )


def order_laws(
    ends: Sequence[EndConnection], threads: Mapping[str, Thread]
) -> Iterator[tuple[EndConnection, str]]:
    """Yield each row that breaks the ascending order of its series, with a sentence.

    A series is one form of one table file with the same letters in its size (L, S) and the same
    thread system. In it neither dash nor thread diameter may fall from row to row.
    """
    last: dict[tuple[str, ...], tuple[float, float, EndConnection]] = {}
    for end in ends:
        thread = threads[end.thread] if end.thread else None
        letters = "".join(filter(str.isalpha, end.size))
        system = thread.system if thread else ""
        series = (end.provenance.file, end.form_key, letters, system)
        dash = float((end.dash or "").lstrip("-") or 0)
        major = thread.major_mm if thread else 0.0
        if series in last:
            dash_before, major_before, before = last[series]
            if (dash and dash < dash_before) or major < major_before - 1e-6:
                yield end, f'comes after size "{before.size}", which is larger; sort the sizes'
        last[series] = dash or last.get(series, (0.0,))[0], major, end
