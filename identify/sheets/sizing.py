"""Length and angle of the hose of a sheet, by arithmetic."""

from collections.abc import Callable
from typing import Protocol, TypeVar

from identify.assembly import (
    Convention,
    CutOff,
    allowed,
    angle_of,
    angle_tolerance,
    best_aim,
    converted,
    cut_length,
    error_budget,
    fits,
    free_length,
    measured_from,
    square_limit,
    under_pressure,
)
from identify.assembly.lengths import Band, Budget
from identify.frozen import dataclass
from identify.model.assembly import AngleTolerance, EndKind, MeasuringPoint
from identify.model.connection import EndConnection
from identify.model.hose import Hose
from identify.model.sheet import EndShape, HoseSheet, SheetEnd
from identify.sheets.known import SheetKnowledge

_INCH_SWIVELS = ("flare37", "npsm60", "jis30_g", "jis30_m")  # measured to the seat or the nut end
T = TypeVar("T")


class Tried(Protocol):
    """Calls, and returns None where that raised what a person can mend."""

    def __call__(self, what: Callable[[], T]) -> T | None:
        """Return what the call returns, None with its sentence noted where it raised."""


@dataclass(frozen=True, slots=True)
class WorkedLength:
    """Lengths [mm]: to cut, between the ferrules, to aim at; how far off it may be and will be.

    `points` are those the length is measured from, A first, None where the end is not known.
    `pressed` are the shortest and the longest that the free hose becomes under pressure. `kept`
    tells whether the error stays in the band: likely, and at worst.
    """

    points: tuple[MeasuringPoint | None, MeasuringPoint | None]
    cut_mm: float | None = None
    free_mm: float | None = None
    band: Band | None = None
    budget: Budget | None = None
    kept: tuple[bool, bool] | None = None
    aim_mm: float | None = None
    pressed: tuple[float, float] | None = None
    square_mm: float | None = None

    @property
    def aimed_cut_mm(self) -> float | None:
        """The length to cut [mm] for a hose in the middle of its tolerance."""
        if self.cut_mm is None or self.band is None:
            return None
        return best_aim(self.cut_mm, self.band)


@dataclass(frozen=True, slots=True)
class WorkedAngle:
    """The angle of two bent ends [deg] by the near-end convention.

    `stated` is what was entered, `seen` what the two positions give.
    """

    angle: float
    stated: float | None
    seen: float | None
    tolerance: AngleTolerance | None


def end_kind(end: EndConnection, shape: EndShape) -> EndKind:
    """Return in which way the length is measured on an end."""
    if shape is EndShape.BANJO or end.gender == "none":
        return EndKind.BANJO
    if shape is EndShape.BLOCK:
        return EndKind.BLOCK
    if shape is EndShape.BENT_45 and end.gender == "flange":
        return EndKind.ELBOW_FLANGE_45
    if shape.bent:
        return EndKind.ELBOW
    if end.gender == "flange":
        return EndKind.STRAIGHT_FLANGE
    if end.gender == "male":
        return EndKind.STRAIGHT_MALE
    inch = end.family in _INCH_SWIVELS
    return EndKind.STRAIGHT_FEMALE_INCH if inch else EndKind.STRAIGHT_FEMALE


def worked_length(
    sheet: HoseSheet, hose: Hose | None, known: SheetKnowledge, tried: Tried
) -> WorkedLength:
    """Return the lengths of a hose, each None for want of an entry.

    Args:
        sheet: What was entered.
        hose: The one to make it of, None where that is open.
        known: Tables and rules.
        tried: Notes what cannot be worked out.
    """
    entered = sheet.length
    points = _point(sheet.a, known), _point(sheet.b, known)
    overall = entered.overall
    a, b = tried(lambda: (_cut_off(sheet.a), _cut_off(sheet.b))) or (None, None)
    cut = free = band = None
    if overall is not None and a and b:
        cut = tried(lambda: cut_length(overall, a, b))
        free = free_length(cut, a, b) if cut is not None else None
    if overall is not None and hose and entered.tolerance:
        band = tried(lambda: allowed(known.rules, entered.tolerance, overall, hose.dn))
    each, errors = entered.data_error, (entered.error, entered.cut_error)
    budget = None
    if each is not None and errors[0] is not None and errors[1] is not None:
        budget = error_budget((errors[0], errors[1], each, each, each, each))
    pressed = None
    if hose and free is not None and hose.kind.service.longer_percent is not None:
        shorter = hose.kind.service.shorter_percent or 0.0
        pressed = under_pressure(free, hose.kind.service.longer_percent, shorter)
    return WorkedLength(
        points, cut, free, band, budget, fits(budget, band) if budget and band else None,
        best_aim(overall, band) if overall is not None and band else None, pressed,
        square_limit(hose.nominal_mm) if hose else None,
    )  # fmt: skip


def _point(end: SheetEnd, known: SheetKnowledge) -> MeasuringPoint | None:
    if end.end is None or end.shape is None:
        return None
    return measured_from(known.rules, end_kind(end.end, end.shape))


def _cut_off(end: SheetEnd) -> CutOff | None:
    return None if end.cut_off is None else CutOff(end.cut_off, end.data, end.insertion)


def worked_angle(sheet: HoseSheet, known: SheetKnowledge) -> WorkedAngle | None:
    """Return the angle of two bent ends; None for others, or where nothing was said."""
    stated = seen = None
    if not (sheet.a.shape and sheet.b.shape and sheet.a.shape.bent and sheet.b.shape.bent):
        return None
    if sheet.angle.angle is not None and sheet.angle.convention:
        given = Convention(sheet.angle.convention)
        stated = converted(sheet.angle.angle, given, Convention.NEAR)
    if sheet.a.position is not None and sheet.b.position is not None:
        seen = angle_of(sheet.a.position, sheet.b.position)
    angle = stated if stated is not None else seen
    if angle is None:
        return None
    overall = sheet.length.overall
    tolerance = angle_tolerance(known.rules, overall) if overall is not None else None
    return WorkedAngle(angle, stated, seen, tolerance)
