"""Fire expert rules on what is known so far. They warn and ask; they change no probability."""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Choice, Length, Marking, Pitch, Reading, Slope, Trial
from identify.model.rule import Check, Condition, EndPattern, ExpertRule, ReadingPattern
from identify.model.verdict import Effect, Hazard, VerdictKind, Warning
from identify.model.words import percent

TAPERED_FROM = 1 / 32
"""Growth per length from which a measured thread counts as tapered: half of the usual 1 in 16."""


@dataclass(frozen=True)
class Facts:
    """What a rule may look at.

    `ranking` holds ends with their own probability [0..1], most probable first; improbable ends
    may be left out.
    """

    readings: dict[Feature, Reading]
    ranking: tuple[tuple[EndConnection, float], ...]
    none_of_these: float
    verdict: VerdictKind

    @cached_property
    def by_family(self) -> dict[str, list[tuple[EndConnection, float]]]:
        """The ranking by family, because nearly every rule speaks of one or two."""
        families: dict[str, list[tuple[EndConnection, float]]] = {}
        for end, probability in self.ranking:
            families.setdefault(end.family, []).append((end, probability))
        return families


def fire(rules: Iterable[ExpertRule], facts: Facts) -> tuple[Warning, ...]:
    """Return one warning for each rule whose condition holds, gravest first.

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
        )
        for rule in rules
        if holds(rule.when, facts)
    ]
    return tuple(
        sorted(fired, key=lambda one: (_EFFECT_ORDER[one.effect], _HAZARD_ORDER[one.hazard]))
    )


_EFFECT_ORDER = {Effect.REFUSE: 0, Effect.WARN: 1, Effect.CAUTION: 2, Effect.ASK_FIRST: 3}
_HAZARD_ORDER = {Hazard.HIGH: 0, Hazard.MEDIUM: 1, Hazard.LOW: 2}


def holds(condition: Condition, facts: Facts) -> bool:
    """Tell whether a condition is true of the facts."""
    return _CHECKS[condition.check](condition, facts)


def _all(condition: Condition, facts: Facts) -> bool:
    for part in condition.parts:  # noqa: SIM110 - half the time, and run 100 times a sample
        if not _CHECKS[part.check](part, facts):
            return False
    return True


def _any(condition: Condition, facts: Facts) -> bool:
    return any(holds(part, facts) for part in condition.parts)


def _not(condition: Condition, facts: Facts) -> bool:
    return not _any(condition, facts)


def _reading(condition: Condition, facts: Facts) -> bool:
    pattern = condition.reading
    found = facts.readings.get(pattern.feature) if pattern else None
    return pattern is not None and found is not None and _fits(pattern, found)


def _fits(pattern: ReadingPattern, reading: Reading) -> bool:
    if pattern.words and _word(reading) not in pattern.words:
        return False
    if pattern.hows and reading.how not in pattern.hows:
        return False
    value = reading.value
    if pattern.low is not None or pattern.high is not None:
        number = _number(reading)
        if number is None or (pattern.low or 0.0) > number:
            return False
        if pattern.high is not None and number > pattern.high:
            return False
    if pattern.basis:
        said = (value.basis or "unsaid") if isinstance(value, Angle) else None
        if said != pattern.basis:
            return False
    if pattern.fewer_pitches is not None and not (
        isinstance(value, Pitch) and value.pitches < pattern.fewer_pitches
    ):
        return False
    if pattern.contains:
        return any(_stamped(word, reading.entered) for word in pattern.contains)
    return True


def _stamped(word: str, text: str) -> bool:
    """Tell whether a mark bears a word: "AN" is in "AN6-8" but not in "CAN" or "ANY"."""
    after = r"(?!\d)" if word[-1].isdigit() else r"(?![^\W\d_])"
    return bool(re.search(rf"(?<![^\W\d_]){re.escape(word)}{after}", text, re.IGNORECASE))


def _word(reading: Reading) -> str:
    """Return the answer in the words of its feature."""
    value = reading.value
    if isinstance(value, Choice):
        return value.word
    if isinstance(value, Slope):
        return "tapered" if value.rise_mm / value.over_mm >= TAPERED_FROM else "parallel"
    if isinstance(value, Trial):
        return value.outcome.value
    return value.text if isinstance(value, Marking) else ""


def _number(reading: Reading) -> float | None:
    value = reading.value
    if isinstance(value, Length | Pitch):
        return value.mm
    return value.deg if isinstance(value, Angle) else None


def _missing(condition: Condition, facts: Facts) -> bool:
    return not any(feature in facts.readings for feature in condition.features)


def _standing(condition: Condition, facts: Facts) -> bool:
    for pattern in condition.ends:  # noqa: SIM110 - see _all
        if not _first(pattern, condition.at_least, facts):
            return False
    return True


def _first(
    pattern: EndPattern, at_least: float, facts: Facts
) -> tuple[EndConnection, float] | None:
    """Return the most probable end of a pattern that still stands."""
    if not pattern.families:
        return _leading(pattern, at_least, facts.ranking)
    best = None
    for family in pattern.families:
        rows = facts.by_family.get(family)
        one = _leading(pattern, at_least, rows) if rows else None
        if one and (best is None or one[1] > best[1]):
            best = one
    return best


def _leading(
    pattern: EndPattern, at_least: float, rows: Sequence[tuple[EndConnection, float]]
) -> tuple[EndConnection, float] | None:
    for end, probability in rows:
        if probability < at_least:
            return None
        if matches(pattern, end):
            return end, probability
    return None


def _top(condition: Condition, facts: Facts) -> bool:
    best = facts.ranking[:1]
    return (
        bool(best) and best[0][1] >= condition.at_least and matches(condition.ends[0], best[0][0])
    )


def matches(pattern: EndPattern, end: EndConnection) -> bool:
    """Tell whether an end is one of those a pattern means."""
    return (
        (not pattern.families or end.family in pattern.families)
        and (not pattern.sizes or end.size in pattern.sizes)
        and (not pattern.threads or end.thread in pattern.threads)
        and (not pattern.genders or end.gender in pattern.genders)
        and (not pattern.forms or end.form_key in pattern.forms)
        and (not pattern.sealings or end.sealing in pattern.sealings)
        and (not pattern.confidences or end.confidence in pattern.confidences)
        and (not pattern.rating or (pattern.rating == "unknown") == (end.rating.bar is None))
        and (pattern.caveat is None or pattern.caveat == bool(end.provenance.caveat))
        and (pattern.refuse is None or pattern.refuse == bool(end.refuse))
    )


def _none_of_these(condition: Condition, facts: Facts) -> bool:
    return facts.none_of_these >= condition.at_least


def _verdict(condition: Condition, facts: Facts) -> bool:
    return facts.verdict in condition.verdicts


_CHECKS: dict[Check, Callable[[Condition, Facts], bool]] = {
    Check.ALL: _all,
    Check.ANY: _any,
    Check.NOT: _not,
    Check.READING: _reading,
    Check.MISSING: _missing,
    Check.STANDING: _standing,
    Check.TOP: _top,
    Check.BOTH_STANDING: _standing,
    Check.NONE_OF_THESE: _none_of_these,
    Check.VERDICT: _verdict,
}


def _because(rule: ExpertRule, facts: Facts) -> str:
    """Return why a rule fired: the facts that met its condition, then the trade's reason."""
    said = list(dict.fromkeys(_reasons(rule.when, True, facts)))
    known = " and ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
    return f"because {known}: {rule.because}"


