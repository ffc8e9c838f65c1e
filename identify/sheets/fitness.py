"""Does the hose suit its ends, the old hose, its medium, its temperature and its line?"""

from collections.abc import Iterator

from identify.model.hose import Hose, LayerKind
from identify.model.source import Support
from identify.sheets.finding import Finding, Grade
from identify.sheets.working import Worked

_NAMED_IN = {  # by medium, words that name it in the tables of hoses
    "mineral oil": ("mineral oil", "oils", "oil,"),
    "water-oil emulsion": ("emulsion", "water based"),
    "water glycol": ("water glycol", "water based"),
    "water": (" water", "water based"),
    "ester": ("ester fluids",),
    "phosphate ester": ("phosphate ester",),
    "fuel": ("fuel",),
    "air or gas": ("hot air",),
}
_WATERY = ("water-oil emulsion", "water glycol", "water")


def hose_findings(worked: Worked) -> Iterator[Finding]:
    """Yield what of the hose does not suit ends, old hose, medium, temperature or line."""
    hose, verdict = worked.hose, worked.verdict
    if verdict and verdict.refused:
        yield Finding(
            "other-hose", f"The old hose is no hydraulic hose: {verdict.refused}.",
            "Whoever chose it needed what no hydraulic hose gives.",
            "Take a hose made for that use, from who makes them.", Grade.FORBIDS,
            "the line printed on it",
        )  # fmt: skip
    if hose is None:
        yield Finding(
            "no-hose", "The new hose is not named.",
            "What is known of the old one leaves more than one type or size open."
            if verdict else "Nothing is known of the old one.",
            'Enter the new hose, such as "2SN:12", or read and measure the old one.',
            Grade.OPEN, "tables",
        )  # fmt: skip
        return
    yield from _bores(worked, hose)
    yield from _old_and_new(worked, hose)
    yield from _medium(worked, hose)
    yield from _temperature(worked, hose)
    line = worked.sheet.use.line
    helix = hose.kind.layer_kind is LayerKind.OPEN_HELIX
    if line == "suction" and not helix:
        yield Finding(
            "suction", f"{hose.name} is a pressure hose on a suction line.",
            "Its tube may be drawn in by vacuum; no source we hold says what vacuum it stands.",
            "Take a suction hose, or the hose maker's word for this vacuum.", Grade.OPEN,
            "ISO 7233 is the test that the standards name",
        )  # fmt: skip
    if line == "pressure" and helix:
        yield Finding(
            "helix", f"{hose.name} is a suction hose on a pressure line.",
            "An open helix holds a hose open, not together.", "Take a pressure hose.",
            Grade.FORBIDS,
            "common practice",
        )  # fmt: skip
    if hose.kind.withdrawn:
        yield Finding(
            "withdrawn", f"{hose.name} left its standard in {hose.kind.withdrawn}.",
            "A hose that is sold under the old name need not carry the old figures.",
            "Choose a type that its standard still has.", Grade.FORBIDS, "tables",
        )  # fmt: skip


def _bores(worked: Worked, hose: Hose) -> Iterator[Finding]:
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        sold = part.end.hose_dn if part.end else None
        if sold is not None and sold != hose.nominal_mm:
            yield Finding(
                f"bore-{side}", f"End {side} is usual on a hose of {sold:g} mm bore, the hose has "
                f"{hose.nominal_mm:g}.", "Ends are made for neighbouring bores too, but not by "
                "all, and the smaller bore heats the oil.",
                "Ask for this end with a tail for this hose; compare with the old hose's bore.",
                Grade.MIND, "tables",
            )  # fmt: skip
        if part.bore is not None and part.bore > hose.nominal_mm:
            yield Finding(
                f"insert-{side}", f"The insert of end {side} has a bore of {part.bore:g} mm, above "
                f"the hose's {hose.nominal_mm:g} mm.", "An insert goes into the hose.",
                "Measure again; the end may be for a larger hose.",
                Grade.FORBIDS, "common practice",
            )  # fmt: skip


