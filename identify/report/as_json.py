"""A verdict as one JSON object; the fields are documented in the README."""

from typing import Any

from identify.model.connection import EndConnection
from identify.model.verdict import Danger, Ranked, Verdict

CERTAIN = 0.999999  # no probability is ever printed as 1


def verdict_json(verdict: Verdict) -> dict[str, Any]:
    """Return the verdict as plain values, ready for `json.dumps`."""
    question = verdict.question
    return {
        "verdict": str(verdict.kind),
        "sentence": verdict.sentence,
        "candidates": [_candidate(ranked) for ranked in verdict.ranking],
        "none_of_these": _chance(verdict.none_of_these),
        "suspect_readings": [
            {
                "reading": str(suspect.reading.feature),
                "entered": suspect.reading.entered,
                "probability": _chance(suspect.probability),
                "without": suspect.without.id,
                "sentence": suspect.sentence,
            }
            for suspect in verdict.suspects
        ],
        "lookalikes": [
            _danger(danger)
            for danger in (*verdict.dangers, *_others(verdict.dangers, verdict.lookalikes))
        ],
        "warnings": [
            {
                "rule": warning.rule,
                "effect": str(warning.effect),
                "hazard": str(warning.hazard),
                "sentence": warning.sentence,
                "because": warning.because,
                "source": warning.source,
                "basis": warning.basis,
                "ask": str(warning.ask) if warning.ask else None,
            }
            for warning in verdict.warnings
        ],
        "evidence": [
            {
                "reading": str(evidence.feature),
                "candidate": ranked.end.id,
                "weight": round(evidence.weight_nats, 3),
                "sentence": evidence.sentence,
            }
            for ranked in verdict.ranking
            for evidence in ranked.evidence
        ],
        "next_question": {
            "feature": str(question.feature),
            "text": question.text,
            "why": question.why,
            "tool": question.how,
            "minutes": question.minutes,
            "bits": round(question.bits, 3),
            "separates": question.separates,
        }
        if question
        else None,
        "cautions": list(verdict.cautions),
    }


def _candidate(ranked: Ranked) -> dict[str, Any]:
    end, seat = ranked.end, ranked.seat
    return {
        "id": end.id,
        "family": end.family,
        "family_name": end.family_name,
        "size": end.size,
        "standard": " / ".join(end.standards),
        "gender": end.gender,
        "form": end.form,
        "thread": seat.thread or end.thread,
        "seat_half_angle_deg": seat.half_angle_deg,
        "seat_shape": str(seat.shape),
        "o_ring": seat.o_ring,
        "probability": _chance(ranked.probability),
        "own_probability": _chance(ranked.own_probability),
        "cannot_be_told_from": [_name(twin) for twin in ranked.twins],
        "rating_bar": end.rating.bar,
        "basis": str(end.provenance.basis),
        "confidence": str(end.confidence),
        "caveat": end.provenance.caveat or None,
        "refuse": end.refuse or None,
    }


def _danger(danger: Danger) -> dict[str, Any]:
    return {
        **_name(danger.end),
        "standing": _chance(danger.probability),
        "hazard": str(danger.hazard),
        "tell_apart_by": danger.tell or None,
        "goes_wrong": danger.goes_wrong or None,
        "source": danger.source,
    }


def _others(dangers: tuple[Danger, ...], named: tuple[Danger, ...]) -> list[Danger]:
    """Return lookalikes of the tables that are not among those still standing."""
    standing = {danger.end.id for danger in dangers}
    return [each for each in named if each.end.id not in standing]


def _name(end: EndConnection) -> dict[str, str]:
    return {"id": end.id, "family": end.family, "size": end.size, "gender": end.gender}


def _chance(probability: float) -> float:
    return min(round(probability, 6), CERTAIN)
