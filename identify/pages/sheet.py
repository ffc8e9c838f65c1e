"""The sheet of a hose that is to be made: what it is, what follows, what does not fit, blanks."""

from collections.abc import Callable, Iterator
from typing import TypeVar

from identify.assembly import Convention, in_words, to_clock
from identify.drawing.made_up_hose import DrawnEnd, clock_face, made_up_hose
from identify.drawing.outline import Sheet
from identify.model.assembly import MeasuringPoint
from identify.model.hose import LOOK_UP
from identify.model.rule import Moment
from identify.model.sheet import SheetEnd
from identify.model.verdict import VerdictKind
from identify.pages.blocks import BLANK, Block, Table, Tone, labelled
from identify.pages.hose import hose_words, reading_words
from identify.pages.sheet_checks import check_blocks
from identify.pages.sheet_making import BLANK_FIELD, aimed_cut, making_blocks
from identify.pages.sheet_rating import rating_blocks
from identify.sheets.finding import Finding
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import Worked

_USUAL_OUTSIDE = 1.7  # times the bore: to draw a hose whose outside is not known
_DRAWN_MM = 20.0  # outside of a hose of which nothing is known

_KNOWN_AS = {
    VerdictKind.IDENTIFIED: "",
    VerdictKind.SHORTLIST: "one of several, the first of them ",
    VerdictKind.ABSTAIN: "not named, the nearest ",
}

D = TypeVar("D")  # what a face makes of a drawing


def sheet_blocks(
    worked: Worked, found: tuple[Finding, ...], known: SheetKnowledge, draw: Callable[[Sheet], D]
) -> list[Block | Table | D]:
    """Return the page of a sheet: checks first, then the hose, then how it is made.

    Args:
        worked: What follows from the sheet.
        found: What does not belong together.
        known: Tables and rules.
        draw: Turns a drawing into what this face shows.
    """
    page: list[Block | Table | D] = [*_head(worked), BLANK, *check_blocks(worked, found), BLANK]
    page += [Block("The hose", Tone.HEAD), draw(drawing_of(worked, known)), *_ends(worked), BLANK]
    page += [*_hose(worked), *_length(worked), *_angle(worked, draw), BLANK]
    page += [*rating_blocks(worked), BLANK]
    page += [*making_blocks(worked, found, known), BLANK, *_fitting(known), BLANK]
    return [*page, *_made_with(known)]


def opening_words(keys: str) -> tuple[str, ...]:
    """Return what is said before a sheet is asked line by line."""
    return (
        "The sheet of a hose that is to be made. Have both ends identified first.",
        keys,
        "A figure of a maker (cut-off, insertion, diameter, rating) is copied from its data, never "
        "guessed: leave it blank where you have none.",
    )


def _head(worked: Worked) -> Iterator[Block]:
    job = worked.sheet.job
    yield Block(f"Hose to be made: {job.reference or BLANK_FIELD}", Tone.TITLE)
    yield labelled("Machine", job.machine or BLANK_FIELD)
    yield labelled("Pieces", str(job.quantity or BLANK_FIELD))
    yield labelled("Measured", f"by {job.measured_by or BLANK_FIELD}")
    yield labelled("Checked", f"by {job.checked_by or BLANK_FIELD}")
    if job.measured_by and job.measured_by.casefold() == job.checked_by.casefold():
        yield Block("Measured and checked by one person: a slip is made twice.", mark="! ")
    if job.note:
        yield labelled("Note", job.note)


# ---- the hose


def drawing_of(worked: Worked, known: SheetKnowledge) -> Sheet:
    """Return both ends on one hose."""
    sheet, hose, length = worked.sheet, worked.hose, worked.length
    outside = _DRAWN_MM
    if hose:
        outside = hose.outside.high_mm if hose.outside else _USUAL_OUTSIDE * hose.nominal_mm
    overall, cut = sheet.length.overall, length.cut_mm
    opposite = worked.angle is not None and 90 < worked.angle.angle < 270

    def drawn(part: SheetEnd, *, up: bool) -> DrawnEnd:
        thread = known.catalogue.thread_of(part.end) if part.end else None
        return DrawnEnd(part.end, thread, part.shape, up, "nut" in part.measured_to)

    return made_up_hose(
        drawn(sheet.a, up=False), drawn(sheet.b, up=opposite), outside,
        f"overall {overall:g} mm" if overall is not None else f"overall {BLANK_FIELD}",
        f"cut {cut:.1f} mm" if cut is not None else f"cut {BLANK_FIELD}",
    )  # fmt: skip


def _ends(worked: Worked) -> Iterator[Block]:
    for side, part, point in zip(
        "AB", (worked.sheet.a, worked.sheet.b), worked.length.points, strict=True
    ):
        name = f"{part.end.title}, {part.end.form}" if part.end else BLANK_FIELD
        pieces = {"one": "one piece", "two": "two pieces"}.get(part.pieces, f"{BLANK_FIELD} pieces")
        under = (
            f"{_shape(part)}; thread {_thread(part)}",
            f"Goes to: {part.port.named if part.port else BLANK_FIELD}",
            f"Length to: {_point(part, point)}",
            f"Cut-off {_mm(part.cut_off)}, insertion {_mm(part.insertion)}, {pieces}, by "
            f"{part.data or BLANK_FIELD}",
        )
        yield Block(name, mark=f"End {side}".ljust(11), under=under)