def _old_and_new(worked: Worked, hose: Hose) -> Iterator[Finding]:
    verdict, old = worked.verdict, worked.sheet.hose
    if old.bore and old.outside and old.outside.length.mm <= old.bore.length.mm:
        yield Finding(
            "outside", "The outside of the old hose is not above its bore.", "It cannot be.",
            "Measure both again.", Grade.FORBIDS, "common practice",
        )  # fmt: skip
    if old.bore and not 0.85 < old.bore.length.mm / hose.nominal_mm < 1.15:
        yield Finding(
            "old-bore", f"The old hose has a bore of {old.bore.length.mm:g} mm, the new one "
            f"{hose.nominal_mm:g} mm.", "Another bore changes velocity, heat and pressure drop.",
            "Take the old bore, or the machine maker's word for another.", Grade.MIND,
            "common practice",
        )  # fmt: skip
    if verdict is None or not verdict.readings or old.new is None:
        return
    for reading in verdict.readings[:1]:
        before, now = reading.pressure.bar, worked.parts[0].supported_bar
        if before is not None and now is not None and now < before:
            yield Finding(
                "weaker", f"The new hose carries {now:g} bar, the old one carried {before:g}.",
                "Whoever chose the old one may have needed it: peaks are seldom measured.",
                "Take a hose that carries as much, or the machine maker's word.", Grade.MIND,
                "common practice",
            )  # fmt: skip


def _medium(worked: Worked, hose: Hose) -> Iterator[Finding]:
    medium, service = worked.sheet.use.medium, hose.kind.service
    if not medium:
        return
    names = _NAMED_IN.get(medium, ())
    if any(name in service.not_for for name in names):
        yield Finding(
            "medium", f"{hose.name} is not for {medium}.", f"Not for: {service.not_for}.",
            "Take a hose whose maker lists this medium by name.", Grade.FORBIDS,
            f"scope of {hose.kind.standards[0]}",
        )  # fmt: skip
    elif not any(name in service.media for name in names):
        said = f"The tables say: {service.media}." if service.media else "The tables say nothing."
        yield Finding(
            "medium-unknown", f"No source says that {hose.name} stands {medium}.", said,
            "Ask the maker of the hose in writing; air and gas never without it.",
            Grade.FORBIDS if medium == "air or gas" else Grade.OPEN, "common practice",
        )  # fmt: skip


def _temperature(worked: Worked, hose: Hose) -> Iterator[Finding]:
    span, service = worked.sheet.use.temperature, hose.kind.service
    if span is None:
        return
    recalled = service.temperature_basis is Support.FROM_MEMORY
    watery = worked.sheet.use.medium in _WATERY
    high = service.water_c if watery and service.water_c is not None else service.high_c
    low = 0.0 if worked.sheet.use.medium == "water" else service.low_c
    if high is None or low is None:
        yield Finding(
            "temperature-unknown", f"The temperatures of {hose.name} are not known.",
            "No source we hold states them.", "Look them up: ____", Grade.OPEN, "tables",
        )  # fmt: skip
    elif span.high > high or span.low < low:
        of = f" with {worked.sheet.use.medium}" if watery else ""
        yield Finding(
            "temperature", f"{hose.name} stands {low:g} to {high:g} C{of}; the medium has "
            f"{span.low:g} to {span.high:g} C.", "Heat hardens the tube and frost breaks it; "
            "either ends the life of a hose early.",
            "Take a hose for this temperature, or bring the temperature down.", Grade.FORBIDS,
            "from memory" if recalled else "tables",
        )  # fmt: skip
    elif recalled:
        yield Finding(
            "temperature-memory", f"The temperatures of {hose.name}, {low:g} to {high:g} C, are "
            "from memory.", "Nobody read them in the standard for our tables.",
            "Look them up: ____", Grade.OPEN, "from memory",
        )  # fmt: skip
