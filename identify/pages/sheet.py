"""The sheet of a hose that is to be made: what it is, what follows, what does not fit, blanks."""

from collections.abc import Callable, Iterator
from typing import TypeVar

from identify.assembly import Convention, in_words, to_clock
from identify.assembly.flow import Drop
from identify.drawing.made_up_hose import DrawnEnd, clock_face, made_up_hose
from identify.drawing.outline import Sheet
from identify.model.assembly import MeasuringPoint
from identify.model.hose import LOOK_UP
from identify.model.rule import Moment
from identify.model.sheet import SheetEnd
from identify.pages.blocks import BLANK, Block, Table, Tone, labelled
from identify.pages.hose import reading_words, size_words
from identify.pages.sheet_making import making_blocks
from identify.pages.words import sentence
from identify.sheets.filling import still_missing
from identify.sheets.finding import Finding, capital
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import Worked

BLANK_LINE = "____"
_USUAL_OUTSIDE = 1.7  # times the bore: to draw a hose whose outside is not known
_DRAWN_MM = 20.0  # outside of a hose of which nothing is known

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
    page: list[Block | Table | D] = [*_head(worked), BLANK, *_checks(worked, found), BLANK]
    page += [Block("The hose", Tone.HEAD), draw(drawing_of(worked, known)), *_ends(worked), BLANK]
    page += [*_hose(worked), *_length(worked), *_angle(worked, draw), BLANK]
    page += [*_pressure(worked), *_use(worked), *_flow(worked), BLANK]
    return [*page, *making_blocks(worked, known), BLANK, *_fitting(known)]


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
    yield Block(f"Hose to be made: {job.reference or BLANK_LINE}", Tone.HEAD)
    yield labelled("Machine", job.machine or BLANK_LINE)
    yield labelled("Pieces", str(job.quantity or BLANK_LINE))
    yield labelled("Measured", f"by {job.measured_by or BLANK_LINE}")
    yield labelled("Checked", f"by {job.checked_by or BLANK_LINE}")
    if job.measured_by and job.measured_by.casefold() == job.checked_by.casefold():
        yield Block("Measured and checked by one person: a slip is made twice.", mark="! ")
    if job.note:
        yield labelled("Note", job.note)


def _checks(worked: Worked, found: tuple[Finding, ...]) -> Iterator[Block]:
    grave = [each for each in found if each.grave]
    yield Block("Does it belong together?", Tone.HEAD)
    if grave:
        yield Block("No. Do not make this hose before what is marked !!! is settled.", Tone.WARN)
    elif found:
        yield Block("Nothing forbids it. Mind what is marked !.")
    else:
        yield Block("Nothing was found that does not. What is not entered was not checked.")
    for each in found:
        yield Block(
            f"{each.what} {each.why}".rstrip(), Tone.WARN if each.grave else Tone.PLAIN,
            mark="!!! " if each.grave else "!   ",
            under=(f"Remedy: {each.remedy} ({each.source})",),
        )  # fmt: skip
    missing = [entry.title for entry in still_missing(worked.sheet)]
    if missing:
        yield labelled("Missing", sentence(", ".join(missing)))


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
        return DrawnEnd(part.end, thread, part.shape, up)

    return made_up_hose(
        drawn(sheet.a, up=False), drawn(sheet.b, up=opposite), outside,
        f"overall {overall:g} mm" if overall is not None else f"overall {BLANK_LINE}",
        f"cut {cut:.1f} mm" if cut is not None else f"cut {BLANK_LINE}",
    )  # fmt: skip


def _ends(worked: Worked) -> Iterator[Block]:
    for side, part, point in zip(
        "AB", (worked.sheet.a, worked.sheet.b), worked.length.points, strict=True
    ):
        name = f"{part.end.title}, {part.end.form}" if part.end else BLANK_LINE
        pieces = {"one": "one piece", "two": "two pieces"}.get(part.pieces, f"{BLANK_LINE} pieces")
        under = (
            f"{_shape(part)}; thread {_thread(part)}",
            f"Goes to: {part.port.named if part.port else BLANK_LINE}",
            f"Length to: {_point(part, point)}",
            f"Cut-off {_mm(part.cut_off)}, insertion {_mm(part.insertion)}, {pieces}, by "
            f"{part.data or BLANK_LINE}",
        )
        yield Block(name, mark=f"End {side}".ljust(11), under=under)


