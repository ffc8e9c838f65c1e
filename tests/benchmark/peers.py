"""General-purpose classifiers on the same readings, to hold our speed against."""

import time
from collections.abc import Iterator, Sequence

from sklearn.ensemble import HistGradientBoostingClassifier
from sklearn.naive_bayes import GaussianNB
from sklearn.neighbors import KNeighborsClassifier

from identify.knowledge.loading import Knowledge
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Choice, Length, Pitch, Reading, Slope
from identify.reasoning.engine import Engine
from tests.benchmark.stopwatch import each

MISSING = -1.0


def peers(
    knowledge: Knowledge, sheets: Sequence[tuple[Reading, ...]], seed: int
) -> Iterator[tuple[str, float, float]]:
    """Yield name, time of one sample and time a sample in a batch [s]; ours first.

    They learn the family that our ranking names first: what counts here is the time, not the hit.

    Args:
        knowledge: Tables and rules.
        sheets: Readings to rank.
        seed: Of the one method that draws lots.
    """
    engine = Engine(knowledge.catalogue, knowledge.book, knowledge.hazards)
    ends = engine.catalogue.ends
    states = [engine.posterior(sheet) for sheet in sheets]
    best = [max(range(len(ends)), key=state.rows.__getitem__) for state in states]
    names = [ends[row].family for row in best]
    start = time.process_time()
    for sheet in sheets:
        engine.posterior(sheet)
    many = (time.process_time() - start) / len(sheets)
    yield "our posterior", each(lambda one: engine.posterior(one), sheets[:100]), many  # type: ignore[arg-type]
    table = [features(sheet) for sheet in sheets]
    for method in (
        GaussianNB(),
        KNeighborsClassifier(),
        HistGradientBoostingClassifier(max_iter=20, random_state=seed),
    ):
        method.fit(table, names)
        start = time.process_time()
        method.predict_proba(table)
        many = (time.process_time() - start) / len(table)
        one = each(lambda row, method=method: method.predict_proba([row]), table[:100])  # type: ignore[misc]
        yield type(method).__name__, one, many


def features(sheet: Sequence[Reading]) -> list[float]:
    """Return a reading of each feature as one number, MISSING where there is none."""
    told = {reading.feature: reading for reading in sheet}
    return [_number(feature, told.get(feature)) for feature in FEATURES]


def _number(feature: Feature, reading: Reading | None) -> float:
    value = reading.value if reading else None
    if isinstance(value, Length | Pitch):
        return value.mm
    if isinstance(value, Angle):
        return value.deg
    if isinstance(value, Slope):
        return value.rise_mm / value.over_mm
    if isinstance(value, Choice) and value.word in FEATURES[feature].choices:
        return float(FEATURES[feature].choices.index(value.word))
    return MISSING
