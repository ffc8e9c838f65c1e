"""The answers a measurement may give, before it is made, and what they are expected to tell.

Which answers to expect is worked out beside the weighing of each kind of value, from that very
weighing: what the question chooser expects and what the posterior makes of the answer are one model
of one person. No answer tells more than is open, which is worked out here too.
"""

from __future__ import annotations

import math

from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.light import Iterable, Sequence

if TYPE_CHECKING:
    from identify.model.feature import Feature
    from identify.reasoning.hypotheses import Hypotheses

COVER = 0.9995  # hypotheses that hold this much of the probability are looked at
STRANGE = 100  # times as much must one weigh that stands for an end in no table: they are many
TRIFLE = 1e-4  # a kind less probable than this adds next to nothing: it is left out
_NOTHING = 1e-9  # what rounding makes of nothing


class Anywhere(NamedTuple):
    """Mistakes that may land on any cell of a grid, even in the logarithm of the reading.

    `share` is the chance of such a mistake over all cells, `span` the logarithm of highest over
    lowest reading. Cell n reaches from n to n + 1 steps, so its chance is share / span / (n + 0.5).
    """

    share: float
    span: float

    def chance(self, answer: int) -> float:
        """Return the chance of one cell."""
        return self.share / (self.span * (answer + 0.5))


class Answers(NamedTuple):
    """The answers expected of one trait: numbers of cells, leaves or words in a row.

    `chances[i]` is how much likelier answer `first + i` is than by a mistake that any end may
    suffer alike, which is `anywhere` (None: there is none). `silent` is the chance that there is
    nothing to answer; with it all chances total 1. `sharpness` is the sum of p log2 p over the
    answers here, less what the mistakes alone would have there [bits].
    """

    first: int
    chances: Sequence[float]
    anywhere: Anywhere | None
    silent: float
    sharpness: float

    def chance(self, answer: int) -> float:
        """Return the chance of one answer, by whatever way."""
        place = answer - self.first
        own = self.chances[place] if 0 <= place < len(self.chances) else 0.0
        return own + (self.anywhere.chance(answer) if self.anywhere else 0.0)


def answers_of(
    first: int, chances: Sequence[float], anywhere: Anywhere | None = None, silent: float = 0.0
) -> Answers:
    """Return answers with their sharpness worked out; see `Answers`."""
    sharpness = -_spread(first, chances, anywhere)
    return Answers(first, tuple(chances), anywhere, silent, sharpness)


def answers_called(chances: Iterable[float]) -> Answers:
    """Return answers that are leaves or words, each with its chance; what lacks of 1 is silence."""
    called = list(chances)
    whole = max(1.0, sum(called))
    called = [chance / whole for chance in called]
    silent = 1 - sum(called)
    return answers_of(0, called, silent=silent if silent > _NOTHING else 0.0)


def _spread(first: int, chances: Sequence[float], anywhere: Anywhere | None) -> float:
    """Return the entropy of chances above that of the mistakes alone [bits]."""
    log2 = math.log2
    if anywhere is None:
        return -sum([p * log2(p) for p in chances if p > 0])
    each, total = anywhere.share / anywhere.span, 0.0
    for cell, chance in enumerate(chances, first):
        if chance > 0:
            alike = each / (cell + 0.5)
            p = chance + alike
            total += alike * log2(alike) - p * log2(p)
    return total


def entropy(weights: Iterable[float]) -> float:
    """Return the entropy over kinds of these probabilities, times what they total [bits]."""
    kept = [weight for weight in weights if weight > 0]
    total = sum(kept)
    return -sum([weight * math.log2(weight / total) for weight in kept])


def mixed(kinds: Sequence[tuple[float, Answers]]) -> Answers | None:
    """Return the answers of an end that is one of several kinds, None if there are no kinds.

    Args:
        kinds: Weight of each kind, in any unit, and its answers to one measurement.
    """
    total = sum(weight for weight, _ in kinds)
    if total <= 0:
        return None
    first = min(answers.first for _, answers in kinds)
    last = max(answers.first + len(answers.chances) for _, answers in kinds)
    chances = [0.0] * (last - first)
    for weight, answers in kinds:
        share, start = weight / total, answers.first - first
        stop = start + len(answers.chances)
        chances[start:stop] = [
            old + share * new for old, new in zip(chances[start:stop], answers.chances, strict=True)
        ]
    silent = sum(weight * answers.silent for weight, answers in kinds) / total
    return answers_of(first, chances, kinds[0][1].anywhere, silent)


def shared(one: Answers, other: Answers) -> float:
    """Return the share of answers that two kinds have in common [0..1]."""
    first, last = (min(one.first, other.first), max(map(_last, (one, other))))
    return sum(min(one.chance(answer), other.chance(answer)) for answer in range(first, last))


def _last(answers: Answers) -> int:
    return answers.first + len(answers.chances)


def information(kinds: Iterable[tuple[float, Answers | None]]) -> float:
    """Return the expected information of an answer about which kind is there [bits].

    That is by how much the entropy over the kinds that can answer is expected to drop, times their
    share of the probability. Silence says nothing, as the posterior has it.

    Args:
        kinds: Probability of each kind, and its answers, None where none can be foreseen.
    """
    told = [(weight, answers) for weight, answers in kinds if answers and weight > TRIFLE]
    if len(told) < 2:  # one kind, or none: whatever is answered, nothing is learnt
        return 0.0
    every = mixed(told)
    if every is None:
        return 0.0
    known = sum([weight for weight, _ in told])
    bits = sum([weight * answers.sharpness for weight, answers in told]) - known * every.sharpness
    if every.silent > 0:  # whoever answers at all is the likelier to be one who can
        bits += sum([w * (every.silent - a.silent) * math.log2(w / known) for w, a in told])
    return max(0.0, bits)


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
