"""Length of a made-up hose: what to cut, how far it may be off, what pressure does to it."""

import math
from collections.abc import Iterable, Sequence

from identify.errors import AssemblyError
from identify.frozen import dataclass
from identify.model.assembly import (
    AssemblyRules,
    EndKind,
    LengthTolerance,
    MeasuringPoint,
)


@dataclass(frozen=True, slots=True)
class CutOff:
    """What an end adds to the hose [mm]: from the measuring point to the hose stop in it.

    `insertion_mm` is how far the hose goes in, from its stop to the end of the ferrule, None where
    it is not known. Both are entered from the data of the end; `source` says which.
    """

    mm: float
    source: str
    insertion_mm: float | None = None

    def __post_init__(self) -> None:
        if not self.source.strip():
            raise AssemblyError("A cut-off without its source; name the data it was taken from.")
        for value in (self.mm, self.insertion_mm):
            if value is not None and not 0 <= value < 1000:
                raise AssemblyError(
                    f"{value:g} mm is no cut-off or insertion depth; those lie from 0 to 1000 mm."
                )


@dataclass(frozen=True, slots=True)
class Budget:
    """Error of a length [mm]: `worst` is the sum of all limits, `likely` the root of squares."""

    worst_mm: float
    likely_mm: float


@dataclass(frozen=True, slots=True)
class Band:
    """How far a length may be off [mm], and the row of the table that says so."""

    plus_mm: float
    minus_mm: float
    row: LengthTolerance


def cut_length(overall_mm: float, end_a: CutOff, end_b: CutOff) -> float:
    """Return the length of hose to cut [mm].

    Args:
        overall_mm: Length of the finished hose between its measuring points [mm].
        end_a: One end.
        end_b: The other.

    Raises:
        AssemblyError: Nothing is left, or less than goes into the two ends.

    Source:
        SAE J517: overall length less the two cut-offs.
    """
    cut = overall_mm - end_a.mm - end_b.mm
    if not cut > 0:
        raise AssemblyError(
            f"The two ends alone measure {end_a.mm + end_b.mm:g} mm, and the hose is to be "
            f"{overall_mm:g} mm: no hose is left to cut. Check the length and both cut-offs."
        )
    inside = (end_a.insertion_mm or 0.0) + (end_b.insertion_mm or 0.0)
    if cut < inside:
        raise AssemblyError(
            f"{cut:.1f} mm of hose would be cut, and {inside:.1f} mm of it goes into the ends: "
            "the ferrules would meet. The hose is too short for these ends."
        )
    return cut


def free_length(cut_mm: float, end_a: CutOff, end_b: CutOff) -> float | None:
    """Return the hose between the two ferrules [mm], None where an insertion is not known.

    Only this part bends and changes its length under pressure.
    """
    if end_a.insertion_mm is None or end_b.insertion_mm is None:
        return None
    return cut_mm - end_a.insertion_mm - end_b.insertion_mm


def error_budget(limits_mm: Iterable[float]) -> Budget:
    """Add up what each step may be off [mm]: measuring, both cut-offs, the cut, both insertions."""
    found = [abs(each) for each in limits_mm]
    return Budget(sum(found), math.sqrt(sum(each * each for each in found)))


def allowed(rules: AssemblyRules, standard: str, length_mm: float, dn: int) -> Band:
    """Return how far a length may be off by a standard.

    Args:
        rules: The tables.
        standard: As they name it: "DIN 20066".
        length_mm: The length that is asked for [mm].
        dn: Nominal size of the hose.

    Raises:
        AssemblyError: The table of the standard does not speak of that size.
    """
    rows = [row for row in rules.length_tolerances if row.standard == standard]
    for row in rows:
        upper = math.inf if row.to_mm is None else row.to_mm
        if row.dn_low <= dn <= row.dn_high and row.over_mm < length_mm <= upper:
            scale = length_mm / 100 if row.percent else 1.0
            return Band(row.plus * scale, row.minus * scale, row)
    known = dict.fromkeys(row.standard for row in rules.length_tolerances)
    if not rows:
        raise AssemblyError(f'"{standard}" has no table of lengths; known: {", ".join(known)}.')
    raise AssemblyError(
        f"The table of {standard} does not speak of DN {dn} at {length_mm:g} mm; look it up."
    )


def fits(budget: Budget, band: Band) -> tuple[bool, bool]:
    """Tell whether a length aimed at its nominal stays in the band: likely, and at worst."""
    room = min(band.plus_mm, band.minus_mm)
    return budget.likely_mm <= room, budget.worst_mm <= room


def best_aim(nominal_mm: float, band: Band) -> float:
    """Return the length to aim at [mm], in the middle of the band."""
    return nominal_mm + (band.plus_mm - band.minus_mm) / 2


def under_pressure(
    free_mm: float, longer_percent: float, shorter_percent: float
) -> tuple[float, float]:
    """Return the shortest and the longest that the free hose may become [mm]."""
    return free_mm * (1 - shorter_percent / 100), free_mm * (1 + longer_percent / 100)


def measured_from(rules: AssemblyRules, end: EndKind) -> MeasuringPoint:
    """Return from where a length is measured on a kind of end, and what must be asked."""
    return next(each for each in rules.measuring_points if each.end is end)


def square_limit(bore_mm: float) -> float:
    """Return how far a cut may be out of square over the face of a hose [mm].

    Source:
        RMA IP-2:2003: 1.6 mm to a bore of 3/4 in, 3.2 mm to 2 in, 6.4 mm above.
    """
    steps: Sequence[tuple[float, float]] = ((19.05, 1.6), (50.8, 3.2))
    return next((limit for most, limit in steps if bore_mm <= most), 6.4)
