"""One length against every trait of its feature, by numpy: the weights of `length_table`.

Several readings are best weighed together.
"""

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Reading
from identify.reasoning.density_arrays import MadeParts, normal
from identify.reasoning.length_table import LengthTable
from identify.reasoning.traits import ABSENT, UNKNOWN, Missing, OilBore, Trait
from identify.reasoning.weigh_length import Guessed, length_of, said_of, shape

Floats = Any  # one-dimensional arrays

Columns = tuple[Sequence[float], Sequence[float]]


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
        self._made = MadeParts([(n, part) for n, part in parts if not isinstance(part, Guessed)])
        guesses = [(n, part) for n, part in parts if isinstance(part, Guessed)]
        self._guesses: Floats = np.array([n for n, _ in guesses], dtype=np.intp)
        self._guess: Floats = np.array([part for _, part in guesses]).reshape(-1, 3).T.copy()
        self._log_middle = np.log(self._middle)
        self._oil: Floats = np.array(
            [n for n, each in enumerate(traits) if isinstance(each, OilBore)], dtype=np.intp
        )
        self._unknown, self._absent = (
            np.array([n for n, each in self.missing if each is missing], dtype=np.intp)
            for missing in (UNKNOWN, ABSENT)
        )
        self._bores = np.isin(self._guesses, self._oil)

    def columns(self, reading: Reading) -> Columns:
        """Return likelihood and mistake part of a reading against each trait, in their order."""
        return self.all_columns([reading])[0]

    def all_columns(self, readings: Iterable[Reading]) -> list[Columns]:
        """Return `columns` of several readings."""
        model = self.model
        said: Floats = np.array([said_of(each, length_of(each), model) for each in readings])
        mm, sigma, gross, broad = said.T[:, :, None]  # a row a reading, a column a trait
        reach, near, sure = model.near_reach, model.near_gross, 1 - gross
        far = gross * (1 - near) * broad
        close = gross * near * 0.5 / (reach * mm) + far
        mistake: Floats = np.where(np.abs(np.log(mm) - self._log_middle) < reach, close, far)
        mistake[:, self._oil] = gross * broad
        likely = mistake.copy()
        if len(self._guesses):
            share, middle, spread = self._guess
            away = np.log(mm / middle) / spread
            density = share * normal(away) / (mm * spread)
            # a trait has one guess at most; see `Said.weigh` for bores
            likely[:, self._guesses] += np.where(self._bores, 1.0, sure) * density
        right: Floats = np.zeros(likely.T.shape)
        self._made.add(right, mm[:, 0], sigma[:, 0])
        likely += sure * right.T
        likely[:, self._unknown], mistake[:, self._unknown] = broad, 0.0
        likely[:, self._absent] = mistake[:, self._absent] = model.wrong_feature * gross * broad
        return [
            (memoryview(one.copy()), memoryview(other.copy()))
            for one, other in zip(likely, mistake, strict=True)
        ]
