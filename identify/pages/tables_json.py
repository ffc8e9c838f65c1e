"""Rows, families and sources of the tables as JSON objects; the fields are in DEVELOPERS.md."""

from __future__ import annotations

from collections import Counter

from identify.frozen import TYPE_CHECKING
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family, Seat
from identify.model.feature import SHARES
from identify.model.rulebook import RuleBook
from identify.model.source import Provenance
from identify.model.thread import Band, Limits, Thread
from identify.pages.tables import bases, checked, citations, every_source, rows_of
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.mating import Mates

if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any


def end_json(catalogue: Catalogue, end: EndConnection, mates: Mates) -> dict[str, Any]:
    """Return every field of a row, with who says so, limits of its threads, and what it meets."""
    names = dict.fromkeys(filter(None, (end.thread, *(seat.thread for seat in end.seats))))
    return {
        "id": end.id,
        "family": end.family,
        "family_name": end.family_name,
        "size": end.size,
        "dash": end.dash,
        "gender": end.gender,
        "form": end.form,
        "form_key": end.form_key,
        "mount": end.mount,
        "standards": list(end.standards),
        "sealing": end.sealing,
        "seal": end.seal,
        "seats": [_seat_json(seat, end) for seat in end.seats],
        "threads": [thread_json(catalogue.threads[name]) for name in names],
        "sizes_mm": {
            **{str(feature): mm for feature, mm in end.sizes.items()},
            **{
                name: mm
                for name, mm in (
                    ("seat_mouth", end.seat_mouth_mm),
                    ("spotface", end.spotface_mm),
                    ("side", end.side_mm),
                )
                if mm is not None
            },
        },
        "hexagons": [
            {
                "part": str(each.part),
                "across_flats_mm": each.mm,
                "provenance": provenance_json(each.provenance),
            }
            for each in end.hexagons
        ],
        "bolt_metric": end.bolt_metric,
        "bolt_inch": end.bolt_inch,
        "o_ring_size": end.o_ring_size,
        "hose_dn": end.hose_dn,
        "material": end.material,
        **{f"{feature}_share": end.shares.get(feature) for feature in SHARES},
        "left_hand_share": end.left_hand,
        "rating": {
            "bar": end.rating.bar,
            "basis": str(end.rating.basis) if end.rating.basis else None,
            "note": end.rating.note or None,
        },
        "tell_by": end.tell_by or None,
        "refuse": end.refuse or None,
        "notes": list(end.notes),
        "mates": [other.id for other in catalogue.mates_of(end)],
        "seals_too": [one.b for one in mates.fits_too],
        "never_on": [{"id": one.b, **mating_json(one)} for one in mates.dangers],
        "confidence": str(end.confidence),
        "provenance": provenance_json(end.provenance),
        "figures": [
            {"field": each.field, "provenance": provenance_json(each.provenance)}
            for each in end.figures
        ],
        "also_seen": [
            {
                "field": each.field,
                "value": each.value,
                "source": each.source,
                "note": each.note or None,
            }
            for each in end.also_seen
        ],
    }


def mating_json(one: Mating) -> dict[str, Any]:
    """Return what happens where two ends meet; `turns` is None unless it starts and binds."""
    binds = one.outcome is Outcome.BINDS and one.fit is not None
    return {
        "outcome": str(one.outcome),
        "hazard": str(one.hazard),
        "turns": round(one.fit.turns.mean, 2) if binds and one.fit else None,
        "reason": one.reason,
    }


def provenance_json(says: Provenance) -> dict[str, Any]:
    """Return who says so."""
    return {
        "source": says.source,
        "where": says.where or None,
        "basis": str(says.basis),
        "checked_against": list(says.checked_against),
        "checked_note": says.checked_note or None,
        "caveat": says.caveat or None,
        "file": says.file or None,
        "line": says.line or None,
    }


def _seat_json(seat: Seat, end: EndConnection) -> dict[str, Any]:
    return {
        "shape": str(seat.shape),
        "half_angle_deg": seat.half_angle_deg,
        "o_ring": seat.o_ring,
        "share": seat.share,
        "thread": seat.thread or end.thread,
        "part": seat.part or None,
    }


def thread_json(thread: Thread) -> dict[str, Any]:
    """Return a thread with its basic sizes and limits of size [mm]."""
    return {
        "designation": thread.designation,
        "system": thread.system,
        "pitch_mm": thread.pitch_mm,
        "tpi": thread.tpi,
        "flank_angle_deg": thread.flank_angle_deg,
        "taper": thread.taper,
        "left_hand": thread.left_hand,
        "major_mm": thread.major_mm,
        "pitch_diameter_mm": thread.pitch_diameter_mm,
        "minor_mm": thread.minor_mm,
        "small_end_mm": thread.small_end_mm,
        "large_end_mm": thread.large_end_mm,
        "gauge_length_mm": thread.gauge_length_mm,
        "useful_length_mm": thread.useful_length_mm,
        "external": _limits_json(thread.external),
        "internal": _limits_json(thread.internal),
        "provenance": provenance_json(thread.provenance),
    }


def _limits_json(limits: Limits | None) -> dict[str, Any] | None:
    if limits is None:
        return None
    return {"crest_mm": _band_json(limits.crest), "pitch_mm": _band_json(limits.pitch)}


def _band_json(band: Band) -> list[float]:
    return [round(band.low_mm, 4), round(band.high_mm, 4)]


def overview_json(catalogue: Catalogue) -> dict[str, Any]:
    """Return all families with counts."""
    return {
        "families": [_family_json(catalogue, one) for one in catalogue.families.values()],
        "rows": len(catalogue.ends),
        "threads": len(catalogue.threads),
        "sources": len(catalogue.sources),
    }


def _family_json(catalogue: Catalogue, one: Family) -> dict[str, Any]:
    ends = rows_of(catalogue, one)
    return {
        "family": one.key,
        "name": one.name,
        "standards": list(one.standards),
        "sealing": one.sealing,
        "about": one.about or None,
        "refuse": one.refuse or None,
        "file": one.file or None,
        "sizes": len({end.size for end in ends}),
        "rows": len(ends),
        "checked": checked(ends),
        "rated": sum(end.rating.bar is not None for end in ends),
        "support": bases(ends),
    }


def family_json(catalogue: Catalogue, one: Family) -> dict[str, Any]:
    """Return one family with its rows; `whichend show ID --json` has all of one row."""
    rows = [
        {
            "id": end.id,
            "size": end.size,
            "form": end.form_key,
            "gender": end.gender,
            "thread": end.thread,
            "dash": end.dash,
            "hose_dn": end.hose_dn,
            "sizes_mm": {str(feature): mm for feature, mm in end.sizes.items()},
            "rating_bar": end.rating.bar,
            "basis": str(end.provenance.basis),
            "checked_against": list(end.provenance.checked_against),
            "confidence": str(end.confidence),
        }
        for end in rows_of(catalogue, one)
    ]
    return {**_family_json(catalogue, one), "ends": rows}


def sources_json(catalogue: Catalogue, book: RuleBook, more: Iterable[str]) -> dict[str, Any]:
    """Return every source with how often it is cited; `more` are keys cited for hoses."""
    cited = Counter([*citations(catalogue, book), *more])
    return {
        "sources": [
            {
                "key": source.key,
                "title": source.title,
                "kind": source.kind,
                "note": source.note or None,
                "cited": cited[source.key],
            }
            for source in every_source(catalogue, book)
        ]
    }
