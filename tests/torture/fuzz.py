# ruff: noqa: E501 - pieces, not prose
"""Random readings of every kind: refused in one printable sentence, or read and read back."""

import contextlib
import json
import random

from identify.errors import ReadingError, WhichendError
from identify.jobs.records import possible
from identify.model.feature import FEATURES, Feature, Kind
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import parse_reading, reading_from
from tests.shipped import knowledge
from tests.torture.mutants import SEEDS

PIECES = (
    *"0123456789 .,/-'\"°±½⅞:=×xM", ".. ", " to ", " and ", "between ", " over ", " apart", "mm", "in",
    "tpi", "ft", "thou", "pitches", "threads per inch", "deg", "half", "included", " by rule",
    " counted", " by comb page", "female", "male", "loose", "G 1/4 female: ", " turns then tight",
    "NPT", "BSP", "-12", "\x1b[31m", "\x00", "\u202e", "\udcff", "é", "漢", "🙂", "\u2028", "1e9", "nan",
)  # fmt: skip
WORDS = tuple(
    word for info in FEATURES.values() for word in info.choices
) + tuple(text for texts in SEEDS.values() for text in texts)  # fmt: skip
NAMES = (*Feature, "diameter", "od", "size", "", "x y", "Thread OD")


def a_text(draw: random.Random) -> str:
    """Return a text that is near to something, or far from everything."""
    kind = draw.random()
    if kind < 0.4:
        text = draw.choice(WORDS)
        for _ in range(draw.randrange(4)):
            place = draw.randrange(len(text) + 1)
            text = text[:place] + draw.choice(PIECES) + text[place + draw.randrange(3) :]
        return text
    if kind < 0.85:
        return "".join(draw.choice(PIECES) for _ in range(draw.randrange(14)))
    return "".join(chr(draw.randrange(0x110000)) for _ in range(draw.randrange(30)))


def a_value(draw: random.Random, depth: int = 0) -> object:
    """Return what a JSON record may hold in place of a reading."""
    kind = draw.randrange(9 if depth < 3 else 7)
    plain = (
        a_text(draw), draw.uniform(-1e3, 1e3), draw.randrange(-9, 200), None, draw.random() < 0.5,
        10 ** draw.randrange(60), float("nan"),
    )  # fmt: skip
    if kind < 7:
        return plain[kind]
    inner = a_value(draw, depth + 1)
    return [inner] if kind == 7 else {draw.choice(("value", "how", "x")): inner}


def check(draw: random.Random) -> bool:
    """Read one thing; return whether it was accepted.

    Raises:
        AssertionError: A law of readings is broken; any other error is a fault as well.
    """
    threads = knowledge().catalogue.threads
    name, text = draw.choice(NAMES), a_text(draw)
    try:
        if draw.random() < 0.8:
            reading = parse_reading(f"{name}{draw.choice('==:')}{text}", threads)
        else:
            reading = reading_from(
                name, a_value(draw), draw.choice(("", "rule", "x")), threads=threads
            )
    except ReadingError as error:
        message = str(error)
        assert message.isprintable(), message
        assert message[-1] in ".?", message
        assert len(message) < 900, message
        return False
    assert possible(reading.feature, reading.value), reading
    assert parse_reading(f"{reading.feature}={reading.entered}") == reading
    if FEATURES[reading.feature].kind is not Kind.TEXT:
        assert reading.entered.isprintable()
    with contextlib.suppress(WhichendError):
        with_gender(gathered([reading, parse_reading("gender=male")]))
    json.dumps(reading.entered)
    return True


def run(count: int, seed: int) -> tuple[int, list[str]]:
    """Read `count` things; return how many were accepted, and every fault."""
    draw, accepted, faults = random.Random(seed), 0, []
    for number in range(count):
        try:
            accepted += check(draw)
        except Exception as error:
            faults.append(f"seed {seed}, number {number}: {type(error).__name__}: {error}")
    return accepted, faults
