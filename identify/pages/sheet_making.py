"""How a hose is made: the steps with their cautions, the arithmetic, a line to sign.

Nothing of a supplier is proposed: target, dies and dial are entered, or stay blank.
"""

from collections.abc import Iterator

from identify.assembly import RULE, is_clean_enough
from identify.assembly.squeezing import Judged, Squeezed
from identify.model.assembly import MakingStep
from identify.model.source import Support
from identify.pages.blocks import Block, Tone
from identify.sheets.conclusion import Conclusion, conclusion
from identify.sheets.finding import Finding
from identify.sheets.known import SheetKnowledge
from identify.sheets.sizing import WorkedLength
from identify.sheets.working import Worked

BLANK_FIELD = "____"
_ALIKE_MM = 0.05  # lengths nearer than this are printed alike
_NOT_YET = {
    Conclusion.FORBIDDEN: "Do not begin: the checks above forbid this hose.",
    Conclusion.OPEN: "Do not begin: the sheet is not settled, see above.",
}
_PUSHED = {
    "one": "one piece, the ferrule is fixed: push the hose into it",
    "two": "two pieces: ferrule on the hose first, then the end",
}
SIGNED = "done ____ by ____"
_JUDGED = {
    Squeezed.WITHIN: "within its limits",
    Squeezed.TOO_LARGE: "too large: squeeze again, smaller only, if the data allow it",
    Squeezed.TOO_SMALL: "too small: scrap, it cannot be made larger",
    Squeezed.UNEVEN: "the mean is within, single diameters are not: turn it and measure again",
}


def making_blocks(
    worked: Worked, found: tuple[Finding, ...], known: SheetKnowledge
) -> Iterator[Block]:
    """Yield the worksheet, one step after the other."""
    figures = {
        "Cut": _cut(worked),
        "Mark": _mark(worked),
        "Push in": _push(worked),
        "Squeeze": _squeeze(worked),
        "Measure": _measure(worked),
        "Bore": _bore(worked),
        "Proof": _proof(worked),
        "Flush": _flush(worked, known),
        "Label": _label(worked),
    }
    pieces = worked.sheet.job.quantity
    many = f" ({pieces} pieces, a copy for each)" if pieces and pieces > 1 else ""
    yield Block(f"Making it{many}", Tone.HEAD)
    reached = conclusion(worked, found)
    if reached is not Conclusion.NOTHING_FOUND:
        yield Block(_NOT_YET[reached], Tone.WARN, mark="! ")
    yield Block("Each step has its caution: read it, do the step, then sign.")
    for number, step in enumerate(known.rules.making, 1):
        yield _step(number, step, tuple(figures.get(step.name, ())), known)


def _step(number: int, step: MakingStep, figures: tuple[str, ...], known: SheetKnowledge) -> Block:
    practice = step.says.basis is Support.COMMON_PRACTICE
    source = "common practice" if practice else known.title_of(step.says.source)
    caution = f"! {step.caution} ({source})"
    return Block(
        f"{step.name}. {step.do}", mark=f"{number:>2}  ", under=(caution, *figures, SIGNED)
    )


def _cut(worked: Worked) -> Iterator[str]:
    length = worked.length
    cut = BLANK_FIELD if length.cut_mm is None else f"{length.cut_mm:.1f} mm"
    yield f"Length {cut}{aimed_cut(length)}."
    if length.square_mm:
        yield f"Out of square by {length.square_mm:g} mm at most over the face (RMA IP-2)."
    yield f"Measured after the cut: {BLANK_FIELD} mm."


def aimed_cut(length: WorkedLength) -> str:
    """Return what to cut where the middle of the tolerance is aimed at, "" where that is it."""
    if length.aimed_cut_mm is None or length.cut_mm is None:
        return ""
    if abs(length.aimed_cut_mm - length.cut_mm) < _ALIKE_MM:
        return ""
    return f"; {length.aimed_cut_mm:.1f} mm to aim at the middle of the tolerance"


