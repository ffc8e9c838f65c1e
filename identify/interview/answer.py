"""From what was typed to a reading, and whether it can stand beside the answers given already."""

from collections.abc import Collection
from contextlib import suppress
from dataclasses import replace

from identify.errors import ReadingError
from identify.interview.session import Again, Enough, GivenUp, Observed, SessionState, apply
from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, SPACINGS, Feature, Kind
from identify.model.reading import USUAL, How, Reading
from identify.model.rule import Tool
from identify.reading.choices import split_how, split_person, with_person
from identify.reading.consistency import check_spacings, check_trial
from identify.reading.parse import Threads, reading_from

_GAUGES = frozenset({Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.COMBS})


def answered(ask: Ask, reading: Reading) -> Observed | Again:
    """Return the event of an answer: a reading more if it was asked for once more."""
    if ask.other_person and not reading.other_person:
        entered = with_person(reading.entered, other_person=True)
        reading = replace(reading, entered=entered, other_person=True)
    return Again(reading) if ask.again else Observed(reading)


def declined(ask: Ask) -> Enough | GivenUp:
    """Return the event of "cannot tell": what was read before still counts."""
    return Enough(ask.text.feature) if ask.again else GivenUp(ask.text.feature)


def check_answer(state: SessionState, reading: Reading) -> None:
    """Refuse a bolt spacing that makes the short way the longer one, and a trial that cannot be.

    Raises:
        ReadingError: It does; says which of the two to change first.
    """
    check_trial((reading,), state.gender)
    if reading.feature not in SPACINGS:
        return
    try:
        check_spacings(apply(state, Observed(reading)).readings)
    except ReadingError:
        other = SPACINGS[1 - SPACINGS.index(reading.feature)]
        given = state.answer(other)
        entered = {other: given.entered if given else "?", reading.feature: reading.entered}
        long, short = (entered[each] for each in SPACINGS)
        raise ReadingError(
            f"The shorter spacing, {short}, exceeds the longer one, {long}: measure again. If the "
            "first answer was wrong, press a and change it."
        ) from None


def reading_of(ask: Ask, line: str, tools: Collection[Tool], threads: Threads) -> Reading:
    """Return the reading that a line gives in answer to a question.

    Args:
        ask: The question, with the tool it asks for.
        line: What was typed.
        tools: What is to hand.
        threads: Those of the tables, to tell what one measures whose name was typed instead.

    Raises:
        ReadingError: It is no answer; says in one sentence what to type instead.
    """
    feature = ask.text.feature
    choices = ask.choices
    if line.isdecimal() and choices and line not in FEATURES[feature].choices:
        if not 1 <= int(line[:9]) <= len(choices):
            raise ReadingError(
                f'"{line[:20]}" is no answer; type a number from 1 to {len(choices)}.'
            )
        line = ask.answer(choices[int(line) - 1].word)
    try:
        return reading_from(feature, line, _how(ask, line, tools), threads=threads)
    except ReadingError as error:
        more = f" Or type a number from 1 to {len(choices)}." if choices else ""
        raise ReadingError(error.problem + more) from None


def _how(ask: Ask, line: str, tools: Collection[Tool]) -> str:
    """Return how an answer was taken where the line does not say: with the tool asked for."""
    with suppress(ReadingError):
        if split_how(split_person(line)[0])[1]:
            return ""
    how = ask.how(ask.tools[0]) if ask.tools else None
    if how is How.COUNTED and not _GAUGES.isdisjoint(tools):
        return ""  # a leaf was at hand; a count says over how many pitches
    return how_word(line, ask.text.feature, how)


def how_word(text: str, feature: Feature, how: How | None) -> str:
    """Return how a reading was taken as the parser wants it, "" where `text` or custom says it."""
    kind = FEATURES[feature].kind
    if how is None or kind in (Kind.TEXT, Kind.TRIAL, Kind.TAPER) or USUAL[kind] is how:
        return ""
    if kind is Kind.PITCH and (how is How.GAUGE or "pitches" in text):
        return ""
    return "comb page" if how is How.COMBS else str(how)
