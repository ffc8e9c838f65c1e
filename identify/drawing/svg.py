"""A sheet as SVG in real millimetres, for reports and for printing at 100 %."""

import math
from html import escape

from identify.drawing.fit import Box, Fit, place
from identify.drawing.layout import DimensionLine, Label, Layout, arrange
from identify.drawing.outline import Fill, Kind, Point, Sheet, Side
from identify.drawing.raster import hatch_lines, plain_parts
from identify.frozen import dataclass

TEXT_MM = 2.5  # height of lettering, ISO 3098
COLUMN_MM, ROW_MM = 1.5, 3.6  # a cell of the layout on paper
HATCH_MM = 1.2
ARROW_MM = 1.6
THICK_MM, THIN_MM = 0.5, 0.25  # ISO 128-2 line group 0.5
DOT_MM = 0.15  # what the eye resolves on paper: decides between teeth and simplified thread
FEWEST_COLUMNS = 50
BARS_MM = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)

_STROKES = {
    Kind.OUTLINE: f'stroke-width="{THICK_MM}"',
    Kind.THREAD: f'stroke-width="{THICK_MM}"',
    Kind.HATCH: f'stroke-width="{THIN_MM}"',
    Kind.CENTRE: f'stroke-width="{THIN_MM}" stroke-dasharray="5 0.8 0.8 0.8"',
    Kind.HIDDEN: f'stroke-width="{0.8 * THICK_MM:.2f}" stroke-dasharray="1.6 0.8"',
}


def svg(sheet: Sheet, scale: float = 1.0) -> str:
    """Draw a sheet as a self-contained SVG image.

    Args:
        sheet: What to draw.
        scale: Paper over part: 1 for actual size, 2 for twice the size.

    Returns:
        SVG text. One unit of its view box is one millimetre of paper; it refers to nothing
        outside itself and carries the description in words.
    """
    layout = _paper_layout(sheet, scale)
    paper = _Paper(layout.fit)
    width, height = layout.columns * COLUMN_MM, layout.rows * ROW_MM
    lines, regions = plain_parts(sheet, DOT_MM / scale)
    body = []
    for region in regions:
        if region.fill is Fill.SEAL:
            body.append(
                f'<path class="seal" d="{paper.path(region.points)}Z" fill="#444" stroke="none"/>'
            )
        else:
            segments = hatch_lines(region, HATCH_MM / scale)
            drawn = "".join(paper.path(segment) for segment in segments)
            body.append(_stroke("hatching", _STROKES[Kind.HATCH], drawn))
    body += [_stroke(line.kind, _STROKES[line.kind], paper.path(line.points)) for line in lines]
    body += [_dimension(line, paper) for line in layout.lines]
    body += [_label(label) for label in layout.labels]
    if sheet.to_scale:
        body.append(_scale_bar(layout, scale))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="0 0 {width:g} {height:g}" role="img">\n'
        f"<title>{escape(sheet.title)}</title>\n<desc>{escape(sheet.described)}</desc>\n"
        f'<rect width="{width:g}" height="{height:g}" fill="#fff"/>\n'
        f'<g fill="none" stroke="#000" stroke-linejoin="round" stroke-linecap="butt">\n'
        + "\n".join(body)
        + "\n</g>\n</svg>\n"
    )


@dataclass(frozen=True, slots=True)
class _Paper:
    """From millimetres of the part to millimetres of paper."""

    fit: Fit

    def xy(self, point: Point) -> Point:
        return self.fit.column(point[0]) * COLUMN_MM, self.fit.row(point[1]) * ROW_MM

    def path(self, points: tuple[Point, ...]) -> str:
        return _path(tuple(self.xy(point) for point in points))


def _path(points: tuple[Point, ...]) -> str:
    return "M" + "L".join(f"{x:.3f} {y:.3f}" for x, y in points)


def _stroke(name: str, stroke: str, path: str) -> str:
    return f'<path class="{name}" {stroke} d="{path}"/>'


