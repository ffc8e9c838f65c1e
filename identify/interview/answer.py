"""From what was typed to a reading, and whether it can stand beside the answers given already."""

from collections.abc import Collection
from contextlib import suppress

from identify.errors import ReadingError
from identify.frozen import replace
from identify.interview.bare import Unit, typed_text
from identify.interview.session import Again, Enough, GivenUp, Observed, SessionState, apply
from identify.interview.snapshot import Ask
from identify.model.feature import FEATURES, SPACINGS, Feature, Kind
from identify.model.reading import USUAL, How, Reading
from identify.model.rule import Tool
from identify.reading.angles import parse_angle
from identify.reading.consistency import check_spacings, check_trial
from identify.reading.manner import how_word, split_how, split_person, with_person
from identify.reading.parse import Threads, reading_from
from identify.reading.units import parse_pitch

_GAUGES = frozenset({Tool.METRIC_GAUGE, Tool.INCH_GAUGE})


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


def reading_of(
    ask: Ask, line: str, tools: Collection[Tool], threads: Threads, unit: Unit | None = None
) -> Reading:
    """Return the reading that a line gives in answer to a question.

    Args:
        ask: The question, with the tool the answer is taken with.
        line: What was typed.
        tools: What is to hand.
        threads: Those of the tables, to tell what one measures whose name was typed instead.
        unit: What a bare number takes, None where it stays bare.

    Raises:
        ReadingError: It is no answer; says in one sentence what to type instead.
    """
    feature = ask.text.feature
    choices = ask.choices
    numbered = choices and not ask.by_value
    if line.isdecimal() and numbered:
        if 1 <= int(line[:9]) <= len(choices):
            line = ask.answer(choices[int(line) - 1].word)
        elif unit is None:
            raise ReadingError(
                f'"{line[:20]}" is no answer; type a number from 1 to {len(choices)}.'
            )
    try:
        line = _seat_leaf(ask, typed_text(line, unit, FEATURES[feature].kind))
        return reading_from(feature, line, _how(ask, line, tools), threads=threads)
    except ReadingError as error:
        more = f" Or type a number from 1 to {len(choices)}." if numbered else ""
        raise ReadingError(error.problem + more) from None


def _seat_leaf(ask: Ask, line: str) -> str:
    """Return the word of the seat leaf that an angle names, be it its half or included angle."""
    if ask.tool is not Tool.SEAT_GAUGE:
        return line
    with suppress(ReadingError):  # the parser will say so
        said = parse_angle(line)
        for choice in ask.choices:
            half_deg = parse_angle(choice.word).deg
            if said.basis is None and said.deg in (half_deg, 2 * half_deg):
                return choice.word
    return line


def _how(ask: Ask, line: str, tools: Collection[Tool]) -> str:
    """Return how an answer was taken where the line does not say: with the tool named.

    Raises:
        ReadingError: The tool gives no such value.
    """
    kind = FEATURES[ask.text.feature].kind
    value, said = _parted(line)
    how = ask.how
    if said or how is None or kind in (Kind.TEXT, Kind.TRIAL):
        return ""
    if kind is Kind.TAPER:
        if ask.choices or not value.isalpha():
            return ""
        raise ReadingError(
            f'"{value}" is what the eye says. Type the two diameters and how far apart they are, '
            f'such as {ask.text.example}; or write "{value} by eye".'
        )
    if kind is Kind.PITCH and how is How.COUNTED:
        return _counted_or_leaf(value, tools)
    return "" if USUAL[kind] is how else how_word(how)


def _parted(line: str) -> tuple[str, How | None]:
    try:
        return split_how(split_person(line)[0])
    except ReadingError:  # the parser will say so
        return line, None


def _counted_or_leaf(value: str, tools: Collection[Tool]) -> str:
    """Return how a pitch was taken that is not said to be counted: by a gauge at hand."""
    try:
        pitch = parse_pitch(value)
    except ReadingError:  # the parser will say so
        return ""
    if pitch.pitches or not _GAUGES.isdisjoint(tools):
        return ""
    if Tool.COMBS in tools:
        return how_word(How.COMBS)
    inch = f', "{value} counted" if you counted the threads on an inch' if pitch.inch else ""
    over = pitch.mm if pitch.mm > FEATURES[Feature.PITCH].high else 6 * pitch.mm
    raise ReadingError(
        f'"{value}" does not say over how many gaps it was measured. Type the gaps and the length '
        f'over them, such as 6 gaps over {over:.4g} mm{inch}; or "{value} by gauge" if a '
        "leaf fits."
    )
