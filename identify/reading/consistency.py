"""Readings of one end together: what they imply, and what cannot be true at once."""

import re
from collections.abc import Iterable

from identify.errors import ReadingError
from identify.model.feature import SPACINGS, Feature, gender_told
from identify.model.reading import Choice, How, Length, Reading, Trial
from identify.reading.numbers import quoted

MOST_READINGS = 5  # of one feature that are weighed together
READ_ONCE = (Feature.GENDER, Feature.ORIGIN)
"""Features of which a second answer can only replace the first."""
_GENDER_WORDS = {
    "male": "a male end",
    "female": "a female end",
    "flange": "a flange",
    "none": "a washer or banjo eye, which is neither male nor female",
}


def gathered(readings: Iterable[Reading]) -> tuple[Reading, ...]:
    """Return readings that may stand beside each other; several of one feature all count.

    Raises:
        ReadingError: Gender or origin has two answers, or a feature more readings than are weighed.
    """
    kept: dict[Feature, list[Reading]] = {}
    for reading in readings:
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

    Raises:
        ReadingError: Two readings speak of different genders.
    """
    found: tuple[str, str] | None = None  # gender, and the name of the reading that says so
    for reading in readings:
        if reading.feature is Feature.GENDER and isinstance(reading.value, Choice):
            gender, name = reading.value.word, f"gender={reading.value.word}"
        elif told := gender_told(reading.feature):
            gender, name = told, str(reading.feature)
        else:
            continue
        if found and found[0] != gender:
            raise ReadingError(
                f"{found[1]} speaks of {_GENDER_WORDS[found[0]]}, {name} of "
                f"{_GENDER_WORDS[gender]}; keep the one that is true of this end."
            )
        found = found or (gender, name)
    return found[0] if found else None


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
        raise ReadingError(
            "Male or female was not said, and no reading tells; add gender=male, gender=female, "
            "gender=flange or gender=none (a washer or banjo eye)."
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
        known = re.search(r"\b(?:fe)?male\b", reading.value.known.lower())
        if known and known.group() == gender:
            other = "male" if gender == "female" else "female"
            raise ReadingError(
                f"trial_fit {quoted(reading.value.known)} is a {gender}, and so is this end; two "
                f"{gender}s do not screw together. Try it on a {other}, or correct the gender."
            )
