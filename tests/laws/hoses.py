"""The laws that tables of hoses must keep, for pytest and for the mutation of tables.

`gathered.csv` and `types.csv` are the figures as they were gathered, each with what it rests on,
before they were written into the tables; `recollected.csv` holds pressures written once more from
memory, in the unit in which the standards give them. They catch slips of the pen, not errors that
all of them repeat. Bores by nominal size: EN ISO 1307. What a dash counts: SAE J517, ISO 4397.
"""

import csv
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

from identify.model.hose import SUPPORTED, Between, Hose, HoseTables, LayerKind
from identify.model.source import Support

Law = Callable[[HoseTables], Iterator[str]]
HOSE_LAWS: dict[str, Law] = {}
FOLDER = Path(__file__).parent.parent / "references" / "hoses"
STATED = {"1SN", "1ST", "2SN", "2ST", "4SP", "4SH", "R12", "R13"}
"""Types whose pressures were seen in an open table; those of all others are from memory."""
BASES = {"open-dataset": Support.OPEN_DATASET, "from-memory": Support.FROM_MEMORY}
BORES = {  # EN ISO 1307, and the dash and the bore that is ordered, as ISO 4397 steps them
    5: ("-3", 4.8, 4.6, 5.4), 6: ("-4", 6.3, 6.2, 7.0), 8: ("-5", 8, 7.7, 8.5),
    10: ("-6", 10, 9.3, 10.1), 12: ("-8", 12.5, 12.3, 13.5), 16: ("-10", 16, 15.5, 16.7),
    19: ("-12", 19, 18.6, 19.8), 25: ("-16", 25, 25.0, 26.4), 31: ("-20", 31.5, 31.4, 33.0),
    38: ("-24", 38, 37.7, 39.3), 51: ("-32", 51, 50.4, 52.0), 63: ("-40", 63, 63.1, 65.1),
    76: ("-48", 76, 74.6, 77.8), 102: ("-64", 102, 100.0, 104.0),
}  # fmt: skip


