"""Whatever a message proposes is typed, and must mean what the message said."""

import random
import re

import pytest

from identify.errors import ReadingError
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Length
from identify.reading.angles import parse_angle, parse_taper
from identify.reading.manner import how_words
from identify.reading.parse import parse_reading
from identify.reading.units import parse_length, parse_pitch
from tests.shipped import knowledge
from tests.torture.mutants import SEEDS, slips

THREADS = knowledge().catalogue.threads
NUMBER = r"[0-9]+(?: [0-9]+/[0-9]+|-[0-9]+/[0-9]+|/[0-9]+)?(?:[.,][0-9]+)?"
EXACT = re.compile(
    rf"({NUMBER}(?:(?:\.\.|-){NUMBER})? (?:mm|in|tpi))(?: \(({NUMBER}) (mm|in)\))?(?![\w=])"
)
LONGER = re.compile(
    r"[0-9]+ pitches = [0-9.]+ mm|[0-9.]+ mm over [0-9.]+ mm"
    r"|[0-9.]+ and [0-9.]+ mm, [0-9.]+ mm apart|[0-9]+ deg \w+"
)
NAMED = re.compile(r'([a-z_]+)="([^"]+)"')
WAYS = {
    Kind.LENGTH: parse_length,
    Kind.PITCH: parse_pitch,
    Kind.ANGLE: parse_angle,
    Kind.TAPER: parse_taper,
}
BARE = (
    "20.9", "0,823", "13/16", "1 1/16", "14", "1.5", "1,234 mm", "17/16 in", "20..21", "209 mm",
    "20.9 in", "0.823 mm", "2-21 mm", "14 mm", "1.5 tpi", "1.5 mm counted", "about 20 mm",
    "1 1/16-12", "M22x1.5", "G 1/2", "1/2 BSP", "20 mm (rule)", "14 tpi with a gauge", "13/16'",
    "11 crests over 13.4 mm", "10 pitches = 13.4", "1:16", "8 mm over 0.5 mm", "36..38 deg",
)  # fmt: skip


def advised(message: str) -> str:
    """Return the part of a message that proposes something."""
    places = [message.find(word) for word in ("write ", "did you mean ", "Measure it: ")]
    found = [place for place in places if place >= 0]
    return message[min(found) :] if found else ""


def check(feature: Feature, message: str) -> int:
    """Type all that a message proposes; return how many things that were."""
    advice, count = advised(message), 0
    examples = "write it as" in advice or "such as" in advice or "span you are sure" in advice
    for name, value in NAMED.findall(advice):
        if name in FEATURES:
            parse_reading(f"{name}={value}", THREADS)
            count += 1
    for typed, other, unit in EXACT.findall(NAMED.sub("", advice)):
        if f"= {typed}" in advice or " over " in advice or " apart" in advice:
            continue  # part of a longer form, which is typed below
        count += 1
        if examples or FEATURES[feature].kind not in (Kind.LENGTH, Kind.PITCH):
            value = parse_length(typed) if "tpi" not in typed else parse_pitch(typed)
        elif other:  # one of two units, which the person knows
            value = parse_length(typed)
        else:
            value = parse_reading(f"{feature}={typed}", THREADS).value
        if other and isinstance(value, Length):
            stated = float(other) * (25.4 if unit == "in" else 1)
            step = 10 ** -len(other.partition(".")[2]) * (25.4 if unit == "in" else 1)
            assert abs(value.mm - stated) <= step / 2 + 1e-9, message
    for form in LONGER.findall(advice):
        kinds = [parse for parse in WAYS.values() if _reads(parse, form)]
        assert len(kinds) == 1, (form, message)
        count += 1
    return count


def _reads(parse, text: str) -> bool:
    try:
        parse(text)
    except ReadingError:
        return False
    return True


def advice_to(feature: Feature, typed: str) -> int:
    try:
        parse_reading(f"{feature}={typed}", THREADS)
    except ReadingError as error:
        if found := re.search(r'as "(by \w+)" at the end', error.problem):
            value = re.split(" with | [(]", typed)[0]
            if WAYS[FEATURES[feature].kind] in (parse_length, parse_pitch) and _reads(
                lambda text: parse_reading(f"{feature}={text}"), value
            ):
                return how_words(parse_reading(f"{feature}={value} {found[1]}").how) == found[1]
            return 0
        return check(feature, error.problem)
    return 0


@pytest.mark.parametrize("typed", BARE)
def test_advice_can_be_typed_and_means_what_it_says(typed: str) -> None:
    features = (Feature.THREAD_OD, Feature.PITCH, Feature.HEX, Feature.SEAT_ANGLE, Feature.TAPER)
    assert sum(advice_to(feature, typed) for feature in features) > 0


@pytest.mark.parametrize("feature", [f for f in Feature if FEATURES[f].kind is Kind.LENGTH])
def test_advice_where_a_size_is_out_of_bounds(feature: Feature) -> None:
    info = FEATURES[feature]
    for mm in (info.low / 3, info.high * 1.2, info.high * 9, info.low * 25.4 / 2):
        for typed in (f"{mm:.4g} mm", f"{mm:.4g} in", f"{mm / 25.4:.3f} in", f"{mm:.3f}"):
            advice_to(feature, typed)


def test_advice_after_slips_of_the_keyboard() -> None:
    """Messages to 4,000 texts one slip away from a good one, drawn with a fixed seed."""
    draw, followed = random.Random(12), 0
    texts = [
        (Feature(f), slip) for f, seeds in SEEDS.items() for text in seeds for slip in slips(text)
    ]
    for feature, typed in draw.sample(texts, 4000):
        followed += advice_to(feature, typed)
    assert followed > 4000
