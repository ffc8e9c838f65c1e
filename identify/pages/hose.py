"""What a hose is: the readings of its line, its pressure, what is missing, what does not agree."""

from collections.abc import Iterator

from identify.model.hose import LOOK_UP, Hose, LayerKind
from identify.model.hose_line import HoseLine
from identify.model.hose_verdict import HoseReading, HoseVerdict, LowerHolds
from identify.model.verdict import VerdictKind, percent
from identify.pages.blocks import BLANK, Block, Table, Tone, labelled
from identify.pages.words import sentence

Page = list[Block | Table]
_MOST_TYPES = 6  # named in one sentence
LAYERS = {
    LayerKind.WIRE_BRAID: "wire braid", LayerKind.WIRE_SPIRAL: "wire spiral",
    LayerKind.TEXTILE: "textile braid", LayerKind.WIRE_UNDER_CLOTH: "wire braid under cloth",
    LayerKind.BARE_BRAID: "bare braid", LayerKind.OPEN_HELIX: "open helix",
    LayerKind.ANY: "left to the maker",
}  # fmt: skip
_COUNTED = (LayerKind.WIRE_BRAID, LayerKind.WIRE_SPIRAL, LayerKind.TEXTILE)
_MISSING = {
    "standard": "the number of the standard", "type": "the type", "size": "the size",
    "pressure": "the working pressure", "date": "the date",
    "layers": "number and kind of the layers, at a cut end (--layers)",
    "bore": "the bore, 20 mm inside a cut end (--bore)",
    "outside": "the outside diameter over the cover (--od)",
}  # fmt: skip
_MEASURED = ("layers", "bore", "outside")
_AGAIN = (
    "No print is complete everywhere: look for another repeat of the line, round the hose and "
    "under the clamps, before you decide."
)


def hose_blocks(verdict: HoseVerdict, line: HoseLine | None) -> Page:
    """Return the page of a hose; `line` is what was read, None where only measures count."""
    blocks: Page = [Block(_head(verdict), Tone.HEAD)]
    if verdict.refused:
        return [*blocks, BLANK, Block(f"{sentence(verdict.refused)} Do not take it for another.")]
    if verdict.assembly:
        mark = verdict.assembly
        blocks.append(
            Block(
                f"It reads as the mark of a made-up hose: at most {mark.bar:.4g} bar, made "
                f"{mark.month}. That is the rating of the whole, not the type of the hose."
            )
        )
    if verdict.readings:
        blocks += [BLANK, _table(verdict)]
    if verdict.kind is VerdictKind.IDENTIFIED:
        blocks += [BLANK, *_alone(verdict.readings[0])]
    if verdict.kind is not VerdictKind.ABSTAIN:
        blocks += _beside(verdict.readings[0])
    if verdict.lower:
        blocks += [BLANK, Block(_lower(verdict.lower), Tone.WARN)]
    blocks += [BLANK, *_dates(verdict), *_lacking(verdict, line)]
    return blocks


def _head(verdict: HoseVerdict) -> str:
    if verdict.refused:
        return "Not a hydraulic hose of the tables."
    if verdict.kind is VerdictKind.ABSTAIN or not verdict.readings:
        return "Not named: too little is legible or measured."
    first = verdict.readings[0]
    if verdict.kind is VerdictKind.IDENTIFIED:
        return f"Identified: {reading_words(first)} ({percent(first.probability)})."
    return "Shortlist: more than one hose fits."


def reading_words(reading: HoseReading) -> str:
    """Return a reading in one line: standard, type, size in every way it is written."""
    return f"{reading.standard} {reading.type_name}, {size_words(reading.hose)}"


def hose_words(hose: Hose) -> str:
    """Return a row of the tables in one line, by the standard that is its own."""
    standard, names = hose.kind.names[0]
    return f"{standard} {names[0] if names else hose.kind.key}, {size_words(hose)}"


def size_words(hose: Hose) -> str:
    """Return the size of a hose: DN, bore and dash, and what the dash counts where that is odd."""
    odd = " of the tube, not of the bore" if hose.kind.dash_means == "tube" else ""
    return f"DN {hose.dn} (bore {hose.nominal_mm:g} mm, dash {hose.dash}{odd})"


