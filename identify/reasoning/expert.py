"""Fire expert rules on what is known so far. They warn and ask; they change no probability."""

from itertools import islice

from identify.light import Callable, Iterable, Iterator, Sequence
from identify.model.catalogue import column
from identify.model.feature import FEATURES, Feature
from identify.model.rule import Check, Condition, EndPattern, ExpertRule
from identify.model.verdict import Effect, VerdictKind, Warning, percent
from identify.reasoning.conditions import Facts, first_standing, holds

Met = Callable[[Facts], Iterable[ExpertRule]]
"""Returns the rules of a book that hold, in its order; such as `met`."""


def met(rules: Sequence[ExpertRule], facts: Facts) -> Iterator[ExpertRule]:
    """Yield the rules whose condition holds."""
    return (rule for rule in able(rules, facts) if holds(rule.when, facts))


def warned(rules: Iterable[ExpertRule], facts: Facts) -> tuple[Warning, ...]:
    """Return one warning for each rule that holds, gravest first.

    A rule may ask for a feature that was read before: by eye, or without counting.
    """
    fired = [
        Warning(
            rule=rule.key,
            effect=rule.effect,
            hazard=rule.hazard,
            sentence=rule.sentence,
            because=_because(rule, facts),
            source=rule.source,
            basis=rule.basis,
            ask=rule.ask,
            reason=rule.because,
            families=_pair(rule.when),
        )
        for rule in rules
    ]
    return tuple(sorted(fired, key=lambda one: (_EFFECT_ORDER[one.effect], -one.hazard.rank)))


def able(rules: Sequence[ExpertRule], facts: Facts) -> Iterator[ExpertRule]:
    """Yield the rules that have what they need to fire; the others are not looked at at all."""
    families, readings = facts.by_family.keys(), facts.readings
    for at, (read, standing) in enumerate(
        zip(column(rules, "read"), column(rules, "standing"), strict=True)
    ):
        for each in read:
            if each not in readings:
                break
        else:
            for several in standing:
                if families.isdisjoint(several):
                    break
            else:
                yield rules[at]


_EFFECT_ORDER = {Effect.REFUSE: 0, Effect.WARN: 1, Effect.CAUTION: 2, Effect.ASK_FIRST: 3}


def _pair(condition: Condition) -> tuple[str, ...]:
    """Return the families that a rule wants standing together, empty if it names no pair."""
    if condition.check is Check.BOTH_STANDING:
        return tuple(family for pattern in condition.ends for family in pattern.families)
    if condition.check is Check.ALL:
        return next(filter(None, map(_pair, condition.parts)), ())
    return ()


_FOUND = {
    VerdictKind.IDENTIFIED: "the end is identified",
    VerdictKind.SHORTLIST: "several ends are still possible",
    VerdictKind.ABSTAIN: "no end of the tables fits",
}


def _because(rule: ExpertRule, facts: Facts) -> str:
    """Return why a rule fired: the facts that met its condition, then the trade's reason."""
    parts = rule.when.parts if rule.when.check is Check.ALL else (rule.when,)  # all hold
    said = list(dict.fromkeys(line for part in parts for line in _reasons(part, True, facts)))
    known = " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
    return f"because {known or _FOUND[facts.verdict]}: {rule.because}"


def _reasons(condition: Condition, want: bool, facts: Facts) -> list[str]:
    """Return the facts that make a condition true, or false if `want` is False."""
    check = condition.check
    if check is Check.NOT:
        return [line for part in condition.parts for line in _reasons(part, not want, facts)]
    if check in (Check.ALL, Check.ANY):
        found = (part for part in condition.parts if holds(part, facts) is want)
        one_is_enough = (check is Check.ALL) is not want
        parts = islice(found, 1 if one_is_enough else None)
        return [line for part in parts for line in _reasons(part, want, facts)]
    if check is Check.READING and condition.reading:
        return [_reading_words(condition.reading.feature, facts)]
    if check is Check.MISSING:
        return [_missing_words(condition.features, facts)]
    if check is Check.NONE_OF_THESE:
        return [
            f"the chance that the tables do not hold this end is {percent(facts.none_of_these)}"
        ]
    if check is Check.VERDICT:  # it stands at the head of every page
        return []
    if check is Check.TOP:
        return [_top_words(facts)]
    return [_standing_words(pattern, condition.at_least, facts) for pattern in condition.ends]


def _reading_words(feature: Feature, facts: Facts) -> str:
    reading = facts.readings.get(feature)
    if reading is None:
        return f'"{FEATURES[feature].words}" is not known'
    how = "" if reading.how in reading.entered else f" ({reading.how})"
    return f"{feature} was read as {reading.entered}{how}"


def _missing_words(features: tuple[Feature, ...], facts: Facts) -> str:
    """Say which of some features was read, else that none was; a long list is cut short."""
    for feature in features:
        if feature in facts.readings:
            return _reading_words(feature, facts)
    names = [f'"{FEATURES[feature].words}"' for feature in features]
    if len(names) == 1:
        return f"{names[0]} is not known"
    rest = f" nor {len(names) - 2} more" if len(names) > 2 else ""
    return f"neither {names[0]} nor {names[1]}{rest} is known"


def _top_words(facts: Facts) -> str:
    if not facts.ranking:
        return "no end stands"
    return f"{facts.ends[facts.ranking[0][0]].named} is most likely"


def _standing_words(pattern: EndPattern, at_least: float, facts: Facts) -> str:
    found = first_standing(pattern, at_least, facts)
    if found is None:
        return f"nothing of {' or '.join(pattern.families) or 'that kind'} is still possible"
    return f"{found[0].named} is still possible"  # its answer bears the per cent, elsewhere
