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
        self._starts: dict[int, tuple[Called, dict[int, int]]] = {}

    def rows(self, asked: Sequence[tuple[CalledAgain, Sequence[Trait], Sequence[int]]]) -> Rows:
        """Return the answers expected when questions are put once more.

        Args:
            asked: What was said of each so far, the traits of its feature, and the numbers of those
                that may be there.
        """
        starts: list[int] = []
        for again, traits, kinds in asked:
            called = again.called
            known = self._starts.setdefault(id(called), (called, {}))[1]
            try:
                starts += [known[kind] for kind in kinds]
            except KeyError:
                for kind in kinds:
                    if kind not in known:
                        known[kind] = self._start(called, traits[kind])
                starts += [known[kind] for kind in kinds]
        of = np.arange(len(asked)).repeat([len(kinds) for _, _, kinds in asked])
        start, many = np.array(starts), np.array([len(each.again) for each, _, _ in asked])
        size = np.where(start < 0, 0, many[of])
        said: Floats = np.concatenate([each.again for each, _, _ in asked])
        again_ = said[run((many.cumsum() - many)[of], size)]
        fresh: Floats = np.array([each.fresh for each, _, _ in asked])
        first: Floats = np.array([each.called.first for each, _, _ in asked])
        chances = again_ + fresh[of].repeat(size) * self._flat.rows(start, size)
        return normalised(chances, run(first[of], size), size)

    def _start(self, called: Called, trait: Trait) -> int:
        """Return where the chances of a trait stand, -1 where nothing is known."""
        if isinstance(trait, Missing) or not called.readings:
            return -1
        return self._flat.add(called.alone(trait))
