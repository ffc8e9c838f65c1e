"""Pitches by gauge leaf or by counting: what is typed, and how often exactly that is typed."""

import math
import random
from functools import cache

from identify.model.feature import Feature, Kind
from identify.model.reading import How, Pitch
from identify.simulation.blueprint import Figure, options
from identify.simulation.people import COARSE_MM, SAID_BY, Leaf, Person
from identify.simulation.spread import phi, rounded_to

GROSS_COUNT = 0.2  # a length over ten pitches that is plainly wrong is out by up to this share
FINE_MM = 0.1  # step of a length over some pitches


def say_pitch(rng: random.Random, truth: float, person: Person, how: How) -> str:
    """Return the text that is typed for a pitch [mm]: a leaf, or a length where none fits."""
    leaves = [] if how in (How.CALIPER, How.RULE) else person.leaves()
    words = SAID_BY.get(how, "")
    if leaves:
        if rng.random() < person.gross(Kind.PITCH, how):
            return rng.choice(leaves)[1] + words
        seen = truth * math.exp(rng.gauss(0.0, person.observer.leaf_error))
        best = min(range(len(leaves)), key=lambda i: abs(math.log(leaves[i][0] / seen)))
        if abs(math.log(leaves[best][0] / seen)) < person.book.people.pitch_fits:
            if rng.random() < person.observer.neighbour_leaf:
                best = _beside(leaves, best, rng.choice((-1, 1)))
            return leaves[best][1] + words
    return _say_counted(rng, truth, person, How.RULE if how is How.RULE else How.COUNTED)


def chance_of_pitch(value: Pitch, how: How, figure: Figure | None, person: Person) -> float:
    """Return how often a pitch is typed of a part with this figure, None if it has no thread."""
    chance = _chance_of_count if value.pitches else _chance_of_leaf
    answers = person.answers(Feature.PITCH)
    return answers * sum(
        share * chance(value, true, person, how) for true, share in options(figure, float)
    )


def _say_counted(rng: random.Random, truth: float, person: Person, how: How) -> str:
    count = person.book.people.pitches
    if rng.random() < person.gross(Kind.PITCH, how):
        total = truth * count * math.exp(rng.uniform(-GROSS_COUNT, GROSS_COUNT))
    else:
        slip = rng.choice((-1, 1)) if rng.random() < 2 * person.observer.miscount else 0
        total = rng.gauss(truth * (count + slip), person.sigma(Kind.PITCH, how))
    step = COARSE_MM.get(how, FINE_MM)
    return f"{count} pitches = {round(total / step) * step:.1f} mm"


def _chance_of_count(value: Pitch, true: float, person: Person, how: How) -> float:
    count = value.pitches
    leaves = person.leaves()
    reached = 1.0
    if leaves:  # counts only because no leaf fits
        reached = 1 - sum(_best_and_fits(leaves, true, person))
        reached *= 1 - person.gross(Kind.PITCH, How.GAUGE)
    gross, sigma = person.gross(Kind.PITCH, how), person.sigma(Kind.PITCH, how)
    total, step = value.mm * count, COARSE_MM.get(how, FINE_MM)
    slip = person.observer.miscount
    good = sum(
        share * rounded_to(total, step, true * (count + more), sigma)
        for more, share in ((0, 1 - 2 * slip), (1, slip), (-1, slip))
    )
    off = abs(math.log(total / (true * count)))
    broad = step / (2 * GROSS_COUNT * total) if off < GROSS_COUNT else 0.0
    return reached * ((1 - gross) * good + gross * broad)


def _chance_of_leaf(value: Pitch, true: float, person: Person, how: How) -> float:
    leaves = person.leaves()
    said = min(range(len(leaves)), key=lambda i: (
        leaves[i][1].endswith("tpi") != value.inch, abs(leaves[i][0] - value.mm)
    ))  # fmt: skip
    chances = _best_and_fits(leaves, true, person)
    gross, next_to = person.gross(Kind.PITCH, how), person.observer.neighbour_leaf
    called = (1 - next_to) * chances[said]
    for place, chance in enumerate(chances):
        for step in (-1, 1):
            if _beside(leaves, place, step) == said:
                called += next_to / 2 * chance
    return (1 - gross) * called + gross / len(leaves)


def _beside(leaves: list[Leaf], place: int, step: int) -> int:
    """Return the next leaf of the same gauge, the leaf itself at the gauge's end."""
    there = place + step
    if not 0 <= there < len(leaves) or (leaves[there][0] > leaves[place][0]) != (step > 0):
        return place
    return there if leaves[there][1][-2:] == leaves[place][1][-2:] else place


def _best_and_fits(leaves: list[Leaf], true: float, person: Person) -> tuple[float, ...]:
    """Return how often each leaf is the best and fits; the rest of 1 is that none fits."""
    lengths = tuple(mm for mm, _ in leaves)
    return _fits(lengths, true, person.book.people.pitch_fits, person.observer.leaf_error)


@cache
def _fits(leaves: tuple[float, ...], true: float, reach: float, spread: float) -> tuple[float, ...]:
    order = sorted(range(len(leaves)), key=leaves.__getitem__)
    logs = [math.log(leaves[i] / true) for i in order]
    out = [0.0] * len(leaves)
    for place, number in enumerate(order):
        low, high = logs[place] - reach, logs[place] + reach
        if place:
            low = max(low, (logs[place - 1] + logs[place]) / 2)
        if place + 1 < len(logs):
            high = min(high, (logs[place + 1] + logs[place]) / 2)
        out[number] = max(0.0, phi(high / spread) - phi(low / spread))
    return tuple(out)
