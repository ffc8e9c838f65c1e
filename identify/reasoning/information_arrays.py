"""What answers are expected to tell, by numpy: the sums of `answers.information`, many at once."""

from __future__ import annotations

from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from identify.reasoning.answers import Answers

Floats = Any  # arrays; types are checked without numpy too


class Rows(NamedTuple):
    """Answers expected of some traits, laid end to end.

    `chances` are those of the first trait, then of the second, each with the number of its answer
    in `cells`, rising; trait i has `sizes[i]` of them, none where nothing can be foreseen. `silent`
    and `sharpness` are as in `Answers`; `alike` is share over span of what is `anywhere`, 0 where
    nothing is.
    """

    chances: Floats
    cells: Floats
    sizes: Floats
    silent: Floats
    sharpness: Floats
    alike: Floats


class Flat:
    """Rows of numbers of different lengths, laid end to end; it grows."""

    def __init__(self) -> None:
        self._numbers: Floats = np.empty(1 << 12)
        self._used = 0

    def add(self, numbers: Sequence[float]) -> int:
        """Append a row and return where it starts."""
        start, stop = self._used, self._used + len(numbers)
        while stop > len(self._numbers):
            self._numbers = np.resize(self._numbers, 2 * len(self._numbers))
        self._numbers[start:stop] = numbers
        self._used = stop
        return start

    def table(self, size: int) -> Floats:
        """Return all rows, of one size, below each other."""
        return self._numbers[: self._used].reshape(-1, size)

    def rows(self, starts: Floats, sizes: Floats) -> Floats:
        """Return some rows, end to end."""
        found: Floats = self._numbers[run(starts, sizes)]
        return found


class Shelf:
    """The answers expected of traits, each put there when it is first met."""

    def __init__(self) -> None:
        self._flat, self._columns, self._count = Flat(), Flat(), 0

    def put(self, answers: Answers | None) -> int:
        """Put there what is expected, None where nothing is, and return its number."""
        told: tuple[float, ...] = (0, 0, 0, 0.0, 0.0, 0.0)
        if answers:
            first, chances, anywhere, silent, sharpness = answers
            alike = anywhere.share / anywhere.span if anywhere else 0.0
            told = self._flat.add(chances), len(chances), first, silent, sharpness, alike
        self._columns.add(told)
        self._count += 1
        return self._count - 1

    def rows(self, numbers: Sequence[int]) -> Rows:
        """Return the answers of some numbers."""
        told = self._columns.table(6)[numbers].T
        starts, sizes, firsts = told[:3].astype(np.intp)
        return Rows(self._flat.rows(starts, sizes), run(firsts, sizes), sizes, *told[3:])


def run(starts: Floats, sizes: Floats) -> Floats:
    """Return the whole numbers from each start on, as many as its size says, end to end."""
    before = sizes.cumsum()
    whole = int(before[-1]) if len(before) else 0
    return (starts - before + sizes).repeat(sizes) + np.arange(whole)


def informed(rows: Rows, weights: Floats, of: Floats, count: int) -> Floats:
    """Return the expected information of some measurements [bits].

    Args:
        rows: Answers expected of the traits that may be there, one measurement after another.
        weights: Probability of each trait.
        of: The number of the measurement of each, in rising order.
        count: How many measurements there are.
    """
    bits: Floats = np.zeros(count)
    told = rows.sizes > 0
    told &= np.bincount(of[told], minlength=count)[of] > 1  # of one trait nothing is learnt
    if not told.all():
        rows, weights, of = _only(told, rows), weights[told], of[told]
    if not len(of):
        return bits
    chances, cells, sizes, silent_of, sharp_of, alike = rows
    number = np.bincount(of, minlength=count)
    asked = number.nonzero()[0]
    number = number[asked]
    starts = number.cumsum() - number
    of = np.arange(len(asked)).repeat(number)
    known = np.add.reduceat(weights, starts)
    shares = weights / known[of]
    stops = sizes.cumsum()
    first = np.minimum.reduceat(cells[stops - sizes], starts)
    room = np.maximum.reduceat(cells[stops - 1], starts) + 1 - first
    offset = room.cumsum() - room
    places = cells + (offset - first)[of].repeat(sizes)
    every = np.bincount(places, shares.repeat(sizes) * chances, int(room.sum()))
    some = every.nonzero()[0]
    measured = np.arange(len(asked)).repeat(room)[some]
    sharp = _sharp(every[some], alike[starts][measured], some - (offset - first)[measured])
    sharpness = np.bincount(measured, sharp, len(asked))
    silent = np.add.reduceat(shares * silent_of, starts)
    found = np.add.reduceat(weights * sharp_of, starts) - known * sharpness
    if silent.any():
        unsaid = weights * (silent[of] - silent_of) * np.log2(shares)
        found += np.add.reduceat(unsaid, starts)
    bits[asked] = np.maximum(0.0, found)
    return bits


def _only(told: Floats, rows: Rows) -> Rows:
    of_told = told.repeat(rows.sizes)
    return Rows(*(each[of_told] for each in rows[:2]), *(each[told] for each in rows[2:]))


def _sharp(chances: Floats, alike: Floats, cells: Floats) -> Floats:
    """Return what each cell adds to the `sharpness` of answers; see `Answers`."""
    if not alike.any():
        return chances * np.log2(chances)
    anywhere = alike / (cells + 0.5)
    p = chances + anywhere
    found = p * np.log2(p)
    some = anywhere.nonzero()[0]
    anywhere = anywhere[some]
    found[some] -= anywhere * np.log2(anywhere)
    return found


def normalised(chances: Floats, cells: Floats, sizes: Floats) -> Rows:
    """Return rows of chances of which what lacks of 1 is silence; see `answers_again`."""
    rows = np.arange(len(sizes)).repeat(sizes)
    total = np.bincount(rows, chances, len(sizes))
    whole = np.maximum(1.0, total)
    chances = chances / whole[rows]
    some = chances.nonzero()[0]
    p = chances[some]
    sharpness = np.bincount(rows[some], p * np.log2(p), len(sizes))
    silent = np.maximum(0.0, 1 - total / whole)
    return Rows(chances, cells, sizes, silent, sharpness, np.zeros(len(sizes)))


def joined(several: Sequence[Rows]) -> Rows:
    """Return several as one."""
    return Rows(*map(np.concatenate, zip(*several, strict=True)))
