"""Lengths: crests, tubes, heads, hexagons, hoses. What a reading weighs, which to expect."""

import math
from itertools import combinations, pairwise

from identify.frozen import NamedTuple
from identify.light import Iterator, Sequence
from identify.model.feature import FEATURES, Feature
from identify.model.observation import Instrument, ObservationModel, Tolerance
from identify.model.reading import How, Length, Reading
from identify.reasoning.answers import Answers, Anywhere, answers_of
from identify.reasoning.density import anywhere, between, log_normal, worn
from identify.reasoning.repeated import chained, leans_of
from identify.reasoning.traits import (
    ABSENT,
    UNKNOWN,
    HexagonOf,
    Hexagons,
    HoseBore,
    Interval,
    Missing,
    OilBore,
    Trait,
)
from identify.reasoning.weight import (
    Joint,
    Weight,
    instrument,
    instrument_of,
    misfit,
    sigma_of,
    slipped,
)

BORES = (3.2, 4, 5, 6.3, 8, 10, 12.5, 16, 19, 25, 31.5, 38, 51, 63, 76, 102, 127)  # ISO 4397
SAME_BORE = 1.07  # series of tubes and of hoses call one bore 31 and 32, 12 and 12.5, 6 and 6.3
# Cells of the readings to expect [mm]: under two standard deviations of the tool, so that the sum
# over the cells is the integral of the density to within a few parts in a thousand.
STEP_MM = {How.CALIPER: 0.1, How.RULE: 0.5, How.GAUGE: 0.2, How.COMBS: 0.5, How.EYE: 1.0}
HEXAGON_STEP_MM = 0.25  # hexagons are spread over millimetres, whatever the tool
WIDE = 4.0  # standard deviations within which a right reading is expected
_WIDE_GUESS = 2.8  # the same of a figure that is only guessed from another
_LINE = 0.25  # of its spread: over so much the density of a guess is taken as a line
_UNWORN = Tolerance(0.0, 0.0, 0.0, 1.0, shrinks=False)


class Pooled(NamedTuple):
    """Readings of one size as one: mean and spread [mm], what is left of their product."""

    middle: float
    sigma: float
    factor: float


class Made(NamedTuple):
    """A part made between two limits [mm]; `slack` tells how such parts wear."""

    share: float
    low: float
    high: float
    slack: Tolerance

    def density(self, mm: float, sigma: float) -> float:
        """Weigh a reading [1/mm]."""
        return self.share * _made(mm, self.low, self.high, sigma, self.slack)

    def cells(self, step: float, wide: float) -> range:
        """Return the cells on which it may be read, up to `wide` beside its limits [mm]."""
        wear = self.slack.wear_mm if self.slack.worn else 0.0
        low, high = self.low - wide, self.high + wide
        low, high = (low - wear, high) if self.slack.shrinks else (low, high + wear)
        return range(max(0, math.floor(low / step)), math.ceil(high / step))


