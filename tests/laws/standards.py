"""Figures that must come from a standard's own series: rings, wrenches, bolts, pressures, ports.

None of these series was read for this check in the standard's text; each is from memory, in the
unit in which it is remembered, and says so. It catches a slip of the pen, not a wrong memory.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from math import isclose

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Shape
from identify.model.feature import Feature
from tests.laws.registry import law

# SAE AS568 (ISO 3601-1): dash -> inside diameter, section [in]; from memory.
AS568 = {
    "011": (0.301, 0.070), "012": (0.364, 0.070), "014": (0.489, 0.070), "016": (0.614, 0.070),
    "018": (0.739, 0.070), "021": (0.926, 0.070), "025": (1.176, 0.070), "029": (1.489, 0.070),
    "210": (0.734, 0.139), "214": (0.984, 0.139), "219": (1.296, 0.139), "222": (1.484, 0.139),
    "225": (1.859, 0.139), "228": (2.234, 0.139), "232": (2.734, 0.139), "237": (3.359, 0.139),
    "241": (3.859, 0.139), "245": (4.359, 0.139), "253": (5.359, 0.139),
    "902": (0.239, 0.064), "903": (0.301, 0.064), "904": (0.351, 0.072), "905": (0.414, 0.072),
    "906": (0.468, 0.078), "908": (0.644, 0.087), "910": (0.755, 0.097), "912": (0.924, 0.116),
    "914": (1.047, 0.116), "916": (1.171, 0.116), "920": (1.475, 0.118), "924": (1.720, 0.118),
    "932": (2.337, 0.118),
}  # fmt: skip


def _ring(end: EndConnection) -> tuple[float, float, str] | None:
    if end.o_ring_size is None:
        return None
    match = re.fullmatch(r"([0-9.]+) x ([0-9.]+) mm(?: \(-([0-9]+)\))?", end.o_ring_size)
    return (float(match[1]), float(match[2]), match[3] or "") if match else (0.0, 0.0, "?")


@law
def inch_ring_is_of_as568(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if (ring := _ring(end)) and ring[2]:
            known = AS568.get(ring[2], (0.0, 0.0))
            if not all(abs(a - b * 25.4) < 0.006 for a, b in zip(ring, known, strict=False)):
                yield f"{end.id} ring {end.o_ring_size}"
        if ring and not ring[2] and {"orfs", "flange61", "flange62", "orb_un"} & {end.family}:
            yield f"{end.id} ring {end.o_ring_size} has no AS568 dash"


@law
def boss_ring_has_the_dash_of_its_tube(tables: Catalogue) -> Iterator[str]:
    """SAE J515: the ring of a -8 boss is -908 (from memory)."""
    for end in tables.ends:
        ring = _ring(end)
        if end.family == "orb_un" and ring and int(ring[2] or 0) != 900 - int(end.dash or 0):
            yield f"{end.id} ring {end.o_ring_size}"


@law
def ring_of_a_flange_is_wider_than_its_bore_and_inside_its_head(tables: Catalogue) -> Iterator[str]:
    """The ring lies between the bore and the edge of the head and grows with the size."""
    last: dict[tuple[str, str], float] = {}
    for end in tables.ends:
        ring = _ring(end)
        if ring and end.sealing in ("flange_o_ring", "o_ring_face"):
            inside, section, _ = ring
            head = end.sizes.get(Feature.FLANGE_HEAD_OD)
            if head and not (end.hose_dn or 0) < inside < inside + 2 * section < head:
                yield f"{end.id} ring {end.o_ring_size}"
            if inside <= last.get((end.family, end.form_key), 0):
                yield f"{end.id} ring {end.o_ring_size} not above the one before"
            last[end.family, end.form_key] = inside


@law
def metric_port_follows_its_pitch(tables: Catalogue) -> Iterator[str]:
    """ISO 6149: ring section, ring and mouth follow from thread and pitch (from memory).

    Pitch 1: section 1.6, ring d - 1.9, mouth d + 1.1. Pitch 1.5: 2.2, d - 2.7, d + 1.8.
    Pitch 2: 2.9, d - 3.4, d + 2.4. [mm]
    """
    rule = {1.0: (1.6, 1.9, 1.1), 1.5: (2.2, 2.7, 1.8), 2.0: (2.9, 3.4, 2.4)}
    for end in tables.ends:
        thread = tables.thread_of(end)
        if thread and end.family in ("orb_metric", "diagnostic_port"):
            section, less, more = rule[thread.pitch_mm]
            ring = _ring(end)
            expected = (thread.major_mm - less, section, "")
            if ring and not all(isclose(a, b) for a, b in zip(ring[:2], expected, strict=False)):
                yield f"{end.id} ring {end.o_ring_size}"
            mouth = end.seat_mouth_mm
            if mouth and not isclose(mouth, thread.major_mm + more):
                yield f"{end.id} mouth {mouth:g}"
            ridge = end.shares.get(Feature.PORT_RIDGE)
            if ridge is not None and not 0.5 < ridge < 1:
                yield f"{end.id} ridge {ridge:g}"  # optional in ISO 6149, yet usual


@law
def only_iso_6149_ports_have_a_ridge(tables: Catalogue) -> Iterator[str]:
    """The raised ring marks the metric O-ring port; that is what it is for (ISO 6149-1)."""
    for end in tables.ends:
        ridge = end.shares.get(Feature.PORT_RIDGE)
        if ridge and end.family not in ("orb_metric", "diagnostic_port"):
            yield f"{end.id} ridge {ridge:g}"


METRIC_WRENCHES = (
    7, 9, 10, 11, 12, 14, 17, 19, 22, 24, 27, 30, 32, 36, 41, 46, 50, 55, 60, 65, 70, 75,
)  # fmt: skip
INCH_WRENCHES = (
    "3/8 7/16 1/2 9/16 5/8 11/16 3/4 13/16 7/8 15/16 1 1-1/16 1-1/8 1-1/4 1-3/8 1-7/16 1-1/2 "
    "1-5/8 1-3/4 1-7/8 2 2-1/8 2-1/4 2-3/8 2-1/2 2-5/8 2-3/4 2-7/8 3"
)


@law
def hexagon_fits_a_wrench(tables: Catalogue) -> Iterator[str]:
    """ISO 272 and the older DIN widths in mm, ASME B18.2.2 sixteenths in inches (from memory)."""
    inches = [
        25.4 * float(sum(Fraction(part) for part in words.split("-")))
        for words in INCH_WRENCHES.split()
    ]
    for end in tables.ends:
        for hexagon in end.hexagons:
            in_inches = any(abs(hexagon.mm - width) < 0.02 for width in inches)
            if not in_inches and hexagon.mm not in METRIC_WRENCHES:
                yield f"{end.id} hexagon {hexagon.mm:g}"


# ISO 2944 and DIN pressures, and SAE ratings in psi as rounded to bar (from memory).
PRESSURES = {
    10, 12, 14, 20, 63, 80, 100, 125, 160, 200, 210, 250, 275, 300, 315, 320, 350, 400, 414, 420,
    630, 700, 34, 75, 105, 135, 138, 140, 170, 172, 205, 207, 240, 276, 310, 345,
}  # fmt: skip


@law
def pressure_is_a_step_of_a_series(tables: Catalogue) -> Iterator[str]:
    """But for copper tube in 45 degree flares, where the tube governs."""
    for end in tables.ends:
        bar = end.rating.bar
        if bar is not None and bar not in PRESSURES and end.family != "flare45":
            yield f"{end.id} {bar:g} bar"


# Coarse screws by diameter (ASME B1.1, from memory), and the metric screws of ISO 6162.
COARSE = {"5/16": 18, "3/8": 16, "7/16": 14, "1/2": 13, "5/8": 11, "3/4": 10}
SCREWS = ("M5", "M6", "M8", "M10", "M12", "M14", "M16", "M20", "M22", "M24", "M30")


@law
def flange_screws_are_coarse_and_of_one_strength(tables: Catalogue) -> Iterator[str]:
    """Metric and inch screws of a pattern are within 1.1 mm, and never get thinner with size.

    But on gear pumps, whose makers chose each for himself.
    """
    last: dict[str, float] = {}
    for end in tables.ends:
        if end.bolt_metric is None:
            continue
        metric = float(end.bolt_metric[1:].partition("x")[0])
        thinner = metric < last.get(end.family, 0) and end.family != "flange_pump_square"
        if end.bolt_metric not in SCREWS or thinner:
            yield f"{end.id} {end.bolt_metric}"
        last[end.family] = metric
        if end.bolt_inch:
            size, _, tpi = end.bolt_inch.partition("-")
            if COARSE.get(size) != int(tpi):
                yield f"{end.id} {end.bolt_inch}"
            elif abs(float(Fraction(size)) * 25.4 - metric) > 1.2:
                yield f"{end.id} {end.bolt_inch} and {end.bolt_metric}"


@law
def banjo_eye_takes_its_bolt(tables: Catalogue) -> Iterator[str]:
    """DIN 7643: the eye is bored to the thread of its hollow bolt; inch eyes are a little wider."""
    for end in tables.ends:
        thread = tables.thread_of(end)
        play = (end.sizes.get(Feature.EYE_BORE) or 0) - thread.major_mm if thread else 0.0
        fits = 0.05 < play < 0.5 if end.family == "banjo_un" else isclose(play, 0, abs_tol=1e-9)
        if thread and end.sizes.get(Feature.EYE_BORE) and not fits:
            yield f"{end.id} eye {end.sizes.get(Feature.EYE_BORE):g}"


@law
def washer_clears_its_thread(tables: Catalogue) -> Iterator[str]:
    """The hole of a bonded washer is 0.5 to 1.1 mm wider than the thread; metric ones 0.7 (common
    practice). That of a plain metric ring is 0.2 wider, from 24 mm on 0.3 (DIN 7603, from memory).
    """
    for end in tables.ends:
        thread = tables.thread_of(end)
        if thread and end.sizes.get(Feature.RING_ID):
            gap = end.sizes.get(Feature.RING_ID) - thread.major_mm
            metric = 0.7 if end.family == "bonded_washer" else 0.2 if thread.major_mm < 24 else 0.3
            least = 0.5 if end.family == "bonded_washer" else 0.2
            if not (isclose(gap, metric) if thread.system == "M" else least < gap < 1.1):
                yield f"{end.id} hole {end.sizes.get(Feature.RING_ID):g}"


@law
def spotface_of_a_flat_port_takes_the_stud(tables: Catalogue) -> Iterator[str]:
    """It leaves a seat of 2.5 to 7 mm round the thread (ISO 9974, ISO 1179); 25 mm at the most."""
    for end in tables.ends:
        thread = tables.thread_of(end)
        if thread and end.spotface_mm and end.sealing == "bonded_washer":
            if not 2.2 < (end.spotface_mm - thread.major_mm) / 2 < 5:
                yield f"{end.id} spotface {end.spotface_mm:g}"
            if end.spotface_mm % 1:
                yield f"{end.id} spotface {end.spotface_mm:g} is no whole millimetre"


@law
def second_value_differs_from_the_first(tables: Catalogue) -> Iterator[str]:
    """`also_seen` holds what was not taken, so it is never what was."""
    for end in tables.ends:
        for seen in end.also_seen:
            taken = {
                "rating": end.rating.bar and f"{end.rating.bar:g} bar",
                "bolt_metric": end.bolt_metric,
                "o_ring_size": end.o_ring_size,
            }.get(seen.field)
            if taken == seen.value:
                yield f"{end.id} {seen.field} {seen.value} twice"


@law
def second_pressure_is_a_step_of_a_series(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        for seen in end.also_seen:
            number = seen.value.removesuffix(" bar")
            if seen.field == "rating" and float(number) not in PRESSURES | {35, 175, 280, 413}:
                yield f"{end.id} {seen.value}"


@law
def rating_is_the_lowest_known_for_the_row(tables: Catalogue) -> Iterator[str]:
    """What one visible part may be is rated at the lowest of it; the others stand beside it."""
    for end in tables.ends:
        for seen in end.also_seen:
            bar = end.rating.bar
            if seen.field == "rating" and bar and bar > float(seen.value.removesuffix(" bar")):
                yield f"{end.id} {bar:g} bar, but also seen {seen.value}"


@law
def parts_that_look_alike_show_the_lower_rating(tables: Catalogue) -> Iterator[str]:
    """Ends of one series name and another that no reading can part, L and S above all."""
    lowest: dict[tuple[object, ...], EndConnection] = {}
    for end in sorted(tables.ends, key=lambda end: end.rating.bar or 0):
        if end.rating.bar and end.thread and not end.refuse:
            twin = lowest.setdefault(_what_is_seen(end), end)
            if twin.rating.bar != end.rating.bar:
                yield f"{end.id} {end.rating.bar:g} bar, {twin.id} {twin.rating.bar} looks alike"


def _what_is_seen(end: EndConnection) -> tuple[object, ...]:
    """Return everything of an end that can be read off the part, but for mouths and spotfaces."""
    seats = frozenset((seat.shape, seat.half_angle_deg, seat.o_ring) for seat in end.seats)
    sizes = (
        end.sizes.get(Feature.TUBE_OD),
        end.sizes.get(Feature.TUBE_BORE),
        end.sizes.get(Feature.PLUG_OD),
        end.sizes.get(Feature.RING_ID),
        end.sizes.get(Feature.EYE_BORE),
    )
    return end.gender, end.thread, seats, sizes, end.o_ring_size


# Highest pressure of an adjustable stud of the light series: published scope of EN ISO 6149-3;
# ISO 11926-3 and the older steps of DIN 2353, which flat studs follow, are from memory.
LIGHT_STUDS = {"orb_metric": 315, "orb_un": 250, "port_metric_flat": 250}
HEAVY_ONLY = ("port_metric_flat:M20x1.5", "port_metric_flat:M27x2")


@law
def stud_shows_its_light_series_and_says_so(tables: Catalogue) -> Iterator[str]:
    """Thread, ring and port of the heavy series are the same, so its pressure is never the one."""
    for end in tables.ends:
        if end.family in LIGHT_STUDS and not end.id.startswith(HEAVY_ONLY):
            if (end.rating.bar or 0) > LIGHT_STUDS[end.family]:
                yield f"{end.id} {end.rating.bar} bar is above a light stud"
            if end.rating.bar and "light (L) series" not in end.rating.note:
                yield f"{end.id} does not say which series its {end.rating.bar:g} bar is of"


@law
def ring_is_where_the_sealing_has_it(tables: Catalogue) -> Iterator[str]:
    """The O-ring of a sealing system stands where its name says."""
    place = {"flange_o_ring": "flange", "o_ring_boss": "boss", "o_ring_face": "face"}
    for end in tables.ends:
        rings = {seat.o_ring for seat in end.seats} - {"none"}
        allowed = {place.get(end.sealing, "nose")}
        if end.sealing == "bonded_washer":
            # a profile ring in the shoulder (form E), or an O-ring in a retainer (G studs)
            allowed = {"captive", "boss"} if end.gender == "male" else set()
        if end.sealing == "coupling" or (end.sealing == "cone" and end.gender == "male"):
            allowed = set()  # the ring is in the socket, or on the nose of the female
        if end.refuse:  # guard families: only where the words of the form name a ring
            allowed = {"face", "boss", "nose"} if "ring" in f"{end.form} {end.seal}" else set()
        if rings - allowed:
            yield f"{end.id} ring at {sorted(rings)}"
        needs = end.sealing == "flange_o_ring" or (
            end.sealing in ("o_ring_boss", "o_ring_face") and end.gender == "male"
        )
        if needs and not rings and not end.refuse:
            yield f"{end.id} has no ring"
        if end.gender == "female" and end.sealing in ("o_ring_boss", "o_ring_face") and rings:
            yield f"{end.id} has the ring of its male"
        plug = any(seat.shape is Shape.PLUG for seat in end.seats)  # the bore has no ring
        worn = [end.form_key.endswith(("o-ring-nose",)), end.sealing == "spigot" and plug]
        if any(worn) and rings != {"nose"}:
            yield f"{end.id} has no ring on its nose"
        says = "O-ring" in end.form or "O-ring" in end.seal
        if rings and not says and not end.refuse and end.sealing != "bonded_washer":
            yield f"{end.id} has a ring its words do not name"


SHAPES = {  # what the sealing means needs on a part (common practice)
    "bonded_washer": ("flat",),
    "flat_washer": ("flat",),
    "flange_o_ring": ("flat",),
    "o_ring_face": ("flat", "none"),
    "o_ring_boss": ("chamfer", "flat", "none"),
    "thread_taper": ("none", "concave"),
    "coupling": ("plug", "none"),
    "spigot": ("plug", "none"),
    "cone": ("convex", "concave", "ball", "none"),
    "flare": ("convex", "concave"),
}


@law
def shape_is_that_of_the_sealing(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        shapes = {seat.shape.value for seat in end.seats}
        bare = shapes == {"none"}
        if shapes - set(SHAPES[end.sealing]):
            yield f"{end.id} {sorted(shapes)} for {end.sealing}"
        sealed = bare and end.sealing in ("cone", "coupling", "o_ring_face")
        bore = {Feature.TUBE_BORE, Feature.SOCKET_BORE} & end.sizes.keys()
        bored = bore or end.family in ("testpoint", "tool_coupling_720")
        if sealed and not end.refuse and not bored:
            yield f"{end.id} has nothing to seal on"
        if "chamfer" in shapes and end.gender != "female":
            yield f"{end.id} a chamfered mouth on a male"
        ways = {(s.shape, s.half_angle_deg, s.o_ring, s.thread) for s in end.seats}
        if len(ways) < len(end.seats):
            yield f"{end.id} has two ways that are one"


# Half angles of seats that the trade makes: 24, 30 (chamfers), 60, 74, 84, 90, 115 included; a tube
# coned for ultra-high pressure has 59 where its port has 60.
HALF_ANGLES = (12, 15, 29.5, 30, 37, 42, 45, 57.5)


@law
def half_angle_is_one_that_is_made(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        for seat in end.seats:
            if seat.half_angle_deg and seat.half_angle_deg not in HALF_ANGLES:
                yield f"{end.id} {seat.half_angle_deg:g}"


@law
def cone_in_a_taper_male_is_of_sixty_degrees(tables: Catalogue) -> Iterator[str]:
    """The chamfer that meets a swivel with 60 degree nose (SAE J514, JIS B 8363; from memory)."""
    for end in tables.ends:
        angles = {seat.half_angle_deg for seat in end.seats if seat.half_angle_deg}
        if end.sealing == "thread_taper" and angles - {30}:
            yield f"{end.id} {angles}"


@law
def rounded_nose_is_a_ball(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        for seat in end.seats:
            if seat.part.startswith(("rounded", "ball")) != (seat.shape is Shape.BALL):
                yield f"{end.id} {seat.shape}: {seat.part}"


@law
def boss_ring_meets_a_chamfered_mouth(tables: Catalogue) -> Iterator[str]:
    """An O-ring port is chamfered (in air brakes flat ones exist too), its stud has no seat."""
    for end in tables.ends:
        boss = end.sealing == "o_ring_boss" or end.form_key == "female-boss"
        shapes = [seat.shape for seat in end.seats]
        if boss and end.gender == "female" and Shape.CHAMFER not in shapes:
            yield f"{end.id} {shapes}"
        wrong = {Shape.NONE} if end.gender == "female" else {Shape.FLAT}
        if boss and wrong & set(shapes):
            yield f"{end.id} {shapes}"
