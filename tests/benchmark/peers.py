"""Other ways to identify an end, on the same sheets as ours: how often right, in how long.

A brute search over our own tables by numpy, a random forest that learnt from simulated sheets
(where scikit-learn is installed), and a printed chart. All are judged alike: the truth must lead,
or an end that no measurement tells from the one that leads. Each is timed from the readings to
the end that leads, the sheets one by one or, of ours and the forest, all at once, after as many
other sheets.

The forest is given every advantage: it learns from people and parts of the very simulation that it
is tried on, our own rows and how common they are; ends that no measurement tells apart are one to
it, as in the judging; a leaf holds two lessons, which makes it both righter and quicker. It names
one end of those it has met and knows no "none of these", no suspect reading and no next question.
Its lessons, 20,000, are some 20 a row; learning takes minutes and several GB, and is not timed.
"""

import random
import time
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from importlib.util import find_spec
from typing import Any

import numpy as np

from identify.commands.batch import tidied_seldom
from identify.knowledge.loading import Knowledge
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Angle, Choice, Length, Pitch, Reading, Slope
from identify.reading.consistency import implied_gender
from identify.reasoning.apart import Twins
from identify.reasoning.engine import Engine
from identify.reasoning.hypotheses import NONE
from identify.reasoning.posterior import Posterior
from identify.reasoning.subject import trait
from identify.reasoning.traits import Cone, Interval, Share, ThreadPitch, ThreadTaper, Word
from identify.simulation.lots import Lot
from identify.simulation.measuring import fill_sheet
from identify.simulation.people import Person
from tests.benchmark.bench import counted
from tests.benchmark.chart import chart_ranking
from tests.benchmark.starts import Figure

SHEETS, LESSONS, TREES = 1_000, 20_000, 100
TOGETHER = 250  # sheets of ours weighed at once
FEW = 50  # sheets that a forest is shown one by one
FIGURES = 6
_NUMBERS = tuple(
    feature for feature, info in FEATURES.items()
    if info.kind in (Kind.LENGTH, Kind.PITCH, Kind.ANGLE)
)  # fmt: skip
_WORDS = tuple(
    (feature, word)
    for feature, info in FEATURES.items()
    if info.kind in (Kind.CHOICE, Kind.TAPER) and feature is not Feature.ORIGIN
    for word in info.choices
)
_PLACES: dict[Feature, list[tuple[int, str]]] = {}
for _at, (_feature, _word) in enumerate(_WORDS, len(_NUMBERS)):
    _PLACES.setdefault(_feature, []).append((_at, _word))
_SPREAD = {Kind.LENGTH: 0.1, Kind.PITCH: 0.03, Kind.ANGLE: 2.0}  # of a usual reading [mm, deg]
_UNLIKE = 8.0  # squared errors that a wrong word, or a figure that is not there, counts as
Sheet = tuple[Reading, ...]
Case = tuple[int, Sheet]  # row of the truth, and its sheet


def peers(knowledge: Knowledge, seed: int) -> Iterator[Figure]:
    """Yield accuracy and time of ours, one by one and in a batch, and of the others."""
    cases = drawn(knowledge, SHEETS, seed)
    others = [sheet for _, sheet in drawn(knowledge, SHEETS, seed + 2)]
    plain, arrays = (
        Engine(knowledge.catalogue, knowledge.book, knowledge.hazards, arrays=by)
        for by in (False, True)
    )

    def alike(row: int, taken: int) -> bool:
        return row == taken or plain.twins.same(row, taken)

    def judged(
        name: str, answers: Callable[[list[Sheet]], Sequence[int]], number: int = SHEETS
    ) -> Figure:
        sheets = [sheet for _, sheet in cases[:number]]
        answers(others[:number])  # warm: a forest has learnt before it is timed, too
        start = time.process_time()
        taken = answers(sheets)
        each = (time.process_time() - start) / len(sheets)
        pairs = zip(cases[:number], taken, strict=True)
        right = sum(alike(row, found) for (row, _), found in pairs) / len(sheets)
        return name, f"{100 * right:.1f} %", f"{1e3 * each:.3f} ms a sheet", ""

    def lead(engine: Engine, state: Posterior) -> int:
        return engine.groups(state, 1)[0][0]

    def leads(engine: Engine, sheets: Sequence[Sheet]) -> list[int]:
        return [lead(engine, engine.posterior(each)) for each in sheets]

    def together(sheets: Sequence[Sheet]) -> list[int]:
        found: list[int] = []
        with tidied_seldom():  # as a batch does
            for start in range(0, len(sheets), TOGETHER):
                share = sheets[start : start + TOGETHER]
                found += [lead(arrays, state) for state in arrays.posteriors(share)]
        return found

    brute = Brute(plain)
    yield judged("right: ours, first answer, one by one", partial(leads, plain))
    yield judged("ours by numpy, all at once", together)
    yield judged("brute search over our tables", lambda sheets: list(map(brute.answer, sheets)))
    if find_spec("sklearn"):
        forest = Forest(drawn(knowledge, LESSONS, seed + 1), plain.twins)
        yield judged("random forest, all at once", forest.answers)
        yield judged(
            "the same one by one", lambda sheets: [forest.answers([each])[0] for each in sheets],
            FEW,
        )  # fmt: skip
    else:
        for name in ("random forest, all at once", "the same one by one"):
            yield name, "-", "scikit-learn is not installed", ""
    yield judged(
        "printed chart",
        lambda sheets: [chart_ranking(each, knowledge.catalogue)[0] for each in sheets],
    )


