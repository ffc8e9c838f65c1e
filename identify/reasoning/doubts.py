"""What is open: what the hypotheses that hold nearly all the probability leave undecided."""

from identify.frozen import NamedTuple
from identify.light import Sequence
from identify.model.feature import Feature
from identify.reasoning.answers import entropy
from identify.reasoning.hypotheses import Hypotheses

COVER = 0.9995  # hypotheses that hold this much of the probability are looked at
STRANGE = 100  # times as much must one weigh that stands for an end in no table: they are many


class Living(NamedTuple):
    """Numbers and weights of some hypotheses."""

    numbers: Sequence[int]
    weights: Sequence[float]


class Doubts:
    """What is open of one state of what is known, feature by feature as it is asked for.

    `whole` is the entropy over the hypotheses [bits].

    Args:
        space: All hypotheses.
        weights: Their probability.
    """

    def __init__(self, space: Hypotheses, weights: Sequence[float]) -> None:
        self._space = space
        self._living = living(space, weights, least_of(len(weights)))
        self.whole = entropy(self._living.weights)
        self._masses: dict[Feature, dict[int, float]] = {}

    def mass(self, feature: Feature) -> dict[int, float]:
        """Return the probability of each trait of a feature, by its number."""
        if feature not in self._masses:
            self._masses[feature] = self._space.spread(feature).mass(*self._living)
        return self._masses[feature]

    def bits(self, feature: Feature) -> float:
        """Return the entropy over the traits of a feature: what no answer tells more than."""
        return entropy(self.mass(feature).values())


def least_of(count: int) -> float:
    """Return what each of so many hypotheses weighs more than, of those that are looked at."""
    return (1 - COVER) / count


def living(space: Hypotheses, weights: Sequence[float], least: float) -> Living:
    """Return hypotheses that weigh more than `least`, `STRANGE` times that if in no table."""
    listed = space.listed
    found = [
        (number, weight)
        for number, weight in enumerate(weights)
        if weight > least and (number < listed or weight > STRANGE * least)
    ]
    return Living([number for number, _ in found], [weight for _, weight in found])
