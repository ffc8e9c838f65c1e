"""Densities of readings of parts made between limits, by numpy: the sums of `density`."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from identify.model.observation import Tolerance
from identify.reasoning.density import REACH
from identify.reasoning.weigh_length import Made

Floats = Any  # arrays
_ROOT_2, _ROOT_2PI = math.sqrt(2), math.sqrt(2 * math.pi)
_NARROW = 1e-3  # of the error: limits closer than this are weighed one by one


def made(
    value: Floats,
    error: Floats,
    share: Floats,
    low: Floats,
    high: Floats,
    worn: Floats,
    wear: Floats,
    *,
    shrinks: bool,
) -> Floats:
    """Return what `Made.density` is of readings, each of one part that is within its reach.

    Args:
        value: Readings [mm].
        error: Their spread [mm].
        share: How often the part is such a one.
        low: Its limits [mm].
        high: The same.
        worn: Share of the parts that are worn: of all some, or of none any.
        wear: By how much at most [mm].
        shrinks: Whether wear makes them smaller.

    Returns:
        Densities [1/mm].
    """
    width = high - low
    narrow = np.flatnonzero(width < _NARROW * error).tolist()
    if narrow:
        width = np.maximum(width, _NARROW * error)
    a, b = (value - low) / error, (value - high) / error
    if np.any(worn):
        off = wear / error
        further = np.array((a + off, b + off) if shrinks else (a - off, b - off))
        below = _below(sides := np.concatenate(((a, b), further)))
        old = worn * _worn(sides, below, shrinks=shrinks) * error / (width * wear)
    else:
        below, old = _below(np.array((a, b))), 0.0
    new = np.where((a >= -REACH) & (b <= REACH), below[0] - below[1], 0.0) / width
    found: Floats = share * ((1 - worn) * new + old)
    for at in narrow:
        figures = np.broadcast_arrays(share, low, high, worn, wear)
        one, least, most, gone, by = [float(each[at]) for each in figures]
        part = Made(one, least, most, Tolerance(0.0, 0.0, gone, by, shrinks))
        found[at] = part.density(float(value[at]), float(error[at]))
    return found


class MadeParts:
    """Parts of one feature made between limits, laid out to be weighed together.

    Args:
        made: Each with the place of what it is a part of.
    """

    def __init__(self, made: Sequence[tuple[int, Made]]) -> None:
        made = sorted(made, key=lambda each: each[1].low)
        self._parts = [part for _, part in made]
        self._places: Floats = np.array([place for place, _ in made], dtype=np.intp)
        columns = [(part.low, part.high, part.share) for part in self._parts]
        self._columns: Floats = np.array(columns).reshape(-1, 3).T.copy()
        self._widest = max((part.high - part.low for part in self._parts), default=0.0)

    def reached(self, mm: Floats, sigma: Floats) -> tuple[Floats, Floats, Floats]:
        """Return which of a row of readings reaches which place, and its density there [1/mm]."""
        if not self._parts:
            return self._places, self._places, np.zeros(0)
        slack = self._parts[0].slack  # of one feature, or none of them wears
        wear = slack.wear_mm if slack.worn else 0.0
        where, part = self._near(mm, REACH * sigma + wear)
        columns = self._columns[2, part], *self._columns[:2, part], slack.worn, slack.wear_mm
        found = made(mm[where], sigma[where], *columns, shrinks=slack.shrinks)
        return where, self._places[part], found

    def _near(self, mm: Floats, beside: Floats) -> tuple[Floats, Floats]:
        """Return which reading lies between the limits of which part, or so near beside them."""
        low, high, _ = self._columns
        first = np.searchsorted(low, mm - beside - self._widest)
        count: Floats = np.searchsorted(low, mm + beside, side="right") - first
        where: Floats = np.repeat(np.arange(len(mm)), count)
        part: Floats = np.arange(len(where)) - np.repeat(np.cumsum(count) - count - first, count)
        near = mm[where] <= high[part] + beside[where]
        return where[near], part[near]


def _worn(sides: Floats, below: Floats, *, shrinks: bool) -> Floats:
    """Return the area of `density.worn`: by the distances from both limits, new and worn."""
    a, b, worn_a, worn_b = sides
    near_low, near_high, far_low, far_high = sides * below + normal(sides)
    if shrinks:  # the integral from above is that from below less the way
        area = (near_high - b) - (near_low - a) - (far_high - worn_b) + (far_low - worn_a)
        reached = (b <= REACH) & (worn_a >= -REACH)
    else:
        area = near_low - near_high - far_low + far_high
        reached = (a >= -REACH) & (worn_b <= REACH)
    return np.where(reached, np.maximum(0.0, area), 0.0)


def _below(z: Floats) -> Floats:
    """Return the standard normal distribution function."""
    found = np.fromiter(map(math.erf, (z / _ROOT_2).ravel().tolist()), float, z.size)
    return 0.5 * (1.0 + found.reshape(z.shape))


def normal(z: Floats) -> Floats:
    """Return the standard normal density."""
    return np.exp(-0.5 * z * z) / _ROOT_2PI
