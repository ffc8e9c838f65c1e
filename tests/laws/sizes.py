"""What a size says in its own words, and what families share because one standard made them.

Each law is a rule of the trade or of a standard, not a copy of the tables; where the rule itself
was recalled and not read, its docstring says from memory.
"""

import re
from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from math import isclose

from identify.model.catalogue import Catalogue
from identify.model.connection import UNASKED, EndConnection, Shape
from identify.model.feature import OF_FIELD, Feature
from identify.threads.designation import parse
from tests.laws.registry import law
from tests.laws.standards import HEAVY_ONLY
from tests.shipped import figure_of

INCH_TUBE = ("flare37", "flare45", "inverted45", "flareless24_inch", "orb_un")
PIPE = ("orb_g", "bspp60", "bspp_flat", "jis30_g", "jis_pt", "r_taper", "npt", "npsm60", "banjo_g")
COUPLINGS = (
    "qc7241a", "qc7241b", "qc16028", "screw_coupling", "tool_coupling_720", "flange_jis_square",
)  # fmt: skip
_INCH = r"[0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+"


def _inch(words: str) -> float:
    return float(sum(Fraction(part) for part in words.split()))


def threads_named(end: EndConnection) -> Iterator[str]:
    """Yield the beginning of the thread that a size is named after."""
    size = end.size
    if match := re.match(rf"(G|R)({_INCH})(?= |$)", size):
        letters = {"R": "R" if end.gender == "male" else "Rc", "G": "G"}[match[1]]
        yield f"{letters} {match[2]}"
    elif match := re.match(r"M[0-9]+x[0-9.]+( keg)?", size):
        yield match[0]
    elif match := re.match(r"M[0-9]+(?= )", size):
        yield f"{match[0]}x"
    elif match := re.match(rf"({_INCH}) (NPT|NPSM)", size):
        yield f"{match[1]}-"
    elif match := re.match(r"[0-9]+/[0-9]+-[0-9.]+( NH)?", size):
        yield match[0]


