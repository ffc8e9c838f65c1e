"""How likely a length is: crests, tubes, heads, hexagons, hoses."""

from identify.model.feature import FEATURES, Feature
from identify.model.observation import ObservationModel, Tolerance
from identify.model.reading import Length, Reading
from identify.reasoning.density import anywhere, between, log_normal, worn
from identify.reasoning.traits import ABSENT, UNKNOWN, Interval, OilBore, Trait
from identify.reasoning.weight import WRONG_FEATURE, Weight, instrument, sigma_of, slipped

OIL_BORE = 0.5  # of the thread diameter, in the middle
OIL_BORE_SPREAD = 0.35  # of its logarithm
BORES = (3, 4, 5, 6, 8, 10, 12.5, 16, 19, 25, 31.5, 38, 51, 63, 76, 102, 127)  # ISO 4397
SAME_BORE = 1.07  # series of tubes and of hoses call one bore 31 and 32, 12 and 12.5, 6 and 6.3


def weigh_length(reading: Reading, value: Length, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh a length against a trait of its feature; densities [1/mm]."""
    info = FEATURES[reading.feature]
    broad = anywhere(value.mm, info.low, info.high)
    gross = instrument(reading, model).gross
    if trait == UNKNOWN:
        return Weight(broad, 0.0)
    if trait == ABSENT:
        return Weight(WRONG_FEATURE * gross * broad, WRONG_FEATURE * gross * broad)
    if isinstance(trait, OilBore):
        middle = trait.thread_mm * OIL_BORE
        good = model.elsewhere * log_normal(value.mm, middle, OIL_BORE_SPREAD)
        return Weight(good + gross * broad, gross * broad)
    sigma = sigma_of(reading, value.mm, model)
    slack = model.tolerances[reading.feature]
    if isinstance(trait, Interval):
        middle = (trait.low + trait.high) / 2
        good = _made(value.mm, trait.low, trait.high, sigma, slack)
    elif reading.feature is Feature.HOSE_BORE:
        assert isinstance(trait, float | int)
        middle = trait
        good = _hose(value.mm, trait, sigma, model)
    elif isinstance(trait, tuple):
        middle = sum(trait) / len(trait)
        good = _hexagon(value.mm, trait, middle, sigma, model)
    else:
        assert isinstance(trait, float)
        middle = trait * model.hex_of_thread
        good = log_normal(value.mm, middle, model.hex_spread)
    mistake = gross * slipped(value.mm, middle, broad, model)
    return Weight((1 - gross) * good + mistake, mistake)


def _made(value: float, low: float, high: float, sigma: float, slack: Tolerance) -> float:
    """Weigh a part made between two limits, of which some have worn."""
    new = between(value, low, high, sigma)
    if slack.shrinks:
        old = worn(-value, -high, -low, sigma, slack.wear_mm)
    else:
        old = worn(value, low, high, sigma, slack.wear_mm)
    return (1 - slack.worn) * new + slack.worn * old


def _hexagon(
    value: float, known: tuple[float, ...], middle: float, sigma: float, model: ObservationModel
) -> float:
    slack = model.tolerances[Feature.HEX]
    each = (_made(value, mm - slack.below_mm, mm + slack.above_mm, sigma, slack) for mm in known)
    other = log_normal(value, middle, model.hex_spread)
    return (1 - model.other_hex) * sum(each) / len(known) + model.other_hex * other


def _hose(value: float, dn: float, sigma: float, model: ObservationModel) -> float:
    slack = model.tolerances[Feature.HOSE_BORE]
    below, above = bores_beside(dn)
    off = model.near_bore / 2
    total = 0.0
    for bore, share in ((below, off), (dn, 1 - 2 * off), (above, off)):
        wide = slack.below_mm + 0.02 * bore
        total += share * between(value, bore - wide, bore + wide, sigma)
    return total


def bores_beside(dn: float) -> tuple[float, float]:
    """Return the next smaller and larger hose bore [mm], the end's own where there is none."""
    below = max((each for each in BORES if each < dn / SAME_BORE), default=dn)
    return below, min((each for each in BORES if each > dn * SAME_BORE), default=dn)
