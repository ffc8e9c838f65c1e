"""Answers that may be called once more, by numpy: the sums of `CalledAgain`, many at once."""

from __future__ import annotations

from typing import Any

import numpy as np

from identify.frozen import TYPE_CHECKING
from identify.reasoning.information_arrays import Flat, Rows, normalised, run
from identify.reasoning.traits import Missing

if TYPE_CHECKING:
    from collections.abc import Sequence

    from identify.reasoning.answers_again import Called, CalledAgain
    from identify.reasoning.traits import Trait

Floats = Any  # arrays


class CalledRows:
    """The chances of the answers to questions put for the first time, by trait, as they are met."""

    def __init__(self) -> None:
        self._flat = Flat()
        self._starts: dict[tuple[int, Trait], int] = {}
        self._asked: dict[int, Called] = {}

    def rows(self, asked: Sequence[tuple[CalledAgain, Sequence[Trait]]]) -> Rows:
        """Return the answers expected when questions are put once more.

        Args:
            asked: What was said of each so far, and what may be there.
        """
        alone, sizes, firsts, of = [], [], [], []
        for number, (each, traits) in enumerate(asked):
            called = each.called
            for trait in traits:
                of.append(number)
                firsts.append(called.first)
                start = self._start(called, trait)
                alone.append(start)
                sizes.append(len(called.readings) if start >= 0 else 0)
        size, row = np.array(sizes, dtype=np.intp), np.array(of, dtype=np.intp)
        said: Floats = np.concatenate([each.again for each, _ in asked])
        many: Floats = np.array([len(each.again) for each, _ in asked])
        again = said[run((many.cumsum() - many)[row], size)]
        fresh: Floats = np.array([each.fresh for each, _ in asked])
        chances = again + fresh[row].repeat(size) * self._flat.rows(np.array(alone), size)
        return normalised(chances, run(np.array(firsts), size), size)

    def _start(self, called: Called, trait: Trait) -> int:
        """Return where the chances of a trait stand, -1 where nothing is known."""
        key = id(called), trait
        start = self._starts.get(key)
        if start is None:
            self._asked[id(called)] = called  # so that its number is not given to another
            told = bool(called.readings) and not isinstance(trait, Missing)
            start = self._starts[key] = self._flat.add(called.alone(trait)) if told else -1
        return start