@law
def size_named_after_a_thread_has_that_thread(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        for name in threads_named(end):
            if not (end.thread or "").startswith(name) or (
                name.startswith(("G ", "R", "M")) and name[-1] != "x" and end.thread != name
            ):
                yield f"{end.id} has {end.thread}"
        for letters in ("NPT", "NPSM"):
            if end.size.endswith(letters) and not (end.thread or "").endswith(f" {letters}"):
                yield f"{end.id} has {end.thread}"


@law
def variant_of_a_thread_has_its_size(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        own = {(end.thread or "").partition(" ")[2]}
        if {s.thread.partition(" ")[2] for s in end.seats if s.thread} - own:
            yield end.id


@law
def size_named_after_a_tube_has_that_tube(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if match := re.fullmatch(r"([0-9.]+)(LL|L|S)|tube ([0-9.]+)", end.size):
            if end.sizes.get(Feature.TUBE_OD) != float(match[1] or match[3]):
                yield f"{end.id} has tube {end.sizes.get(Feature.TUBE_OD)}"
            if match[2] and end.family != f"cone24_{match[2]}":
                yield f"{end.id} stands in the wrong series"
        if (match := re.fullmatch(rf"({_INCH}) tube", end.size)) and not isclose(
            end.sizes.get(Feature.TUBE_OD) or 0, _inch(match[1]) * 25.4
        ):
            yield f"{end.id} has tube {end.sizes.get(Feature.TUBE_OD)}"
        if (match := re.fullmatch(r"M[0-9]+ ([0-9]+)", end.size)) and (
            end.gender == "female" and end.sizes.get(Feature.PLUG_OD) != float(match[1])
        ):
            yield f"{end.id} has spigot {end.sizes.get(Feature.PLUG_OD)}"


@law
def ring_is_named_by_its_nominal_hole_and_width(tables: Catalogue) -> Iterator[str]:
    """A new ring is 0.2 or 0.3 mm wider inside and 0.1 narrower outside (from memory)."""
    for end in tables.ends:
        if end.family == "flat_ring":
            hole, width = map(float, end.size.split("x"))
            wider, narrower = (
                (end.sizes.get(Feature.RING_ID) or 0) - hole,
                width - (end.sizes.get(Feature.RING_OD) or 0),
            )
            if not (isclose(wider, 0.2 if hole < 24 else 0.3) and isclose(narrower, 0.1)):
                ring = end.sizes.get(Feature.RING_ID), end.sizes.get(Feature.RING_OD)
                yield f"{end.id} is {ring[0]} by {ring[1]}"


@law
def size_named_after_a_bore_has_that_bore(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        match = re.fullmatch(r"(?:DN )?([0-9.]+)", end.size)
        named = end.family in COUPLINGS or end.size.startswith("DN ")
        called = float(match[1]) if match else 0.0
        if named and end.hose_dn != CALLED.get(called, called):
            yield f"{end.id} has bore {end.hose_dn}"


@law
def size_named_by_its_dash_has_that_dash(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if end.size.startswith("-") and end.size != end.dash:
            yield f"{end.id} has dash {end.dash}"


@law
def every_size_is_named_in_a_known_way(tables: Catalogue) -> Iterator[str]:
    """Outside guard families a size is a thread, a dash, a tube, a bore or inches."""
    known = re.compile(
        rf"-[0-9]+|[0-9]+(LL|L|S)|tube [0-9.]+|(DN )?[0-9.]+|({_INCH}) (in|tube|NPT|NPSM)"
        rf"|[GR]({_INCH})|M[0-9]+x[0-9.]+( keg)?|M22 1[45]|[0-9.]+x[0-9.]+"
        rf"|PCD [0-9]+( M[0-9]+)?|({_INCH})-[0-9]+"
    )
    for end in tables.ends:
        if not end.refuse and end.family != "cone_thread_hp" and not known.fullmatch(end.size):
            yield end.id


@law
def dash_is_sixteenths_of_the_nominal_size(tables: Catalogue) -> Iterator[str]:
    """Tube OD of inch tube ends, pipe size of pipe threads, bore of flanges [1/16 in]."""
    for end in tables.ends:
        nominal = None
        if end.family in INCH_TUBE:
            nominal = (end.sizes.get(Feature.TUBE_OD) or 0) / 25.4
        elif end.family in PIPE and end.thread:
            nominal = float(parse(end.thread).size)
        elif match := re.fullmatch(rf"({_INCH}) in", end.size):
            nominal = _inch(match[1])
        if nominal is not None and not isclose(nominal * 16, -int(end.dash or 0)):
            yield f"{end.id} has dash {end.dash}"


# Bore of the hose [mm] by dash: the nominal bores of ISO 4397, from memory, which is what hose_dn
# holds. -14, -56 and -80 are no steps of it; theirs are the sixteenths themselves.
BORES = {
    -2: 3.2, -3: 5, -4: 6.3, -5: 8, -6: 10, -8: 12.5, -10: 16, -12: 19, -14: 22, -16: 25, -20: 31.5,
    -24: 38, -32: 51, -40: 63, -48: 76, -56: 89, -64: 102, -80: 127,
}  # fmt: skip
# Sizes of pipe that ISO 6164 has and no hose has.
PIPE_BORES = (56, 70, 80)
# What the trade and older lists call some of these bores (common practice).
CALLED = {
    6: 6.3, 9: 10, 12: 12.5, 13: 12.5, 15: 16, 20: 19, 31: 31.5, 32: 31.5, 40: 38, 50: 51, 65: 63,
}  # fmt: skip


@law
def one_dash_is_one_bore(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if end.hose_dn and end.hose_dn not in (*BORES.values(), *PIPE_BORES):
            yield f"{end.id} has bore {end.hose_dn:g}, no step of ISO 4397"
        if end.dash and end.hose_dn and end.hose_dn != BORES[int(end.dash)]:
            yield f"{end.id} has bore {end.hose_dn:g}, and {end.dash} is {BORES[int(end.dash)]:g}"


@law
def bore_of_a_dash_is_its_sixteenths(tables: Catalogue) -> Iterator[str]:
    """The nominal bore is the dash in sixteenths, rounded by half a millimetre at the most."""
    for end in tables.ends:
        if end.dash and end.hose_dn and abs(-int(end.dash) * 25.4 / 16 - end.hose_dn) > 0.6:
            yield f"{end.id} has bore {end.hose_dn:g}"


@law
def sizes_ascend_in_every_dimension(tables: Catalogue) -> Iterator[str]:
    """Within one form of a series, no dimension of a larger size is smaller.

    But plain rings, which are sold in several widths for one hole.
    """
    fields = ("hose_dn", *UNASKED, *(field for field in OF_FIELD if field != "plug_od"))
    last: dict[tuple[str, ...], float] = {}
    for end in tables.ends:
        system = tables.threads[end.thread].system if end.thread else ""
        for field in fields:
            value = figure_of(end, field)
            key = (end.family, end.form_key, system, field)
            widths = end.family == "flat_ring" and field == "ring_od"
            if value is not None and not widths:
                if value < last.get(key, 0):
                    yield f"{end.id} {field} {value:g} after {last[key]:g}"
                last[key] = value


@law
def pressure_never_rises_with_size(tables: Catalogue) -> Iterator[str]:
    """Thin walls on large bores; studs that only the heavy series has are a line of their own."""
    last: dict[tuple[str, str, bool], float] = {}
    for end in tables.ends:
        if end.rating.bar is None:
            continue
        key = (end.family, end.form_key, end.id.startswith(HEAVY_ONLY))
        if end.rating.bar > last.get(key, 1e9) and not end.refuse and end.family != "testpoint":
            yield f"{end.id} {end.rating.bar:g} bar after {last[key]:g}"
        last[key] = end.rating.bar


@law
def parts_of_a_size_share_thread_and_pressure(tables: Catalogue) -> Iterator[str]:
    """Male and female of one size are one joint; R goes into Rc, a ball nose may have no rating.

    A 37 degree swivel nut is rated below its male: a lower column of SAE J514 (from memory).
    """
    joints: dict[tuple[str, str], list[EndConnection]] = defaultdict(list)
    for end in tables.ends:
        joints[end.family, end.size].append(end)
    for (family, size), ends in joints.items():
        threads = {(end.thread or "").replace("Rc ", "R ") for end in ends}
        pressures = {end.rating.bar for end in ends} - {None}
        if family == "flare37":
            bars = {end.gender: end.rating.bar for end in ends}
            nut, body = bars.get("female"), bars.get("male")
            pressures = {nut, body} if nut and body and nut >= body else set()
        for name, values in (("thread", threads), ("pressure", pressures)):
            if len(values) > 1:
                yield f"{family}:{size} has {name} {sorted(map(str, values))}"


SHARED_THREADS = (
    # SAE J514 and J1926: flares, flareless ends and O-ring bosses of one tube have one thread.
    ("flare37", "orb_un"),
    ("flare37", "flareless24_inch"),
    ("flare37", "aerospace_inch"),
    ("orb_un", "aerospace_inch"),
    ("orb_un", "flareless24_inch"),
)


def _threads_by_dash(tables: Catalogue, family: str) -> dict[str | None, str | None]:
    return {end.dash: end.thread for end in tables.ends if end.family == family}


@law
def inch_tube_ends_of_one_dash_share_their_thread(tables: Catalogue) -> Iterator[str]:
    for one, other in SHARED_THREADS:
        ours, theirs = _threads_by_dash(tables, one), _threads_by_dash(tables, other)
        for dash in set(ours) & set(theirs):
            if ours[dash] != theirs[dash]:
                yield f"{one} and {other} differ at {dash}"


@law
def the_two_flares_share_their_thread_at_six_sizes_only(tables: Catalogue) -> Iterator[str]:
    """SAE J512 and J514: -2 -3 -4 -5 -8 -10 have one thread, the known trap; others do not."""
    ours, theirs = _threads_by_dash(tables, "flare37"), _threads_by_dash(tables, "flare45")
    same = {dash for dash in set(ours) & set(theirs) if ours[dash] == theirs[dash]}
    if same != {"-2", "-3", "-4", "-5", "-8", "-10"}:
        yield f"shared are {sorted(map(str, same))}"


@law
def tube_lies_inside_the_thread(tables: Catalogue) -> Iterator[str]:
    """The tube passes through its nut: the thread is at least 2 mm wider, but not twice as wide."""
    for end in tables.ends:
        thread = tables.thread_of(end)
        if (
            thread
            and end.sizes.get(Feature.TUBE_OD)
            and end.sealing in ("cone", "flare", "o_ring_face")
        ):
            gap = thread.major_mm - end.sizes.get(Feature.TUBE_OD)
            if not (gap >= 1.9 and thread.major_mm <= 2.6 * end.sizes.get(Feature.TUBE_OD) + 2.1):
                yield f"{end.id} tube {end.sizes.get(Feature.TUBE_OD):g} in {end.thread}"


@law
def tube_of_a_cone_fits_its_counterbore(tables: Catalogue) -> Iterator[str]:
    """The bore behind a 24 degree cone is named by its tube and bored H11 (ISO 8434-1)."""
    for end in tables.ends:
        bore, tube = end.sizes.get(Feature.TUBE_BORE), end.sizes.get(Feature.TUBE_OD, 0)
        if end.sealing == "cone" and bore and abs(bore - tube) > 0.05:
            yield f"{end.id} bore {bore:g} for tube {tube:g}"


@law
def pump_flange_is_named_by_its_pitch_circle(tables: Catalogue) -> Iterator[str]:
    """Four screws on a pitch circle stand on a square of that circle by the root of two."""
    for end in tables.ends:
        if end.family == "flange_pump_square":
            side = float(end.size.split()[1]) / 2**0.5
            ours = (
                end.sizes.get(Feature.BOLT_SPACING_LONG),
                end.sizes.get(Feature.BOLT_SPACING_SHORT),
            )
            if ours[0] != ours[1] or not isclose(ours[0] or 0, side, abs_tol=0.006):
                yield f"{end.id} spacing {ours[0]}"


@law
def socket_takes_its_plug(tables: Catalogue) -> Iterator[str]:
    """A bore is 0.1 to 0.3 mm wider than the plug or spigot of its size (common practice)."""
    plugs = {
        (end.family, end.size): end.sizes.get(Feature.PLUG_OD)
        for end in tables.ends
        if end.sizes.get(Feature.PLUG_OD)
    }
    for end in tables.ends:
        plug = plugs.get((end.family, end.size))
        socket = end.sealing in ("coupling", "spigot") and end.sizes.get(Feature.TUBE_BORE)
        if socket and plug and not 0.05 < socket - plug < 0.35:
            yield f"{end.id} bore {socket:g} for a plug of {plug:g}"


@law
def families_that_share_a_part_share_its_figures(tables: Catalogue) -> Iterator[str]:
    """A thick head is a code 62 head but for its thickness; a diagnostic port is an ISO 6149 port;
    codes 61 and 62 of a size take one O-ring (ISO 6162).
    """
    for one, other, fields in (
        (
            "flange62_thick", "flange62",
            "dash hose_dn flange_head_od bolt_spacing_long bolt_spacing_short bolt_metric "
            "bolt_inch",
        ),
        ("diagnostic_port", "orb_metric", "thread seat_mouth port_ridge seats"),
        ("flange61", "flange62", "dash hose_dn o_ring_size"),
        ("metric60", "cone24_L", "thread"),
        ("bspp60", "bspp_flat", "dash hose_dn thread"),
        ("r_taper", "jis_pt", "dash hose_dn"),
    ):  # fmt: skip
        theirs = {_joint(end): end for end in tables.ends if end.family == other}
        for end in (end for end in tables.ends if end.family == one):
            if mate := theirs.get(_joint(end)):
                for field in fields.split():
                    pair = figure_of(end, field), figure_of(mate, field)
                    if None not in pair and pair[0] != pair[1]:
                        yield f"{end.id} {field} {pair[0]}, but {mate.id} {pair[1]}"


def _joint(end: EndConnection) -> tuple[object, ...]:
    """Return what makes two ends of different families the same size."""
    if end.family in ("metric60", "cone24_L"):
        return end.gender, end.sizes.get(Feature.TUBE_OD) if (
            end.sizes.get(Feature.TUBE_OD) or 99
        ) <= 18 else end.id
    return end.gender, end.size


@law
def seat_angle_is_the_one_in_the_name(tables: Catalogue) -> Iterator[str]:
    """Flares are named by the half angle, cones by the included one."""
    for end in tables.ends:
        match = re.search(r"([0-9]+) (?:deg|degree)", end.family_name)
        if not match or end.family == "flare37_metric":
            continue
        named = float(match[1]) / (1 if end.sealing == "flare" else 2)
        for seat in end.seats:
            if seat.half_angle_deg and abs(seat.half_angle_deg - named) > 3:
                yield f"{end.id} {seat.half_angle_deg:g}"
        if all(abs((s.half_angle_deg or named) - named) > 0 for s in end.seats):
            yield f"{end.id} no seat of {named:g}"


@law
def seats_are_on_the_side_the_family_has_them(tables: Catalogue) -> Iterator[str]:
    """A flare stands on the male (JIS too), but inverted flares and cones are inside it."""
    for end in tables.ends:
        if end.sealing not in ("flare", "cone") or end.gender not in ("male", "female"):
            continue
        outside = end.sealing == "flare" and "double" not in end.form_key
        outside = outside and not end.family.startswith("inverted")
        outside |= end.form_key == "male-flare"
        outside &= "flareless" not in end.form_key
        male = Shape.CONVEX if outside else Shape.CONCAVE
        wrong = (
            male
            if end.gender == "female"
            else {Shape.CONVEX: Shape.CONCAVE}.get(male, Shape.CONVEX)
        )
        if end.family != "cone_thread_hp" and any(seat.shape is wrong for seat in end.seats):
            yield f"{end.id} {wrong}"
