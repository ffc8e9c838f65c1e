"""A verdict as one JSON object; the fields are documented in DEVELOPERS.md."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.model.connection import EndConnection
from identify.model.verdict import (
    Beyond,
    Brief,
    Danger,
    Question,
    Ranked,
    Suspect,
    Verdict,
    Warning,
)
from identify.pages.reasons import evidence_words
from identify.pages.words import suspect_words

if TYPE_CHECKING:
    from collections.abc import Iterable
    from typing import Any

    from identify.model.learnt import Learnt


CERTAIN = 0.999999  # no probability is ever printed as 1


def verdict_json(verdict: Verdict) -> dict[str, Any]:
    """Return the verdict as plain values, ready for `json.dumps`."""
    return {
        "verdict": str(verdict.kind),
        "sentence": verdict.sentence,
        "candidates": [candidate_json(ranked) for ranked in verdict.ranking],
        "none_of_these": chance(verdict.none_of_these),
        "unlisted_size": verdict.unlisted_size or None,
        "certain": [
            {
                "level": str(each.level),
                "value": each.value,
                "probability": chance(each.probability),
            }
            for each in verdict.certain
        ],
        "suspect_readings": [suspect_json(suspect) for suspect in verdict.suspects],
        "lookalikes": [danger_json(danger) for danger in lookalikes_of(verdict)],
        "warnings": [warning_json(warning) for warning in verdict.warnings],
        "evidence": _evidence_json(verdict.ranking),
        "next_question": question_json(verdict.question) if verdict.question else None,
        "beyond": beyond_json(verdict.beyond) if verdict.beyond else None,
        "cautions": list(verdict.cautions),
        "care": verdict.care or None,
        **({"learnt": learnt_json(verdict.learnt)} if verdict.learnt else {}),
    }


def learnt_json(learnt: Learnt) -> dict[str, Any]:
    """Return what a shop's own outcomes did to a verdict."""
    return {
        "moved": [
            {
                "id": each.end.id,
                "fitted": each.fitted.count,
                "last": each.fitted.last,
                "before": chance(each.before),
                "after": chance(each.after),
            }
            for each in learnt.moved
        ],
        "without": str(learnt.plain.kind),
    }


def brief_json(brief: Brief) -> dict[str, Any]:
    """Return a conclusion without its reasons; each field as in `verdict_json`."""
    return {
        "verdict": str(brief.kind),
        "candidates": [
            {"id": end.id, "probability": chance(probability)} for end, probability in brief.ranking
        ],
        "none_of_these": chance(brief.none_of_these),
        "suspect_readings": [suspect_json(suspect) for suspect in brief.suspects],
    }


def _evidence_json(ranking: Iterable[Ranked]) -> list[dict[str, Any]]:
    """Return what each reading says of each candidate; of ends that are alike it is put once."""
    put: dict[int, tuple[str, float, str]] = {}
    found = []
    for ranked in ranking:
        for each in ranked.evidence:
            if (words := put.get(id(each))) is None:
                weight = weight_of(each.weight_nats)
                words = put[id(each)] = str(each.feature), weight, evidence_words(each)
            reading, weight, sentence = words
            found.append(
                {
                    "reading": reading,
                    "candidate": ranked.end.id,
                    "weight": weight,
                    "sentence": sentence,
                }
            )
    return found


def candidate_json(ranked: Ranked) -> dict[str, Any]:
    """Return a candidate with what cannot be told from it."""
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
        "probability": chance(ranked.probability),
        "own_probability": chance(ranked.own_probability),
        "cannot_be_told_from": [name_json(twin) for twin in ranked.twins],
        "other_forms": [
            {**name_json(form.end), "probability": chance(form.probability)}
            for form in ranked.forms
        ],
        "rating_bar": end.rating.bar,
        "basis": str(end.provenance.basis),
        "confidence": str(end.confidence),
        "caveat": end.provenance.caveat or None,
        "refuse": end.refuse or None,
    }


def warning_json(warning: Warning) -> dict[str, Any]:
    """Return a rule that fired."""
    return {
        "rule": warning.rule,
        "effect": str(warning.effect),
        "hazard": str(warning.hazard),
        "sentence": warning.sentence,
        "because": warning.because,
        "source": warning.source,
        "basis": warning.basis,
        "ask": str(warning.ask) if warning.ask else None,
    }


def danger_json(danger: Danger) -> dict[str, Any]:
    """Return a lookalike."""
    return {
        **name_json(danger.end),
        "standing": chance(danger.probability),
        "hazard": str(danger.hazard),
        "tell_apart_by": danger.tell or None,
        "tell_apart_by_experience": danger.tell_apart or None,
        "goes_wrong": danger.goes_wrong or None,
        "source": danger.source,
    }


def lookalikes_of(verdict: Verdict) -> list[Danger]:
    """Return the lookalikes that still stand, then those that the tables name beside them."""
    standing = {danger.end.id for danger in verdict.dangers}
    named = [each for each in verdict.lookalikes if each.end.id not in standing]
    return [*verdict.dangers, *named]


def name_json(end: EndConnection) -> dict[str, str]:
    """Return how an end is named beside another."""
    return {"id": end.id, "family": end.family, "size": end.size, "gender": end.gender}


def suspect_json(suspect: Suspect) -> dict[str, Any]:
    """Return a reading that disagrees with the others."""
    return {
        "reading": str(suspect.reading.feature),
        "entered": suspect.reading.entered,
        "probability": chance(suspect.probability),
        "without": suspect.without.id,
        "sentence": suspect_words(suspect),
    }


def question_json(question: Question) -> dict[str, Any]:
    """Return a measurement to make next."""
    return {
        "feature": str(question.feature),
        "text": question.text,
        "why": question.why,
        "tool": question.how,
        "minutes": question.minutes,
        "bits": round(question.bits, 3),
        "separates": question.separates,
        "again": question.again,
        "others": [
            {
                "tool": each.how,
                "other_person": each.other_person,
                "minutes": each.minutes,
                "bits": round(each.bits, 3),
            }
            for each in question.others
        ],
    }


def beyond_json(beyond: Beyond) -> dict[str, Any]:
    """Return a measurement that would still tell, with what it lacks."""
    return {
        "lacks": str(beyond.lack),
        "tool": beyond.tool,
        "values": list(beyond.values),
        "share_of_doubt": chance(beyond.share),
        "question": question_json(beyond.question),
    }


def weight_of(nats: float) -> float:
    """Return what a reading weighs, rounded; nothing has no sign."""
    return round(nats, 3) + 0.0


def chance(probability: float) -> float:
    """Return a probability that is never printed as 1."""
    return min(round(probability, 6), CERTAIN)