def law(function: Law) -> Law:
    """Register a law: it takes tables of hoses and yields a complaint for each breach."""
    assert function.__name__ not in HOSE_LAWS
    HOSE_LAWS[function.__name__] = function
    return function


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of a file of references."""
    with (FOLDER / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return tuple(csv.DictReader(file))


def _span(between: Between | None) -> str:
    return f"{between.low_mm:g}..{between.high_mm:g}" if between else ""


def _figure(hose: Hose, field: str) -> str:
    old = next((each.bar for each in hose.others if each.until == 2006), None)
    plain: dict[str, float | None] = {
        "bar": hose.rating_bar, "bend": hose.bend_radius_mm, "old_bar": old,
        "outside_max": hose.outside.high_mm if hose.outside else None,
    }  # fmt: skip
    if field in plain:
        value = plain[field]
        return "" if value is None else f"{value:g}"
    return hose.dash if field == "dash" else _span(getattr(hose, field))


@law
def figures_are_those_that_were_gathered(tables: HoseTables) -> Iterator[str]:
    by_id = {hose.id: hose for hose in tables.hoses}
    for row in rows("gathered"):
        hose = by_id.get(f"{row['type']}:{row['dn']}")
        if hose is None:
            yield f"{row['type']}:{row['dn']} is gone"
            continue
        if (found := _figure(hose, row["field"])) != row["value"]:
            yield f"{hose.id} {row['field']} is {found}, gathered was {row['value']}"
        if row["field"] == "bend" and hose.bend_basis is not BASES[row["basis"]]:
            yield f"{hose.id} bend is {hose.bend_basis}, gathered {row['basis']}"


@law
def no_row_is_more_than_was_gathered(tables: HoseTables) -> Iterator[str]:
    gathered = {(f"{row['type']}:{row['dn']}", row["field"]) for row in rows("gathered")}
    for hose in tables.hoses:
        if hose.kind.layer_kind is LayerKind.ANY:
            continue  # a class of pressure: its sizes are any
        for field in ("bar", "bend", "reinforcement", "outside_seen", "old_bar"):
            if _figure(hose, field) and (hose.id, field) not in gathered:
                yield f"{hose.id} {field} was never gathered"


@law
def types_are_those_that_were_gathered(tables: HoseTables) -> Iterator[str]:
    kinds = {hose.kind.key: hose.kind.service for hose in tables.hoses}
    names = {
        "low_c": "low_c", "high_c": "high_c", "water_c": "water_c", "cycles": "impulse_cycles",
        "percent": "impulse_percent", "at_c": "impulse_c", "longer": "longer_percent",
        "shorter": "shorter_percent",
    }  # fmt: skip
    for row in rows("types"):
        service = kinds.get(row["type"])
        for column, field in names.items():
            found = getattr(service, field, None)
            if row[column] and found != float(row[column]):
                yield f"{row['type']} {field} is {found}, gathered was {row[column]}"
            if not row[column] and found is not None and column != "water_c":
                yield f"{row['type']} {field} is {found}, nothing was gathered"


@law
def pressures_are_those_written_a_second_time(tables: HoseTables) -> Iterator[str]:
    by_id = {hose.id: hose for hose in tables.hoses}
    for row in rows("recollected"):
        hose = by_id.get(f"{row['type']}:{row['dn']}")
        if hose is None or hose.rating_bar is None:
            yield f"{row['type']}:{row['dn']} has no pressure"
        elif abs(hose.rating_bar - 10 * float(row["mpa"])) > 1e-6:
            yield f"{hose.id} carries {hose.rating_bar}, recollected was {row['mpa']} MPa"


@law
def a_pressure_is_stated_only_where_one_was_seen(tables: HoseTables) -> Iterator[str]:
    for hose in tables.hoses:
        seen = hose.kind.key in STATED
        if (hose.supported_bar is not None) != (seen and hose.rating_bar is not None):
            yield f"{hose.id} rests on {hose.rating_basis}"
        if hose.supported_bar is not None and hose.rating_basis not in SUPPORTED:
            yield f"{hose.id} is stated on {hose.rating_basis}"


@law
def bores_are_those_of_the_nominal_size(tables: HoseTables) -> Iterator[str]:
    for hose in tables.hoses:
        if hose.kind.dash_means != "bore" or hose.dn not in BORES:
            continue
        dash, nominal, low, high = BORES[hose.dn]
        if (hose.dash, hose.nominal_mm) != (dash, nominal):
            yield f"{hose.id} is {hose.dash}, {hose.nominal_mm:g} mm"
        if hose.bore and (hose.bore.low_mm, hose.bore.high_mm) != (low, high):
            yield f"{hose.id} has a bore of {_span(hose.bore)}"


@law
def a_larger_hose_of_a_type_is_larger_and_carries_no_more(tables: HoseTables) -> Iterator[str]:
    for one, other in pairwise(tables.hoses):
        if one.kind.key != other.kind.key:
            continue
        pairs: list[tuple[str, float | None, float | None]] = [
            ("dn", one.dn, other.dn), ("nominal", one.nominal_mm, other.nominal_mm),
            ("bend", one.bend_radius_mm, other.bend_radius_mm),
        ]  # fmt: skip
        for field in ("bore", "outside", "reinforcement"):
            small, large = getattr(one, field), getattr(other, field)
            if small and large:
                pairs.append((field, small.low_mm, large.low_mm))
                pairs.append((field, small.high_mm, large.high_mm))
        for field, less, more in pairs:
            if less is not None and more is not None and less > more:
                yield f"{other.id} {field} is below that of {one.id}"
        if one.rating_bar and other.rating_bar and one.rating_bar < other.rating_bar:
            yield f"{other.id} carries more than {one.id}"


@law
def types_s_and_t_differ_in_the_cover_alone(tables: HoseTables) -> Iterator[str]:
    """EN 853: type T has a thick cover that is skived; all beneath it is that of type S."""
    by_id = {hose.id: hose for hose in tables.hoses}
    for hose in tables.hoses:
        thick = by_id.get(hose.id.replace("SN:", "ST:"))
        if thick is None or thick is hose:
            continue
        for field in ("bore", "reinforcement", "rating_bar", "nominal_mm", "dash"):
            if getattr(hose, field) != getattr(thick, field):
                yield f"{hose.id} and {thick.id} differ in {field}"
        if hose.outside and thick.outside and hose.outside.low_mm >= thick.outside.low_mm:
            yield f"{hose.id} is not thinner than {thick.id}"


@law
def a_thin_cover_is_at_least_0_8_mm(tables: HoseTables) -> Iterator[str]:
    """How the least outside of the thin-cover types was worked out: see their table's note."""
    for hose in tables.hoses:
        thin = hose.kind.key in ("1SN", "2SN")
        if thin and hose.outside and hose.reinforcement:
            least = hose.reinforcement.low_mm + 1.6
            if abs(hose.outside.low_mm - least) > 0.051:
                yield f"{hose.id} outside begins at {hose.outside.low_mm:g}, not {least:g}"


