"""One length against every trait of its feature, by numpy: the weights of `length_table`.

Several readings are best weighed together.
"""

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Reading
from identify.reasoning.density_arrays import MadeParts
from identify.reasoning.length_table import LengthTable
from identify.reasoning.traits import ABSENT, UNKNOWN, Missing, OilBore, Trait
from identify.reasoning.weigh_length import Guessed, length_of, said_of, shape

Floats = Any  # one-dimensional arrays

Columns = tuple[Sequence[float], Sequence[float]]
_NO_GUESS = Guessed(0.0, 1.0, 1.0)


class LengthArrays(LengthTable):
    """The traits of a length as arrays; see `LengthTable`."""

    def __init__(self, feature: Feature, traits: Sequence[Trait], model: ObservationModel) -> None:
        super().__init__(feature, traits, model)
        shaped = [
            (n, *shape(feature, each, model))
            for n, each in enumerate(traits)
            if not isinstance(each, Missing)
        ]
        middle: Floats = np.ones(len(traits))
        middle[[n for n, _, _ in shaped]] = [middle for _, middle, _ in shaped]
        self._near = middle * math.exp(-model.near_reach), middle * math.exp(model.near_reach)
        parts = [(n, part) for n, _, parts in shaped for part in parts]
        self._made = MadeParts([(n, part) for n, part in parts if not isinstance(part, Guessed)])
        guesses = {n: part for n, part in parts if isinstance(part, Guessed)}  # one at most
        every = [guesses.get(n, _NO_GUESS) for n in range(len(traits))]
        share, centre, self._spread = np.array(every).T.copy()
        self._guessed, self._centre = bool(guesses), np.log(centre)
        self._height = share / (self._spread * math.sqrt(2 * math.pi))
        self._oil: Floats = np.array([isinstance(each, OilBore) for each in traits])
        self._bored = bool(self._oil.any())
        self._unknown, self._absent = (
            [n for n, each in self.missing if each is missing] for missing in (UNKNOWN, ABSENT)
        )

    def columns(self, reading: Reading) -> Columns:
        """Return likelihood and mistake part of a reading against each trait, in their order."""
        return self.all_columns([reading])[0]

    def all_columns(self, readings: Iterable[Reading]) -> list[Columns]:
        """Return `columns` of several readings."""
        model = self.model
        said: Floats = np.array([said_of(each, length_of(each), model) for each in readings])
        mm, sigma, gross, broad = said.T[:, :, None]  # a row a reading, a column a trait
        near, sure, anyhow = model.near_gross, 1 - gross, gross * broad
        far = (1 - near) * anyhow
        close = gross * near * 0.5 / (model.near_reach * mm) + far
        low, high = self._near
        mistake: Floats = np.where((mm > low) & (mm < high), close, far)
        if self._bored:
            mistake[:, self._oil] = anyhow
        likely = mistake.copy()
        if self._guessed:
            away = (np.log(mm) - self._centre) / self._spread
            away *= away
            found = np.where(self._oil, 1.0, sure) if self._bored else sure  # see `Said.weigh`
            likely += np.exp(-0.5 * away) * self._height * (found / mm)
        where, places, right = self._made.reached(mm[:, 0], sigma[:, 0])
        np.add.at(likely.reshape(-1), where * likely.shape[1] + places, sure[where, 0] * right)
        likely[:, self._unknown], mistake[:, self._unknown] = broad, 0.0
        likely[:, self._absent] = mistake[:, self._absent] = model.wrong_feature * anyhow
        return list(
            zip(*([memoryview(row) for row in each] for each in (likely, mistake)), strict=True)
        )
