"""Whether a claimed identity stands: as text of 80 columns and as one JSON object."""

from typing import Any

from identify.model.claim import Claim, Standing
from identify.model.verdict import Danger
from identify.model.words import percent
from identify.pages.as_json import (
    candidate_json,
    chance,
    danger_json,
    evidence_sentence,
    question_json,
    suspect_json,
)
from identify.pages.as_text import MARK, wrap
from identify.pages.words import reason_words, suspect_words


def claim_text(claim: Claim, gender_from_claim: str = "") -> str:
    """Return the answer, what speaks against the claim, what is not ruled out, what would tell.

    Args:
        claim: The claim, held against readings.
        gender_from_claim: The gender, where no reading told it and it was taken from the claim.
    """
    end = claim.claimed.end
    parts = [wrap(_headline(claim))]
    if gender_from_claim:
        parts.append(wrap(f"Nobody said the gender; taken from the claim: {gender_from_claim}."))
    if end.refuse:
        parts.append(wrap(f"REFUSE: {end.refuse}"))
    if claim.against:
        parts.append(_listed("Against it", [reason_words(each) for each in claim.against]))
    spoken = set(claim.against)
    others = [reason_words(each) for each in claim.claimed.evidence if each not in spoken]
    if others:
        parts.append(_listed("Not against it", others))
    if claim.suspects:
        parts.append(_listed("Suspect", [suspect_words(each) for each in claim.suspects]))
    if claim.leader:
        lead = claim.leader
        parts.append(
            wrap(f"Fits best: {lead.end.title}, {lead.end.gender} ({percent(lead.probability)}); "
                 f"{lead.end.id}")
        )  # fmt: skip
    if claim.claimed.twins:
        names = ", ".join(twin.title for twin in claim.claimed.twins)
        parts.append(wrap(f"No measurement of the end tells it from: {names}."))
    if claim.standing is not Standing.REFUTED:
        parts.append(_rivals(claim))
    parts.append(wrap(_check(claim)))
    parts.append(
        wrap("A claim that stands is no proof of a joint that holds, and no rating. The machine's "
             "maker and local codes decide.")
    )  # fmt: skip
    return "\n\n".join(parts) + "\n"


def claim_json(claim: Claim) -> dict[str, Any]:
    """Return the claim as plain values, ready for `json.dumps`."""
    return {
        "standing": str(claim.standing),
        "sentence": _headline(claim),
        "claimed": candidate_json(claim.claimed),
        "evidence": [
            {
                "reading": str(each.feature),
                "weight": round(each.weight_nats, 3),
                "against": each in claim.against,
                "sentence": evidence_sentence(each),
            }
            for each in claim.claimed.evidence
        ],
        "not_ruled_out": [danger_json(each) for each in claim.rivals],
        "fits_best": candidate_json(claim.leader) if claim.leader else None,
        "none_of_these": chance(claim.none_of_these),
        "suspect_readings": [suspect_json(each) for each in claim.suspects],
        "check": question_json(claim.check) if claim.check else None,
    }


def _headline(claim: Claim) -> str:
    end = claim.claimed.end
    name = f"{end.title}, {end.gender} ({percent(claim.claimed.probability)})"
    if claim.standing is Standing.STANDS:
        return f"The claim stands: {name}."
    if claim.standing is Standing.REFUTED:
        return f"The claim is refuted: this is not {name}, if the readings are right."
    return f"The claim is doubtful: {name}. {_doubt(claim)}"


def _doubt(claim: Claim) -> str:
    if claim.suspects:
        return "One reading does not agree with the others."
    if claim.leader:
        return "Another end fits better."
    if claim.rivals:
        return "The readings do not rule out its lookalikes."
    return "The readings fit no end of the tables well."


def _rivals(claim: Claim) -> str:
    if not claim.rivals:
        return wrap("Ruled out: every lookalike in the tables.")
    lines = ["Not ruled out (!!! can injure, !! may weep later, ! shows at once)"]
    for rival in claim.rivals:
        lines.append(_rival(rival))
    return "\n".join(lines)


def _rival(rival: Danger) -> str:
    tell = rival.tell or "no measurement of the end tells them apart"
    chance_of_it = percent(rival.probability)
    text = wrap(f"{rival.end.title}, {chance_of_it}; {tell}", f"{MARK[rival.hazard]} ")
    return f"{text}\n{wrap(rival.goes_wrong, indent='    ')}" if rival.goes_wrong else text


def _check(claim: Claim) -> str:
    if claim.standing is Standing.STANDS:
        return "Check: none is needed to tell it from another end."
    if claim.suspects:
        return f"Check: take {claim.suspects[0].reading.feature} again."
    if claim.check is None and claim.against:
        return f"Check: before you rely on it take {claim.against[0].feature} again."
    if claim.check is None:
        return "Check: no single measurement would tell much more."
    tool = "by eye" if claim.check.how == "none" else f"with {claim.check.how.replace('_', ' ')}"
    return (
        f"Check: {claim.check.text} ({claim.check.feature}, {tool}, about "
        f"{claim.check.minutes:g} min.) {claim.check.why}"
    )


def _listed(head: str, sentences: list[str]) -> str:
    return "\n".join([head, *(wrap(each, "- ") for each in sentences)])
