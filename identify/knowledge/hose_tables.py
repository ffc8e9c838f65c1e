"""A hose table -> its hoses, each with what its figures rest on."""

from itertools import pairwise

from identify.errors import TableError
from identify.frozen import replace
from identify.knowledge.fields import Faults, Fields, length_mm, lengths_mm
from identify.knowledge.source_tables import cite, read_provenance, support_of
from identify.knowledge.yaml_reader import read_yaml, short
from identify.model.hose import Between, Hose, HoseType, LayerKind, OtherPressure, Service
from identify.model.source import Confidence, Provenance, Support

_SUPPORTS, _KINDS = tuple(Support), tuple(LayerKind)
_RATING = tuple[float | None, Support | None]


def read_hoses(text: str, file: str, faults: Faults) -> list[Hose]:
    """Return the hoses of a `hose_table/1` file, in table order.

    Args:
        text: The YAML document.
        file: Its name for messages.
        faults: Collects what is wrong, each with its line.
    """
    try:
        top = Fields(read_yaml(text, file), file, faults, "hose table")
    except TableError as error:
        faults.found.extend(error.faults)
        return []
    top.choice("schema", ("hose_table/1",))
    group = top.text("group")
    if file.rpartition("/")[2] != f"{group}.yaml":
        top.fault("group", f'is "{group}"; a file has the name of its group')
    top.text("name")
    top.text("note")
    shared = read_provenance(top)
    bores = support_of(top.section("bore_provenance"), None)
    hoses: dict[str, Hose] = {}
    for entry in top.sections("types", "type"):
        for hose, size in _of_type(entry, group, shared, bores):
            if hose.id in hoses:
                size.fault("", f"stands twice as {hose.id}; remove one")
            hoses.setdefault(hose.id, hose)
    if not hoses:
        top.fault("types", "holds no size of any hose")
    top.close()
    return list(hoses.values())


def _of_type(
    entry: Fields, group: str, shared: Provenance, bores: Provenance
) -> list[tuple[Hose, Fields]]:
    key = entry.text("type")
    entry.what = f'hose "{key}"'
    names = _names(entry)
    kind = HoseType(
        group=group, key=key, names=names, trade=entry.texts("trade"), layers=_layers(entry),
        layer_kind=LayerKind(entry.choice("layer_kind", _KINDS)),
        dash_means=entry.choice("dash_means", ("bore", "tube"), "bore"),
        withdrawn=_year(entry, "withdrawn"), tell=entry.text("tell", ""),
        near=entry.text("near", ""), note=entry.text("note", ""), service=_service(entry),
    )  # fmt: skip
    own = read_provenance(entry, shared)
    rating = _rating(entry)
    found = [_hose(size, kind, own, bores, rating) for size in entry.sections("sizes", "size")]
    entry.close()
    if not found:
        entry.fault("sizes", "holds no size")
    for (one, _), (next_, size) in pairwise(found):
        if not one.nominal_mm < next_.nominal_mm:
            size.fault("nominal", f"is not above that of the size before it ({one.dash})")
    return found


def _names(entry: Fields) -> tuple[tuple[str, tuple[str, ...]], ...]:
    section = entry.section("names")
    names = tuple((standard, section.texts(standard)) for standard in section.data)
    if not names or not all(words for _, words in names):
        entry.fault("names", 'must say what is printed: {"EN 853": ["1SN"]}')
    return names


def _layers(entry: Fields) -> tuple[int, ...]:
    entry.asked.add("layers")
    values = entry.data.get("layers")
    if not isinstance(values, list) or not all(
        isinstance(value, int) and 1 <= value <= 8 for value in values
    ):
        entry.fault("layers", f"is {short(values)}; list the numbers of layers it may have: [1, 2]")
        return ()
    return tuple(values)


def _year(entry: Fields, key: str) -> int:
    text = entry.text(key, "")
    if text and not (text.isdecimal() and 1900 < int(text) < 2100):
        entry.fault(key, f'is "{text}", no year')
        return 0
    return int(text or 0)


def _service(entry: Fields) -> Service:
    heat, impulse, length = (
        entry.section(key) for key in ("temperature", "impulse", "length_change")
    )
    service = Service(
        low_c=_maybe(heat, "low_c", -100, 150), high_c=_maybe(heat, "high_c", 0, 400),
        water_c=_maybe(heat, "water_c", 0, 200), temperature_basis=_basis(heat),
        impulse_cycles=int(cycles) if (cycles := _maybe(impulse, "cycles", 1, 1e8)) else None,
        impulse_percent=_maybe(impulse, "percent", 50, 300),
        impulse_c=_maybe(impulse, "at_c", 0, 400), impulse_basis=_basis(impulse),
        impulse_note=impulse.text("note", ""),
        longer_percent=_maybe(length, "more", 0, 20),
        shorter_percent=_maybe(length, "less", 0, 20), length_basis=_basis(length),
        media=entry.text("media", ""), not_for=entry.text("not_for", ""),
    )  # fmt: skip
    if service.low_c is not None and not service.low_c < (service.high_c or 0):
        heat.fault("low_c", "is not below high_c")
    for section in (heat, impulse, length):
        section.close()
    return service


