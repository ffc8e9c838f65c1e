"""What all findings of a sheet together allow to say; no check of entries is ever a release."""

from collections.abc import Iterator, Sequence

from identify.frozen import StrEnum
from identify.model.source import Support
from identify.sheets.filling import still_missing
from identify.sheets.finding import Finding, Grade
from identify.sheets.working import Worked


class Conclusion(StrEnum):
    """How far a sheet is."""

    FORBIDDEN = "forbidden"
    OPEN = "open"
    NOTHING_FOUND = "nothing-found"


def conclusion(worked: Worked, found: Sequence[Finding]) -> Conclusion:
    """Return what may be said: forbidden, open while anything is missing or unsettled, or neither.

    Args:
        worked: What follows from the sheet.
        found: Its findings.
    """
    grades = {each.grade for each in found}
    if Grade.FORBIDS in grades:
        return Conclusion.FORBIDDEN
    missing = next(iter(still_missing(worked.sheet)), None)
    return Conclusion.OPEN if missing or Grade.OPEN in grades else Conclusion.NOTHING_FOUND


def recalled(worked: Worked) -> Iterator[str]:
    """Yield the ends and ports whose figures in the tables are from memory."""
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        for row, name in ((part.end, f"end {side}"), (part.port, f"the port of {side}")):
            if row and row.provenance.basis is Support.FROM_MEMORY:
                yield name


def not_checked(worked: Worked) -> Iterator[str]:
    """Yield the checks that could not be made, for want of entries that may stay blank."""
    sheet, length = worked.sheet, worked.length
    if sheet.a.bore is None or sheet.b.bore is None:
        yield "the bore of an end (its narrowest bore)"
    if length.cut_mm is None:
        yield "the cut length (overall length, both cut-offs and their data)"
    if length.budget is None:
        yield "whether the length stays in its tolerance (errors of measuring and cutting)"
    if sheet.use.route is None:
        yield "whether it is long enough for its way (length of the way)"
    if sheet.use.bend_radius is None:
        yield "its bends (tightest bend)"
    if worked.flow is None:
        yield "velocity and pressure drop (flow)"
    elif worked.flow.warm is None:
        yield "the pressure drop (viscosity, density, cut length)"
    if worked.flow and worked.flow.cold is None:
        yield "a cold start (viscosity at it, density, cut length)"
