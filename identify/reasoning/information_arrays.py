"""What an answer is expected to tell, by numpy: the sums of `answers.information`."""

import math
from collections.abc import Iterable
from typing import Any

import numpy as np

from identify.reasoning.answers import TRIFLE, Answers, Anywhere

Floats = Any  # one-dimensional arrays


def informed(kinds: Iterable[tuple[float, Answers | None]]) -> float:
    """Return the expected information of an answer about which kind is there [bits].

    Args:
        kinds: As of `answers.information`, the chances as arrays or what reads as one.
    """
    told = [(weight, answers) for weight, answers in kinds if answers and weight > TRIFLE]
    if len(told) < 2:
        return 0.0
    known = sum([weight for weight, _ in told])
    first = min([answers.first for _, answers in told])
    last = max([answers.first + len(answers.chances) for _, answers in told])
    every: Floats = np.zeros(last - first)
    silent = bits = 0.0
    for weight, answers in told:
        start = answers.first - first
        share = weight / known
        every[start : start + len(answers.chances)] += share * np.asarray(answers.chances)
        silent += weight * answers.silent
        bits += weight * answers.sharpness
    bits -= known * sharpness_of(first, every, told[0][1].anywhere)
    silent /= known
    if silent > 0:
        bits += sum([w * (silent - a.silent) * math.log2(w / known) for w, a in told])
    return max(0.0, bits)


def sharpness_of(first: int, chances: Floats, anywhere: Anywhere | None) -> float:
    """Return the `sharpness` of answers from the cell `first` on; see `Answers`."""
    if anywhere is None:
        p = chances[chances > 0]
        return float(p @ np.log2(p))
    cells = np.flatnonzero(chances > 0)
    alike = anywhere.share / anywhere.span / (cells + (first + 0.5))
    p = chances[cells] + alike
    return float(p @ np.log2(p) - alike @ np.log2(alike))
