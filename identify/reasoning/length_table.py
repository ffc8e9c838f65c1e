"""One length against every trait of its feature: most weigh what a mistake weighs, and no more.

The same weights as `weigh_length` gives one by one. In the order of their middles, traits that a
slip may still be about stand together, and so do those that a sound reading may be of.
"""

import math
from bisect import bisect_left, bisect_right

from identify.light import Iterable, Sequence
from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Reading
from identify.reasoning.density import REACH
from identify.reasoning.traits import Interval, Missing, Trait
from identify.reasoning.weigh_length import length_of, said_of, shape, sound
from identify.reasoning.weight import Weight


class LengthTable:
    """The traits of a feature whose values are lengths, laid out to be weighed together.

    Args:
        feature: A length.
        traits: What ends may show of it, each once.
        model: Errors and habits.
    """

    def __init__(self, feature: Feature, traits: Sequence[Trait], model: ObservationModel) -> None:
        self.model, self.size = model, len(traits)
        self.missing = [(n, trait) for n, trait in enumerate(traits) if isinstance(trait, Missing)]
        shaped = [
            (*shape(feature, trait, model), n, trait)
            for n, trait in enumerate(traits)
            if not isinstance(trait, Missing)
        ]
        spans = [each for each in shaped if isinstance(each[3], Interval)]
        self.spans = sorted(spans, key=lambda each: each[0])
        self.others = [each for each in shaped if not isinstance(each[3], Interval)]
        self.middles = [each[0] for each in self.spans]
        self.places = [each[2] for each in self.spans]
        wear = model.tolerances[feature]
        wide = [each[3].high - each[3].low for each in spans if isinstance(each[3], Interval)]
        self.beside = 1e-9 + max(wide, default=0.0) / 2 + (wear.wear_mm if wear.worn else 0.0)

    def weigh(self, reading: Reading) -> list[Weight]:
        """Return the weight of a reading against each trait, in their order."""
        model, middles = self.model, self.middles
        said = said_of(reading, length_of(reading), model)
        mm, reach = said.mm, model.near_reach
        far, near = (
            Weight(mistake, mistake)
            for mistake in (said.mistake(each, model) for each in (mm * math.exp(2 * reach), mm))
        )
        out = [far] * self.size
        first = bisect_left(middles, True, key=lambda middle: math.log(mm / middle) < reach)
        last = bisect_left(middles, True, key=lambda middle: math.log(mm / middle) <= -reach)
        for place in self.places[first:last]:
            out[place] = near
        wide = self.beside + REACH * said.sigma
        first, last = bisect_left(middles, mm - wide), bisect_right(middles, mm + wide)
        for middle, parts, place, trait in (*self.spans[first:last], *self.others):
            out[place] = said.weigh(trait, middle, sound(said, parts), model)
        for place, missing in self.missing:
            out[place] = said.missing(missing, model)
        return out

    def all_columns(
        self, readings: Iterable[Reading]
    ) -> Iterable[tuple[Sequence[float], Sequence[float]]]:
        """Return `columns` of several readings."""
        return map(self.columns, readings)

    def columns(self, reading: Reading) -> tuple[Sequence[float], Sequence[float]]:
        """Return likelihood and mistake part of a reading against each trait, in their order."""
        weights = self.weigh(reading)
        return [each.likelihood for each in weights], [each.mistake for each in weights]