def drawn(knowledge: Knowledge, number: int, seed: int) -> list[Case]:
    """Return sheets of simulated people on parts of the tables, the gender always told."""
    rng = random.Random(seed)
    lot = Lot(knowledge.catalogue, knowledge.book)
    people = [Person(each, knowledge.book) for each in knowledge.book.people.observers.values()]
    cases: list[Case] = []
    while len(cases) < number:
        part = lot.draw(rng)
        sheet = counted(fill_sheet(rng, part, rng.choice(people)))
        if part.row != NONE and implied_gender(sheet):
            cases.append((part.row, sheet))
    return cases


def vector(sheet: Sequence[Reading]) -> Any:
    """Return a sheet as numbers, then words as 0 or 1; what was not read is no number."""
    out = np.full(len(_NUMBERS) + len(_WORDS), np.nan)
    for reading in sheet:
        value = reading.value
        if isinstance(value, Choice) and reading.feature is not Feature.ORIGIN:
            word = value.word
        elif isinstance(value, Slope):
            word = "tapered" if value.rise_mm / value.over_mm > 1 / 32 else "parallel"
        else:
            if isinstance(value, Length | Pitch):
                out[_NUMBERS.index(reading.feature)] = value.mm
            elif isinstance(value, Angle):
                half = value.deg / 2 if value.basis == "included" else value.deg
                out[_NUMBERS.index(reading.feature)] = half
            continue
        for place, each in _PLACES.get(reading.feature, ()):
            out[place] = each == word
    return out


class Brute:
    """Takes the row with the least squared error over all that was read."""

    def __init__(self, engine: Engine) -> None:
        space, model = engine.space, engine.space.model
        rows = len(space.ends)
        self.middle = np.full((rows, len(_NUMBERS)), np.nan)
        self.half = np.zeros((rows, len(_NUMBERS)))
        self.shows = np.zeros((rows, len(_WORDS)))
        self.spread = np.array([_SPREAD[FEATURES[feature].kind] for feature in _NUMBERS])
        self.prior = -2 * np.log(np.array(space.prior[:rows]))
        for row in range(rows):
            for place, feature in enumerate(_NUMBERS):
                match trait(feature, space.subjects[row], model):
                    case Interval(low, high):
                        self.middle[row, place], self.half[row, place] = (
                            (low + high) / 2,
                            (high - low) / 2,
                        )
                    case ThreadPitch(number) | Cone(float(number)):
                        self.middle[row, place] = number
            for place, (feature, word) in enumerate(_WORDS):
                found = trait(feature, space.subjects[row], model)
                match found:
                    case Word(name):
                        self.shows[row, place] = name == word
                    case ThreadTaper():
                        self.shows[row, place] = found.word == word
                    case Share(share):
                        yes, _ = FEATURES[feature].shown_or_not
                        self.shows[row, place] = share if word == yes else 1 - share

    def answer(self, sheet: Sequence[Reading]) -> int:
        """Return the row that fits best."""
        told = vector(sheet)
        numbers, words = told[: len(_NUMBERS)], told[len(_NUMBERS) :]
        read, said = ~np.isnan(numbers), np.flatnonzero(words == 1)
        off = np.maximum(np.abs(numbers[read] - self.middle[:, read]) - self.half[:, read], 0)
        squares = np.minimum(
            np.nan_to_num((off / self.spread[read]) ** 2, nan=_UNLIKE), 4 * _UNLIKE
        )
        unlike = _UNLIKE * (1 - self.shows[:, said]).sum(axis=1)
        return int(np.argmin(squares.sum(axis=1) + unlike + self.prior))


class Forest:
    """A random forest over the same numbers, taught by simulated sheets.

    Args:
        lessons: The sheets, each with its row.
        twins: Tells which rows are one to every instrument: the first of them stands for all.
    """

    def __init__(self, lessons: Sequence[Case], twins: Twins) -> None:
        from sklearn.ensemble import RandomForestClassifier  # not needed by anything else

        first: dict[int, int] = {}
        for row, _ in lessons:
            if row not in first:
                first[row] = next((one for one in first.values() if twins.same(one, row)), row)
        self._forest = RandomForestClassifier(TREES, random_state=1, min_samples_leaf=2)
        told = self._filled([sheet for _, sheet in lessons])
        self._forest.fit(told, [first[row] for row, _ in lessons])

    @staticmethod
    def _filled(sheets: Sequence[Sequence[Reading]]) -> Any:
        return np.nan_to_num(np.array([vector(sheet) for sheet in sheets]), nan=-1.0)

    def answers(self, sheets: Sequence[Sheet]) -> list[int]:
        """Return the row of each sheet that most trees name."""
        return [int(row) for row in self._forest.predict(self._filled(sheets))]
