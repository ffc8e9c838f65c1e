"""A verdict as text of 80 columns for a terminal, a screen reader or a file.

First stand verdict, gravest danger and next measurement, last the danger and how to take that
measurement: whatever a window cuts off, these remain. In between nothing is said twice: a rule
that speaks of the leading end and a lookalike is the sentence of that lookalike, and a reading
that says the same of two candidates is told of the first.
"""

import re
import textwrap

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.verdict import Danger, Effect, Hazard, Question, Ranked, Verdict, VerdictKind
from identify.model.verdict import Warning as Fired
from identify.model.words import percent
from identify.pages.words import reason_words, suspect_words

WIDTH = 80
SHOWN_WARNINGS = 3
SHOWN_LOOKALIKES = 3
SHOWN_TWINS = 4
REASONED = 3  # leading candidates whose reasons are told
SHOWN_FROM = 0.005  # candidates below this are counted, not listed, after the first
STANDING = 0.01  # a lookalike below this is no longer the first thing to say
MARK = {Hazard.HIGH: "!!!", Hazard.MEDIUM: "!! ", Hazard.LOW: "!  "}
LEGEND = "(!!! can injure, !! may hold a test and weep later, ! shows at once)"

_UNDER = " " * 12  # below the title of a candidate
_FIGURE = re.compile(r"(?<=\d) (?=(?:mm|deg|bar|tpi|in|min)\b|%)")  # the blank before a unit
_HELD = "\N{NO-BREAK SPACE}"


def verdict_text(verdict: Verdict, *, whole: bool = False) -> str:
    """Return verdict, ranking with reasons, warnings, cautions and the next measurement.

    Args:
        verdict: What was concluded.
        whole: Everything: each lookalike and warning with the facts that raised it, each reason.
    """
    alike = _alike(verdict)
    fired = _not_said_elsewhere(verdict, alike, whole)
    gravest = _gravest(alike, fired)
    parts = [_lines(verdict.sentence, gravest, _asked(verdict.question))]
    if verdict.readings:
        parts.append(_ranking(verdict, whole))
    if verdict.suspects:
        parts.append(_lines(*(wrap(f"? {suspect_words(each)}") for each in verdict.suspects)))
    if alike:
        parts.append(_lookalikes(verdict, alike, gravest, whole))
    if others := [each for each in fired if whole or _said(each) != gravest]:
        parts.append(_warnings(others, "" if alike else f" {LEGEND}", whole))
    if verdict.cautions:
        parts.append(_lines("Cautions", *(wrap(each, "- ") for each in verdict.cautions)))
    parts.append(_lines(gravest, _question(verdict)))
    return "\n\n".join(parts) + "\n"


