"""A hose as it is ordered by telephone: whole sentences, signs and fractions as words."""

from collections.abc import Iterator

from identify.assembly import Convention, in_words
from identify.light import re
from identify.model.connection import EndConnection
from identify.model.sheet import SheetEnd
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.sheet_checks import MARKS
from identify.sheets.conclusion import Conclusion, conclusion
from identify.sheets.finding import Finding, Grade
from identify.sheets.working import Worked

_PARTS = {
    "1/8": "one eighth", "1/4": "one quarter", "3/8": "three eighths", "1/2": "one half",
    "5/8": "five eighths", "3/4": "three quarters", "7/8": "seven eighths",
}  # fmt: skip
_SIXTEENTHS = {3: "three", 5: "five", 7: "seven", 9: "nine", 11: "eleven", 13: "thirteen",
               15: "fifteen", 1: "one"}  # fmt: skip
_WORDS = (
    (r"\+/-", "plus or minus "),
    (r"(?<![\w.])(\d+) (\d+/\d+)", r"\1 and \2"),
    (r"(?<=\d)-(\d+) (UNF?|UNC|UNS|UN)\b", r", \1 threads to the inch, \2"),
    (r"(?<![\w.])-(\d+)", r"dash \1"),
    (r"(?<=\d)x(?=\d)", " by "),
    (r"\bdeg(?= [a-z])", "degree"), (r"\bdeg\b|°", "degrees"), (r"(?<=\d) ?mm\b", " millimetres"),
    (r"(?<=\d)\.(?=\d)", " point "),
    (r"\bO-ring", "O ring"), (r"(?<=[A-Za-z])(?=\d+/)", " "),
)  # fmt: skip


def order_blocks_of(worked: Worked, found: tuple[Finding, ...]) -> list[Block]:
    """Return what is said on the telephone, with what must be settled before."""
    blocks = [Block("To order by telephone", Tone.HEAD)]
    if conclusion(worked, found) is not Conclusion.NOTHING_FOUND:
        blocks.append(
            Block("Do not order yet: the checks of the sheet are not settled.", Tone.WARN)
        )
        blocks += [
            Block(each.what, Tone.WARN, mark=MARKS[each.grade])
            for each in found
            if each.grade is not Grade.MIND
        ]
    if worked.sheet.job.note:  # it may doubt an end
        blocks.append(Block(f"Read this first: {worked.sheet.job.note}", Tone.WARN))
    blocks += [Block(spoken(text)) for text in _sentences(worked)]
    return [*blocks, BLANK, Block("Let the other side read it back, figure by figure.")]


def spoken(text: str) -> str:
    """Return text with its signs, units and fractions as words, fit to be read aloud."""
    for pattern, words in _WORDS:
        text = re.sub(pattern, words, text)
    return re.sub(r"\b(\d{1,2})/(\d{1,2})\b", _fraction, text)


def _fraction(found: re.Match[str]) -> str:
    top, bottom = int(found[1]), int(found[2])
    if bottom == 16 and top in _SIXTEENTHS:
        return f"{_SIXTEENTHS[top]} sixteenth{'s' if top > 1 else ''}"
    return _PARTS.get(found[0], f"{top} over {bottom}")


def _sentences(worked: Worked) -> Iterator[str]:
    sheet, hose, length = worked.sheet, worked.hose, worked.length
    count = sheet.job.quantity
    reference = f" Our reference is {sheet.job.reference}." if sheet.job.reference else ""
    pieces = "one piece" if count == 1 else f"{count} pieces, all alike"
    pieces = "how many is still open" if count is None else pieces
    yield f"Hydraulic hose, made up with both ends: {pieces}.{reference}"
    if hose is None:
        yield "The hose itself is still open."
    else:
        dash = hose.dash.removeprefix("-")
        standard, names = hose.kind.names[0]
        yield (
            f"Hose by {standard}, type {_spelled(names[0] if names else hose.kind.key)}, nominal "
            f"size {hose.dn}, bore {hose.nominal_mm:g} mm, dash {dash}."
        )
    for name, part in (("A", sheet.a), ("B", sheet.b)):
        yield _end(name, part)
    overall = sheet.length.overall
    if overall is None:
        yield "The length is still open."
    else:
        points = [
            part.measured_to or (point.points[0] if point and not point.ask else "")
            for part, point in zip((sheet.a, sheet.b), length.points, strict=True)
        ]
        to = f", from A, {points[0]}, to B, {points[1]}" if all(points) else ", points still open"
        yield f"Overall length {overall:g} mm{to}."
    if length.band:
        band = length.band
        yield (
            f"Tolerance by {band.row.standard}: plus {band.plus_mm:.3g} mm, minus "
            f"{band.minus_mm:.3g} mm."
        )
    if worked.angle:
        words = in_words(worked.angle.angle, Convention.NEAR)
        yield f"Angle of the two ends: {' '.join(words)} The near end is A."
    use = sheet.use
    if use.pressure is not None:
        peaks = f", peaks of {use.peaks:g} bar" if use.peaks is not None else ""
        span = use.temperature
        at = f", {_signed(span.low)} to {_signed(span.high)} degrees Celsius" if span else ""
        medium = use.medium or "a medium still open"
        yield f"It works at {use.pressure:g} bar{peaks}, with {medium}{at}."
    yield (
        "Every part must carry the peaks; please state the rating of the made-up hose, and the "
        "hose, ferrule and insert as one tested system."
    )
    if sheet.making.clean:
        code = ", ".join(map(str, sheet.making.clean))
        yield f"Cleanliness by ISO 4406: {code}. Both ends capped."
    else:
        yield "Flushed, and both ends capped."


def _end(name: str, part: SheetEnd) -> str:
    if part.end is None:
        return f"End {name} is still open."
    shape = f"{part.shape}" if part.shape else "shape still open"
    bent = f"{shape} degrees" if shape in ("45", "90") else shape
    hand = ", left-hand thread" if part.hand == "left" else ""
    return f"End {name}: {_named(part.end)}, {bent}{hand}."


def _named(end: EndConnection) -> str:
    gender = f", {end.gender}" if end.gender in ("male", "female") else ""
    thread = f", thread {end.thread}" if end.thread else ""
    standard = f", by {end.standards[0]}" if end.standards else ""
    return f"{end.title}{gender}, {end.form}{thread}{standard}"


def _spelled(type_key: str) -> str:
    """Return a type letter by letter: over a bad line 2SN and 2SC sound alike."""
    return type_key if " " in type_key else " ".join(type_key)


def _signed(degrees: float) -> str:
    return f"{'minus ' if degrees < 0 else ''}{abs(degrees):g}"
