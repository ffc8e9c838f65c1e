"""Sheets that nobody would fill in: far off, contradicting, read again and again, all the same."""

import json
import random
from collections.abc import Iterator
from itertools import islice

import pytest

from identify.errors import ReadingError
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Reading
from identify.pages.as_json import verdict_json
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.engine import Situation
from identify.reasoning.lockstep import together
from tests.shipped import array_engine, knowledge, shipped_engine

SHEETS = 120
TYPED = {
    Kind.PITCH: ["14 tpi", "1.5 mm", "10 pitches = 15.1 mm", "7 pitches = 12.9 mm", "2 mm by eye"],
    Kind.ANGLE: ["37 half", "60 included", "45", "10 and 15.2 mm, 3 mm apart", "30 by eye"],
    Kind.TAPER: ["tapered", "parallel", "0.5 mm over 8 mm", "0.0 mm over 10 mm"],
}
MARKS = ["G 1/2", "JIC", "X"]


def typed(feature: Feature, rng: random.Random) -> str:
    """Return an answer that may be typed, right or not."""
    info = FEATURES[feature]
    if info.kind is Kind.LENGTH:
        mm = rng.choice([info.low, info.high, rng.uniform(info.low, min(info.high, 60))])
        return f"{mm:.{rng.randint(0, 3)}f} mm{rng.choice(['', ' by rule', ', by somebody else'])}"
    return rng.choice(TYPED.get(info.kind) or list(info.choices) or MARKS)


def odd_sheets(rng: random.Random) -> Iterator[tuple[Reading, ...]]:
    """Yield sheets without end."""
    threads = knowledge().catalogue.threads
    while True:
        features = rng.sample([each for each in Feature if each is not Feature.TRIAL_FIT], 6)
        several = [each for each in features for _ in range(rng.choice([1, 1, 2, 3]))]
        try:
            read = [reading_from(each, typed(each, rng), threads=threads) for each in several]
            yield with_gender(gathered(read))
        except ReadingError:  # a length beyond its limits, genders that cannot be one
            continue


@pytest.mark.filterwarnings("error")
@pytest.mark.parametrize("seed", range(3))
def test_odd_sheets_are_answered_the_same_together_and_one_by_one(seed: int) -> None:
    sheets = list(islice(odd_sheets(random.Random(seed)), SHEETS))
    assert any(len(sheet) > len({each.feature for each in sheet}) for sheet in sheets)
    plain, arrays = shipped_engine(), array_engine()
    works = [
        arrays.concluding(sheet, state, Situation(), 8)
        for sheet, state in zip(sheets, arrays.posteriors(sheets), strict=True)
    ]
    for sheet, verdict in zip(sheets, together(works, arrays.chooser.gains), strict=True):
        alone = json.dumps(verdict_json(plain.conclude(sheet)))
        assert json.dumps(verdict_json(verdict)) == alone, sheet
