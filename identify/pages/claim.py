"""Whether what somebody says an end is stands, as blocks."""

from __future__ import annotations

from collections.abc import Iterable

from identify.errors import ReadingError, UnknownEndError
from identify.frozen import TYPE_CHECKING, replace
from identify.interview.session import SessionState
from identify.model.catalogue import Catalogue
from identify.model.claim import Against, Aspect, Claim, Part, Standing
from identify.model.feature import FEATURES, Feature
from identify.model.verdict import Danger, Ranked, Verdict, percent
from identify.pages.beware import Beware, lookalike_block
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.reasons import reason_words
from identify.pages.words import (
    LEGEND,
    end_words,
    forms_words,
    minutes_words,
    sentence,
    several,
    suspect_words,
    tool_words,
    twins_words,
)
from identify.reading.claims import claim_of, claim_text, quoted_claim
from identify.reading.names import understand
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine

if TYPE_CHECKING:
    from typing import Any

NO_PROOF = (
    "A claim that stands is no proof of a joint that holds, and no rating. The machine's maker and "
    "local codes decide."
)
_PARTS = {
    Aspect.THREAD: "Thread",
    Aspect.SEAT: "Seat",
    Aspect.FAMILY: "Family",
    Aspect.SIZE: "Size",
}
_STANDS = {
    Standing.STANDS: "stands",
    Standing.DOUBTFUL: "open",
    Standing.REFUTED: "refuted",
}
_FAR_LIKELIER = 1.5  # from here on it is said how many times
_NAMED = 8  # ends listed of those that words name
_LISTED = 3  # values of a part, or ends, that a line names


def claim_blocks(claim: Claim, catalogue: Catalogue, gender_from_claim: str = "") -> list[Block]:
    """Return the answer, what speaks against the claim, what is not ruled out, what would tell.

    Args:
        claim: The claim, held against readings.
        catalogue: The tables, for the names of families.
        gender_from_claim: The gender, where no reading told it and it was taken from the claim.
    """
    parts = [[Block(headline_of(claim))], *map(list, filter(None, [_said(claim)]))]
    if gender_from_claim:
        parts.append([Block(f"Nobody said the gender; taken from the claim: {gender_from_claim}.")])
    if len(claim.ends) == 1 and claim.ends[0].refuse:
        parts.append([Block(f"REFUSE: {claim.ends[0].refuse}")])
    parts.append([dashed(part_words(each, catalogue)) for each in claim.parts])
    parts.append(_listed("Against it", (against_words(each, claim) for each in claim.against)))
    parts.append(_listed("Not against it", map(reason_words, _not_against(claim))))
    parts.append(_listed("Suspect", map(suspect_words, claim.suspects)))
    if lead := claim.leader:
        best = f"{end_words(lead.end)} ({percent(lead.probability)})"
        parts.append([Block(f"Fits best: {best}; {lead.end.id}")])
    if claim.open:
        parts.append(_listed("Which of them it is, is open", map(_answer_words, claim.open)))
    elif claim.claimed.twins:
        twins = claim.claimed.twins
        parts.append([Block(sentence(twins_words(twins, len(twins))))])
    if not claim.open and (forms := forms_words(claim.claimed)):
        parts.append([Block(sentence(forms))])
    if claim.standing is not Standing.REFUTED:
        parts.append(_rivals(claim.rivals))
    parts += [[Block(_check(claim))], [Block(NO_PROOF)]]
    return [block for part in parts if part for block in (BLANK, *part)][1:]


def claim_short(claim: Claim, catalogue: Catalogue) -> list[Block]:
    """Return a claim in a few lines: how far it stands, which part, what speaks against it."""
    blocks = [
        Block(headline_of(claim)),
        *map(dashed, (part_words(each, catalogue) for each in claim.parts)),
    ]
    blocks += [dashed(f"against it: {against_words(each, claim)}") for each in claim.against]
    return blocks


def claims_blocks(
    engine: Engine, state: SessionState, verdict: Verdict, *, picks: bool = False
) -> list[Block]:
    """Return all that was said of an end, held against the readings; empty where nothing was.

    Words that these tables do not name are said to be so. With `picks` a claim can be picked.
    """
    blocks: list[Block] = []
    own = engine.measured_by(state.care)
    for each in state.claims:
        head = Block(f"Said: {claim_text(each.said)}", Tone.HEAD, pick=each.words if picks else "")
        try:
            told = claim_short(hold(own, each.said, verdict, state.situation), own.catalogue)
        except (UnknownEndError, ReadingError) as error:
            told = [Block(str(error))]
        blocks += [*([BLANK] if blocks else []), head, *told]
    return blocks