def wrap(text: str, head: str = "", indent: str = "") -> str:
    """Return text wrapped to the width, `head` before the first line.

    A figure stays on one line with its unit.
    """
    filled = textwrap.fill(
        _FIGURE.sub(_HELD, text),
        WIDTH,
        initial_indent=indent + head,
        subsequent_indent=indent + " " * len(head),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return filled.replace(_HELD, " ")


def _lines(*texts: str) -> str:
    return "\n".join(text if "\n" in text else wrap(text) for text in texts if text)


# ---- the ranking


def _ranking(verdict: Verdict, whole: bool) -> str:
    lines: list[str] = []
    for number, ranked in enumerate(verdict.ranking, 1):
        if number > 1 and ranked.probability < SHOWN_FROM:
            left = len(verdict.ranking) - number + 1
            lines.append(f"    and {left} less likely than 1 in 200")
            break
        lines += _entry(number, ranked)
        if whole or number <= REASONED:
            lines += _reasons(ranked, None if whole or number == 1 else verdict.ranking[0])
            lines += _caveats(ranked.end, whole or number == 1)
    lines.append(f"    {percent(verdict.none_of_these):>6}  none of these")
    return "\n".join(lines)


def _entry(number: int, ranked: Ranked) -> list[str]:
    end = ranked.end
    thread = ranked.seat.thread or end.thread
    facts = [end.id, f"thread {thread}" if thread else "", " / ".join(end.standards)]
    lines = [
        wrap(f"{end.title}, {end.gender}: {end.form}",
             f"{number:>2}. {percent(ranked.probability):>6}  "),
        wrap("; ".join(filter(None, facts)), indent=_UNDER),
    ]  # fmt: skip
    if ranked.twins:
        names = " or ".join(_named(twin) for twin in ranked.twins[:SHOWN_TWINS])
        left = len(ranked.twins) - SHOWN_TWINS
        more = f" and {left} more" if left > 0 else ""
        lines.append(wrap(f"cannot be told from {names}{more}", indent=_UNDER))
    return lines


def _named(end: EndConnection) -> str:
    return f"{end.title} (do not handle)" if end.refuse else end.title


def _reasons(ranked: Ranked, first: Ranked | None) -> list[str]:
    """Return what the readings say of a candidate, but for what they say of the first as well."""
    said = {reason_words(each) for each in first.evidence} if first else set()
    told = [
        reason_words(each)
        for each in ranked.evidence
        if reason_words(each) not in said
        and not (each.feature is Feature.GENDER and each.weight_nats > 0)
    ]
    if first and not told:
        told = ["the readings say of it what they say of 1"]
    return [wrap(each, "· ", _UNDER) for each in told]


def _caveats(end: EndConnection, noted: bool) -> list[str]:
    rating = end.rating
    known = f"{rating.bar:g} bar at most ({rating.basis})" if rating.bar else "unknown"
    note = f"; {rating.note}" if rating.note and noted else ""
    lines = [f"rating: {known}{note}"]
    if end.provenance.caveat:
        lines.append(f"doubt: {end.provenance.caveat}")
    if end.refuse:
        lines.append(f"REFUSE: {end.refuse}")
    return [wrap(line, indent=_UNDER) for line in lines]


# ---- what to beware of


def _alike(verdict: Verdict) -> list[tuple[Danger, Fired | None]]:
    """Return what is dangerous to mistake for the leading end, standing ones first.

    Each with the rule that speaks of it and the leading end, if one fired.
    """
    if not verdict.dangers and verdict.kind is not VerdictKind.IDENTIFIED:
        return []
    standing = {danger.end.id for danger in verdict.dangers}
    every = [
        *sorted(verdict.dangers, key=lambda danger: -danger.hazard.rank),
        *(each for each in verdict.lookalikes if each.end.id not in standing),
    ]
    return [(danger, _rule_of(verdict, danger)) for danger in every]


def _rule_of(verdict: Verdict, danger: Danger) -> Fired | None:
    pair = {verdict.ranking[0].end.family, danger.end.family}
    rules = (each for each in verdict.warnings if len(pair) == 2 and pair <= {*each.families})
    return next(rules, None)


def _not_said_elsewhere(
    verdict: Verdict, alike: list[tuple[Danger, Fired | None]], whole: bool
) -> list[Fired]:
    """Return the warnings that neither a lookalike nor the next question says, gravest first."""
    shown = alike if whole else alike[:SHOWN_LOOKALIKES]
    said = {rule.rule for _, rule in shown if rule}
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


def _gravest(alike: list[tuple[Danger, Fired | None]], fired: list[Fired]) -> str:
    """Return the sentence one must not miss, empty if nothing that is known can injure."""
    if fired and fired[0].effect is Effect.REFUSE:
        return _said(fired[0])
    for danger, rule in alike:
        if danger.probability >= STANDING and danger.hazard is Hazard.HIGH:
            what = _harm(danger, rule) or danger.tell
            first = f"{danger.end.title} still stands at {percent(danger.probability)}"
            return wrap(f"{first}. {what[:1].upper()}{what[1:]}", "!!! ")
    return _said(fired[0]) if fired and fired[0].hazard is Hazard.HIGH else ""


def _harm(danger: Danger, rule: Fired | None) -> str:
    return rule.sentence if rule else danger.goes_wrong


def _said(fired: Fired) -> str:
    return wrap(fired.sentence, f"{MARK[fired.hazard]} ")


def _lookalikes(
    verdict: Verdict, alike: list[tuple[Danger, Fired | None]], gravest: str, whole: bool
) -> str:
    lines = [wrap(f"Easily mistaken for {verdict.ranking[0].end.title} {LEGEND}")]
    shown = len(alike) if whole else SHOWN_LOOKALIKES
    for danger, rule in alike[:shown]:
        told = not whole and gravest.startswith(f"!!! {danger.end.title} still stands")
        lines += _lookalike(danger, rule, told, whole)
    if len(alike) > shown:
        lines.append(f"    and {len(alike) - shown} more; --full prints all")
    return "\n".join(lines)


def _lookalike(danger: Danger, rule: Fired | None, told: bool, whole: bool) -> list[str]:
    chance = f" ({percent(danger.probability)})" if danger.probability else ""
    tell = danger.tell or "no measurement of the end tells them apart"
    wrong = "" if told else _harm(danger, rule)
    lines = [wrap(f"{_named(danger.end)}{chance}; {tell}", f"{MARK[danger.hazard]} ")]
    if wrong:
        lines.append(wrap(wrong, indent="    "))
    if whole and rule:
        if danger.goes_wrong:
            lines.append(wrap(danger.goes_wrong, indent="    "))
        lines.append(_because(rule, whole))
    return lines


def _warnings(fired: list[Fired], legend: str, whole: bool) -> str:
    lines = [f"Beware{legend}"]
    shown = len(fired) if whole else SHOWN_WARNINGS
    for each in fired[:shown]:
        lines += [_said(each), _because(each, whole)]
    if len(fired) > shown:
        lines.append(f"    and {len(fired) - shown} less grave; --full prints all")
    return "\n".join(lines)


def _because(fired: Fired, whole: bool) -> str:
    why = fired.because if whole or not fired.reason else f"because {fired.reason}"
    return wrap(f"{why} [{fired.basis}]", indent="    ")


# ---- the next measurement


def _asked(question: Question | None) -> str:
    if question is None:
        return ""
    return f"Next: {question.text} ({question.feature}, {_tool(question)})"


def _question(verdict: Verdict) -> str:
    question = verdict.question
    if question is None:
        done = verdict.kind is VerdictKind.IDENTIFIED
        return (
            "Next: nothing more would tell much."
            if done
            else "Next: no further measurement with these tools would tell more."
        )
    choices = FEATURES[question.feature].choices
    value = f"one of {', '.join(choices)}" if choices else "what you read, with its unit"
    return (
        f"Next: add {question.feature}=… ({value}), {_tool(question)}, about "
        f"{question.minutes:g} min. {question.why} {question.separates}"
    )


def _tool(question: Question) -> str:
    return "by eye" if question.how == "none" else f"with {question.how.replace('_', ' ')}"
