"""Flanges: head, groove and ring, and the bolt pattern round them."""

from identify.drawing.measures import Drawn, Measure, size_words
from identify.drawing.outline import Kind, Line, Sheet, Side
from identify.drawing.part import Body, Name, Part, contour, named_outside
from identify.drawing.proportions import ring_section_mm
from identify.drawing.revolved import circle, ring_section
from identify.drawing.seat_words import seat_words
from identify.model.connection import EndConnection
from identify.model.feature import Feature

BOLT_DIAMETERS_MM = {"1/4": 6.35, "5/16": 7.94, "3/8": 9.53, "7/16": 11.11, "1/2": 12.7}
"""Inch bolts of flanges by the size in their designation."""


def flange_part(end: EndConnection) -> Drawn:
    """Return a flange, its face to the left, and what can be measured on it."""
    head, bore = _head_radius(end), _bore_radius(end)
    thick = end.sizes.get(Feature.FLANGE_HEAD_THICKNESS) or 0.2 * head
    neck, right = 0.5 * (head + bore), thick + 0.8 * head
    inside, section = _ring(end)
    low, deep = max(inside / 2, bore * 1.05), 0.75 * section
    high = min(max(inside / 2, low) + 1.3 * section, 0.97 * head)
    face = ((0.0, low), (deep, low), (deep, high), (0.0, high))
    centre = (deep - section / 2, (low + high) / 2)
    square = _square_side(end)
    if square:
        thick = 0.45 * head
        body = [(0.0, 0.5 * square), (thick, 0.5 * square), (thick, neck), (right, neck)]
    else:
        body = [(0.0, head), (thick, head), (thick, neck), (right, neck)]
    metal = Body(contour(body), contour([(0.0, bore), (right, bore)]), face)
    names = (
        Name("face", (0.0, (high + head) / 2)), Name("groove", (deep, high)),
        Name("O-ring", centre), named_outside("head", (thick, 0.5 * (neck + body[0][1]))),
    )  # fmt: skip
    front = flange_pattern(end, Kind.OUTLINE).lines
    ring = ring_section(centre, min(section / 2, (high - low) / 2))
    turned_to = 0.499 * square if square else 0.999 * head
    part = Part((metal,), (ring,), front=front, turned_to=turned_to, seat=centre, names=names)
    told = ["The tables give no bolt spacing."]
    if _spacings(end):
        told = ["Four bolt holes round the head."]
        bolts = " or ".join(bolt for bolt in (end.bolt_metric, end.bolt_inch) if bolt)
        told += [f"Bolts {bolts}."] if bolts else []
    return Drawn(
        part, f"{end.title}, flange", "face to the left", _measures(end, thick), tuple(told)
    )


def _square_side(end: EndConnection) -> float:
    """Return the side of a square flange [mm], 0 for a round head; a proportion where unknown."""
    if end.side_mm:
        return end.side_mm
    spacings = _spacings(end)
    if spacings and Feature.FLANGE_HEAD_OD not in end.sizes:
        return spacings[0] + 2.2 * bolt_diameter_mm(end)
    return 0.0


def _spacings(end: EndConnection) -> tuple[float, float] | None:
    long, short = (
        end.sizes.get(feature)
        for feature in (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)
    )
    return (long, short) if long and short else None


def _ring(end: EndConnection) -> tuple[float, float]:
    """Return inside diameter and section of the O-ring [mm]; a proportion where unknown."""
    head = _head_radius(end)
    return ring_section_mm(end) or (max(1.25 * head, 1.2 * (end.hose_dn or 0.0)), 0.12 * head)


