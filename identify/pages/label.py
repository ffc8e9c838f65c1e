"""The label of an end: reference as a code, verdict, thread, seat, date; on stock or a receipt."""

from collections.abc import Iterable

from identify.errors import ReadingError, quoted
from identify.frozen import NamedTuple
from identify.light import re
from identify.pages.blocks import BLANK, Block, Picture, Tone
from identify.pages.code import MODULES, code_of
from identify.pages.handed import Handed, HandedEnd, day_of
from identify.pages.html import division, document, figure
from identify.pages.text import wrap
from identify.transliterate import inert, plain

RECEIPTS = (32, 48)  # columns of the usual paper rolls, 58 and 80 mm
MARGIN_MM, GAP_MM = 1.5, 1.0
LEAST_MODULE_MM = 0.33  # at 203 dots an inch at least two dots and a half
_WIDEST_MM, _LEAST_MM = 300.0, 10.0
_LARGEST_PT, _SMALLEST_PT = 12.0, 5.5
_LONGEST = (400, 90, 60, 40)  # characters of verdict and seat, as far as there is room
_PT_MM, _LETTER, _LINE, _HEAD = 25.4 / 72, 0.6, 1.25, 1.25  # of the size: a letter, a line, a head


class LabelSize(NamedTuple):
    """Label stock [mm]."""

    width: float
    height: float

    def __str__(self) -> str:
        return f"{self.width:g}x{self.height:g}"


USUAL = LabelSize(62.0, 29.0)


def label_size(text: str) -> LabelSize:
    """Return the size of label stock that "62x29" means [mm].

    Raises:
        ReadingError: It is none, or no label can be so small or large.
    """
    found = re.fullmatch(r"\s*(\d{1,3}(?:\.\d{1,2})?)\s*[xX×]\s*(\d{1,3}(?:\.\d{1,2})?)\s*", text)
    if not found:
        raise ReadingError(f"{quoted(text)} is no size of a label; write such as {USUAL} (mm).")
    size = LabelSize(*map(float, found.groups()))
    if not all(_LEAST_MM <= each <= _WIDEST_MM for each in size):
        limits = f"{_LEAST_MM:g} to {_WIDEST_MM:g} mm"
        raise ReadingError(f"{quoted(text)} is no size of a label: each side is {limits}.")
    return size


def label_blocks(sheet: Handed) -> list[Block | Picture]:
    """Return the labels of a job, one an end that was measured.

    Raises:
        ReadingError: Nothing was measured.
    """
    blocks: list[Block | Picture] = []
    for end in _ends(sheet):
        blocks += [*_label(sheet, end), BLANK]
    return blocks[:-1]


def receipt(sheet: Handed, columns: int) -> str:
    """Return the labels as text of a receipt printer, which knows ASCII only.

    Raises:
        ReadingError: Nothing was measured.
    """
    rows: list[str] = []
    for end in _ends(sheet):
        rows.append("-" * columns)
        for block in _label(sheet, end):
            text = "".join(c if c.isascii() else plain(c) for c in inert(block.text))
            mark = block.mark if len(block.mark) < columns // 2 else ""
            rows += wrap(text, columns, mark, part_words=True)
    return "\n".join([*rows, "-" * (columns)]) + "\n"


def label_page(sheet: Handed, size: LabelSize = USUAL) -> str:
    """Return the labels as a document, a page each.

    Raises:
        ReadingError: Nothing was measured, or the label is too small to be read.
    """
    side = min(size.height, size.width / 2.4) - 2 * MARGIN_MM
    if side < MODULES * LEAST_MODULE_MM:
        least = MODULES * LEAST_MODULE_MM + 2 * MARGIN_MM
        raise ReadingError(
            f"A label of {size} mm is too small for a code; it takes {least * 2.4:.0f} by "
            f"{least:.0f} mm or more. Name another with --label-size."
        )
    code = figure(code_of(sheet.job.reference, round(side, 2)))
    labels = []
    for end in _ends(sheet):
        point, blocks = _set(sheet, end, size, side)
        letters = f'<div class="told" style="font-size: {point:g}pt">\n'
        labels.append(division("label", code, letters, blocks, "</div>\n"))
    return document(f"Label {sheet.job.reference}", "".join(labels), _style(size))


def _style(size: LabelSize) -> str:
    return f"""
@page {{ size: {size.width:g}mm {size.height:g}mm; margin: 0; }}
.label {{ width: {size.width:g}mm; height: {size.height:g}mm; padding: {MARGIN_MM}mm; display: flex;
  align-items: center; gap: {GAP_MM}mm; overflow: hidden; break-after: page; }}
.label:last-child {{ break-after: auto; }}
.label figure {{ margin: 0; flex: none; }} .label svg {{ display: block; }}
.told {{ flex: 1; line-height: {_LINE}; min-width: 0; }}
.told p, .told h1, .told h2 {{ margin: 0; font-size: 1em; line-height: inherit; }}
.told h1 {{ font-size: {_HEAD}em; }} .told p.mark {{ display: block; }}
.told .mark > b {{ padding-right: .3em; }}
@media screen {{ .label {{ border: .2mm dashed #888; margin: 4mm; }} }}
"""


def _ends(sheet: Handed) -> Iterable[HandedEnd]:
    if not sheet.measured:
        raise ReadingError(
            f"Nothing was measured of job {sheet.job.reference}, so there is nothing to put on a "
            f"label. Measure an end with: whichend jobs reopen {sheet.job.reference}."
        )
    return sheet.measured


def _label(sheet: Handed, end: HandedEnd, longest: int = _LONGEST[0]) -> list[Block]:
    refused = [Block("LEAVE IT ALONE.", Tone.WARN)] if end.row and end.row.refuse else []
    return [
        Block(f"{sheet.job.reference}  end {end.name}", Tone.TITLE),
        Block(_cut(end.line[:1].upper() + end.line[1:], longest), Tone.HEAD),
        *refused,
        Block(end.thread, mark="Thread: "),
        Block(_cut(end.seat, longest), mark="Seat: "),
        Block(end.pressure, mark="Pressure: "),
        Block(day_of(end)),
    ]


def _set(sheet: Handed, end: HandedEnd, size: LabelSize, side: float) -> tuple[float, list[Block]]:
    """Return the size of letters [pt] with which a label finds room, and its blocks.

    Letters are counted as wide ones. Verdict and seat are cut where all of them finds none.

    Raises:
        ReadingError: It finds no room even so.
    """
    wide = size.width - side - 2 * MARGIN_MM - GAP_MM
    tall = size.height - 2 * MARGIN_MM
    for longest in _LONGEST:
        blocks = _label(sheet, end, longest)
        point = _LARGEST_PT
        while point >= _SMALLEST_PT:
            if _rows(blocks, wide / (point * _PT_MM * _LETTER)) * point * _PT_MM * _LINE <= tall:
                return point, blocks
            point -= 0.5
    raise ReadingError(
        f"What is to be read on the label of end {end.name} finds no room on {size} mm. Name a "
        "larger one with --label-size."
    )


def _rows(blocks: list[Block], columns: float) -> float:
    """Return how many rows text takes, a title for as many as it is larger."""
    rows = 0.0
    for block in blocks:
        scale = _HEAD if block.tone is Tone.TITLE else 1.0
        text = f"{block.mark}{inert(block.text)}"
        rows += scale * len(wrap(text, int(columns / scale), part_words=True))
    return rows


def _cut(text: str, longest: int) -> str:
    return text if len(text) <= longest else f"{text[: longest - 3].rstrip()}..."
