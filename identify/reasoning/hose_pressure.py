"""The working pressure of one reading of a hose: printed, of the tables, or to be looked up."""

from identify.model.hose import LOOK_UP, Hose, HoseMeasures
from identify.model.hose_habits import LineHabits
from identify.model.hose_line import HoseLine, PressureKind
from identify.model.hose_verdict import HosePressure, HoseReading, LowerHolds
from identify.reasoning.hose_line import distinct, same_class

_SAE = "SAE J517"


def pressure_of(
    hose: Hose, standard: str, line: HoseLine | None, habits: LineHabits
) -> HosePressure:
    """Return the working pressure of a hose as far as line and tables support one.

    What is printed on the hose counts; a table figure from memory is never stated. Where both
    speak and disagree the lower holds.
    """
    printed = _printed(hose, line, habits) if line else None
    old = _older_edition(hose, standard, line)
    table = None if old else hose.supported_bar
    if printed is not None and table is not None:
        if same_class(printed, table, habits):
            return HosePressure(printed, printed, table, None, False, "printed on the hose")
        why = f"{printed:.4g} bar is printed, the tables give {table:.4g} bar: the lower holds"
        return HosePressure(min(printed, table), printed, table, None, True, why)
    if printed is not None:
        recalled = hose.rating_bar
        odd = recalled is not None and not same_class(printed, recalled, habits)
        odd = odd and not any(same_class(printed, each.bar, habits) for each in hose.others)
        doubt = "; the tables recall another for this type and size, look it up" if odd else ""
        return HosePressure(printed, printed, None, None, odd, f"printed on the hose{doubt}")
    if table is not None:
        why = f"by the tables ({hose.rating_basis})"
        return HosePressure(table, None, table, hose.rating_basis, False, why)
    if old:
        return HosePressure(None, None, None, None, False, f"{old}; {LOOK_UP}")
    known = "the tables have it from memory only" if hose.rating_bar else "no source was seen"
    return HosePressure(None, None, None, hose.rating_basis, False, f"{known}; {LOOK_UP}")


def _printed(hose: Hose, line: HoseLine, habits: LineHabits) -> float | None:
    """Return the pressure printed for a hose [bar]; of two that disagree the lower."""
    known = [bar for bar in (hose.rating_bar, *(each.bar for each in hose.others)) if bar]
    sure = []
    for printed in distinct(line.pressures, habits):
        agree = [bar for bar in printed.bars if any(same_class(bar, k, habits) for k in known)]
        if printed.kind is PressureKind.WORKING and (len(printed.bars) == 1 or len(agree) == 1):
            sure.append(printed.bars[0] if len(printed.bars) == 1 else agree[0])
        elif printed.kind is PressureKind.BARE and agree:
            sure.append(agree[0])
    return min(sure, default=None)


def _older_edition(hose: Hose, standard: str, line: HoseLine | None) -> str:
    """Return why an earlier edition may hold, which gave less; empty where none can."""
    lower = [each for each in hose.others if each.until and each.bar < (hose.rating_bar or 0)]
    if standard != _SAE or not lower:
        return ""
    years = [year for date in line.dates for year in date.years] if line else []
    until = max(each.until for each in lower)
    if years and min(years) > until:
        return ""
    if years:
        return f"{lower[0].of} gave less, and this hose is of {min(years)}"
    return f"{lower[0].of} gave less, and no date is legible"


def lower_holds(standing: list[HoseReading], seen: HoseMeasures) -> LowerHolds | None:
    """Return what holds while several readings stand; None where all carry one pressure.

    A figure from memory is not stated, but it counts: where it is the lowest, nothing is stated.
    """
    known = [(_estimate(each), each) for each in standing]
    bars = sorted({bar for bar, _ in known if bar is not None})
    if len(known) < 2 or (len(bars) < 2 and all(bar is not None for bar, _ in known)):
        return None
    order = sorted(known, key=lambda pair: (pair[0] is None, pair[0] or 0.0))
    stated = order[0][1].pressure.bar if all(bar is not None for bar, _ in known) else None
    if stated is not None and stated > (order[0][0] or 0.0):
        stated = None
    types = dict.fromkeys(f"{each.type_name} DN {each.hose.dn}" for _, each in order)
    return LowerHolds(stated, tuple(types), _what_tells(standing, seen))


def _what_tells(standing: list[HoseReading], seen: HoseMeasures) -> str:
    """Return what would tell readings apart, of what was not seen yet."""
    kinds = {each.hose.kind.layer_kind for each in standing}
    counts = {each.hose.kind.layers for each in standing}
    if seen.kind is None and len(kinds) > 1:
        return "See what the layers are and count them"
    if seen.layers is None and len(kinds) + len(counts) > 2:
        return "Count the layers"
    outsides = {each.hose.outside for each in standing}
    more = ", or measure the outside" if seen.outside is None and len(outsides) > 1 else ""
    return f"Look for another repeat of the line{more}"


def _estimate(reading: HoseReading) -> float | None:
    """Return the pressure to compare by: what is stated, else what is only recalled [bar]."""
    return reading.pressure.bar if reading.pressure.bar is not None else reading.hose.rating_bar