def _paper_layout(sheet: Sheet, scale: float) -> Layout:
    bounds = sheet.bounds()
    wide, tall = bounds[2] - bounds[0], bounds[3] - bounds[1]
    per_column, ratio = COLUMN_MM / scale, ROW_MM / COLUMN_MM
    bar = max((b for b in BARS_MM if b * scale <= 25), default=BARS_MM[0])
    longest = max((len(item.label) for item in sheet.labelled), default=0)

    def scaler(left: int, right: int, top: int, bottom: int) -> tuple[Fit, int, int]:
        columns = max(math.ceil(wide / per_column) + left + right + 2, FEWEST_COLUMNS, longest + 2)
        rows = math.ceil(tall / (per_column * ratio)) + top + bottom + 4
        box = Box(left, top + 1, columns - right, rows - 2 - bottom)
        count = math.ceil(bar / per_column)
        return place(bounds, box, per_column, ratio, bar, count), columns, rows

    return arrange(sheet, scaler)


def _dimension(line: DimensionLine, paper: _Paper) -> str:
    (x1, y1), (x2, y2) = paper.xy(line.dimension.start), paper.xy(line.dimension.end)
    if line.dimension.side in (Side.LEFT, Side.RIGHT):
        at = (line.at + 0.5) * COLUMN_MM
        over = 0.8 if line.dimension.side is Side.RIGHT else -0.8
        extensions = [((x, y), (at + over, y)) for x, y in ((x1, y1), (x2, y2))]
        ends = ((at, y1), (at, y2))
    else:
        at = (line.at + 0.5) * ROW_MM
        extensions = [((x, y), (x, at + 0.8)) for x, y in ((x1, y1), (x2, y2))]
        ends = ((x1, at), (x2, at))
    thin = "".join(_path(pair) for pair in (*extensions, ends))
    arrows = "".join(_arrow(tip, tail) for tip, tail in (ends, ends[::-1]))
    return (
        _stroke("dimension", _STROKES[Kind.HATCH], thin)
        + f'<path class="arrow" d="{arrows}" fill="#000" stroke="none"/>'
    )


def _arrow(tip: Point, tail: Point) -> str:
    """Return a filled arrowhead; a short dimension gets its arrows from outside."""
    length = math.dist(tip, tail)
    if length == 0:
        return ""
    inward = 1 if length > 3 * ARROW_MM else -1
    ux, uy = (tail[0] - tip[0]) / length * inward, (tail[1] - tip[1]) / length * inward
    back = (tip[0] + ux * ARROW_MM, tip[1] + uy * ARROW_MM)
    half = ARROW_MM / 5
    return (
        _path(
            (
                tip,
                (back[0] - uy * half, back[1] + ux * half),
                (back[0] + uy * half, back[1] - ux * half),
            )
        )
        + "Z"
    )


def _label(label: Label) -> str:
    left, base = label.start * COLUMN_MM, (label.row + 0.75) * ROW_MM
    text = (
        f'<text x="{left:.2f}" y="{base:.2f}" font-family="monospace" font-size="{TEXT_MM}" '
        f'textLength="{len(label.text) * COLUMN_MM:.2f}" lengthAdjust="spacingAndGlyphs" '
        f'fill="#000" stroke="none">{escape(label.text)}</text>'
    )
    x, y = label.tip[0] * COLUMN_MM, label.tip[1] * ROW_MM
    edge = (label.row + (1.0 if y > base else 0.0)) * ROW_MM
    leader = _stroke("leader", _STROKES[Kind.HATCH], _path(((x, edge), (x, y))))
    dot = f'<circle cx="{x:.3f}" cy="{y:.3f}" r="0.5" fill="#000" stroke="none"/>'
    return text + leader + (dot if label.dot else "")


def _scale_bar(layout: Layout, scale: float) -> str:
    """Draw a bar of a round length, in the last row."""
    y, left = (layout.rows - 0.6) * ROW_MM, COLUMN_MM
    right = left + layout.fit.bar_mm * scale
    ticks = "".join(_path(((x, y - 0.8), (x, y + 0.8))) for x in (left, right))
    paper, part = (f"{scale:g}", "1") if scale >= 1 else ("1", f"{1 / scale:g}")
    words = f"{layout.fit.bar_mm:g} mm, scale {paper}:{part}"
    return (
        _stroke("scale", _STROKES[Kind.HATCH], _path(((left, y), (right, y))) + ticks)
        + f'<text x="{right + COLUMN_MM:.2f}" y="{y + 0.8:.2f}" font-family="monospace" '
        f'font-size="{TEXT_MM}" fill="#000" stroke="none">{words}</text>'
    )
