"""What a person types of an end -> readings: `name=value`, one a feature, with how it was taken."""

from identify.light import Iterable, Mapping
from identify.model.reading import Reading
from identify.model.thread import Thread
from identify.reading.consistency import gathered
from identify.reading.plainest import plain_reading

Threads = Mapping[str, Thread]
"""By designation, as a catalogue holds them."""

_NO_THREADS: Threads = {}


def parse_reading(text: str, threads: Threads = _NO_THREADS) -> Reading:
    """Read `name=value` or `name: value`, such as "thread_od=20.9 mm by rule".

    Args:
        text: What was typed.
        threads: Of the tables, to tell what a thread measures whose name was typed instead.

    Raises:
        ReadingError: Unknown or vague name, or a value that the feature cannot have.
    """
    name, sign, value = text.partition("=")
    if sign and (plain := plain_reading(name, value)):
        return plain
    from identify.reading.grammar import typed_reading  # what is typed plainly needs none of it

    return typed_reading(text, threads)


def parse_readings(texts: Iterable[str], threads: Threads = _NO_THREADS) -> tuple[Reading, ...]:
    """Read several `name=value`; a name given twice is a second reading of the same thing.

    Raises:
        ReadingError: As `parse_reading` and `gathered`.
    """
    return gathered(parse_reading(text, threads) for text in texts)


def reading_from(
    name: str, value: object, how: str = "", *, threads: Threads = _NO_THREADS
) -> Reading:
    """Make a reading from its parts, as a JSON record or a dialogue holds them.

    Args:
        name: A feature; hyphens and spaces count as underscores.
        value: Typed text, which may end in the way it was taken ("by rule", "counted"); a plain
            number where no unit is needed; or {"value": …, "how": …, "by": "somebody else"}. Text
            may also end in "by somebody else".
        how: The way it was taken, where the text does not say; empty for the usual way.
        threads: As for `parse_reading`.

    Returns:
        The reading. Its `entered` is as typed with the way said, so that `parse_reading` of
        "name=entered" gives the reading again.

    Raises:
        ReadingError: Unknown or vague name, or a value that the feature cannot have.
    """
    if not how and isinstance(value, str) and (plain := plain_reading(name, value)):
        return plain
    from identify.reading.grammar import made_reading

    return made_reading(name, value, how, threads)
