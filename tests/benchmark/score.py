"""Count right and wrong answers, and compare what was promised with what came true."""

import math
from collections import Counter, defaultdict
from dataclasses import dataclass, field

BINS = 10


@dataclass
class Calibration:
    """Answers by the probability they were given: bin -> number, hits, summed probability."""

    number: Counter[int] = field(default_factory=Counter)
    hits: Counter[int] = field(default_factory=Counter)
    promised: dict[int, float] = field(default_factory=lambda: defaultdict(float))
    variance: dict[int, float] = field(default_factory=lambda: defaultdict(float))

    def add(self, probability: float, hit: bool) -> None:
        """Count one answer."""
        place = min(BINS - 1, int(probability * BINS))
        self.number[place] += 1
        self.hits[place] += hit
        self.promised[place] += probability
        self.variance[place] += probability * (1 - probability)

    @property
    def error(self) -> float:
        """Expected calibration error: mean distance of promise and truth, by share of answers."""
        total = sum(self.number.values())
        return sum(abs(self.hits[i] - self.promised[i]) for i in self.number) / max(1, total)

    @property
    def luck(self) -> float:
        """Expected error of as many answers whose promises are exactly true."""
        total = sum(self.number.values())
        bins = (math.sqrt(2 / math.pi * self.variance[i]) for i in self.number)
        return sum(bins) / max(1, total)

    def lines(self) -> list[tuple[str, int, float, float]]:
        """Return for each bin: name, answers, mean promise, share right."""
        return [
            (
                f"{place / BINS:.1f} to {(place + 1) / BINS:.1f}",
                self.number[place],
                self.promised[place] / self.number[place],
                self.hits[place] / self.number[place],
            )
            for place in sorted(self.number)
        ]


@dataclass
class Hits:
    """How often the truth led, and how often it stood among the first three."""

    first: int = 0
    third: int = 0

    def add(self, place: int | None) -> None:
        """Count the place (from 0) at which the truth stood, None if nowhere."""
        self.first += place == 0
        self.third += place is not None and place < 3


@dataclass
class Named:
    """Answers called identified: how many, right, and wrong with a high-hazard lookalike."""

    number: int = 0
    right: int = 0
    dangerous: int = 0

    def add(self, right: bool, dangerous: bool) -> None:
        """Count one identified answer."""
        self.number += 1
        self.right += right
        self.dangerous += dangerous

    def cells(self, answers: int) -> tuple[str, str, str]:
        """Return what `NAMED` heads: share of all answers, share right, dangerous in 1,000."""
        return (
            share(self.number, answers),
            share(self.right, self.number, 2),
            f"{1000 * self.dangerous / self.number:.1f}" if self.number else "-",
        )


NAMED = ("named", "right", "danger")


def share(part: float, whole: float, digits: int = 1) -> str:
    """Return a share in per cent, "-" of nothing."""
    return f"{100 * part / whole:.{digits}f}" if whole else "-"