class Guessed(NamedTuple):
    """A figure usual for the thread: `middle` [mm], its logarithm spread by `spread`."""

    share: float
    middle: float
    spread: float

    def density(self, mm: float, sigma: float) -> float:
        """Weigh a reading [1/mm]."""
        return self.share * log_normal(mm, self.middle, self.spread)

    def cells(self, step: float, wide: float) -> range:
        """Return the first of every few cells on which it may be read."""
        most = math.exp(_WIDE_GUESS * self.spread)
        first, wanted = math.floor(self.middle / most / step), math.ceil(self.middle * most / step)
        stride = max(1, int(_LINE * self.spread * self.middle / step))
        return range(first, first + -((first - wanted) // stride) * stride, stride)


Part = Made | Guessed


class Said(NamedTuple):
    """A length as it was read [mm], its spread [mm], share of mistakes, their density [1/mm]."""

    mm: float
    sigma: float
    gross: float
    broad: float

    def weigh(self, trait: Trait, middle: float, right: float, model: ObservationModel) -> Weight:
        """Weigh it: `right` is its density as a sound reading of a trait about `middle` [mm]."""
        if isinstance(trait, OilBore):
            mistake = self.gross * self.broad
            return Weight(right + mistake, mistake)
        mistake = self.mistake(middle, model)
        return Weight((1 - self.gross) * right + mistake, mistake)

    def mistake(self, middle: float, model: ObservationModel) -> float:
        """Weigh it as a plain mistake about a figure that is `middle` [mm]."""
        return self.gross * slipped(self.mm, middle, self.broad, model)

    def missing(self, trait: Missing, model: ObservationModel) -> Weight:
        """Weigh it against an end that has no such figure, or of which it is not known."""
        if trait is UNKNOWN:
            return Weight(self.broad, 0.0)
        mistake = model.wrong_feature * self.gross * self.broad
        return Weight(mistake, mistake)


def said_of(reading: Reading, value: Length, model: ObservationModel) -> Said:
    """Return a reading as figures."""
    info, tool = FEATURES[reading.feature], instrument(reading, model)
    broad = anywhere(value.mm, info.low, info.high)
    return Said(value.mm, sigma_of(value, tool), tool.gross, broad)


def weigh_length(reading: Reading, value: Length, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a length against a trait of its feature; densities [1/mm]."""
    said = said_of(reading, value, model)
    if isinstance(trait, Missing):
        return said.missing(trait, model)
    middle, parts = shape(reading.feature, trait, model)
    return said.weigh(trait, middle, sound(said, parts), model)


def sound(said: Said, parts: Sequence[Part]) -> float:
    """Weigh a length as a sound reading of what is spread over some parts [1/mm]."""
    return sum([part.density(said.mm, said.sigma) for part in parts])


class Lengths:
    """Several lengths of one feature, each with its own error, of one true size.

    Sound readings are pooled: the product of their errors is one error about their weighted mean,
    times what their distances from it weigh, whatever the size is. What does not depend on the
    trait is worked out once.
    """

    def __init__(self, readings: Sequence[Reading], model: ObservationModel) -> None:
        self.feature, self.model = readings[0].feature, model
        self.sizes, self._leans = sizes_of(readings, model), leans_of(readings, model)
        places = range(len(readings))
        chosen = [each for n in places for each in combinations(places, n + 1)]
        self._pooled = {each: self.sizes.pooled(each) for each in chosen}
        self._known: dict[tuple[float, ...], Joint] = {}

    def weigh(self, trait: Trait) -> Joint:
        """Weigh them against a trait of their feature."""
        info, model, (_, _, broad, gross) = FEATURES[self.feature], self.model, self.sizes
        if trait is UNKNOWN:  # some size, and the same each time
            slips = [share * each for share, each in zip(gross, broad, strict=True)]
            known = {
                each: one.factor * anywhere(one.middle, info.low, info.high)
                for each, one in self._pooled.items()
            }
        elif trait is ABSENT:
            gross = [model.wrong_feature * share for share in gross]
            slips = [share * each for share, each in zip(gross, broad, strict=True)]
            known = dict.fromkeys(self._pooled, 0.0)
        else:
            centre, parts = shape(self.feature, trait, model)
            slips = self.sizes.slips(trait, centre, model)
            known = {
                each: one.factor * sum([part.density(one.middle, one.sigma) for part in parts])
                for each, one in self._pooled.items()
            }
        key = (*gross, *slips, *known.values())  # most traits are far off, and alike in that
        if key not in self._known:
            found = chained(self._leans, slips, gross, lambda chosen: known[tuple(chosen)])
            self._known[key] = found
        return self._known[key]


class Sizes(NamedTuple):
    """Lengths read [mm], their spread [mm], mistakes landing anywhere [1/mm], share of mistakes."""

    points: list[float]
    sigmas: list[float]
    broad: list[float]
    gross: list[float]

    def pooled(self, chosen: Sequence[int], *others: tuple[float, float]) -> Pooled:
        """Return what those chosen by their place are together, and with other sizes."""
        points, sigmas = [self.points[i] for i in chosen], [self.sigmas[i] for i in chosen]
        more = [[each[0] for each in others], [each[1] for each in others]]
        return pooled(points + more[0], sigmas + more[1])

    def slips(self, trait: Trait, centre: float, model: ObservationModel) -> list[float]:
        """Weigh each as a plain mistake about a trait with its middle at `centre` [mm]."""
        anyhow = isinstance(trait, OilBore)
        return [
            gross * (broad if anyhow else slipped(mm, centre, broad, model))
            for mm, broad, gross in zip(self.points, self.broad, self.gross, strict=True)
        ]


def sizes_of(readings: Sequence[Reading], model: ObservationModel) -> Sizes:
    """Return readings of one length as figures."""
    info, tools = FEATURES[readings[0].feature], [instrument(each, model) for each in readings]
    said = [length_of(each) for each in readings]
    return Sizes(
        [value.mm for value in said],
        [sigma_of(value, tool) for value, tool in zip(said, tools, strict=True)],
        [anywhere(value.mm, info.low, info.high) for value in said],
        [tool.gross for tool in tools],
    )


def pooled(points: Sequence[float], sigmas: Sequence[float]) -> Pooled:
    """Return mean and spread of several readings of one size, and what is left of their product.

    The product of normal densities about one unknown size is `factor` times one normal density.
    """
    sharp = [1 / sigma**2 for sigma in sigmas]
    total = sum(sharp)
    middle = sum(w * x for w, x in zip(sharp, points, strict=True)) / total
    apart = sum(w * (x - middle) ** 2 for w, x in zip(sharp, points, strict=True))
    factor = math.exp(-0.5 * apart) / math.sqrt(total)
    for sigma in sigmas:
        factor /= sigma
    rest = factor * (2 * math.pi) ** (-(len(points) - 1) / 2)
    return Pooled(middle, 1 / math.sqrt(total), rest)


def length_of(reading: Reading) -> Length:
    """Return the value of a reading of a length."""
    if not isinstance(reading.value, Length):
        raise TypeError(f"{reading.feature} is no length: {reading.value!r}")
    return reading.value


def answers_length(
    feature: Feature, trait: Trait, how: How, model: ObservationModel
) -> Answers | None:
    """Return the lengths expected of a trait, None where the tables give no figure.

    Answers are cells of `step_mm`; a cell has the chance that `weigh_length` gives its middle.
    """
    if isinstance(trait, Missing):
        return None
    info = FEATURES[feature]
    step = step_mm(feature, how)
    tool = instrument_of(info.kind, how, model)
    middle, parts = shape(feature, trait, model)
    wide = WIDE * math.hypot(tool.sigma, tool.share * middle)
    reach = [part.cells(step, wide) for part in parts]
    slips = _slips(middle, step, model.near_reach)
    first = min(slips.start, *(cells.start for cells in reach))
    last = max(slips.stop, *(cells.stop for cells in reach))
    chances = [0.0] * (last - first)
    for part, cells in zip(parts, reach, strict=True):
        for here, density in enumerate(_densities(part, cells, step, tool), cells.start - first):
            chances[here] += density
    near = tool.gross * model.near_gross
    far = Anywhere(tool.gross - near, math.log(info.high / info.low))
    if isinstance(trait, OilBore):
        found, mistakes = model.elsewhere, (range(first, last), near / far.span)
    else:
        found, mistakes = 1 - tool.gross, (slips, 0.5 * near / model.near_reach)
    scale = found / sum(chances)
    chances = [chance * scale for chance in chances]
    for cell in mistakes[0]:
        chances[cell - first] += mistakes[1] / (cell + 0.5)
    return answers_of(first, chances, far, silent=max(0.0, 1 - found - tool.gross))


def step_mm(feature: Feature, how: How) -> float:
    """Return the width of the cells in which lengths are expected [mm]."""
    step = STEP_MM.get(how, STEP_MM[How.CALIPER])
    return max(step, HEXAGON_STEP_MM) if feature is Feature.HEX else step


def _densities(part: Part, cells: range, step: float, tool: Instrument) -> list[float]:
    """Return the density in the middle of each cell; between two of `cells` along a line."""
    knots = []
    for cell in range(cells.start, cells.stop + cells.step, cells.step):
        mm = (cell + 0.5) * step
        knots.append(part.density(mm, math.hypot(tool.sigma, tool.share * mm)))
    return [
        here + (there - here) * place / cells.step
        for here, there in pairwise(knots)
        for place in range(cells.step)
    ]


def _slips(middle: float, step: float, reach: float) -> range:
    """Return the cells on which a slip that stays near the truth may land."""
    first = math.ceil(middle * math.exp(-reach) / step - 0.5)
    return range(first, math.floor(middle * math.exp(reach) / step - 0.5) + 1)


def shape(
    feature: Feature, trait: Trait, model: ObservationModel
) -> tuple[float, tuple[Part, ...]]:
    """Return the middle of what a trait shows [mm], and the parts it is spread over."""
    match trait:
        case Interval(low, high):
            return (low + high) / 2, (Made(1.0, low, high, model.tolerances[feature]),)
        case Hexagons(known):
            middle, slack = sum(known) / len(known), model.tolerances[Feature.HEX]
            share = (1 - model.other_hex) / len(known)
            named = (Made(share, mm - slack.below_mm, mm + slack.above_mm, slack) for mm in known)
            return middle, (*named, Guessed(model.other_hex, middle, model.hex_spread))
        case HexagonOf(thread_mm):
            middle = thread_mm * model.hex_of_thread
            return middle, (Guessed(1.0, middle, model.hex_spread),)
        case HoseBore(nominal):
            return nominal, tuple(_hoses(nominal, model))
        case OilBore(thread_mm):
            middle = thread_mm * model.oil_bore
            return middle, (Guessed(model.elsewhere, middle, model.oil_bore_spread),)
        case _:
            raise misfit(feature, trait)


def _made(value: float, low: float, high: float, sigma: float, slack: Tolerance) -> float:
    """Weigh a part made between two limits, of which some have worn [1/mm]."""
    new = between(value, low, high, sigma)
    if not slack.worn:
        return new
    if slack.shrinks:
        old = worn(-value, -high, -low, sigma, slack.wear_mm)
    else:
        old = worn(value, low, high, sigma, slack.wear_mm)
    return (1 - slack.worn) * new + slack.worn * old


def _hoses(dn: float, model: ObservationModel) -> Iterator[Part]:
    below, above = bores_beside(dn)
    off = model.near_bore / 2
    slack = model.tolerances[Feature.HOSE_BORE]
    for bore, share in ((below, off), (dn, 1 - 2 * off), (above, off)):
        wide = slack.below_mm + model.bore_share * bore
        yield Made(share, bore - wide, bore + wide, _UNWORN)


def bores_beside(dn: float) -> tuple[float, float]:
    """Return the next smaller and larger hose bore [mm], the end's own where there is none."""
    below = max((each for each in BORES if each < dn / SAME_BORE), default=dn)
    return below, min((each for each in BORES if each > dn * SAME_BORE), default=dn)