def _maybe(fields: Fields, key: str, low: float, high: float) -> float | None:
    return fields.number(key, low=low, high=high) if fields.has(key) else None


def _basis(fields: Fields) -> Support | None:
    """Return the basis of a group of figures, which must say one; None where there is no group."""
    return Support(fields.choice("basis", _SUPPORTS)) if fields.data else None


def _rating(entry: Fields) -> _RATING:
    if not entry.has("rating"):
        return None, None
    section = entry.section("rating")
    bar = section.number("bar", low=1, high=2000)
    basis = _basis(section)
    section.close()
    return bar, basis


def _hose(
    size: Fields, kind: HoseType, shared: Provenance, bores: Provenance, rating: _RATING
) -> tuple[Hose, Fields]:
    dn = int(size.number("dn", low=2, high=150))
    size.what = f'hose "{kind.key}", DN {dn}'
    nominal = length_mm(size, "nominal") or 1.0
    bore = _between(size, "bore")
    outside, most_only = _outside(size, bore, nominal)
    bend = size.section("bend")
    bar, basis = _rating(size) if size.has("rating") else rating
    hose = Hose(
        kind=kind, dn=dn, dash=size.text("dash"), nominal_mm=nominal, bore=bore, outside=outside,
        outside_most_only=most_only, outside_seen=_seen(size),
        reinforcement=_between(size, "reinforcement"),
        bend_radius_mm=length_mm(bend, "radius") if bend.data else None, bend_basis=_basis(bend),
        rating_bar=bar, rating_basis=basis, others=_others(size),
        confidence=Confidence(size.choice("confidence", tuple(Confidence))),
        provenance=read_provenance(size, shared),
        bore_provenance=replace(bores, file=size.file, line=size.line),
    )  # fmt: skip
    _check(hose, size)
    bend.close()
    size.close()
    return hose, size


def _between(size: Fields, key: str) -> Between | None:
    """Return two limits, written as a list of two lengths."""
    if not size.has(key):
        return None
    found = lengths_mm(size, key)
    if len(found) != 2 or not found[0] < found[1]:
        size.fault(key, 'must be two lengths, the smaller first: ["12.3 mm", "13.5 mm"]')
        return None
    return Between(*found)


def _outside(size: Fields, bore: Between | None, nominal: float) -> tuple[Between | None, bool]:
    if size.has("outside_max"):
        most = length_mm(size, "outside_max") or 0.0
        least = bore.high_mm if bore else nominal
        if not most > least:
            size.fault("outside_max", f"is {most:g} mm, not above the bore")
            return None, True
        return Between(least, most), True
    return _between(size, "outside"), False


def _seen(size: Fields) -> Between | None:
    found = lengths_mm(size, "outside_seen")
    return Between(min(found), max(found)) if found else None


def _others(size: Fields) -> tuple[OtherPressure, ...]:
    found = []
    for entry in size.sections("other", "other"):
        found.append(
            OtherPressure(
                entry.number("bar", low=1, high=2000), entry.text("of"),
                int(entry.number("until", 0, low=0, high=2100)), cite(entry, "source"),
                Support(entry.choice("basis", _SUPPORTS)),
            )
        )  # fmt: skip
        entry.close()
    return tuple(found)


def _check(hose: Hose, size: Fields) -> None:
    """Note what cannot be true of one hose."""
    if not hose.dash.startswith("-") or not hose.dash[1:].isdecimal():
        size.fault("dash", f'is "{hose.dash}"; write it as "-8"')
    elif hose.kind.dash_means == "bore" and hose.dn <= 102:
        inch = int(hose.dash[1:]) * 25.4 / 16
        if not abs(inch - hose.nominal_mm) <= 0.05 * hose.nominal_mm + 0.2:
            size.fault("dash", f"is {hose.dash}, which is {inch:.1f} mm, not the nominal bore")
    if not abs(hose.dn - hose.nominal_mm) <= 1.01:
        size.fault("dn", f"is {hose.dn}, more than 1 mm from the nominal bore")
    if hose.bore and not (hose.bore.low_mm - 0.5 <= hose.nominal_mm <= hose.bore.high_mm + 0.5):
        size.fault("bore", f"does not hold the nominal {hose.nominal_mm:g} mm")
    inner, outer = hose.reinforcement, hose.outside
    if hose.bore and outer and not outer.low_mm >= hose.bore.high_mm:
        size.fault("outside", "begins inside the bore")
    if hose.bore and inner and not inner.low_mm > hose.bore.high_mm:
        size.fault("reinforcement", "begins inside the bore")
    if inner and outer and not outer.high_mm > inner.high_mm:
        size.fault("reinforcement", "ends outside the hose")
    if hose.bend_radius_mm and hose.bend_radius_mm < 2 * hose.nominal_mm - 5:
        size.fault("bend", f"radius {hose.bend_radius_mm:g} mm is below twice the bore")