def _shape(part: SheetEnd) -> str:
    shape = f"{part.shape}".capitalize() if part.shape else BLANK_LINE
    bent = f"{shape} degrees" if shape in ("45", "90") else shape
    held = {"swivel": ", turns on the hose", "fixed": ", fixed"}.get(part.held, f", {BLANK_LINE}")
    place = f", at {to_clock(part.position):g} o'clock" if part.position is not None else ""
    return f"{bent}{held}{place}"


def _thread(part: SheetEnd) -> str:
    if part.end is None:
        return BLANK_LINE
    return f"{part.end.thread or 'none'}{', LEFT hand' if part.hand == 'left' else ''}"


def _point(part: SheetEnd, point: MeasuringPoint | None) -> str:
    return part.measured_to or (point.points[0] if point and not point.ask else BLANK_LINE)


def _mm(value: float | None) -> str:
    return BLANK_LINE if value is None else f"{value:g} mm"


def _hose(worked: Worked) -> Iterator[Block]:
    hose, verdict = worked.hose, worked.verdict
    if hose is None:
        yield labelled("Hose", f"not named; {LOOK_UP}", Tone.WARN)
    else:
        yield labelled("Hose", f"{hose.kind.standards[0]} {hose.kind.key}, {size_words(hose)}")
    if verdict and verdict.readings:
        first = reading_words(verdict.readings[0])
        same = " (to be made as the old one is)" if worked.sheet.hose.new is None and hose else ""
        yield labelled("Old hose", f"{verdict.kind}: {first}{same}")
    if verdict and verdict.lower:
        yield Block(f"The old hose is not sure. {verdict.lower.ask}.", Tone.WARN, mark="! ")


