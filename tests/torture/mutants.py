"""Typed readings with slips of the keyboard: whatever is accepted must mean what it says.

Every text is changed by one slip in every way (and, on request, by a second at random). A change
that is refused, or read as `reader` reads it, is well; any other is a misreading.
"""

import random
from collections.abc import Iterator

from identify.errors import ReadingError
from identify.model.reading import Angle, Choice, Length, Pitch, Slope, Value
from identify.reading.parse import parse_reading
from tests.torture import reader
from tests.torture.reader import Meaning

SEEDS = {
    "thread_od": (
        "20.9 mm", "20,9 mm", "20.9mm", "0.823 in", '0.823"', "0,823 in", ".823 in", "13/16 in",
        '13/16"', "1 1/16 in", "1-1/16 in", '1 1/16"', "1½ in", "2½ in", '2½ "', "½ in", "⅞ in",
        "2.09 cm", "805 thou", "0.0209 m", "20900 um", "20.8..21.0 mm", "20..21 mm", "20…21 mm",
        "20.8 to 21.0 mm", "20.8-21.0 mm", "20.8 - 21.0 mm", "between 20 and 21 mm",
        "20.9 ± 0.1 mm", "20.9 +/- 0.1 mm", "3/4-7/8 in", "1-1/16-1-1/8 in", "26.95 mm",
        "33.2 mm", "1 5/16 in.", "1.3125 inches", "0.03 yd", "20.9 millimetres",
    ),
    "flange_head_od": ("38.1 mm", "1 1/2 in", "1½\"", "131 mm", "5 3/16 in", "63.5..64 mm"),
    "pitch": (
        "1.5 mm", "1,5 mm", "14 tpi", "11.5 tpi", "11 1/2 tpi", "18..20 tpi", "18-20 tpi",
        "10 pitches = 13.4 mm", "10 pitches in 13.4 mm", "13.4 mm over 10 pitches",
        "14 threads per inch", "19 per inch", "14 t.p.i.", "5 pitches = 0.5 in", "28 threads/inch",
    ),
    "seat_angle": (
        "37 deg half", "74 deg included", "60 deg", "37°", "37.5 deg", "37° 30' half", "24 half",
        "12 deg from the axis", "30° per side", "74", "90 degrees, included angle",
    ),
    "taper": (
        "0.5 mm over 8 mm", "0.02 in over 0.3 in", "20.4 and 20.9 mm, 8 mm apart",
        "0,5 mm per 8 mm",
    ),
}  # fmt: skip
READERS = {
    "thread_od": reader.read_length,
    "flange_head_od": reader.read_length,
    "pitch": reader.read_pitch,
    "seat_angle": reader.read_angle,
    "taper": reader.read_taper,
}
KEYS = "0123456789 .,/-'\"°½±=:;mincdtpofehx…_+()"


def slips(text: str, keys: str = KEYS) -> Iterator[str]:
    """Yield every text one slip away: a key lost, wrong, too many or exchanged with the next."""
    for place in range(len(text) + 1):
        yield from (text[:place] + key + text[place:] for key in keys)
    for place in range(len(text)):
        yield text[:place] + text[place + 1 :]
        yield from (text[:place] + key + text[place + 1 :] for key in keys)
        yield text[:place] + text[place : place + 2][::-1] + text[place + 2 :]


def meaning(value: Value) -> tuple[str, tuple[float, ...]] | None:
    """Return a value as `reader` says it; None for a word."""
    match value:
        case Length(mm, spread):
            return "length", (mm - spread, mm + spread)
        case Pitch(mm, inch, spread, pitches):
            ends = (mm - spread, mm + spread)
            return ("count", (*ends, pitches)) if pitches else ("tpi" if inch else "length", ends)
        case Angle(deg, basis):
            return str(basis or "angle"), (deg,)
        case Slope(rise, over):
            return "slope", (rise, over)
    return None


def misread(feature: str, text: str) -> str | None:
    """Return what is wrong with how a text is read; None if it is refused or read rightly."""
    try:
        value = parse_reading(f"{feature}={text}").value
    except ReadingError:
        return None
    found = meaning(value)
    if found is None:
        return None if isinstance(value, Choice) else f"{feature}={text!r} is read as {value}"
    plain = text.strip()
    quote, inner = plain[:1], plain[1:-1]
    if quote in "\"'" and plain[-1] == quote and inner.strip() and quote not in inner[:-1]:
        plain = inner  # as a shell would have removed them
    expected = READERS[feature](plain)
    if len(expected) == 1 and _same(found, next(iter(expected))):
        return None
    shown = [(kind, tuple(map(float, figures))) for kind, figures in expected]
    return f"{feature}={text!r} is read as {found}, apart from that as {shown or 'nothing'}"


def _same(found: tuple[str, tuple[float, ...]], expected: Meaning) -> bool:
    return found[0] == expected[0] and all(
        abs(one - float(two)) <= 1e-9 * max(1, abs(one))
        for one, two in zip(found[1], expected[1], strict=True)
    )


def run(seconds: int, seed: int) -> tuple[int, int, list[str]]:
    """Try mutants by `seconds` slips at random on top of every single slip.

    Args:
        seconds: How many texts with two slips; all with one are tried in any case.
        seed: Of the second slips.

    Returns:
        Texts tried, texts accepted, and every misreading.
    """
    draw, wrong, tried, accepted = random.Random(seed), [], 0, 0
    for feature, text in every(seconds, draw):
        tried += 1
        if bad := misread(feature, text):
            wrong.append(bad)
        try:
            parse_reading(f"{feature}={text}")
            accepted += 1
        except ReadingError:
            pass
    return tried, accepted, wrong


def every(more: int, draw: random.Random) -> Iterator[tuple[str, str]]:
    """Yield feature and mutant: all with one slip, then `more` with two."""
    for feature, texts in SEEDS.items():
        for text in texts:
            yield feature, text
            yield from ((feature, slip) for slip in slips(text))
    pairs = [(feature, text) for feature, texts in SEEDS.items() for text in texts]
    for _ in range(more):
        feature, text = draw.choice(pairs)
        for _ in range(2):
            place, key = draw.randrange(len(text) + 1), draw.choice(KEYS)
            text = draw.choice([
                text[:place] + key + text[place:], text[:place] + text[place + 1 :],
                text[:place] + key + text[place + 1 :],
            ])  # fmt: skip
        yield feature, text