def flange_pattern(end: EndConnection, kind: Kind) -> Sheet:
    """Return the outline and the bolt holes of a flange, long spacing across.

    A round head lies under a clamp, whose outline is drawn thin.
    """
    head, square, spacings = _head_radius(end), _square_side(end), _spacings(end)
    if square:
        half = square / 2
        lines = [Line(kind, _rounded(half, half, square * 0.06))]
    else:
        lines = [Line(kind, circle((0.0, 0.0), head, 48))]
    if spacings:
        long, short = spacings
        bolt = bolt_diameter_mm(end) / 2
        lines += [
            Line(kind, circle((x, y), bolt, 20))
            for x in (-long / 2, long / 2)
            for y in (-short / 2, short / 2)
        ]
        margin = 1.8 * bolt
        if not square and kind is Kind.OUTLINE:
            up = max(short / 2 + margin, head + 1.0)
            lines.append(Line(Kind.HIDDEN, _rounded(long / 2 + margin, up, margin)))
    return Sheet("", tuple(lines))


def bolt_diameter_mm(end: EndConnection) -> float:
    """Return the bolt diameter of a flange [mm]; a proportion of the spacing where unknown."""
    if end.bolt_metric:
        return float(end.bolt_metric.upper().removeprefix("M").split("X")[0])
    inch = (end.bolt_inch or "").split("-")[0]
    return BOLT_DIAMETERS_MM.get(inch, 0.2 * (end.sizes.get(Feature.BOLT_SPACING_LONG) or 40.0))


def _measures(end: EndConnection, thick: float) -> list[Measure]:
    """Return what is measured: the rim in a section, all else on the face, about its centre."""
    head, (long, short) = _head_radius(end), _spacings(end) or (0.0, 0.0)
    found = [
        Measure(Feature.FLANGE_HEAD_OD, (0.0, -head), (0.0, head), Side.LEFT,
                size_words(end, Feature.FLANGE_HEAD_OD), "Caliper across the round head.",
                on_face=True),
        Measure(Feature.FLANGE_HEAD_THICKNESS, (0.0, -head), (thick, -head), Side.BOTTOM,
                size_words(end, Feature.FLANGE_HEAD_THICKNESS), "Caliper the head at its rim."),
        Measure(Feature.O_RING, (0.0, _bore_radius(end) * 1.1), None, Side.TOP,
                end.o_ring_size or "", always=False, on_face=True),
        Measure(Feature.SEAT_SHAPE, (0.0, (head + _bore_radius(end)) / 2), None, Side.TOP,
                seat_words(end), always=False, on_face=True),
    ]  # fmt: skip
    if not _spacings(end):
        return found
    return [
        *found,
        Measure(Feature.BOLT_SPACING_LONG, (-long / 2, -short / 2), (long / 2, -short / 2),
                Side.BOTTOM, size_words(end, Feature.BOLT_SPACING_LONG),
                "Measure from the left edge of one hole to the left edge of the next.",
                on_face=True),
        Measure(Feature.BOLT_SPACING_SHORT, (long / 2, -short / 2), (long / 2, short / 2),
                Side.RIGHT, size_words(end, Feature.BOLT_SPACING_SHORT),
                "Measure from the upper edge of one hole to the upper edge of the next.",
                on_face=True),
    ]  # fmt: skip


def _head_radius(end: EndConnection) -> float:
    if head := end.sizes.get(Feature.FLANGE_HEAD_OD):
        return head / 2
    if across := end.side_mm or end.sizes.get(Feature.BOLT_SPACING_LONG):
        return 0.4 * across
    return end.hose_dn or 20.0


def _bore_radius(end: EndConnection) -> float:
    most = 0.92 * _ring(end)[0] / 2
    return min(end.hose_dn / 2, most) if end.hose_dn else most


def _rounded(x: float, y: float, cut: float) -> tuple[tuple[float, float], ...]:
    """Return a rectangle with cut corners, closed."""
    return (
        (-x + cut, -y), (x - cut, -y), (x, -y + cut), (x, y - cut),
        (x - cut, y), (-x + cut, y), (-x, y - cut), (-x, -y + cut), (-x + cut, -y),
    )  # fmt: skip
