"""Do length, bends and angle of a hose suit its way?"""

from collections.abc import Iterator

from identify.assembly import (
    bend_length,
    check_bend,
    least_straight,
    moving_allowance,
    routed_length,
    with_shortening,
)
from identify.frozen import replace
from identify.model.source import Support
from identify.sheets.finding import Finding, Grade
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import Worked

_SAME_DEG = 0.5  # two statements of one angle nearer than this are the same


def length_findings(worked: Worked, known: SheetKnowledge) -> Iterator[Finding]:
    """Yield what of length, bends and angle does not suit the way."""
    yield from _way(worked, known)
    yield from _bends(worked, known)
    yield from _angles(worked)
    length = worked.length
    if length.kept and length.budget and length.band and not all(length.kept):
        likely, worst, band = length.budget.likely_mm, length.budget.worst_mm, length.band
        half = (band.plus_mm + band.minus_mm) / 2
        aim = f"Aim at {length.aim_mm:.1f} mm, the middle of the tolerance"
        yield Finding(
            "budget", f"Errors of {likely:.1f} mm (likely) to {worst:.1f} mm (at worst) stand "
            f"against {min(band.plus_mm, band.minus_mm):.3g} mm on the tighter side.",
            "A length aimed at its nominal may end outside its tolerance.",
            f"{aim}." if worst <= half else f"Measure more finely. {aim}.",
            Grade.FORBIDS if likely > half else Grade.MIND,
            f"{band.row.standard} and our own calculation",
        )  # fmt: skip
    for side, point, part in (
        ("A", length.points[0], worked.sheet.a),
        ("B", length.points[1], worked.sheet.b),
    ):
        if point and point.ask and not part.measured_to:
            yield Finding(
                f"point-{side}", f"It is not said to which point of end {side} the length goes.",
                point.ask, f"Look, and enter it: {' or '.join(point.points)}.",
                Grade.OPEN,
                "common practice",
            )  # fmt: skip


def _way(worked: Worked, known: SheetKnowledge) -> Iterator[Finding]:
    length, use = worked.length, worked.sheet.use
    overall = worked.sheet.length.overall
    if overall is None or use.route is None:
        return
    shortest = overall - (length.band.minus_mm if length.band else 0.0)
    if length.free_mm is not None and length.pressed:
        shortest -= length.free_mm - length.pressed[0]
    needed = use.route + (moving_allowance(use.travel) if use.travel else 0.0)
    if shortest < needed:
        longer = with_shortening(needed - shortest, known.rules)
        yield Finding(
            "way", f"At its shortest (tolerance, pressure) the hose measures {shortest:.0f} mm, "
            f"its way {needed:.0f} mm.", "A hose that is pulled tight slides off its ends.",
            f"Make it {longer:.0f} mm longer at least, or shorten the way.", Grade.FORBIDS,
            "our own calculation",
        )  # fmt: skip


def _bends(worked: Worked, known: SheetKnowledge) -> Iterator[Finding]:
    hose, use = worked.hose, worked.sheet.use
    if hose is None or use.bend_radius is None:
        return
    entered = worked.sheet.hose
    own = entered.bend if entered.data else None
    check = check_bend(use.bend_radius, replace(hose, bend_radius_mm=own) if own else hose)
    if check.enough is None:
        yield Finding(
            "bend-unknown", f"The least bend radius of {hose.name} is not known.",
            "No source we hold has it.", "Look it up: ____", Grade.OPEN, "tables",
        )  # fmt: skip
    elif not check.enough:
        yield Finding(
            "bend", f"The way bends to {use.bend_radius:g} mm, {hose.name} to {check.least_mm:g} "
            "mm at least (both to the inside).", "A tighter bend opens the reinforcement and "
            "flattens the hose.",
            "Lead it another way, use a bent end, or take a hose that bends tighter.",
            Grade.FORBIDS,
            entered.data if own else "tables",
        )  # fmt: skip
    elif not own and check.basis is Support.FROM_MEMORY:
        yield Finding(
            "bend-memory", f"The least bend radius of {hose.name}, {check.least_mm:g} mm, is from "
            "memory.", "Nobody read it in the standard for our tables.",
            "Look it up: ____, and enter it with its data.", Grade.OPEN, "from memory",
        )  # fmt: skip
    outside = hose.outside.high_mm if hose.outside else None
    if outside and use.bend_angle and worked.length.free_mm is not None:
        bend = bend_length(use.bend_angle, use.bend_radius, outside)
        needed = routed_length(bend, least_straight(outside, known.rules))
        if needed > worked.length.free_mm:
            yield Finding(
                "room", f"The bend with its straight parts takes {needed:.0f} mm, between the "
                f"ferrules there are {worked.length.free_mm:.0f}.", "A hose must leave each end "
                "straight, for 1.5 times its outside.", "Make it longer, or use a bent end.",
                Grade.FORBIDS,
                "DGUV Regel 113-020, figure 9",
            )  # fmt: skip


def _angles(worked: Worked) -> Iterator[Finding]:
    sheet, angle = worked.sheet, worked.angle
    shapes = (sheet.a.shape, sheet.b.shape)
    if all(shape and shape.bent for shape in shapes) and angle is None:
        yield Finding(
            "angle", "Both ends point to a side, and no angle is entered.",
            "A hose made at another angle must be twisted to fit, or does not fit.",
            "Enter both positions on the clock face, or the angle and its convention.",
            Grade.OPEN,
            "common practice",
        )  # fmt: skip
    if sheet.angle.angle is not None and any(shape and not shape.bent for shape in shapes):
        yield Finding(
            "no-angle", "An angle is entered, and an end is straight.",
            "A straight end points nowhere.", "Take the angle out, or correct the shape.",
            Grade.FORBIDS,
            "geometry",
        )  # fmt: skip
    if angle and angle.stated is not None and angle.seen is not None:
        apart = abs((angle.stated - angle.seen + 180) % 360 - 180)
        if apart > _SAME_DEG:
            yield Finding(
                "two-angles", f"The angle says {angle.stated:g} degrees, the positions "
                f"{angle.seen:g}.", "One of the two was taken from the other end or counted the "
                "other way.", "Look again, and enter one of them.", Grade.FORBIDS, "geometry",
            )  # fmt: skip
