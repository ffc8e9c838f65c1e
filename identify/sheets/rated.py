"""The pressures of hose, ends and ports: entered from data, else of the tables."""

from identify.assembly import RatedPart
from identify.model.connection import EndConnection
from identify.model.hose import Hose
from identify.model.hose_verdict import HoseVerdict
from identify.model.sheet import HoseSheet
from identify.sheets.known import SheetKnowledge


def rated_parts(
    sheet: HoseSheet, hose: Hose | None, verdict: HoseVerdict | None, known: SheetKnowledge
) -> tuple[RatedPart, ...]:
    """Return hose, ends and ports with their pressures: entered from data, else of the tables.

    A pressure without its source counts as none.
    """
    return (
        _rated_hose(sheet, hose, verdict, known),
        _rated("end A", sheet.a.end, sheet.a.rating, sheet.a.rating_from, known),
        _rated("the port of A", sheet.a.port, sheet.a.port_rating, sheet.a.port_rating_from, known),
        _rated("end B", sheet.b.end, sheet.b.rating, sheet.b.rating_from, known),
        _rated("the port of B", sheet.b.port, sheet.b.port_rating, sheet.b.port_rating_from, known),
    )


def _rated(
    name: str, end: EndConnection | None, bar: float | None, source: str, known: SheetKnowledge
) -> RatedPart:
    if bar is not None and source:
        return RatedPart(name, bar, source)
    if end is None or end.rating.bar is None:
        return RatedPart(name, None, "")
    title = known.title_of(end.provenance.source)
    return RatedPart(name, end.rating.bar, title, end.rating.basis)


def _rated_hose(
    sheet: HoseSheet, hose: Hose | None, verdict: HoseVerdict | None, known: SheetKnowledge
) -> RatedPart:
    if sheet.hose.rating is not None and sheet.hose.data:
        return RatedPart("the hose", sheet.hose.rating, sheet.hose.data)
    if hose is None:
        return RatedPart("the hose", None, "")
    if sheet.hose.new is None and verdict is not None:
        pressure = verdict.readings[0].pressure
        return RatedPart("the hose", pressure.bar, pressure.why)
    title = known.title_of(hose.provenance.source)
    return RatedPart("the hose", hose.rating_bar, title, hose.rating_basis)
