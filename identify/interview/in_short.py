"""A line in short within an interview: how a reading was taken follows from what is in the bag."""

from identify.errors import ReadingError, quoted
from identify.frozen import replace
from identify.interview.session import SessionState
from identify.model.feature import FEATURES, Kind
from identify.model.reading import USUAL, How
from identify.model.rulebook import RuleBook
from identify.reading.manner import how_word
from identify.reading.parse import Threads, reading_from
from identify.reading.quick import Taken, read_line

_ALONE = {
    Kind.LENGTH: (How.CALIPER, How.RULE, How.COMBS),
    Kind.PITCH: (How.GAUGE, How.COMBS),
    Kind.ANGLE: (How.GAUGE, How.PROTRACTOR, How.COMBS),
}
"""Ways that give a value without more figures, the one that is meant first."""
_REMEDIES = {
    Kind.LENGTH: ("caliper", "{0}:caliper, {0}:rule or {0}:eye"),
    Kind.PITCH: (
        "pitch gauge",
        "{0}:gauge if a leaf fits, {0}:counted if you counted along an inch, or the gaps and the "
        "mm over them, such as 6g9.05",
    ),
    Kind.ANGLE: ("seat gauge", "{0}:gauge, {0}:protractor or {0}:eye"),
}


def read_in_short(
    line: str, state: SessionState, book: RuleBook, threads: Threads
) -> tuple[Taken, ...]:
    """Read a line in short; what does not say how it was taken was taken with a tool at hand.

    Args:
        line: What was typed.
        state: Where the interview stands: tools, and the gender if it is known.
        book: With what each feature can be taken.
        threads: As for `read_line`.

    Raises:
        ReadingError: As `read_line`; or nothing at hand gives such a reading.
    """
    return tuple(
        _from_bag(each, state, book, threads) for each in read_line(line, threads, state.gender)
    )


def _from_bag(taken: Taken, state: SessionState, book: RuleBook, threads: Threads) -> Taken:
    """Return a token with the way it was taken."""
    reading = taken.reading
    kind, text = FEATURES[reading.feature].kind, book.question(reading.feature)
    if kind not in _ALONE or reading.how is not USUAL[kind] or ":" in taken.token or text is None:
        return taken
    if reading.how not in {text.taken_as[tool] for tool in text.tools}:
        return taken  # it is not measured with a tool that one may lack
    bag = {text.taken_as[tool] for tool in text.tools if tool in state.tools}
    how = next((each for each in _ALONE[kind] if each in bag), None)
    if how is reading.how:
        return taken
    if how is None:
        raise ReadingError(_nothing_gives(taken.token, kind), reading.feature)
    made = reading_from(reading.feature, reading.entered, how_word(how), threads=threads)
    return replace(taken, reading=made)


def _nothing_gives(token: str, kind: Kind) -> str:
    name, remedy = _REMEDIES[kind]
    return (
        f"{quoted(token)} does not say how it was taken, and no {name} is at hand (t: tools). "
        f"Write {remedy.format(token)}."
    )
