"""Which measurement tells most a minute, given what is known and the tools at hand."""

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from identify.model.feature import CLUES, Feature
from identify.model.observation import PriorTable
from identify.model.reading import How
from identify.model.rule import Access, QuestionText, Tool
from identify.reasoning.hypotheses import NONE, Hypotheses
from identify.reasoning.outcomes import Outcomes, outcomes
from identify.reasoning.posterior import Posterior

PARTED = 0.5  # two ends whose expected answers overlap less than this are told apart
TRIALS = 6  # known parts considered for a trial fit, those of the likeliest threads
WORTH_BITS = 0.02  # below this a measurement is not worth the walk
COVER = 0.9995  # hypotheses that hold this much of the probability are looked at


@dataclass(frozen=True, slots=True)
class Offer:
    """A measurement with a tool, and what it is expected to tell [bits] in how long [min].

    `known` names the part to try it on, for a trial fit.
    """

    text: QuestionText
    tool: Tool
    how: How
    bits: float
    minutes: float
    known: str = ""

    @property
    def rate(self) -> float:
        """Expected information per minute [bits/min]."""
        return self.bits / self.minutes


class Chooser:
    """Weighs every open measurement by information per minute; caches predicted answers."""

    def __init__(
        self, space: Hypotheses, priors: PriorTable, questions: Iterable[QuestionText]
    ) -> None:
        self.space, self.priors = space, priors
        self.questions = {text.feature: text for text in questions}
        self.tools = {text.feature: text.tools for text in self.questions.values()}
        self.answered = space.model.answered
        self._predicted: dict[tuple[Feature, How, int], Outcomes | None] = {}

    def offers(
        self,
        state: Posterior,
        asked: Collection[Feature],
        tools: Collection[Tool],
        access: Access,
        needed: Collection[Feature] = (),
    ) -> list[Offer]:
        """Return the measurements worth making, best first.

        Args:
            state: What is known.
            asked: Features already read or given up.
            tools: What is in the bag; the bare eye always is.
            access: How much of the end can be reached.
            needed: Features that are worth it however little they tell.
        """
        living = _living(state)
        found = []
        for feature, text in self.questions.items():
            if feature in asked or access not in text.access:
                continue
            best: Offer | None = None
            mass = self.space.spread(feature).mass(living)
            for tool in self.tools[feature]:
                if tool is not Tool.NONE and tool not in tools:
                    continue
                how = text.taken_as[tool]
                known = ""
                if feature is Feature.TRIAL_FIT:
                    bits, known = self.trial(mass)
                else:
                    bits = self.gain(feature, how, mass)
                bits *= self.answered.get(feature, 1.0)
                offer = Offer(text, tool, how, bits, text.minutes[tool], known)
                # The sharpest tool in the bag; a feature is asked for once.
                worth = bits >= WORTH_BITS or feature in needed
                if worth and (best is None or bits > best.bits * 1.02):
                    best = offer
            if best:
                found.append(best)
        return sorted(found, key=lambda o: (o.text.feature in CLUES, -o.rate, o.text.feature))

    def gain(self, feature: Feature, how: How, mass: Mapping[int, float]) -> float:
        """Return the expected information of one measurement [bits].

        Only ends on which the tables can predict an answer count; the gain among them is scaled
        by their share of the probability.

        Args:
            feature: What would be measured.
            how: With what.
            mass: Probability of each trait of the feature, by its number.
        """
        return information((w, self.predicted(feature, how, kind)) for kind, w in mass.items())

    def trial(self, mass: Mapping[int, float]) -> tuple[float, str]:
        """Return what the best trial fit would tell [bits], and the part to try it on.

        Args:
            mass: Probability of each trait of a trial fit, by its number.
        """
        from identify.reasoning.trial import known_parts, trial_outcomes  # few have known ends

        traits = self.space.spread(Feature.TRIAL_FIT).traits
        catalogue = self.space.catalogue
        leading = sorted(mass, key=mass.__getitem__, reverse=True)[:TRIALS]
        best, name = 0.0, ""
        for known in known_parts(catalogue, [traits[kind] for kind in leading]):
            bits = information(
                (w, trial_outcomes(known, traits[kind], catalogue)) for kind, w in mass.items()
            )
            if bits > best:
                best, name = bits, f"{known[1].designation} {known[0]}"
        return best, name

    def parts(self, offer: Offer, one: int, other: int) -> bool:
        """Tell whether a measurement should give two hypotheses different answers."""
        if offer.known:
            return True
        spread = self.space.spread(offer.text.feature)
        here = self.predicted(offer.text.feature, offer.how, spread.at(one)) or {}
        there = self.predicted(offer.text.feature, offer.how, spread.at(other)) or {}
        shared = sum(min(chance, there.get(outcome, 0.0)) for outcome, chance in here.items())
        return bool(here and there) and shared < PARTED

    def predicted(self, feature: Feature, how: How, kind: int) -> Outcomes | None:
        """Return the answers expected of the ends with trait number `kind` of a feature."""
        key = (feature, how, kind)
        if key not in self._predicted:
            found = self.space.spread(feature).traits[kind]
            self._predicted[key] = outcomes(feature, found, how, self.space.model, self.priors)
        return self._predicted[key]


def information(kinds: Iterable[tuple[float, Outcomes | None]]) -> float:
    """Return the expected information of an answer about which kind is there [bits].

    Args:
        kinds: Probability of each kind, and the answers expected of it, None where no answer
            could be predicted.
    """
    told = [(weight, answer) for weight, answer in kinds if answer is not None]
    if len(told) < 2:  # one kind, or none: whatever is answered, nothing is learnt
        return 0.0
    mixed: dict[object, float] = {}
    own = known = 0.0
    for weight, answer in told:
        known += weight
        for outcome, chance in answer.items():
            mixed[outcome] = mixed.get(outcome, 0.0) + weight * chance
            own -= weight * chance * math.log2(chance)
    if known <= 0:
        return 0.0
    total = -sum(p * math.log2(p / known) for p in mixed.values() if p > 0)
    return max(0.0, total - own)


def _living(state: Posterior) -> list[tuple[int, float]]:
    """Return numbers and weights of the hypotheses that hold nearly all the probability."""
    least = (1 - COVER) / len(state.weights)
    return [
        (number, weight)
        for number, (weight, row) in enumerate(zip(state.weights, state.space.rows, strict=True))
        if weight > least and (row != NONE or weight > 100 * least)
    ]
