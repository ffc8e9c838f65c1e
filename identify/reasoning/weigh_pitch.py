"""Pitches, called off a gauge or counted. What a reading weighs, which to expect."""

import math

from identify.light import Collection, lru_cache
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import Instrument, ObservationModel
from identify.model.reading import How, Pitch, Reading
from identify.model.rule import Tool
from identify.reasoning.answers import Answers, Anywhere, answers_called, answers_of
from identify.reasoning.density import anywhere, normal_pdf
from identify.reasoning.traits import ABSENT, UNKNOWN, ThreadPitch, Trait
from identify.reasoning.weight import Weight, instrument, instrument_of, misfit

COUNTED = 10  # pitches that the question asks to count
STEP_MM = 0.01  # cells of the counted pitches to expect: a tenth of a millimetre over ten
GAUGES = frozenset({Tool.METRIC_GAUGE, Tool.INCH_GAUGE})
_INFO = FEATURES[Feature.PITCH]
_NEVER = 1e-12  # so that nothing is divided by the fit of leaves of which none fits


def weigh_pitch(reading: Reading, value: Pitch, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a pitch: the chance that a leaf is called, or a density [1/mm]."""
    tool = instrument(reading, model)
    leaves = model.leaves_tpi if value.inch else model.leaves_mm
    is_leaf = not value.pitches and not value.spread_mm and _is_leaf(value, leaves)
    flat = 0.5 / len(leaves) if is_leaf else anywhere(value.mm, _INFO.low, _INFO.high)
    if trait is UNKNOWN:
        low, high = model.hose_pitches
        usual = is_leaf and low <= value.mm <= high
        return Weight(flat * (model.hose_pitch_times if usual else 1.0), 0.0)
    mistake = tool.gross * flat
    if trait is ABSENT:
        return Weight(model.wrong_feature * mistake, model.wrong_feature * mistake)
    if not isinstance(trait, ThreadPitch):
        raise misfit(reading.feature, trait)
    if is_leaf:
        good, beside = _leaf(value, trait.mm, tool.share or model.leaf_share, model)
        wrong = (1 - tool.gross) * beside + mistake
        return Weight((1 - tool.gross) * good + wrong, wrong)
    if value.pitches:
        good = _counted(value, trait.mm, tool, model)
    else:
        own = max(tool.share, model.range_share) * trait.mm
        sigma = math.sqrt(own**2 + value.spread_mm**2 / 3)
        good = normal_pdf((value.mm - trait.mm) / sigma) / sigma
    return Weight((1 - tool.gross) * good + mistake, mistake)


def answers_pitch(
    trait: Trait, how: How, model: ObservationModel, gauges: Collection[Tool]
) -> Answers | None:
    """Return the pitches expected of a thread, None where there is none.

    Answers are numbers of `leaves_at_hand`, or cells of `STEP_MM` where pitches are counted. Where
    no leaf at hand fits, nobody calls one.
    """
    if not isinstance(trait, ThreadPitch):
        return None
    if how in (How.GAUGE, How.COMBS):
        return answers_called(
            weigh_pitch(Reading(Feature.PITCH, leaf, how, ""), leaf, trait, model).likelihood
            for leaf in leaves_at_hand(model, gauges if how is How.GAUGE else GAUGES)
        )
    tool = instrument_of(Kind.PITCH, how, model)
    wide = 4 * max(tool.sigma / COUNTED, tool.share * trait.mm) + trait.mm / COUNTED
    first = max(0, math.floor((trait.mm - wide) / STEP_MM))
    chances = [
        (1 - tool.gross) * STEP_MM * _counted(counted_said(cell), trait.mm, tool, model)
        for cell in range(first, math.ceil((trait.mm + wide) / STEP_MM))
    ]
    return answers_of(first, chances, Anywhere(tool.gross, math.log(_INFO.high / _INFO.low)))


def counted_said(cell: int) -> Pitch:
    """Return the reading in the middle of a cell."""
    return Pitch((cell + 0.5) * STEP_MM, pitches=COUNTED)


def leaves_at_hand(model: ObservationModel, gauges: Collection[Tool]) -> list[Pitch]:
    """Return the leaves of the gauges in the bag, gauge by gauge."""
    metric = [Pitch(mm) for mm in model.leaves_mm] if Tool.METRIC_GAUGE in gauges else []
    inch = [Pitch(25.4 / tpi, True) for tpi in model.leaves_tpi]
    return metric + (inch if Tool.INCH_GAUGE in gauges else [])


def _is_leaf(value: Pitch, leaves: tuple[float, ...]) -> bool:
    said = 25.4 / value.mm if value.inch else value.mm
    return min(abs(leaf - said) for leaf in leaves) < 0.01 * said


def _leaf(
    value: Pitch, pitch_mm: float, share: float, model: ObservationModel
) -> tuple[float, float]:
    """Chance that this leaf is called because it fits, and because it is beside one that does."""
    gauge, called = _calls(
        value.inch, pitch_mm, share, model.leaves_mm, model.leaves_tpi,
        model.one_gauge, model.half_way,
    )  # fmt: skip
    place = min(range(len(gauge)), key=lambda i: abs(gauge[i] - value.mm))
    next_to = sum(called[i] for i in (place - 1, place + 1) if 0 <= i < len(gauge))
    slip = model.neighbour_leaf
    return (1 - slip) * called[place], slip / 2 * next_to


@lru_cache(maxsize=1024)
def _calls(
    inch: bool,
    pitch_mm: float,
    share: float,
    leaves_mm: tuple[float, ...],
    leaves_tpi: tuple[float, ...],
    one_gauge: float,
    half_way: float,
) -> tuple[list[float], list[float]]:
    """Return the leaves of one gauge [mm] in order, and how often each is called for a pitch.

    Who has one gauge only takes its best leaf if it fits half-way; who has both, the better one.
    """
    own = sorted(25.4 / tpi for tpi in leaves_tpi) if inch else sorted(leaves_mm)
    off = [math.log(leaf / pitch_mm) for leaf in own]
    fits = [math.exp(-0.5 * (each / share) ** 2) for each in off]
    accepted = [math.exp(-0.5 * (each / half_way) ** 2) for each in off]
    other = leaves_mm if inch else [25.4 / tpi for tpi in leaves_tpi]
    one = sum(fits) + _NEVER
    both = one + sum(math.exp(-0.5 * (math.log(leaf / pitch_mm) / share) ** 2) for leaf in other)
    return own, [
        one_gauge / 2 * half * fit / one + (1 - one_gauge) * fit / both
        for fit, half in zip(fits, accepted, strict=True)
    ]


def _counted(value: Pitch, pitch_mm: float, tool: Instrument, model: ObservationModel) -> float:
    sigma = max(tool.sigma / value.pitches, tool.share * pitch_mm, 1e-4)
    right = normal_pdf((value.mm - pitch_mm) / sigma) / sigma
    slips = 0.0
    for step in (-1, 1):
        said = pitch_mm * (value.pitches + step) / value.pitches
        slips += normal_pdf((value.mm - said) / sigma) / sigma
    return (1 - 2 * model.miscount) * right + model.miscount * slips
