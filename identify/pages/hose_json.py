"""A verdict on a hose as one JSON object; the fields are documented in DEVELOPERS.md."""

from typing import Any

from identify.model.hose_verdict import HoseReading, HoseVerdict
from identify.pages.as_json import chance


def hose_json(verdict: HoseVerdict) -> dict[str, Any]:
    """Return the verdict as plain values, ready for `json.dumps`."""
    lower, mark = verdict.lower, verdict.assembly
    return {
        "verdict": str(verdict.kind),
        "candidates": [_candidate(each, verdict.date) for each in verdict.readings],
        "none_of_these": chance(verdict.none_of_these),
        "refused": verdict.refused or None,
        "date": verdict.date,
        "dates": [
            {"printed": each.entered, "readings": list(each.readings), "doubt": each.doubt or None}
            for each in verdict.dates
        ],
        "missing": list(verdict.missing),
        "lower_holds": {"bar": _bar(lower.bar), "types": list(lower.types), "ask": lower.ask}
        if lower
        else None,
        "assembly": {"pressure_bar": _bar(mark.bar), "date": mark.month} if mark else None,
    }


def _candidate(reading: HoseReading, date: str | None) -> dict[str, Any]:
    hose, pressure = reading.hose, reading.pressure
    return {
        "id": hose.id,
        "standard": reading.standard,
        "type": reading.type_name,
        "dn": hose.dn,
        "dash": hose.dash,
        "bore_mm": hose.nominal_mm,
        "pressure_bar": _bar(pressure.bar),
        "date": date,
        "probability": chance(reading.probability),
        "dash_means": hose.kind.dash_means,
        "layers": list(hose.kind.layers),
        "layer_kind": str(hose.kind.layer_kind),
        "printed_bar": _bar(pressure.printed_bar),
        "table_bar": _bar(pressure.table_bar),
        "pressure_conflict": pressure.conflict,
        "pressure_why": pressure.why,
        "shown": dict(reading.shown),
        "types_beside": list(reading.types_beside),
        "sizes_beside": list(reading.sizes_beside),
        "withdrawn": hose.kind.withdrawn or None,
        "basis": str(hose.provenance.basis),
        "source": hose.provenance.source,
        "confidence": str(hose.confidence),
    }


def _bar(value: float | None) -> float | None:
    return None if value is None else round(value, 1)
