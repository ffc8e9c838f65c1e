"""Flanges: the face with its bolt pattern, or the rim of the head in section."""

from identify.drawing.measures import Measure, annotate, size_words
from identify.drawing.outline import Kind, Line, Point, Sheet, Side
from identify.drawing.proportions import ring_section_mm
from identify.drawing.revolved import (
    axis,
    break_line,
    circle,
    contour,
    cut_half,
    joined,
    outside_half,
    ring_section,
)
from identify.drawing.seat_words import seat_words
from identify.frozen import replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature

BOLT_DIAMETERS_MM = {"1/4": 6.35, "5/16": 7.94, "3/8": 9.53, "7/16": 11.11, "1/2": 12.7}
"""Inch bolts of flanges by the size in their designation."""


def flange_sheet(end: EndConnection, ask: Feature | None, value: str = "") -> Sheet:
    """Return the face view of a flange, or its half section where the thickness is asked for."""
    if ask is Feature.FLANGE_HEAD_THICKNESS:
        return _rim(end, ask, value)
    return _face(end, ask, value)


def flange_pattern(end: EndConnection, kind: Kind, inside: bool) -> Sheet:
    """Return head and bolts of a flange, long spacing across; `inside` adds groove and bore."""
    head = _head_radius(end)
    lines = [Line(kind, circle((0.0, 0.0), head, 48))] if not end.side_mm else []
    if end.side_mm:
        half, cut = end.side_mm / 2, end.side_mm * 0.06
        lines.append(Line(kind, _rounded(half, half, cut)))
    ring = ring_section_mm(end)
    if inside:
        if ring:
            lines += [
                Line(Kind.OUTLINE, circle((0.0, 0.0), ring[0] / 2 + s * ring[1])) for s in (0, 1)
            ]
        lines.append(Line(Kind.OUTLINE, circle((0.0, 0.0), _bore_radius(end), 32)))
    long, short = (
        end.sizes.get(Feature.BOLT_SPACING_LONG),
        end.sizes.get(Feature.BOLT_SPACING_SHORT),
    )
    if long and short:
        bolt = bolt_diameter_mm(end) / 2
        lines += [
            Line(kind, circle((x, y), bolt, 20))
            for x in (-long / 2, long / 2)
            for y in (-short / 2, short / 2)
        ]
    return Sheet("", tuple(lines))


def bolt_diameter_mm(end: EndConnection) -> float:
    """Return the bolt diameter of a flange [mm]; a proportion of the spacing where unknown."""
    if end.bolt_metric:
        return float(end.bolt_metric.upper().removeprefix("M").split("X")[0])
    inch = (end.bolt_inch or "").split("-")[0]
    return BOLT_DIAMETERS_MM.get(inch, 0.2 * (end.sizes.get(Feature.BOLT_SPACING_LONG) or 40.0))


