"""Build facts that meet a condition, from the condition itself and the shipped ends."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import (
    Angle,
    Basis,
    Choice,
    How,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Trial,
)
from identify.model.rule import Check, Condition, EndPattern, ExpertRule, ReadingPattern
from identify.model.verdict import VerdictKind, Warning
from identify.reasoning.conditions import Facts, matches
from identify.reasoning.expert import met, warned


@dataclass
class Needs:
    """What a condition needs to be true."""

    readings: dict[Feature, Reading] = field(default_factory=dict)
    top: list[EndPattern] = field(default_factory=list)
    not_top: list[EndPattern] = field(default_factory=list)
    standing: list[EndPattern] = field(default_factory=list)
    none_of_these: float = 0.0
    verdict: VerdictKind = VerdictKind.SHORTLIST


def fire(rules: Sequence[ExpertRule], facts: Facts) -> tuple[Warning, ...]:
    """Return the warnings of the rules that hold."""
    return warned(met(rules, facts), facts)


def facts_for(condition: Condition, ends: tuple[EndConnection, ...]) -> Facts:
    """Return facts of which the condition is true, if it can be true of shipped ends."""
    needs = Needs()
    collect(condition, True, needs)
    top = next(
        end
        for end in ends
        if all(matches(pattern, end) for pattern in needs.top)
        and not any(matches(pattern, end) for pattern in needs.not_top)
    )
    others = [next(end for end in ends if matches(pattern, end)) for pattern in needs.standing]
    left = 1 - needs.none_of_these
    share = 0.4 * left / len(others) if others else 0.0
    kept = [top, *(end for end in dict.fromkeys(others) if end != top)]
    standing = [(row, share if row else 0.6 * left) for row in range(len(kept))]
    families = [end.family for end in kept]
    return Facts(needs.readings, kept, standing, families, needs.none_of_these, needs.verdict)


def collect(condition: Condition, want: bool, needs: Needs) -> None:
    """Note what makes a condition true, or false if `want` is False."""
    check = condition.check
    if check is Check.NOT:
        collect(condition.parts[0], not want, needs)
    elif check in (Check.ALL, Check.ANY):
        every = (check is Check.ALL) is want
        for part in condition.parts if every else condition.parts[:1]:
            collect(part, want, needs)
    elif check is Check.READING:
        if want:
            assert condition.reading
            needs.readings[condition.reading.feature] = reading_of(condition.reading)
    elif check is Check.MISSING:
        if not want:
            feature = condition.features[0]
            needs.readings.setdefault(feature, reading_of(ReadingPattern(feature)))
    elif check is Check.TOP:
        (needs.top if want else needs.not_top).append(condition.ends[0])
    elif check is Check.NONE_OF_THESE:
        needs.none_of_these = condition.at_least if want else 0.0
    elif check is Check.VERDICT:
        fitting = [kind for kind in VerdictKind if (kind in condition.verdicts) is want]
        needs.verdict = fitting[0]
    elif want:
        needs.standing += condition.ends


def reading_of(pattern: ReadingPattern) -> Reading:
    """Return a reading that the pattern allows."""
    info = FEATURES[pattern.feature]
    low = pattern.low if pattern.low is not None else info.low
    high = pattern.high if pattern.high is not None else info.high
    how = pattern.hows[0] if pattern.hows else How.CALIPER
    middle = (low + high) / 2
    word = pattern.words[0] if pattern.words else (info.choices or ("",))[0]
    entered = pattern.contains[0] if pattern.contains else word or f"{middle:g}"
    basis = Basis(pattern.basis) if pattern.basis in tuple(Basis) else None
    values = {
        Kind.LENGTH: lambda: Length(middle),
        Kind.PITCH: lambda: Pitch(middle),
        Kind.ANGLE: lambda: Angle(middle, basis),
        Kind.CHOICE: lambda: Choice(word),
        Kind.TAPER: lambda: Choice(word),
        Kind.TEXT: lambda: Marking(entered),
        Kind.TRIAL: lambda: Trial("known", Outcome(word or Outcome.FULL)),
    }
    return Reading(pattern.feature, values[info.kind](), how, entered)
