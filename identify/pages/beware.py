"""What to beware of beside an answer: lookalikes, the rules that fired, and the gravest of all.

Nothing is said twice: a rule that speaks of the leading end and a lookalike is the sentence of that
lookalike.
"""

from typing import NamedTuple

from identify.model.verdict import Danger, Effect, Hazard, Verdict, VerdictKind, percent
from identify.model.verdict import Warning as Fired
from identify.pages.blocks import Block, Tone
from identify.pages.words import HAZARDS, LEGEND, UNTOLD, end_words, retake_words

SHOWN_WARNINGS = 3
SHOWN_LOOKALIKES = 3
STANDING = 0.01  # a lookalike below this is no longer the first thing to say


class Beware(NamedTuple):
    """A lookalike with the rule that speaks of it and the leading end, if one fired."""

    danger: Danger
    rule: Fired | None

    @property
    def harm(self) -> str:
        """What goes wrong."""
        return self.rule.sentence if self.rule else self.danger.goes_wrong


def beware_of(verdict: Verdict) -> list[Beware]:
    """Return what is dangerous to mistake for the leading end, standing ones first."""
    if not verdict.dangers and verdict.kind is not VerdictKind.IDENTIFIED:
        return []
    standing = {danger.end.id for danger in verdict.dangers}
    every = [
        *sorted(verdict.dangers, key=lambda danger: -danger.hazard.rank),
        *(each for each in verdict.lookalikes if each.end.id not in standing),
    ]
    return [Beware(danger, _rule_of(verdict, danger)) for danger in every]


def _rule_of(verdict: Verdict, danger: Danger) -> Fired | None:
    pair = {verdict.ranking[0].end.family, danger.end.family}
    rules = (each for each in verdict.warnings if len(pair) == 2 and pair <= {*each.families})
    return next(rules, None)


def not_said_elsewhere(verdict: Verdict, alike: list[Beware], whole: bool) -> list[Fired]:
    """Return the warnings that neither a lookalike nor the next question says, gravest first."""
    shown = alike if whole else alike[:SHOWN_LOOKALIKES]
    said = {each.rule.rule for each in shown if each.rule}
    asked = verdict.question.feature if verdict.question else None
    return sorted(
        (
            each
            for each in verdict.warnings
            if each.rule not in said
            and not (each.effect is Effect.ASK_FIRST and each.ask is asked and not whole)
        ),
        key=lambda each: (each.effect is not Effect.REFUSE, -each.hazard.rank),
    )


class Gravest(NamedTuple):
    """What one must not miss, first and last on the page: a lookalike that stands, or a rule."""

    blocks: list[Block]
    danger: Danger | None = None
    rule: Fired | None = None


def gravest_of(alike: list[Beware], fired: list[Fired]) -> Gravest:
    """Return the sentence one must not miss, none if nothing that is known can injure."""
    if fired and fired[0].effect is Effect.REFUSE:
        return Gravest([_rule(fired[0])], rule=fired[0])
    for each in alike:
        danger = each.danger
        if danger.probability >= STANDING and danger.hazard is Hazard.HIGH:
            what = each.harm or danger.tell
            first = f"{danger.end.title} is still possible ({percent(danger.probability)})"
            text = f"{first}. {what[:1].upper()}{what[1:]}"
            return Gravest([Block(text, Tone.WARN, mark=mark_of(danger.hazard))], danger=danger)
    if fired and fired[0].hazard is Hazard.HIGH:
        return Gravest([_rule(fired[0])], rule=fired[0])
    return Gravest([])


def mark_of(hazard: Hazard) -> str:
    """Return the sign of a hazard, of one width for all."""
    return f"{HAZARDS[hazard][0]:<3} "


def _rule(fired: Fired, *under: str) -> Block:
    return Block(fired.sentence, Tone.WARN, mark=mark_of(fired.hazard), under=under)


def alike_blocks(
    verdict: Verdict, alike: list[Beware], gravest: Gravest, whole: bool
) -> list[Block]:
    """Return the lookalikes of the leading end, a few of them unless `whole`."""
    blocks = [Block(f"Easily mistaken for {verdict.ranking[0].end.title} {LEGEND}", Tone.HEAD)]
    shown = len(alike) if whole else SHOWN_LOOKALIKES
    for each in alike[:shown]:
        told = not whole and each.danger is gravest.danger
        blocks.append(lookalike_block(each, told=told, whole=whole))
    if len(alike) > shown:
        blocks.append(Block(f"and {len(alike) - shown} more; --full prints all", mark="    "))
    return blocks


def lookalike_block(each: Beware, *, told: bool = False, whole: bool = True) -> Block:
    """Return a lookalike: what tells it apart, what goes wrong, what experience says of it."""
    danger, rule = each
    chance = f" ({percent(danger.probability)})" if danger.probability else ""
    under = [] if told else [each.harm]
    if whole and rule:
        under += [danger.goes_wrong, _because(rule, whole)]
    under.append(danger.tell_apart)
    text = f"{end_words(danger.end)}{chance}; {danger.tell or UNTOLD}"
    return Block(text, Tone.WARN, mark=mark_of(danger.hazard), under=tuple(filter(None, under)))


def warning_blocks(fired: list[Fired], legend: str, whole: bool) -> list[Block]:
    """Return rules that fired, each with why; a few of them unless `whole`."""
    shown = len(fired) if whole else SHOWN_WARNINGS
    blocks = [Block(f"Beware{legend}", Tone.HEAD)]
    blocks += [_rule(each, _because(each, whole)) for each in fired[:shown]]
    if len(fired) > shown:
        blocks.append(Block(f"and {len(fired) - shown} less grave; --full prints all", mark="    "))
    return blocks


def _because(fired: Fired, whole: bool) -> str:
    why = fired.because if whole or not fired.reason else f"because {fired.reason}"
    return f"{why} [{fired.basis}]"


def beware_blocks(verdict: Verdict) -> list[Block]:
    """Return suspects, lookalikes that stand, and rules, for a screen of their own."""
    blocks = [Block(retake_words(each), Tone.WARN, mark="! ") for each in verdict.suspects]
    blocks += [lookalike_block(Beware(each, None)) for each in verdict.dangers]
    blocks += [_rule(each, _because(each, True)) for each in verdict.warnings]
    return [Block(f"Beware {LEGEND}", Tone.HEAD), *blocks] if blocks else []