def _shape(part: SheetEnd) -> str:
    shape = f"{part.shape}".capitalize() if part.shape else BLANK_FIELD
    bent = f"{shape} degrees" if shape in ("45", "90") else shape
    held = {"swivel": ", turns on the hose", "fixed": ", fixed"}.get(part.held, f", {BLANK_FIELD}")
    place = f", at {to_clock(part.position):g} o'clock" if part.position is not None else ""
    return f"{bent}{held}{place}"


def _thread(part: SheetEnd) -> str:
    if part.end is None:
        return BLANK_FIELD
    return f"{part.end.thread or 'none'}{', LEFT hand' if part.hand == 'left' else ''}"


def _point(part: SheetEnd, point: MeasuringPoint | None) -> str:
    return part.measured_to or (point.points[0] if point and not point.ask else BLANK_FIELD)


def _mm(value: float | None) -> str:
    return BLANK_FIELD if value is None else f"{value:g} mm"


def _hose(worked: Worked) -> Iterator[Block]:
    hose, verdict = worked.hose, worked.verdict
    if hose is None:
        yield labelled("Hose", f"not named; {LOOK_UP}", Tone.WARN)
    else:
        yield labelled("Hose", hose_words(hose))
    if verdict and verdict.readings:
        first = reading_words(verdict.readings[0])
        same = " (to be made as the old one is)" if worked.sheet.hose.new is None and hose else ""
        yield labelled("Old hose", f"{_KNOWN_AS[verdict.kind]}{first}{same}")
    if verdict and verdict.lower:
        yield Block(f"The old hose is not sure. {verdict.lower.ask}.", Tone.WARN, mark="! ")


def _length(worked: Worked) -> Iterator[Block]:
    entered, length = worked.sheet.length, worked.length
    yield labelled("Overall", f"{_mm(entered.overall)}; measured: {entered.how or BLANK_FIELD}")
    if length.band:
        band, standard = length.band, length.band.row.standard
        yield labelled(
            "Tolerance", f"+{band.plus_mm:.3g} -{band.minus_mm:.3g} mm by {standard} "
            f"({band.row.says.basis}); aim at {length.aim_mm:.1f} mm",
        )  # fmt: skip
    if length.cut_mm is None:
        yield labelled("Cut", f"{BLANK_FIELD} (overall, both cut-offs and their data are needed)")
    else:
        yield labelled(
            "Cut", f"{length.cut_mm:.1f} mm = {entered.overall:g} - {worked.sheet.a.cut_off:g} (A) "
            f"- {worked.sheet.b.cut_off:g} (B){aimed_cut(length)}",
        )  # fmt: skip
    if length.budget:
        yield labelled(
            "May be off", f"likely {length.budget.likely_mm:.1f} mm (root of the squares), at "
            f"worst {length.budget.worst_mm:.1f} mm (sum)",
        )  # fmt: skip
    if length.free_mm is not None:
        pressed = length.pressed
        moves = f"; under pressure {pressed[0]:.0f} to {pressed[1]:.0f} mm" if pressed else ""
        yield labelled("Free hose", f"{length.free_mm:.1f} mm between the ferrules{moves}")


def _angle(worked: Worked, draw: Callable[[Sheet], D]) -> Iterator[Block | D]:
    angle = worked.angle
    if angle is None:
        shapes = [part.shape for part in (worked.sheet.a, worked.sheet.b)]
        if any(shape and not shape.bent for shape in shapes):
            yield labelled("Angle", "none: an end is straight")
        else:
            yield labelled("Angle", BLANK_FIELD)
        return
    words = in_words(angle.angle, Convention.NEAR)
    off = f" Tolerance +/-{angle.tolerance.plus_minus_deg:g} degrees." if angle.tolerance else ""
    yield labelled("Angle", f"{' '.join(words)} The near end is A.{off}")
    yield Block(
        "The drawing above shows both ends in one plane; the clock face shows their angle.",
        Tone.QUIET,
    )
    yield draw(clock_face(angle.angle, words))


def _made_with(known: SheetKnowledge) -> Iterator[Block]:
    """Yield by what the sheet can be traced."""
    made = known.made_with
    if made.ends:
        yield Block(
            f"Made with whichend {made.program}, tables of ends {made.ends}, of hoses {made.hoses},"
            f" rules {made.rules}.", Tone.QUIET,
        )  # fmt: skip


def _fitting(known: SheetKnowledge) -> Iterator[Block]:
    yield Block("Fitting it", Tone.HEAD)
    yield Block("Before the old hose is undone:")
    yield from (Block(each, mark="! ") for each in known.book.cautions_at(Moment.BEFORE))
    yield Block("When it is fitted, and at the first test:")
    said = dict.fromkeys(known.book.cautions_at(Moment.REPLACEMENT, Moment.LEAK))
    before = set(known.book.cautions_at(Moment.BEFORE))
    yield from (Block(each, mark="! ") for each in said if each not in before)
