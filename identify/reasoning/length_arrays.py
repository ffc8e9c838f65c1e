"""One length against every trait of its feature, by numpy: the weights of `length_table`.

What lies near the reading is weighed as everywhere; only guesses, which reach everywhere, and
mistakes are worked out as arrays.
"""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Length, Reading
from identify.reasoning.density import REACH
from identify.reasoning.length_table import LengthTable
from identify.reasoning.traits import Missing, OilBore, Trait
from identify.reasoning.weigh_length import Guessed, said_of, shape

_ROOT = np.sqrt(2 * np.pi)
Floats = Any  # one-dimensional arrays


class LengthArrays(LengthTable):
    """The traits of a length as arrays; see `LengthTable`."""

    def __init__(self, feature: Feature, traits: Sequence[Trait], model: ObservationModel) -> None:
        super().__init__(feature, traits, model)
        shaped = [
            (n, *shape(feature, each, model))
            for n, each in enumerate(traits)
            if not isinstance(each, Missing)
        ]
        self._middle: Floats = np.ones(len(traits))
        self._middle[[n for n, _, _ in shaped]] = [middle for _, middle, _ in shaped]
        parts = [(n, part) for n, _, parts in shaped for part in parts]
        self._made = sorted(
            ((part.low, part.high, n, part) for n, part in parts if not isinstance(part, Guessed)),
            key=lambda each: each[:3],
        )
        guesses = [(n, part) for n, part in parts if isinstance(part, Guessed)]
        self._guesses: Floats = np.array([n for n, _ in guesses], dtype=np.intp)
        self._guess: Floats = np.array([part for _, part in guesses]).reshape(-1, 3).T.copy()
        self._log_middle = np.log(self._middle)
        wear = model.tolerances[feature]
        self._worn = wear.wear_mm if wear.worn else 0.0
        self._low: Floats = np.array([each[0] for each in self._made])
        self._high: Floats = np.array([each[1] for each in self._made])
        self._oil: Floats = np.array(
            [n for n, each in enumerate(traits) if isinstance(each, OilBore)], dtype=np.intp
        )
        self._bores = np.isin(self._guesses, self._oil)

    def columns(self, reading: Reading, value: Length) -> tuple[Sequence[float], Sequence[float]]:
        """Return likelihood and mistake part of a reading against each trait, in their order."""
        said, model = said_of(reading, value, self.model), self.model
        mm, reach, near = said.mm, model.near_reach, model.near_gross
        far = said.gross * (1 - near) * said.broad
        close = said.gross * near * 0.5 / (reach * mm) + far
        mistake: Floats = np.where(np.abs(math.log(mm) - self._log_middle) < reach, close, far)
        mistake[self._oil] = said.gross * said.broad
        likely, sure = mistake.copy(), 1 - said.gross
        if len(self._guesses):
            share, middle, spread = self._guess
            away = np.log(mm / middle) / spread
            density = share * np.exp(-0.5 * away * away) / (_ROOT * mm * spread)
            # a trait has one guess at most; see `Said.weigh` for bores
            likely[self._guesses] += np.where(self._bores, 1.0, sure) * density
        wide = REACH * said.sigma + self._worn + 1e-9
        found = np.flatnonzero((self._low <= mm + wide) & (self._high >= mm - wide))
        for at in found.tolist():
            _, _, place, part = self._made[at]
            likely[place] += sure * part.density(mm, said.sigma)
        for place, missing in self.missing:
            likely[place], mistake[place] = said.missing(missing, model)
        return memoryview(likely), memoryview(mistake)
