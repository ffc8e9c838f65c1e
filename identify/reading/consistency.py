"""Readings of one end together: what they imply, and what cannot be true at once."""

from identify.errors import ReadingError, quoted
from identify.light import Iterable
from identify.model.feature import (
    CLUES,
    FEATURES,
    SEEN,
    SPACINGS,
    VAGUE,
    Feature,
    Kind,
    gender_told,
    is_vague,
)
from identify.model.reading import Choice, How, Length, Reading, Trial, lacked_by

MOST_READINGS = 5  # of one feature that are weighed together
READ_ONCE = (Feature.GENDER, Feature.ORIGIN)
"""Features of which a second answer can only replace the first."""
_MEASURED = (Kind.LENGTH, Kind.PITCH, Kind.ANGLE, Kind.TRIAL)


def gathered(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """Return readings that may stand beside each other; several of one feature all count.

    Raises:
        ReadingError: Gender or origin has two answers, or a feature more readings than are weighed.
    """
    given, kept = tuple(readings), dict[Feature, list[Reading]]()
    if len({reading.feature for reading in given}) == len(given):  # nearly always
        return given
    for reading in given:
        own = kept.setdefault(reading.feature, [])
        if own and reading.feature in READ_ONCE:
            if own[0].value != reading.value:
                raise ReadingError(
                    f"{reading.feature} is given twice, as {quoted(own[0].entered)} and as "
                    f"{quoted(reading.entered)}; keep the one that is true."
                )
            continue
        own.append(reading)
        if len(own) > MOST_READINGS:
            raise ReadingError(
                f"{reading.feature} is given {len(own)} times; keep the {MOST_READINGS} readings "
                "you trust most."
            )
    return tuple(reading for own in kept.values() for reading in own)


def implied_gender(readings: Iterable[Reading]) -> str | None:
    """Return the gender that was said, or that the features measured imply; None if neither.

    Where "no thread" was said and a feature tells of what, that is returned.

    Raises:
        ReadingError: Two readings speak of different ends, or a size is none of the end spoken of.
    """
    given = tuple(readings)
    found: tuple[str, str] | None = None  # gender, and the name of the reading that says so
    for reading in given:
        if reading.feature is Feature.GENDER and isinstance(reading.value, Choice):
            gender, name = reading.value.word, f"gender={reading.value.word}"
        elif told := gender_told(reading.feature):
            gender, name = told, str(reading.feature)
        else:
            continue
        if found is None or is_vague(found[0], gender):
            found = (gender, name)
        elif found[0] != gender and not is_vague(gender, found[0]):
            raise ReadingError(
                f"{found[1]} speaks of {SEEN[found[0]].words}, {name} of {SEEN[gender].words}; "
                "keep the one that is true of this end."
            )
    if found is None:
        return None
    lacking = lacked_by(found[0])
    for reading in given:
        feature = reading.feature
        if feature in lacking and FEATURES[feature].kind in _MEASURED and feature not in CLUES:
            raise ReadingError(
                f"{found[1]} speaks of {SEEN[found[0]].words}, on which no {feature} is measured; "
                f"leave out {feature}, or correct {found[1]}."
            )
    return found[0]


def with_gender(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """Return readings that state the gender, adding it first where other readings imply it.

    Raises:
        ReadingError: Nobody said it and nothing implies it; or two readings contradict.
    """
    given = tuple(readings)
    check_spacings(given)
    gender = implied_gender(given)
    check_trial(given, gender)
    if gender is None:
        *most, last = (f"gender={each}" for each in SEEN if each != VAGUE)
        raise ReadingError(
            "The gender was not said, and no reading tells; add what the end is: "
            f"{', '.join(most)} or {last}."
        )
    if any(reading.feature is Feature.GENDER for reading in given):
        return given
    return (Reading(Feature.GENDER, Choice(gender), How.EYE, gender), *given)


def check_spacings(readings: Iterable[Reading]) -> None:
    """Refuse bolt spacings of which the short one is the longer.

    Raises:
        ReadingError: They stand the wrong way round.
    """
    by_feature = {reading.feature: reading for reading in readings}
    long, short = map(by_feature.get, SPACINGS)
    if not (long and short and isinstance(long.value, Length) and isinstance(short.value, Length)):
        return
    if short.value.mm > long.value.mm:
        raise ReadingError(
            f"{short.feature} ({quoted(short.entered)}) is larger than {long.feature} "
            f"({quoted(long.entered)}); exchange the two."
        )


def check_trial(readings: Iterable[Reading], gender: str | None) -> None:
    """Refuse a trial fit on a part of the same gender.

    Args:
        readings: What was observed.
        gender: Of the sample, None if nobody said it.

    Raises:
        ReadingError: Two males, or two females, are said to have been screwed together.
    """
    for reading in readings:
        if not isinstance(reading.value, Trial):
            continue
        import re  # seldom tried

        known = re.search(r"\b(?:fe)?male\b", reading.value.known.lower())
        if known and known.group() == gender:
            other = "male" if gender == "female" else "female"
            raise ReadingError(
                f"trial_fit {quoted(reading.value.known)} is a {gender}, and so is this end; two "
                f"{gender}s do not screw together. Try it on a {other}, or correct the gender."
            )