def _mark(worked: Worked) -> Iterator[str]:
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        depth = BLANK_FIELD if part.insertion is None else f"{part.insertion:g} mm"
        yield f"End {side}: {depth} from the end of the hose (by {part.data or BLANK_FIELD})."


def _push(worked: Worked) -> Iterator[str]:
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        if part.pieces in _PUSHED:
            yield f"End {side}: {_PUSHED[part.pieces]}."
    if worked.angle:
        yield f"Angle from A to B: {worked.angle.angle:g} degrees, counted as the sheet says."


def _squeeze(worked: Worked) -> Iterator[str]:
    making, setting = worked.sheet.making, worked.setting
    if making.target is None:
        yield f"Target {BLANK_FIELD} mm +{BLANK_FIELD} -{BLANK_FIELD} by the data {BLANK_FIELD}."
    else:
        plus, minus = (BLANK_FIELD if v is None else f"{v:g}" for v in (making.plus, making.minus))
        data = making.data or BLANK_FIELD
        yield f"Target {making.target:g} mm +{plus} -{minus}, entered from {data}."
    if setting is None:
        yield f"Die {BLANK_FIELD} mm, dial {BLANK_FIELD}."
    else:
        dial = (
            f"{setting.divisions:.4g} divisions of {making.division:g} mm"
            if making.division else f"{BLANK_FIELD} (what is one division? see the machine)"
        )  # fmt: skip
        yield f"Die {setting.die_mm:g} mm, {setting.over_mm:.4g} mm above it: dial {dial}."
        yield RULE


def _measure(worked: Worked) -> Iterator[str]:
    for side, judged in zip("AB", worked.judged, strict=True):
        yield f"End {side}: {_judged(judged)}"


def _judged(judged: Judged | None) -> str:
    if judged is None:
        return f"{BLANK_FIELD} {BLANK_FIELD} {BLANK_FIELD} mm; mean {BLANK_FIELD}."
    return (
        f"mean {judged.mean_mm:.2f} mm, largest less smallest {judged.ovality_mm:.2f} mm: "
        f"{_JUDGED[judged.result]}."
    )


def _bore(worked: Worked) -> Iterator[str]:
    for side, part in (("A", worked.sheet.a), ("B", worked.sheet.b)):
        if part.bore is not None:
            yield f"End {side}: bore {part.bore:g} mm before squeezing; the gauge by its data."


def _proof(worked: Worked) -> Iterator[str]:
    proof = worked.proof
    if proof is None:
        yield f"Proof pressure {BLANK_FIELD}: there is none before every rating is known."
    else:
        yield f"{proof.proof_bar:.4g} bar, held {proof.low_s:g} to {proof.high_s:g} seconds."


def _flush(worked: Worked, known: SheetKnowledge) -> Iterator[str]:
    making = worked.sheet.making
    usual = next((t.code for t in known.rules.targets if t.of.startswith("a made-up hose")), "")
    wanted = "/".join(map(str, making.clean))
    yield (
        f"Wanted: ISO 4406 {wanted}." if wanted
        else f"Wanted: ISO 4406 {BLANK_FIELD} (where nobody says, {usual} is usual)."
    )  # fmt: skip
    counted = "/".join(map(str, making.counted))
    if not (making.clean and making.counted):
        yield f"Counted: {counted or BLANK_FIELD}."
    elif len(making.clean) != len(making.counted):
        yield f"Counted: {counted}, which counts other sizes than {wanted}: count again."
    else:
        clean = is_clean_enough(making.counted, making.clean)
        yield f"Counted: {counted}, {'clean enough' if clean else 'NOT clean enough: go on'}."


def _label(worked: Worked) -> Iterator[str]:
    bar = worked.rating.bar
    yield f"{f'{bar:.4g} bar' if bar is not None else BLANK_FIELD}, year and month {BLANK_FIELD}."
