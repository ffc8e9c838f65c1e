"""Tell whether the condition of an expert rule is true of what is known so far."""

from identify.frozen import dataclass
from identify.light import Callable, Sequence, cached_property
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Angle, Choice, Length, Marking, Pitch, Reading, Slope, Trial
from identify.model.rule import Check, Condition, EndPattern, ReadingPattern
from identify.model.verdict import VerdictKind
from identify.reasoning.posterior import DIGITS

TAPERED_FROM = 1 / 32
"""Growth per length from which a measured thread counts as tapered: half of the usual 1 in 16."""


@dataclass(frozen=True)
class Facts:
    """What a rule may look at.

    `ranking` holds rows of `ends` with their own probability [0..1], most probable first;
    improbable ones may be left out. `families` are theirs, in the same order: a rule looks at the
    ends of one or two, and only these need to be made.
    """

    readings: dict[Feature, Reading]
    ends: Sequence[EndConnection]
    ranking: Sequence[tuple[int, float]]
    families: Sequence[str]
    none_of_these: float
    verdict: VerdictKind

    @cached_property
    def by_family(self) -> dict[str, list[tuple[int, float]]]:
        """The ranking by family."""
        found: dict[str, list[tuple[int, float]]] = {}
        for family, pair in zip(self.families, self.ranking, strict=True):
            found.setdefault(family, []).append(pair)
        return found


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
    return pattern is not None and found is not None and fits(pattern, found)


def fits(pattern: ReadingPattern, reading: Reading) -> bool:
    """Tell whether a reading, of the feature of a pattern, is what the pattern means."""
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
    import re  # only where a mark was read

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
        if not first_standing(pattern, condition.at_least, facts):
            return False
    return True


def first_standing(
    pattern: EndPattern, at_least: float, facts: Facts
) -> tuple[EndConnection, float] | None:
    """Return the most probable end of a pattern that still stands."""
    if not pattern.families:
        return _leading(pattern, at_least, facts.ranking, facts.ends)
    best = None
    for family in pattern.families:
        rows = facts.by_family.get(family)
        one = _leading(pattern, at_least, rows, facts.ends) if rows else None
        if one and (best is None or round(one[1], DIGITS) > round(best[1], DIGITS)):
            best = one
    return best


def _leading(
    pattern: EndPattern,
    at_least: float,
    ranking: Sequence[tuple[int, float]],
    ends: Sequence[EndConnection],
) -> tuple[EndConnection, float] | None:
    for row, probability in ranking:
        if probability < at_least:
            return None
        if matches(pattern, end := ends[row]):
            return end, probability
    return None


def _top(condition: Condition, facts: Facts) -> bool:
    for row, probability in facts.ranking[:1]:
        return probability >= condition.at_least and matches(condition.ends[0], facts.ends[row])
    return False


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