@law
def a_class_has_its_own_pressure_for_every_size(tables: HoseTables) -> Iterator[str]:
    """ISO 18752, scope: the number of the class is the pressure in bar."""
    for hose in tables.hoses:
        is_class = hose.kind.layer_kind is LayerKind.ANY
        if is_class != hose.kind.key.startswith("class ") or is_class != (not hose.kind.layers):
            yield f"{hose.id} is a class or has layers, not both"
        if is_class and hose.rating_bar != float(hose.kind.key.removeprefix("class ")):
            yield f"{hose.id} carries {hose.rating_bar}"
        service = hose.kind.service  # of grades A and B, the lower ones
        if is_class and (service.low_c, service.high_c, service.water_c) != (-40, 100, 70):
            yield f"{hose.id} stands {service.low_c} to {service.high_c}, water {service.water_c}"


@law
def layers_and_dash_are_those_of_the_type(tables: HoseTables) -> Iterator[str]:
    """EN 853 to 857 count layers in the name; SAE J517 says which types count the tube."""
    counted = {
        "4SP": (4,), "4SH": (4,), "R12": (4,), "R9": (4,), "R10": (4,), "R11": (6,),
        "R13": (4, 6), "R15": (4, 6), "R16": (1, 2), "R17": (1, 2), "R19": (1, 2), "1TE": (1,),
        "R3": (2,), "R6": (1,), "R4": (1,), "R5": (2,),
    }  # fmt: skip
    for hose in tables.hoses:
        key = hose.kind.key
        if (
            key[0].isdecimal()
            and key[1:] in ("SN", "ST", "SC")
            and hose.kind.layers != (int(key[0]),)
        ):
            yield f"{key} has {hose.kind.layers} layers"
        if hose.kind.layers != counted.get(key, hose.kind.layers):
            yield f"{key} has {hose.kind.layers} layers"
        spiral = key in ("4SP", "4SH") or key in ("R9", "R10", "R11", "R12", "R13", "R15")
        if (hose.kind.layer_kind is LayerKind.WIRE_SPIRAL) != spiral:
            yield f"{key} is of {hose.kind.layer_kind}"
        if (hose.kind.dash_means == "tube") != (key in ("R5", "R14")):
            yield f"{key}: a dash means the {hose.kind.dash_means}"
        if (hose.kind.withdrawn == 2005) != (key in ("R9", "R10", "R11")):
            yield f"{key} is withdrawn {hose.kind.withdrawn}"


@law
def the_standards_asked_for_are_there(tables: HoseTables) -> Iterator[str]:
    standards = {name for hose in tables.hoses for name in hose.kind.standards}
    wanted = {
        "EN 853", "EN 854", "EN 855", "EN 856", "EN 857", "ISO 1436", "ISO 3862", "ISO 3949",
        "ISO 4079", "ISO 11237", "ISO 18752", "SAE J517",
    }  # fmt: skip
    yield from (f"{name} is there or not" for name in standards ^ wanted)
    numbers = {
        int("".join(filter(str.isdigit, word.removeprefix("100R"))))
        for hose in tables.hoses
        for name, words in hose.kind.names
        if name == "SAE J517"
        for word in words
    }
    yield from (f"100R{number} is there or not" for number in numbers ^ set(range(1, 20)))


@law
def another_pressure_is_that_of_a_class_seen(tables: HoseTables) -> Iterator[str]:
    """Open tables print 4000 and 5000 psi as 275 and 345 bar, and 5000 psi as 350 too."""
    for hose in tables.hoses:
        for other in hose.others:
            if not other.until and other.bar not in (275, 345, 350):
                yield f"{hose.id} has {other.bar} bar of {other.of}"
