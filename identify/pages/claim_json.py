"""A claim held against readings as one JSON object; the fields are documented in DEVELOPERS.md."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.model.claim import Claim, Standing
from identify.pages.as_json import (
    candidate_json,
    chance,
    danger_json,
    question_json,
    suspect_json,
    weight_of,
)
from identify.pages.claim import headline_of
from identify.pages.reasons import evidence_words

if TYPE_CHECKING:
    from typing import Any


def claim_json(claim: Claim) -> dict[str, Any]:
    """Return the claim as plain values, ready for `json.dumps`."""
    against = {each.evidence.feature: each for each in claim.against}
    return {
        "standing": str(claim.standing),
        "sentence": headline_of(claim),
        "said": claim.said.words,
        "said_by": claim.said.by or None,
        "ordered_anyway": claim.said.anyway or None,
        "ends": [end.id for end in claim.ends],
        "probability": chance(claim.probability),
        "parts": [
            {
                "part": str(each.aspect),
                "values": list(each.values),
                "probability": chance(each.probability),
                "standing": str(each.standing),
            }
            for each in claim.parts
        ],
        "claimed": candidate_json(claim.claimed),
        "open": [each.end.id for each in claim.open],
        "evidence": [
            {
                "reading": str(each.feature),
                "weight": weight_of(each.weight_nats),
                "against": each.feature in against,
                "sentence": evidence_words(each),
            }
            for each in claim.claimed.evidence
        ],
        "refuted_by": (
            [str(each.evidence.feature) for each in claim.against]
            if claim.standing is Standing.REFUTED
            else []
        ),
        "not_ruled_out": [danger_json(each) for each in claim.rivals],
        "fits_best": candidate_json(claim.leader) if claim.leader else None,
        "none_of_these": chance(claim.none_of_these),
        "suspect_readings": [suspect_json(each) for each in claim.suspects],
        "check": question_json(claim.check) if claim.check else None,
    }