def _reasons(condition: Condition, want: bool, facts: Facts) -> list[str]:
    """Return the facts that make a condition true, or false if `want` is False."""
    check = condition.check
    if check is Check.NOT:
        return [line for part in condition.parts for line in _reasons(part, not want, facts)]
    if check in (Check.ALL, Check.ANY):
        found = [
            _reasons(part, want, facts) for part in condition.parts if holds(part, facts) is want
        ]
        every = (check is Check.ALL) is want
        return [line for lines in (found if every else found[:1]) for line in lines]
    if check is Check.READING and condition.reading:
        return [_reading_words(condition.reading.feature, facts)]
    if check is Check.MISSING:
        return [_missing_words(condition.features, facts)]
    if check is Check.NONE_OF_THESE:
        return [
            f"the chance that the tables do not hold this end is {percent(facts.none_of_these)}"
        ]
    if check is Check.VERDICT:
        return [f"the verdict is {facts.verdict}"]
    if check is Check.TOP:
        return [_top_words(facts)]
    return [_standing_words(pattern, condition.at_least, facts) for pattern in condition.ends]


def _reading_words(feature: Feature, facts: Facts) -> str:
    reading = facts.readings.get(feature)
    name = FEATURES[feature].words
    if reading is None:
        return f'"{name}" is not known'
    how = "" if reading.how in reading.entered else f" ({reading.how})"
    return f'"{name}" was read as {reading.entered}{how}'


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
    end, probability = facts.ranking[0]
    return f"{end.title} ({end.gender}) leads with {percent(probability)}"


def _standing_words(pattern: EndPattern, at_least: float, facts: Facts) -> str:
    found = _first(pattern, at_least, facts)
    if found is None:
        return f"nothing of {' or '.join(pattern.families) or 'that kind'} still stands"
    return f"{found[0].title} ({found[0].gender}) still stands at {percent(found[1])}"
