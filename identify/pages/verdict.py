"""What was concluded: for the command line and a file, and for the screen; of the same parts.

As text first stand verdict, gravest danger and next measurement, last the danger and how to take
that measurement: whatever a window cuts off, these remain. A reading that says the same of two
candidates is told of the first.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.verdict import Question, Ranked, Verdict, VerdictKind, percent
from identify.pages.beware import (
    alike_blocks,
    beware_of,
    gravest_of,
    not_said_elsewhere,
    warning_blocks,
)
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.ending import ending_blocks, nothing_left, now_blocks
from identify.pages.handover import after_fitting, goes_on, mates_of_lead, order_blocks, what_it_is
from identify.pages.reasons import evidence_blocks, reason_words, weighed_blocks
from identify.pages.text import text_of
from identify.pages.words import (
    LEGEND,
    end_words,
    forms_words,
    rating_words,
    retake_words,
    suspect_words,
    tool_words,
    twins_words,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from identify.reasoning.engine import Engine
    from identify.reasoning.mating import Mates

SHOWN_TWINS = 4
REASONED = 3  # leading candidates whose reasons are told
SHOWN_FROM = 0.005  # candidates below this are counted, not listed, after the first
_UNDER = " " * 12  # below the title of a candidate


def verdict_text(engine: Engine, verdict: Verdict, *, whole: bool) -> str:
    """Return the page of the command line and the file, as text of 80 columns."""
    mates = mates_of_lead(engine, verdict) if whole else None
    return text_of(rank_blocks(engine, verdict, mates, whole=whole))


def rank_blocks(
    engine: Engine, verdict: Verdict, mates: Mates | None = None, *, whole: bool = False
) -> list[Block]:
    """Return verdict, ranking with reasons, warnings, cautions and the next measurement.

    Args:
        engine: Tables and rules.
        verdict: What was concluded.
        mates: What the leading end meets, for the whole page.
        whole: Everything: each lookalike and warning with the facts that raised it, each reason,
            and of an end that is identified what to order and what goes on it.
    """
    alike = beware_of(verdict)
    fired = not_said_elsewhere(verdict, alike, whole)
    gravest = gravest_of(verdict, alike, fired)
    head = Block(verdict.sentence)
    parts = [[head, *gravest.blocks, *_next(verdict.question), *now_blocks(verdict)]]
    if verdict.readings:
        parts.append(_ranking(verdict, whole))
    parts.append([Block(f"? {suspect_words(each)}") for each in verdict.suspects])
    if alike:
        parts.append(alike_blocks(verdict, alike, gravest, whole))
    parts += ending_blocks(engine, verdict)
    parts.append(warning_blocks(fired, gravest, "" if alike else f" {LEGEND}", whole))
    shown: tuple[str, ...] = ()
    if whole and verdict.kind is VerdictKind.IDENTIFIED:
        parts += _of_named(engine, verdict, mates)
        shown = _said_by(parts)
    cautions = [each for each in verdict.cautions if each not in shown]
    if cautions:
        parts.append([Block("Cautions", Tone.HEAD), *map(dashed, cautions)])
    parts.append([*gravest.brief, *_how(verdict)])
    return _parted(parts)


def _of_named(engine: Engine, verdict: Verdict, mates: Mates | None) -> list[list[Block]]:
    """Return what follows from an end that has its name: order, mates, the first test."""
    lead = verdict.ranking[0]
    return [
        order_blocks(lead, engine.book),
        goes_on(lead.end, mates, engine.catalogue, "What goes on it"),
        after_fitting(lead.end, engine.book),
    ]


def verdict_blocks(engine: Engine, verdict: Verdict, mates: Mates | None) -> list[Block]:
    """Return the verdict for a screen that shows the ranking elsewhere: the leading end in full.

    Args:
        engine: Tables and rules.
        verdict: What was concluded.
        mates: What the leading end meets, None where no end leads.
    """
    alike = beware_of(verdict)
    fired = not_said_elsewhere(verdict, alike, whole=True)
    gravest = gravest_of(verdict, alike, fired)
    head = [Block(verdict.sentence, Tone.HEAD), *gravest.blocks]
    parts = [[*head, *_next(verdict.question), *now_blocks(verdict)]]
    leads = (
        verdict.readings
        and verdict.ranking
        and verdict.kind is not VerdictKind.ABSTAIN
        and verdict.ranking[0].probability >= engine.book.limits.named
    )
    named = verdict.kind is VerdictKind.IDENTIFIED
    if leads and named:
        parts += [what_it_is(verdict.ranking[0], "What it is"), *_of_named(engine, verdict, mates)]
    parts.append([Block(retake_words(each), Tone.WARN, mark="! ") for each in verdict.suspects])
    if alike:
        parts.append(alike_blocks(verdict, alike, gravest, whole=True, facts=False))
    parts += ending_blocks(engine, verdict)
    if leads and not named:
        lead = verdict.ranking[0]
        parts.append(what_it_is(lead, "What leads"))
        parts.append(goes_on(lead.end, mates, engine.catalogue, "What goes on it, if it is that"))
    parts.append(warning_blocks(fired, gravest, "" if alike else f" {LEGEND}", whole=True))
    if leads or (verdict.ranking and verdict.kind is VerdictKind.ABSTAIN):
        lead = verdict.ranking[0]
        about = Block(f"What speaks for and against {end_words(lead.end)}", Tone.HEAD)
        parts.append([about, *evidence_blocks(lead.evidence), *weighed_blocks(verdict)])
    shown = _said_by(parts)
    cautions = [Block(each, mark="! ") for each in verdict.cautions if each not in shown]
    if cautions:
        parts.append([Block("Cautions", Tone.HEAD), *cautions])
    return _parted(parts)


def _parted(parts: Iterable[list[Block]]) -> list[Block]:
    """Return the parts that say something with a blank line between."""
    blocks: list[Block] = []
    for part in filter(None, parts):
        blocks += [BLANK, *part] if blocks else part
    return blocks


def _said_by(parts: Iterable[list[Block]]) -> tuple[str, ...]:
    return tuple(block.text for part in parts for block in part)


# ---- the ranking


def _ranking(verdict: Verdict, whole: bool) -> list[Block]:
    blocks: list[Block] = []
    for number, ranked in enumerate(verdict.ranking, 1):
        if number > 1 and ranked.probability < SHOWN_FROM:
            left = len(verdict.ranking) - number + 1
            blocks.append(Block(f"and {left} less likely than 1 in 200", mark="    "))
            break
        blocks += _entry(number, ranked)
        if whole or number <= REASONED:
            blocks += _reasons(ranked, None if whole or number == 1 else verdict.ranking[0])
            blocks += _caveats(ranked.end, whole or number == 1)
    mark = f"    {percent(verdict.none_of_these):>6}  "
    return [*blocks, Block("none of these", mark=mark), *weighed_blocks(verdict)]


def _entry(number: int, ranked: Ranked) -> Iterator[Block]:
    end = ranked.end
    thread = ranked.seat.thread or end.thread
    mark = f"{number:>2}. {percent(ranked.probability):>6}  "
    yield Block(f"{end.named}: {end.form}", mark=mark)
    facts = [end.id, f"thread {thread}" if thread else "", " / ".join(end.standards)]
    yield Block("; ".join(filter(None, facts)), mark=_UNDER)
    if ranked.twins:
        yield Block(twins_words(ranked.twins, SHOWN_TWINS), mark=_UNDER)
    if forms := forms_words(ranked):
        yield Block(forms, mark=_UNDER)


def _reasons(ranked: Ranked, first: Ranked | None) -> list[Block]:
    """Return what the readings say of a candidate, but for what they say of the first as well."""
    said = {reason_words(each) for each in first.evidence} if first else set()
    told = [
        reason_words(each)
        for each in ranked.evidence
        if reason_words(each) not in said
        and not (each.feature is Feature.GENDER and each.weight_nats > 0)
    ]
    if first and not told:
        told = ["same reasons as 1"]
    return [Block(each, mark=f"{_UNDER}· ") for each in told]


def _caveats(end: EndConnection, noted: bool) -> list[Block]:
    lines = [f"working pressure: {rating_words(end.rating, noted=noted)}"]
    if end.provenance.caveat:
        lines.append(f"doubt: {end.provenance.caveat}")
    if end.refuse:
        lines.append(f"REFUSE: {end.refuse}")
    return [Block(line, mark=_UNDER) for line in lines]


# ---- the next measurement


def _next(question: Question | None) -> list[Block]:
    if question is None:
        return []
    how = tool_words(question.how)
    return [Block(f"Next: {question.text} ({question.feature}, {how})")]


def _how(verdict: Verdict) -> list[Block]:
    """Return how the next measurement is given, or that none is left where it was not said yet."""
    question = verdict.question
    if question is None:
        named = verdict.kind is VerdictKind.IDENTIFIED or not verdict.readings
        return [Block(f"Next: {nothing_left(verdict)}")] if named else []
    choices = FEATURES[question.feature].choices
    value = f"one of {', '.join(choices)}" if choices else "what you read, with its unit"
    return [
        Block(
            f"Next: add {question.feature}=… ({value}), {tool_words(question.how)}, about "
            f"{question.minutes:g} min. {question.why} {question.separates}"
        )
    ]
