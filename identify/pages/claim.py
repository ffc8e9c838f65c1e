"""Whether a claimed identity stands: as blocks and as one JSON object."""

from collections.abc import Iterable
from typing import Any

from identify.model.verdict import Claim, Danger, Standing, percent
from identify.pages.as_json import (
    candidate_json,
    chance,
    danger_json,
    question_json,
    suspect_json,
)
from identify.pages.beware import Beware, lookalike_block
from identify.pages.blocks import BLANK, Block, dashed
from identify.pages.reasons import evidence_words, reason_words
from identify.pages.words import (
    LEGEND,
    end_words,
    forms_words,
    sentence,
    suspect_words,
    tool_words,
    twins_words,
)

NO_PROOF = (
    "A claim that stands is no proof of a joint that holds, and no rating. The machine's maker and "
    "local codes decide."
)


def claim_blocks(claim: Claim, gender_from_claim: str = "") -> list[Block]:
    """Return the answer, what speaks against the claim, what is not ruled out, what would tell.

    Args:
        claim: The claim, held against readings.
        gender_from_claim: The gender, where no reading told it and it was taken from the claim.
    """
    end, twins = claim.claimed.end, claim.claimed.twins
    parts = [[Block(_headline(claim))]]
    if gender_from_claim:
        parts.append([Block(f"Nobody said the gender; taken from the claim: {gender_from_claim}.")])
    if end.refuse:
        parts.append([Block(f"REFUSE: {end.refuse}")])
    parts.append(_listed("Against it", map(reason_words, claim.against)))
    others = [each for each in claim.claimed.evidence if each not in set(claim.against)]
    parts.append(_listed("Not against it", map(reason_words, others)))
    parts.append(_listed("Suspect", map(suspect_words, claim.suspects)))
    if lead := claim.leader:
        best = f"{end_words(lead.end)} ({percent(lead.probability)})"
        parts.append([Block(f"Fits best: {best}; {lead.end.id}")])
    if twins:
        parts.append([Block(sentence(twins_words(twins, len(twins))))])
    if forms := forms_words(claim.claimed):
        parts.append([Block(sentence(forms))])
    if claim.standing is not Standing.REFUTED:
        parts.append(_rivals(claim.rivals))
    parts += [[Block(_check(claim))], [Block(NO_PROOF)]]
    return [block for part in parts if part for block in (BLANK, *part)][1:]


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
                "sentence": evidence_words(each),
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
    name = f"{end_words(end)} ({percent(claim.claimed.probability)})"
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


def _rivals(rivals: tuple[Danger, ...]) -> list[Block]:
    if not rivals:
        return [Block("Ruled out: every lookalike in the tables.")]
    return [
        Block(f"Not ruled out {LEGEND}"),
        *(lookalike_block(Beware(each, None)) for each in rivals),
    ]


def _check(claim: Claim) -> str:
    if claim.standing is Standing.STANDS:
        return "Check: none is needed to tell it from another end."
    if claim.suspects:
        return f"Check: take {claim.suspects[0].reading.feature} again."
    if claim.check is None and claim.against:
        return f"Check: before you rely on it take {claim.against[0].feature} again."
    if claim.check is None:
        return "Check: no single measurement would help much more."
    return (
        f"Check: {claim.check.text} ({claim.check.feature}, {tool_words(claim.check.how)}, about "
        f"{claim.check.minutes:g} min.) {claim.check.why}"
    )


def _listed(head: str, sentences: Iterable[str]) -> list[Block]:
    told = [dashed(each) for each in sentences]
    return [Block(head), *told] if told else []
