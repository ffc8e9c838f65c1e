"""Readings of one feature against each distinct trait of it: what the posterior is made of.

Which formula weighs them stands here; the formulas stand in the modules of their kind of value.
"""

from identify.frozen import NamedTuple
from identify.light import Callable, Iterable, Iterator, Sequence, mul
from identify.model.feature import Feature
from identify.model.observation import PriorTable
from identify.model.reading import Choice, Length, Reading, Trial
from identify.model.verdict import Evidence
from identify.reasoning.explain import Alike
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.length_table import LengthTable
from identify.reasoning.likelihood import weigh
from identify.reasoning.repeated import copied, leans_of
from identify.reasoning.traits import Trait
from identify.reasoning.weigh_length import Lengths
from identify.reasoning.weight import Joint, Weight

Average = Callable[[Hypotheses, Feature, Sequence[float]], float]
"""Returns the mean over the prior of the likelihood of each trait of a feature."""


class Weighed(NamedTuple):
    """The readings of one feature against each distinct trait of it, by the trait's number.

    `likely` is the likelihood, `mistake` the part of it in which every reading is a plain mistake,
    `joint` holds both for each of several readings (empty for one), `mean` is the likelihood of an
    end drawn from the prior. `told` remembers what it says of hypotheses that are alike; see
    `evidence`.
    """

    readings: tuple[Reading, ...]
    likely: Sequence[float]
    mistake: Sequence[float]
    joint: tuple[Joint, ...]
    mean: float
    told: dict[Alike, Evidence]

    @property
    def feature(self) -> Feature:
        """The feature that was read."""
        return self.readings[0].feature

    def wrong(self, kind: int) -> float:
        """Return the chance [0..1] that every reading is a plain mistake if that trait is there."""
        return self.mistake[kind] / self.likely[kind]

    def wrong_at(self, place: int) -> list[float]:
        """Return the chance [0..1] that one of the readings is a plain mistake, by trait."""
        if self.joint:
            return [joint.each[place] / joint.likelihood for joint in self.joint]
        return [part / whole for part, whole in zip(self.mistake, self.likely, strict=True)]


class Scales:
    """Weighs the readings of one feature, by way of the distinct traits of the hypotheses.

    Args:
        space: The hypotheses.
        priors: Prevalence by region, for the origin.
        average: Such as `mean`.
        table: Lays out the traits of a length.
    """

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        average: Average,
        table: type[LengthTable] = LengthTable,
    ) -> None:
        self.space, self.priors, self._average, self._laid = space, priors, average, table
        self._lengths: dict[Feature, LengthTable] = {}

    def weigh(self, readings: tuple[Reading, ...]) -> Weighed:
        """Weigh readings of one feature against everything."""
        feature, value = readings[0].feature, readings[0].value
        likely: Sequence[float]
        mistake: Sequence[float]
        joint: tuple[Joint, ...] = ()
        if len(readings) == 1 and isinstance(value, Length):
            likely, mistake = self._table_of(feature).columns(readings[0], value)
        else:
            table = self._table(readings, self._traits(feature))
            likely = [weight.likelihood for weight in table]
            mistake = [weight.mistake for weight in table]
            joint = tuple([weight for weight in table if isinstance(weight, Joint)])
        average = self._average(self.space, feature, likely)
        return Weighed(readings, likely, mistake, joint, average, {})

    def together(
        self, several: Iterable[tuple[Reading, ...]]
    ) -> dict[tuple[Reading, ...], Weighed]:
        """Weigh what is one length alone, all of a feature together; the rest is left out."""
        by_feature: dict[Feature, dict[tuple[Reading, ...], Length]] = {}
        for readings in several:
            if len(readings) == 1 and isinstance(value := readings[0].value, Length):
                by_feature.setdefault(readings[0].feature, {})[readings] = value
        found = {}
        for feature, lengths in by_feature.items():
            columns = self._table_of(feature).all_columns(
                [(readings[0], value) for readings, value in lengths.items()]
            )
            for readings, (likely, mistake) in zip(lengths, columns, strict=True):
                average = self._average(self.space, feature, likely)
                found[readings] = Weighed(readings, likely, mistake, (), average, {})
        return found

    def _traits(self, feature: Feature) -> list[Trait]:
        spread = self.space.spread(feature)
        return list(spread.traits[: max(spread.of) + 1])

    def _table_of(self, feature: Feature) -> LengthTable:
        if feature not in self._lengths:
            self._lengths[feature] = self._laid(feature, self._traits(feature), self.space.model)
        return self._lengths[feature]

    def _table(
        self, readings: tuple[Reading, ...], traits: list[Trait]
    ) -> list[Weight] | list[Joint]:
        model = self.space.model
        if len(readings) == 1:
            return list(self._of_one(readings[0], traits))
        if all(isinstance(each.value, Length) for each in readings):
            lengths = Lengths(readings, model)
            return [lengths.weigh(each) for each in traits]
        columns = [self._of_one(each, traits) for each in readings]
        leans = leans_of(readings, model)
        return [copied(leans, singles) for singles in zip(*columns, strict=True)]

    def _of_one(self, reading: Reading, traits: list[Trait]) -> Iterable[Weight]:
        value, model, feature = reading.value, self.space.model, reading.feature
        if isinstance(value, Choice) and feature is Feature.ORIGIN:
            from identify.reasoning.weigh_origin import weigh_origin  # few are told

            return (weigh_origin(value.word, each, self.priors) for each in traits)
        if isinstance(value, Trial):
            return self._of_trial(value, traits)
        return (weigh(reading, each, model) for each in traits)

    def _of_trial(self, value: Trial, traits: list[Trait]) -> Iterator[Weight]:
        from identify.reasoning.weigh_trial import known_part, weigh_trial  # few have known ends

        catalogue, habits = self.space.catalogue, self.space.model.trial
        known = known_part(catalogue, value)
        return (weigh_trial(value, known, each, habits, catalogue) for each in traits)


def mean(space: Hypotheses, feature: Feature, likely: Sequence[float]) -> float:
    """Return the likelihood of a reading of an end drawn from the prior."""
    of = space.spread(feature).of
    terms: Iterable[float] = map(mul, space.prior, map(likely.__getitem__, of))
    return sum(terms)
