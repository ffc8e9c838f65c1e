"""What bore, outside and layers of a hose weigh; lengths by the same densities as on ends."""

from identify.model.feature import Kind
from identify.model.hose import Between, Hose, HoseMeasures, LayerKind, Measured
from identify.model.hose_habits import LineHabits
from identify.model.observation import ObservationModel, Tolerance
from identify.reasoning.density import anywhere
from identify.reasoning.traits import UNKNOWN, Interval
from identify.reasoning.weigh_length import Made, Said, sound
from identify.reasoning.weight import instrument_of, sigma_of

SPAN_MM = (2.0, 150.0)  # where a length of a hose may lie at all
_KINDS = len(LayerKind) - 1


def weigh_measures(
    seen: HoseMeasures, hose: Hose, habits: LineHabits, model: ObservationModel
) -> float:
    """Weigh what was measured against one hose; lengths as densities [1/mm]."""
    weight = 1.0
    if seen.bore:
        off = habits.bore_off_mm
        slack = Tolerance(off, off, 0.0, 1.0, shrinks=False)
        weight *= _length(seen.bore, _bore(hose), slack, model)
    if seen.outside:
        slack = Tolerance(0.0, 0.0, habits.cover_worn, habits.cover_wear_mm, shrinks=True)
        weight *= _length(seen.outside, _outside(hose, habits), slack, model)
    return weight * _layers(seen, hose, habits)


def weigh_unknown(seen: HoseMeasures) -> float:
    """Weigh the same against a hose of which nothing is known."""
    weight = 1.0
    for each in (seen.bore, seen.outside):
        if each:
            weight *= anywhere(each.length.mm, *SPAN_MM)
    if seen.layers is not None:
        weight /= 4
    return weight / _KINDS if seen.kind else weight


def _length(
    seen: Measured, limits: Between | None, slack: Tolerance, model: ObservationModel
) -> float:
    mm, tool = seen.length.mm, instrument_of(Kind.LENGTH, seen.how, model)
    said = Said(mm, sigma_of(seen.length, tool), tool.gross, anywhere(mm, *SPAN_MM))
    if limits is None:
        return said.missing(UNKNOWN, model).likelihood
    low, high = limits.low_mm - slack.below_mm, limits.high_mm + slack.above_mm
    right = sound(said, (Made(1.0, low, high, slack),))
    return said.weigh(Interval(low, high), (low + high) / 2, right, model).likelihood


def _bore(hose: Hose) -> Between:
    nominal = hose.nominal_mm
    return hose.bore or Between(nominal * 0.97, nominal * 1.03)


def _outside(hose: Hose, habits: LineHabits) -> Between | None:
    """Return the limits of the outside, widened to what products of the type were seen to have."""
    if hose.outside is None:
        return hose.outside_seen and Between(
            hose.outside_seen.low_mm * 0.97, hose.outside_seen.high_mm * 1.03
        )
    low, high = hose.outside.low_mm, hose.outside.high_mm
    if hose.outside_most_only:
        low = max(low, habits.least_outside * high)
    if hose.outside_seen:
        low, high = min(low, hose.outside_seen.low_mm), max(high, hose.outside_seen.high_mm)
    return Between(low, high)


def _layers(seen: HoseMeasures, hose: Hose, habits: LineHabits) -> float:
    """Weigh number and kind of layers; a type whose standard leaves them open may have any."""
    weight = 1.0
    kind = hose.kind
    if seen.kind:
        right = seen.kind is kind.layer_kind
        if kind.layer_kind is LayerKind.ANY:
            weight /= _KINDS
        else:
            wrong = habits.kind_mistaken / (_KINDS - 1)
            weight *= 1 - habits.kind_mistaken if right else wrong
    if seen.layers is not None:
        if not kind.layers:
            return weight / 4
        sure = (1 - habits.miscounted) / len(kind.layers)
        near = min(abs(seen.layers - each) for each in kind.layers)
        weight *= sure if near == 0 else habits.miscounted / 2 ** (near + 1)
    return weight
