"""Read the condition of an expert rule: named tests, joined by all, any and not."""

from collections.abc import Callable

from identify.errors import ReadingError
from identify.knowledge.fields import Fields, feature_named, filled, known, some
from identify.model.catalogue import Catalogue
from identify.model.feature import FEATURES, GENDERS, Feature, Kind
from identify.model.reading import Basis, How, Outcome
from identify.model.rule import Check, Condition, EndPattern, ReadingPattern
from identify.model.source import Confidence
from identify.model.verdict import VerdictKind
from identify.reading.angles import parse_angle
from identify.reading.units import parse_length, parse_pitch

STANDING = 0.02
"""Least probability at which an end counts as still possible, where a rule does not say."""


def read_condition(fields: Fields, catalogue: Catalogue | None) -> Condition:
    """Read one test, or several joined by all, any or not."""
    names = tuple(fields.data)
    fields.asked.update(names)
    if len(names) != 1:
        said = " and ".join(names) or "nothing"
        fields.fault("", f"says {said}; a condition is one test, join several with all or any")
        return Condition(Check.ALL)
    name = names[0]
    if not known(fields, name, (name,), tuple(Check), "test"):
        return Condition(Check.ALL)
    check = Check(name)
    if check in (Check.ALL, Check.ANY):
        parts = tuple(read_condition(part, catalogue) for part in fields.sections(name, "part"))
        if not parts:
            fields.fault(name, "joins nothing; list at least one test")
        return Condition(check, parts=parts)
    if check is Check.NOT:
        return Condition(check, parts=(read_condition(fields.section(name), catalogue),))
    if check is Check.READING:
        return Condition(check, reading=_reading(fields.section(name)))
    if check is Check.MISSING:
        words = filled(fields, name, some(fields, name, tuple(Feature), "feature"))
        return Condition(check, features=tuple(Feature(word) for word in words))
    if check is Check.VERDICT:
        words = filled(fields, name, some(fields, name, tuple(VerdictKind)))
        return Condition(check, verdicts=words)
    if check is Check.NONE_OF_THESE:
        return Condition(check, at_least=fields.number(name, low=0, high=1))
    if check is Check.BOTH_STANDING:
        families = fields.texts(name)
        if len(families) < 2:
            fields.fault(name, "needs two or more families")
        _known_families(fields, name, families, catalogue)
        ends = tuple(EndPattern(families=(family,)) for family in families)
        return Condition(check, ends=ends, at_least=STANDING)
    pattern = fields.section(name)
    least = pattern.number("at_least", STANDING if check is Check.STANDING else 0.0, low=0, high=1)
    return Condition(check, ends=(_pattern(pattern, catalogue),), at_least=least)


def _reading(fields: Fields) -> ReadingPattern:
    feature = feature_named(fields, "feature")
    if feature is None:
        return ReadingPattern(Feature.GENDER)
    info = FEATURES[feature]
    answers = info.choices or (tuple(Outcome) if info.kind is Kind.TRIAL else ())
    words = some(fields, "is", answers, "answer")
    if words and not answers:
        fields.fault("is", f"cannot be asked of {feature}; use between, which takes two values")
    low, high = _between(fields, info.kind)
    pitches = fields.number("fewer_pitches", 0.0, low=0, high=100)
    if pitches and info.kind is not Kind.PITCH:
        fields.fault("fewer_pitches", f"cannot be asked of {feature}, only of pitch")
    basis = fields.choice("basis", (*Basis, "unsaid"), "") if fields.has("basis") else ""
    if basis and info.kind is not Kind.ANGLE:
        fields.fault("basis", f"cannot be asked of {feature}, only of seat_angle")
    contains = fields.texts("contains")
    if contains and info.kind is not Kind.TEXT:
        fields.fault("contains", f"cannot be asked of {feature}, only of marking")
    hows = tuple(How(word) for word in some(fields, "how", tuple(How), "way of measuring"))
    fields.close()
    return ReadingPattern(feature, words, low, high, basis, hows, pitches or None, contains)


_MEASURED: dict[Kind, Callable[[str], float]] = {
    Kind.LENGTH: lambda text: parse_length(text).mm,
    Kind.PITCH: lambda text: parse_pitch(text).mm,
    Kind.ANGLE: lambda text: parse_angle(text).deg,
}


def _between(fields: Fields, kind: Kind) -> tuple[float | None, float | None]:
    """Return the two bounds of `between` [mm, or deg for an angle], lower first."""
    if not fields.has("between"):
        return None, None
    texts = fields.texts("between")
    if kind not in _MEASURED or len(texts) != 2:
        fields.fault("between", "is for a measured feature and takes two values with units")
        return None, None
    try:
        values = [_MEASURED[kind](text) for text in texts]
    except ReadingError as error:
        fields.fault("between", f"cannot be read: {str(error).rstrip('.')}")
        return None, None
    return min(values), max(values)


def _pattern(fields: Fields, catalogue: Catalogue | None) -> EndPattern:
    families = some(fields, "family")
    _known_families(fields, "family", families, catalogue)
    ends = [
        end
        for end in (catalogue.ends if catalogue else ())
        if not families or end.family in families
    ]
    pattern = EndPattern(
        families=families,
        sealings=some(fields, "sealing", tuple(dict.fromkeys(end.sealing for end in ends))),
        genders=some(fields, "gender", GENDERS),
        forms=some(fields, "form", tuple(dict.fromkeys(end.form_key for end in ends))),
        sizes=some(fields, "size", tuple(dict.fromkeys(end.size for end in ends))),
        threads=some(fields, "thread", tuple(dict.fromkeys(end.thread or "" for end in ends))),
        confidences=some(fields, "confidence", tuple(Confidence)),
        rating=fields.choice("rating", ("known", "unknown"), "") if fields.has("rating") else "",
        caveat=fields.flag("caveat") if fields.has("caveat") else None,
        refuse=fields.flag("refuse") if fields.has("refuse") else None,
    )
    if not set(fields.data) - {"at_least"}:
        fields.fault("", "names no end; give at least a family, size, thread or gender")
    fields.close()
    return pattern


def _known_families(
    fields: Fields, key: str, families: tuple[str, ...], catalogue: Catalogue | None
) -> None:
    if catalogue:
        known(fields, key, families, tuple(catalogue.families), "family")
