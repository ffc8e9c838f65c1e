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

Averages = Callable[[Hypotheses, Feature, Sequence[Sequence[float]]], list[float]]
"""Returns, of each of several readings of a feature, the mean likelihood over the prior."""


class Weighed(NamedTuple):
    """The readings of one feature against each distinct trait of it, by the trait's number.

    `of` is the number of the trait of each hypothesis. `likely` is the likelihood, `mistake` the
    part of it in which every reading is a plain mistake, `joint` holds both for each of several
    readings (empty for one), `mean` is the likelihood of an end drawn from the prior. `told`
    remembers what it says of hypotheses that are alike; see `evidence`.
    """

    feature: Feature
    readings: tuple[Reading, ...]
    of: Sequence[int]
    likely: Sequence[float]
    mistake: Sequence[float]
    joint: tuple[Joint, ...]
    mean: float
    told: dict[Alike, Evidence]

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
        averages: Such as `means`.
        table: Lays out the traits of a length.
    """

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        averages: Averages,
        table: type[LengthTable] = LengthTable,
    ) -> None:
        self.space, self.priors, self._averages, self._laid = space, priors, averages, table
        self._lengths: dict[Feature, LengthTable] = {}

    def weigh(self, readings: tuple[Reading, ...]) -> Weighed:
        """Weigh readings of one feature against everything."""
        feature = readings[0].feature
        likely: Sequence[float]
        mistake: Sequence[float]
        joint: tuple[Joint, ...] = ()
        if is_one_length(readings):
            likely, mistake = self._table_of(feature).columns(readings[0])
        else:
            table = self._table(readings, self._traits(feature))
            likely = [weight.likelihood for weight in table]
            mistake = [weight.mistake for weight in table]
            joint = tuple([weight for weight in table if isinstance(weight, Joint)])
        (average,) = self._averages(self.space, feature, [likely])
        of = self.space.spread(feature).of
        return Weighed(feature, readings, of, likely, mistake, joint, average, {})

    def together(self, several: Sequence[tuple[Reading, ...]]) -> list[Weighed]:
        """Weigh readings each of which is one length alone, all of a feature together."""
        by_feature: dict[Feature, list[int]] = {}
        for place, (reading,) in enumerate(several):
            by_feature.setdefault(reading.feature, []).append(place)
        found: dict[int, Weighed] = {}
        for feature, places in by_feature.items():
            of, table = self.space.spread(feature).of, self._table_of(feature)
            columns = [*table.all_columns([several[place][0] for place in places])]
            averages = self._averages(self.space, feature, [likely for likely, _ in columns])
            for place, each, average in zip(places, columns, averages, strict=True):
                found[place] = Weighed(feature, several[place], of, *each, (), average, {})
        return [found[place] for place in range(len(several))]

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


def is_one_length(readings: tuple[Reading, ...]) -> bool:
    """Tell whether the readings of a feature are one length alone: many are weighed together."""
    return len(readings) == 1 and isinstance(readings[0].value, Length)


def means(space: Hypotheses, feature: Feature, several: Sequence[Sequence[float]]) -> list[float]:
    """Return the likelihood of each of several readings of an end drawn from the prior."""
    of = space.spread(feature).of
    return [sum(map(mul, space.prior, map(likely.__getitem__, of))) for likely in several]