def last_claim(engine: Engine, state: SessionState, verdict: Verdict) -> str:
    """Return in a sentence or two how the claim stands that was made last."""
    told = claims_blocks(engine, replace(state, claims=state.claims[-1:]), verdict)
    return " ".join(f"{block.text.rstrip('.')}." for block in told[:2])


def named_blocks(catalogue: Catalogue, text: str) -> list[Block]:
    """Return what a claim names as far as it is typed, or why it names nothing."""
    try:
        ends = understand(catalogue, claim_of(text).words).ends
    except (UnknownEndError, ReadingError) as error:
        return [Block(str(error))]
    more = [Block(f"and {len(ends) - _NAMED} more")] if len(ends) > _NAMED else []
    head = Block(f"{several(len(ends), 'end')} of the tables:", Tone.HEAD)
    return [head, *(dashed(f"{end_words(end)}, {end.form}") for end in ends[:_NAMED]), *more]


def headline_of(claim: Claim) -> str:
    """Return in a sentence or two how far a claim stands."""
    one = len(claim.ends) == 1
    what = end_words(claim.ends[0]) if one else quoted_claim(claim.said)
    name = f"{what} ({percent(claim.probability)})"
    if claim.standing is Standing.STANDS:
        return f"The claim stands: {name}."
    if claim.standing is Standing.REFUTED:
        this = "this is not" if one else "this is none of the ends called"
        return f"The claim is refuted: {this} {name}, if the readings are right."
    return f"The claim is doubtful: {name}. {_doubt(claim)}"


def part_words(part: Part, catalogue: Catalogue) -> str:
    """Return how far one part of a claim stands: "Thread 3/4-16 UNF: stands (>99 %)"."""
    names = [_value_words(part.aspect, each, catalogue) for each in part.values]
    names = list(dict.fromkeys(names))
    more = f" or {len(names) - _LISTED} more" if len(names) > _LISTED else ""
    what = f"{_PARTS[part.aspect]} {' or '.join(names[:_LISTED])}{more}"
    return f"{what}: {_STANDS[part.standing]} ({percent(part.probability)})"


def against_words(against: Against, claim: Claim) -> str:
    """Return why a reading speaks against a claim, by itself or beside the end that fits best."""
    title, times = FEATURES[against.evidence.feature].title, against.times
    if claim.leader is None or times < _FAR_LIKELIER:
        return reason_words(against.evidence)
    many = f"{times:,.0f}" if times < 1000 else "more than 1,000"
    return (
        f"{title}: {against.evidence.sentence}; {many} times likelier of {claim.leader.end.named}"
    )


def _said(claim: Claim) -> list[Block]:
    said, count = claim.said, len(claim.ends)
    lines = []
    if count > 1:
        names = ", ".join(end.id for end in claim.ends[:_LISTED])
        more = f" and {count - _LISTED} more" if count > _LISTED else ""
        lines.append(f"{several(count, 'end')} of the tables are called so: {names}{more}.")
    if said.by:
        lines.append(f"Said by: {said.by}.")
    if said.anyway:
        lines.append(f"Ordered anyway, because {said.anyway}.")
    return [Block(line) for line in lines]


def _not_against(claim: Claim) -> list[Any]:
    features = {each.evidence.feature for each in claim.against}
    return [each for each in claim.claimed.evidence if each.feature not in features]


def _value_words(aspect: Aspect, value: str, catalogue: Catalogue) -> str:
    if aspect is Aspect.FAMILY:
        return catalogue.families[value].name
    return "without a seat" if (aspect, value) == (Aspect.SEAT, "none") else value


def _answer_words(ranked: Ranked) -> str:
    return f"{end_words(ranked.end)} ({percent(ranked.probability)})"


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
    if claim.standing is Standing.STANDS and claim.check is None:
        return "Check: none is needed to tell it from another end."
    if claim.suspects:
        return f"Check: {_again(claim.suspects[0].reading.feature)}"
    if claim.check is None and claim.against:
        return f"Check, before you rely on it: {_again(claim.against[0].evidence.feature)}"
    if claim.check is None:
        return "Check: no single measurement would help much more."
    check = claim.check
    head = "To tell which of them it is: " if claim.standing is Standing.STANDS else "Check: "
    how = f"{tool_words(check.how)}, {minutes_words(check.minutes)}"
    return f"{head}{check.text} ({FEATURES[check.feature].title}, {how}.) {check.why}"


def _again(feature: Feature) -> str:
    return f"take again: {FEATURES[feature].title}."


def _listed(head: str, sentences: Iterable[str]) -> list[Block]:
    told = [dashed(each) for each in sentences]
    return [Block(head), *told] if told else []