def _length(worked: Worked) -> Iterator[Block]:
    entered, length = worked.sheet.length, worked.length
    yield labelled("Overall", f"{_mm(entered.overall)}; measured: {entered.how or BLANK_LINE}")
    if length.band:
        band, standard = length.band, length.band.row.standard
        yield labelled(
            "Tolerance", f"+{band.plus_mm:.3g} -{band.minus_mm:.3g} mm by {standard} "
            f"({band.row.says.basis}); aim at {length.aim_mm:.1f} mm",
        )  # fmt: skip
    if length.cut_mm is None:
        yield labelled("Cut", f"{BLANK_LINE} (overall, both cut-offs and their data are needed)")
    else:
        yield labelled(
            "Cut", f"{length.cut_mm:.1f} mm = {entered.overall:g} - {worked.sheet.a.cut_off:g} (A) "
            f"- {worked.sheet.b.cut_off:g} (B)",
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
            yield labelled("Angle", BLANK_LINE)
        return
    words = in_words(angle.angle, Convention.NEAR)
    off = f" Tolerance +/-{angle.tolerance.plus_minus_deg:g} degrees." if angle.tolerance else ""
    yield labelled("Angle", f"{' '.join(words)} The near end is A.{off}")
    yield Block(
        "The drawing above shows both ends in one plane; the clock face shows their angle.",
        Tone.QUIET,
    )
    yield draw(clock_face(angle.angle, words))


# ---- what it stands, what it is for


def _pressure(worked: Worked) -> Iterator[Block | Table]:
    yield Block("What it stands", Tone.HEAD)
    rows = []
    for part in worked.parts:
        bar = part.supported_bar
        known = f"{bar:.4g} bar" if bar is not None else LOOK_UP
        basis = f" ({part.basis})" if part.basis else ""
        says = f"{part.source}{basis}" if bar is not None else ""
        rows.append((capital(part.name), known, says))
    yield Table(("part", "working pressure", "says"), tuple(rows))
    yield labelled("Whole", worked.rating.sentence)
    if worked.proof:
        proof = worked.proof
        yield labelled(
            "Proof", f"{proof.proof_bar:.4g} bar for {proof.low_s:g} to {proof.high_s:g} seconds, "
            f"by the rating of the whole (ISO 6605). Burst {proof.burst_bar:.4g} bar is a type "
            "test, for no hose that is to be used.",
        )  # fmt: skip
    else:
        yield labelled("Proof", f"{BLANK_LINE} (no rating, no proof pressure)")
    if worked.hose:
        service = worked.hose.kind.service
        if service.impulse_cycles:
            at = f" at {service.impulse_c:g} C" if service.impulse_c is not None else ""
            yield labelled(
                "Impulse", f"{service.impulse_cycles} cycles to {service.impulse_percent:g} % of "
                f"the working pressure{at} is the type test ({service.impulse_basis}); more, or "
                "higher, shortens its life.",
            )  # fmt: skip


def _use(worked: Worked) -> Iterator[Block]:
    use = worked.sheet.use
    span = use.temperature
    bar = f"{use.pressure:g} bar" if use.pressure is not None else BLANK_LINE
    peaks = f"{use.peaks:g} bar" if use.peaks is not None else BLANK_LINE
    degrees = f"{span.low:g} to {span.high:g} C" if span else BLANK_LINE
    yield labelled("Use", f"{bar}, peaks {peaks}; {use.medium or BLANK_LINE}, {degrees}")
    yield labelled("Routing", use.routing or BLANK_LINE)
    if use.bend_radius is not None and worked.hose:
        least = worked.sheet.hose.bend if worked.sheet.hose.data else None
        least = least or worked.hose.bend_radius_mm
        yield labelled(
            "Bend", f"{use.bend_radius:g} mm to the inside; the hose bends to "
            f"{f'{least:g} mm' if least else LOOK_UP} at least",
        )  # fmt: skip


def _flow(worked: Worked) -> Iterator[Block]:
    flow = worked.flow
    if flow is None:
        return
    yield labelled(
        "Flow", f"{flow.velocity_m_s:.1f} m/s in {flow.narrowest} ({flow.bore_mm:g} mm), the "
        "narrowest bore that is known",
    )  # fmt: skip
    if flow.usual:
        where = {-1: "Below", 0: "Within", 1: "Above"}[flow.beside]
        yield Block(
            f"{where} what is usual in a {flow.usual.line} line, {flow.usual.low_m_s:g} to "
            f"{flow.usual.high_m_s:g} m/s: guidance, no standard gives a figure "
            f"({flow.usual.says.basis}).", mark="! " if flow.beside > 0 else "",
        )  # fmt: skip
    if flow.note:
        yield Block(flow.note)
    for name, drop in (("Drop", flow.warm), ("Cold start", flow.cold)):
        if drop:
            yield labelled(name, _drop(drop))


def _drop(drop: Drop) -> str:
    values = " or ".join(f"{bar:.2g}" for bar in drop.bars)
    if drop.laminar is None:
        how = "near the turn to turbulence: smooth or turbulent, nobody can tell which"
    else:
        how = "smooth flow" if drop.laminar else "turbulent"
    return f"{values} bar over the hose, without its ends ({how}; Reynolds {drop.reynolds:.0f})"


def _fitting(known: SheetKnowledge) -> Iterator[Block]:
    yield Block("Fitting it", Tone.HEAD)
    yield Block("Before the old hose is undone:")
    yield from (Block(each, mark="! ") for each in known.book.cautions_at(Moment.BEFORE))
    yield Block("When it is fitted, and at the first test:")
    said = dict.fromkeys(known.book.cautions_at(Moment.REPLACEMENT, Moment.LEAK))
    before = set(known.book.cautions_at(Moment.BEFORE))
    yield from (Block(each, mark="! ") for each in said if each not in before)