def _face(end: EndConnection, ask: Feature | None, value: str) -> Sheet:
    pattern = flange_pattern(end, Kind.OUTLINE, inside=True)
    long, short = (
        end.sizes.get(Feature.BOLT_SPACING_LONG),
        end.sizes.get(Feature.BOLT_SPACING_SHORT),
    )
    head = _head_radius(end)
    reach = max((long or 0.0) / 2 + bolt_diameter_mm(end), head) + 2.0
    parts = [pattern, axis(-reach, reach)]
    up = max((short or 0.0) / 2 + bolt_diameter_mm(end), head) + 2.0
    upright = Sheet("", (Line(Kind.CENTRE, ((0.0, -up), (0.0, up))),))
    parts.append(upright)
    if long and short:
        margin = 0.9 * bolt_diameter_mm(end)
        if not end.side_mm:
            clamp = _rounded(long / 2 + margin, max(short / 2 + margin, head + 1.0), margin)
            parts.append(Sheet("", (Line(Kind.HIDDEN, clamp),)))
    measures = [
        Measure(Feature.FLANGE_HEAD_OD, (0.0, -head), (0.0, head), Side.LEFT,
                size_words(end, Feature.FLANGE_HEAD_OD), "Caliper across the round head."),
        Measure(Feature.BOLT_SPACING_LONG, (-(long or 0) / 2, -(short or 0) / 2),
                ((long or 0) / 2, -(short or 0) / 2), Side.BOTTOM,
                size_words(end, Feature.BOLT_SPACING_LONG),
                "Measure from the left edge of one hole to the left edge of the next."),
        Measure(Feature.BOLT_SPACING_SHORT, ((long or 0) / 2, -(short or 0) / 2),
                ((long or 0) / 2, (short or 0) / 2), Side.RIGHT,
                size_words(end, Feature.BOLT_SPACING_SHORT),
                "Measure from the upper edge of one hole to the upper edge of the next."),
        Measure(Feature.O_RING, (0.0, _bore_radius(end) * 1.1), None, Side.TOP,
                end.o_ring_size or "", always=False),
        Measure(Feature.SEAT_SHAPE, (0.0, (head + _bore_radius(end)) / 2), None, Side.TOP,
                seat_words(end), always=False),
    ]  # fmt: skip
    measures = [
        m for m in measures if (long and short) or m.feature not in
        (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)
    ]  # fmt: skip
    title = f"{end.title}, flange"
    words = [
        f"Face of {title}, seen from the open side: four bolt holes round the head."
        if long and short
        else f"Face of {title}, seen from the open side; the tables give no bolt spacing.",
        seat_words(end, ask),
    ]
    bolts = " or ".join(bolt for bolt in (end.bolt_metric, end.bolt_inch) if bolt)
    if bolts:
        words.append(f"Bolts {bolts}.")
    return annotate(replace(joined(*parts), title=title, words=tuple(words)), measures, ask, value)


def _rim(end: EndConnection, ask: Feature | None, value: str) -> Sheet:
    """Return the half section of the head."""
    head, bore = _head_radius(end), _bore_radius(end)
    thick = end.sizes.get(Feature.FLANGE_HEAD_THICKNESS) or 0.2 * head
    ring = ring_section_mm(end)
    neck, right = 0.5 * (head + bore), thick + 0.8 * head
    outer = contour([(0.0, head), (thick, head), (thick, neck), (right, neck)])
    face: tuple[Point, ...] = ()
    parts = []
    if ring and ring[0] / 2 + 1.3 * ring[1] < head:
        low, high, deep = ring[0] / 2, ring[0] / 2 + 1.3 * ring[1], 0.75 * ring[1]
        face = (
            (0.0, max(low, bore * 1.05)),
            (deep, max(low, bore * 1.05)),
            (deep, high),
            (0.0, high),
        )
        parts.append(ring_section((deep - ring[1] / 2, (low + high) / 2), ring[1] / 2))
    inner = contour([(0.0, bore), (right, bore)])
    parts += [
        cut_half(outer, inner, face=face),
        outside_half(outer),
        axis(-0.3 * head, right + 0.15 * head),
        break_line(right, neck, -neck),
    ]
    title = f"{end.title}, flange head"
    words = (f"Half section of {title}: face to the left, upper half cut.", seat_words(end, ask))
    measure = Measure(
        Feature.FLANGE_HEAD_THICKNESS, (0.0, -head), (thick, -head), Side.BOTTOM,
        size_words(end, Feature.FLANGE_HEAD_THICKNESS), "Caliper the head at its rim.",
    )  # fmt: skip
    return annotate(replace(joined(*parts), title=title, words=words), [measure], ask, value)


def _head_radius(end: EndConnection) -> float:
    if head := end.sizes.get(Feature.FLANGE_HEAD_OD):
        return head / 2
    if across := end.side_mm or end.sizes.get(Feature.BOLT_SPACING_LONG):
        return 0.4 * across
    return end.hose_dn or 20.0


def _bore_radius(end: EndConnection) -> float:
    head = _head_radius(end)
    ring = ring_section_mm(end)
    most = 0.92 * ring[0] / 2 if ring else 0.6 * head
    return min(end.hose_dn / 2, most) if end.hose_dn else most


def _rounded(x: float, y: float, cut: float) -> tuple[tuple[float, float], ...]:
    """Return a rectangle with cut corners, closed."""
    return (
        (-x + cut, -y), (x - cut, -y), (x, -y + cut), (x, y - cut),
        (x - cut, y), (-x + cut, y), (-x, y - cut), (-x, -y + cut), (-x + cut, -y),
    )  # fmt: skip