def _table(verdict: HoseVerdict) -> Table:
    rows = tuple(
        (
            percent(each.probability), each.standard, each.type_name, f"{each.hose.dn}",
            each.hose.dash, f"{each.hose.nominal_mm:g}",
            LOOK_UP if each.pressure.bar is None else f"{each.pressure.bar:.4g}",
            _layers(each.hose),
        )
        for each in verdict.readings
    )  # fmt: skip
    return Table(("", "standard", "type", "DN", "dash", "bore\nmm", "bar", "layers"), rows)


def _layers(hose: Hose) -> str:
    what = LAYERS[hose.kind.layer_kind]
    if hose.kind.layer_kind not in _COUNTED:
        return what
    numbers = " or ".join(map(str, hose.kind.layers))
    return f"{numbers} {what}{'' if numbers == '1' else 's'}"


def _alone(reading: HoseReading) -> Iterator[Block]:
    hose, pressure = reading.hose, reading.pressure
    if pressure.bar is None:
        yield labelled("Pressure", sentence(pressure.why))
    else:
        tone = Tone.WARN if pressure.conflict else Tone.PLAIN
        yield labelled("Pressure", f"{pressure.bar:.4g} bar: {pressure.why}.", tone)
    if pressure.conflict:
        yield Block(
            "A line may be misread, an edition older, or a hose better than its standard asks: "
            "ends and ports must stand what the hose is used for."
        )
    if hose.kind.dash_means == "tube":
        yield labelled(
            "Size", f"{reading.type_name} is sized by the tube it replaces: dash {hose.dash} has a "
            f"bore of {hose.nominal_mm:g} mm.",
        )  # fmt: skip
    if hose.kind.withdrawn:
        yield labelled(
            "Withdrawn", f"out of its standard since {hose.kind.withdrawn}: never order by it.",
            Tone.WARN,
        )  # fmt: skip
    if hose.kind.tell:
        yield labelled("Looks", sentence(hose.kind.tell))
    if hose.kind.near:
        yield labelled("Beware", sentence(hose.kind.near))
    if hose.kind.note:
        yield labelled("Note", sentence(hose.kind.note))


def _beside(reading: HoseReading) -> Iterator[Block]:
    """Yield what else stands on the line and does not go with this reading."""
    if reading.types_beside:
        yield Block(
            f"Also printed: {', '.join(reading.types_beside)}. Printed together is not equal: "
            "pressures and diameters differ, and an end that was tested on one need not suit the "
            "other.", Tone.WARN,
        )  # fmt: skip
    if reading.sizes_beside:
        yield Block(
            f"The line also says {', '.join(reading.sizes_beside)}, which is another size than "
            f"DN {reading.hose.dn}. Measure the bore.", Tone.WARN,
        )  # fmt: skip


def _lower(lower: LowerHolds) -> str:
    named = ", ".join(lower.types[:_MOST_TYPES])
    more = f" and {len(lower.types) - _MOST_TYPES} more" if len(lower.types) > _MOST_TYPES else ""
    holds = (
        f"the lower holds: {lower.bar:.4g} bar"
        if lower.bar is not None
        else f"the lowest holds, and no source supports its figure; {LOOK_UP}"
    )
    return (
        f"These may be there and do not carry the same pressure: {named}{more}. {lower.ask}; "
        f"until then {holds}."
    )


def _dates(verdict: HoseVerdict) -> Iterator[Block]:
    for each in verdict.dates:
        read = " or ".join(each.readings) or "not legible"
        doubt = f" ({each.doubt})" if each.doubt else ""
        yield labelled("Date", f"{each.entered}: {read}{doubt}.")


def _lacking(verdict: HoseVerdict, line: HoseLine | None) -> Iterator[Block]:
    lacking = [each for each in verdict.missing if line or each in _MEASURED]
    if lacking:
        yield labelled("Missing", sentence("; ".join(_MISSING[each] for each in lacking)))
    if line and verdict.kind is not VerdictKind.IDENTIFIED:
        yield Block(_AGAIN)
