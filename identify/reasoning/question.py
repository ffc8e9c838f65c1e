"""Which measurement tells most a minute, given what is known and the tools at hand."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from identify.model.feature import CLUES, Feature
from identify.model.observation import PriorTable, VerdictLimits
from identify.model.reading import How
from identify.model.rule import Access, QuestionText, Tool
from identify.reasoning.answers import Answers, entropy, information
from identify.reasoning.apart import separated
from identify.reasoning.hypotheses import NONE, Hypotheses
from identify.reasoning.likelihood import answers
from identify.reasoning.posterior import Posterior
from identify.reasoning.weigh_origin import answers_origin
from identify.reasoning.weigh_pitch import GAUGES

TRIALS = 6  # known parts considered for a trial fit, those of the likeliest threads
COVER = 0.9995  # hypotheses that hold this much of the probability are looked at


@dataclass(frozen=True, slots=True)
class Offer:
    """A measurement with a tool, and what it is expected to tell [bits] in how long [min].

    `known` names the part to try it on, for a trial fit; `gauges` are the pitch gauges in the bag.
    """

    text: QuestionText
    tool: Tool
    how: How
    bits: float
    minutes: float
    known: str = ""
    gauges: frozenset[Tool] = GAUGES

    @property
    def rate(self) -> float:
        """Expected information per minute [bits/min]."""
        return self.bits / self.minutes


class Chooser:
    """Weighs every open measurement by information per minute; caches expected answers.

    Args:
        space: The hypotheses.
        priors: Prevalence by region, for the origin.
        questions: How each feature is asked for.
        limits: Which measurement is worth offering, and which of two tools.
    """

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        questions: Iterable[QuestionText],
        limits: VerdictLimits,
    ) -> None:
        self.space, self.priors, self.limits = space, priors, limits
        self.questions = {text.feature: text for text in questions}
        self.tools = {text.feature: text.tools for text in self.questions.values()}
        self.answered = space.model.answered
        self._predicted: dict[tuple[Feature, How, frozenset[Tool], int], Answers | None] = {}

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
        gauges = GAUGES.intersection(tools)
        found = []
        for feature, text in self.questions.items():
            if feature in asked or access not in text.access:
                continue
            mass = self.space.spread(feature).mass(living)
            share, wanted = self.answered.get(feature, 1.0), feature in needed
            most = share * entropy(mass.values())  # no answer tells more than what there is
            if most < self.limits.worth_bits and not wanted:
                continue
            best: Offer | None = None
            for tool in self.tools[feature]:
                if tool is not Tool.NONE and tool not in tools:
                    continue
                # The quickest tool, unless a slower one tells more; a feature is asked for once.
                if best and best.bits >= most * self.limits.nearly_as_good:
                    break
                how = text.taken_as[tool]
                known = ""
                if feature is Feature.TRIAL_FIT:
                    bits, known = self.trial(mass)
                else:
                    bits = self.gain(feature, how, mass, gauges)
                bits *= share
                offer = Offer(text, tool, how, bits, text.minutes[tool], known, gauges)
                worth = wanted or bits >= self.limits.worth_bits
                if worth and (best is None or best.bits < bits * self.limits.nearly_as_good):
                    best = offer
            if best:
                found.append(best)
        return sorted(found, key=lambda o: (o.text.feature in CLUES, -o.rate, o.text.feature))

    def gain(
        self,
        feature: Feature,
        how: How,
        mass: Mapping[int, float],
        gauges: frozenset[Tool] = GAUGES,
    ) -> float:
        """Return the expected information of one measurement [bits].

        Only ends whose answers the tables can foresee count; the gain among them is scaled by their
        share of the probability.

        Args:
            feature: What would be measured.
            how: With what.
            mass: Probability of each trait of the feature, by its number.
            gauges: The pitch gauges in the bag.
        """
        return information(
            (w, self.predicted(feature, how, kind, gauges)) for kind, w in mass.items()
        )

    def trial(self, mass: Mapping[int, float]) -> tuple[float, str]:
        """Return what the best trial fit would tell [bits], and the part to try it on.

        Args:
            mass: Probability of each trait of a trial fit, by its number.
        """
        from identify.reasoning.weigh_trial import answers_trial, known_parts  # few have known ends

        traits = self.space.spread(Feature.TRIAL_FIT).traits
        catalogue, habits = self.space.catalogue, self.space.model.trial
        leading = sorted(mass, key=mass.__getitem__, reverse=True)[:TRIALS]
        best, name = 0.0, ""
        for known in known_parts(catalogue, [traits[kind] for kind in leading]):
            bits = information(
                (w, answers_trial(known, traits[kind], habits, catalogue))
                for kind, w in mass.items()
            )
            if bits > best:
                best, name = bits, f"{known[1].designation} {known[0]}"
        return best, name

    def tells_apart(self, offer: Offer, one: int, other: int) -> bool:
        """Tell whether a measurement should give two hypotheses different answers."""
        if offer.known:
            return True
        feature, how = offer.text.feature, offer.how
        spread = self.space.spread(feature)
        kinds = (spread.at(one), spread.at(other))
        pair = [(spread.traits[k], self.predicted(feature, how, k, offer.gauges)) for k in kinds]
        return separated(feature, how, pair[0], pair[1], self.space.model)

    def predicted(
        self, feature: Feature, how: How, kind: int, gauges: frozenset[Tool] = GAUGES
    ) -> Answers | None:
        """Return the answers expected of the ends with trait number `kind` of a feature."""
        key = (feature, how, gauges if feature is Feature.PITCH else GAUGES, kind)
        if key not in self._predicted:
            self._predicted[key] = self._expect(*key)
        return self._predicted[key]

    def _expect(
        self, feature: Feature, how: How, gauges: frozenset[Tool], kind: int
    ) -> Answers | None:
        trait = self.space.spread(feature).traits[kind]
        if feature is Feature.ORIGIN:
            return answers_origin(trait, self.space.model, self.priors)
        return answers(feature, trait, how, self.space.model, gauges)


def _living(state: Posterior) -> list[tuple[int, float]]:
    """Return numbers and weights of the hypotheses that hold nearly all the probability."""
    least = (1 - COVER) / len(state.weights)
    return [
        (number, weight)
        for number, (weight, row) in enumerate(zip(state.weights, state.space.rows, strict=True))
        if weight > least and (row != NONE or weight > 100 * least)
    ]
