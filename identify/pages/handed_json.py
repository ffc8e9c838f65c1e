"""What is handed over of a job as one JSON object; the fields are documented in DEVELOPERS.md."""

from collections.abc import Iterable
from typing import Any

from identify.pages.handed import Handed, HandedEnd


def handed_json(sheet: Handed, cautions: Iterable[str]) -> dict[str, Any]:
    """Return slip, label and report as plain values, ready for `json.dumps`."""
    job = sheet.job
    return {
        "format": "whichend-handover/1",
        "reference": job.reference,
        "begun": job.begun,
        "customer": job.customer or None,
        "machine": job.machine or None,
        "bag": job.bag or None,
        "measured_by": job.measured_by or None,
        "checked_by": job.checked_by or None,
        "notes": list(job.notes),
        "hoses": [
            {
                "hose": each.number,
                "quantity": int(each.hose.quantity) if each.hose.quantity else None,
                "printed": each.hose.printed or None,
                "ends": [_end_json(end) for end in each.ends],
            }
            for each in sheet.hoses
        ],
        "cautions": list(cautions),
    }


def _end_json(end: HandedEnd) -> dict[str, Any]:
    verdict = end.verdict
    return {
        "end": end.name,
        "shape": end.end.shape or None,
        "verdict": str(verdict.kind) if verdict else None,
        "sentence": verdict.sentence if verdict else None,
        "at": verdict.at if verdict else None,
        "line": end.line,
        "thread": end.thread,
        "seat": end.seat,
        "pressure": end.pressure,
        "read": {str(feature): words for feature, words in end.read},
        "not_measured": list(map(str, end.missing)),
    }
