"""From a typed line to a reading: a number chooses an answer, all else is read as it stands."""

from collections.abc import Collection
from contextlib import suppress

from identify.errors import ReadingError
from identify.interview.ask import Ask, how_word
from identify.model.feature import FEATURES
from identify.model.reading import How, Reading
from identify.model.rule import Tool
from identify.reading.choices import split_how
from identify.reading.parse import reading_from

_GAUGES = frozenset({Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.COMBS})


def reading_of(ask: Ask, line: str, tools: Collection[Tool]) -> Reading:
    """Return the reading that a line gives in answer to a question.

    Args:
        ask: The question, with the tool it asks for.
        line: What was typed.
        tools: What is to hand.

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
        return reading_from(feature, line, _how(ask, line, tools))
    except ReadingError as error:
        more = f" Or type a number from 1 to {len(choices)}." if choices else ""
        raise ReadingError(error.problem + more) from None


def _how(ask: Ask, line: str, tools: Collection[Tool]) -> str:
    """Return how an answer was taken where the line does not say: with the tool asked for."""
    with suppress(ReadingError):
        if split_how(line)[1]:
            return ""
    how = ask.how(ask.tools[0]) if ask.tools else None
    if how is How.COUNTED and not _GAUGES.isdisjoint(tools):
        return ""  # a leaf was at hand; a count says over how many pitches
    return how_word(line, ask.text.feature, how)
