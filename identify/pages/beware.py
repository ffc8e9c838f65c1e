"""What to beware of beside an answer: lookalikes, the rules that fired, and the gravest of all.

Nothing is said twice: a rule that speaks of the leading end and a lookalike is the sentence of that
lookalike.
"""

from identify.frozen import NamedTuple
from identify.model.verdict import Danger, Effect, Hazard, Verdict, VerdictKind, percent
from identify.model.verdict import Warning as Fired
from identify.pages.blocks import Block, Tone
from identify.pages.words import HAZARDS, LEGEND, UNTOLD, end_words

SHOWN_WARNINGS = 3
SHOWN_LOOKALIKES = 3
SHOWN_TELLS = 3  # of an answer that stands beside the leading one
STANDING = 0.01  # a lookalike below this is no longer the first thing to say


class Beware(NamedTuple):
    """A lookalike with the rule that speaks of it and the leading end, if one fired."""

    danger: Danger
    rule: Fired | None

    @property
    def harm(self) -> str:
        """What goes wrong."""
        return self.rule.sentence if self.rule else self.danger.goes_wrong


def standing_beside(verdict: Verdict) -> list[Danger]:
    """Return what stands beside the leading answer: the next answers, then dangerous lookalikes."""
    named = {each.end.id for each in verdict.beside}
    rest = (each for each in verdict.dangers if each.end.id not in named)
    return [*verdict.beside, *sorted(rest, key=lambda danger: -danger.hazard.rank)]


def beware_of(verdict: Verdict) -> list[Beware]:
    """Return what may be mistaken for the leading end: what stands beside it, then lookalikes."""
    standing = standing_beside(verdict)
    if not standing and verdict.kind is not VerdictKind.IDENTIFIED:
        return []
    known = {danger.end.id for danger in standing}
    for each in verdict.ranking:  # what is one answer with it stands with it
        if each.end.id in known:
            known |= {other.id for other in each.others if not other.refuse}
    every = [*standing, *(each for each in verdict.lookalikes if each.end.id not in known)]
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
        key=lambda each: (
            each.effect is not Effect.REFUSE,
            -each.hazard.rank,
            not each.families,  # what speaks of a pair, before what holds of every end
        ),
    )


class Gravest(NamedTuple):
    """What one must not miss, first on the page: a lookalike that stands, or a rule.

    `brief` names the lookalike once more where the page ends, `said` are the sentences told.
    """

    blocks: list[Block]
    brief: list[Block]
    said: tuple[str, ...] = ()


def gravest_of(verdict: Verdict, alike: list[Beware], fired: list[Fired]) -> Gravest:
    """Return the sentence one must not miss, none if nothing that is known can injure."""
    if fired and fired[0].effect is Effect.REFUSE:
        return Gravest([_rule(fired[0])], [], (fired[0].sentence,))
    lead = verdict.ranking[0].end if verdict.ranking else None
    for each in alike:
        danger = each.danger
        if danger.probability >= STANDING and danger.hazard is Hazard.HIGH:
            what = each.harm or danger.tell
            name = danger.end.title
            if lead and name == lead.title:
                name += f", {danger.end.form},"
            first = f"{name} is still possible ({percent(danger.probability)})."
            mark = mark_of(danger.hazard)
            return Gravest(
                [Block(f"{first} {what[:1].upper()}{what[1:]}", Tone.WARN, mark=mark)],
                [Block(first, Tone.WARN, mark=mark)],
                (what,),
            )
    if fired and fired[0].hazard is Hazard.HIGH:
        return Gravest([_rule(fired[0])], [], (fired[0].sentence,))
    return Gravest([], [])


def mark_of(hazard: Hazard) -> str:
    """Return the sign of a hazard, of one width for all."""
    return f"{HAZARDS[hazard][0]:<3} "


def _rule(fired: Fired, *under: str) -> Block:
    return Block(fired.sentence, Tone.WARN, mark=mark_of(fired.hazard), under=under)


def alike_blocks(
    verdict: Verdict, alike: list[Beware], gravest: Gravest, whole: bool, *, facts: bool = True
) -> list[Block]:
    """Return what may be mistaken for the leading end, a few of it unless `whole`."""
    lead = verdict.ranking[0].end.title
    head = f"Beside {lead}" if verdict.beside else f"Easily mistaken for {lead}"
    blocks = [Block(f"{head} {LEGEND}", Tone.HEAD)]
    shown = len(alike) if whole else SHOWN_LOOKALIKES
    names = [verdict.ranking[0].end.named, *(each.danger.end.named for each in alike)]
    for each in alike[:shown]:
        tells = SHOWN_TELLS if each.danger in verdict.beside else 1
        formed = names.count(each.danger.end.named) > 1
        blocks.append(
            lookalike_block(
                each, said=gravest.said, whole=whole, facts=facts, tells=tells, formed=formed
            )
        )
    if len(alike) > shown:
        blocks.append(Block(f"and {len(alike) - shown} more; --full prints all", mark="    "))
    return blocks


def lookalike_block(
    each: Beware,
    *,
    said: tuple[str, ...] = (),
    whole: bool = True,
    facts: bool = True,
    tells: int = 1,
    formed: bool = False,
) -> Block:
    """Return a lookalike: what tells it apart, what goes wrong, what experience says of it.

    Args:
        each: The lookalike.
        said: Sentences that stand on the page already.
        whole: Everything that is known of it.
        facts: The facts that raised a rule, before its reason.
        tells: How many of the observations that separate it are told.
        formed: Name its form, because another of the same name stands on the page.
    """
    danger, rule = each
    chance = f" ({percent(danger.probability)})" if danger.probability else ""
    under = [each.harm]
    if whole and rule:
        under += [danger.goes_wrong, _because(rule, facts)]
    under.append(danger.tell_apart)
    told = "; ".join(danger.tells[:tells]) or UNTOLD
    form = f", {danger.end.form}" if formed else ""
    text = f"{end_words(danger.end)}{form}{chance}; {told}"
    kept = tuple(words for words in dict.fromkeys(under) if words and words not in said)
    return Block(text, Tone.WARN, mark=mark_of(danger.hazard), under=kept)


def warning_blocks(fired: list[Fired], gravest: Gravest, legend: str, whole: bool) -> list[Block]:
    """Return rules that fired, each with why; a few of them unless `whole`.

    The gravest is told at the head of the page; of the whole, only why it fired follows here.
    """
    others = [each for each in fired if whole or each.sentence not in gravest.said]
    if not others:
        return []
    shown = len(others) if whole else SHOWN_WARNINGS
    blocks = [Block(f"Beware{legend}", Tone.HEAD)]
    for each in others[:shown]:
        why = _because(each, whole)
        told = each.sentence in gravest.said
        blocks.append(
            Block(f"The first warning stands {why}", mark="    ") if told else _rule(each, why)
        )
    if len(others) > shown:
        left = len(others) - shown
        blocks.append(Block(f"and {left} less grave; --full prints all", mark="    "))
    return blocks


def _because(fired: Fired, facts: bool) -> str:
    why = fired.because if facts or not fired.reason else f"because {fired.reason}"
    return f"{why} [{fired.basis}]"
