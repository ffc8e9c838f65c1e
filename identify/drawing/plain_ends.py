"""Ends without a thread of their own: coupling plugs and spigots, banjo eyes, sealing washers."""

from identify.drawing.measures import Measure, annotate, size_words
from identify.drawing.outline import Fill, Kind, Line, Region, Sheet, Side
from identify.drawing.proportions import ring_section_mm
from identify.drawing.revolved import (
    arc,
    axis,
    break_line,
    circle,
    contour,
    cut_half,
    joined,
    mirrored,
    outside_half,
    ring_section,
)
from identify.drawing.seat_words import seat_words
from identify.frozen import replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature


def plug_sheet(end: EndConnection, ask: Feature | None, value: str = "") -> Sheet:
    """Return the half section of a plain plug or spigot, its nose to the left."""
    radius = (end.sizes.get(Feature.PLUG_OD) or 1.6 * (end.hose_dn or 10.0)) / 2
    bore = min((end.hose_dn or 1.1 * radius) / 2, 0.6 * radius)
    unit = 2 * radius
    grooves: list[tuple[float, float, float]]  # left, right, radius of the floor
    rings = []
    if end.sealing == "spigot":
        grooves = [(0.22, 0.36, 0.84), (0.6, 0.76, 0.86)]
        found = ring_section_mm(end)
        section = min(found[1] / 2 if found else 0.06 * unit, 0.07 * unit)
        rings = [ring_section((0.29 * unit, 0.84 * radius + section), section)]
        told = "An O-ring sits in the front groove, the staple in the rear one."
    else:
        grooves = [(0.62, 0.74, 0.86)]
        told = "The socket's balls or rollers lock in the groove."
    outline = [(0.0, 0.94 * radius), (0.05 * unit, radius)]
    for left, right, floor in grooves:
        outline += [(left * unit, radius), (left * unit, floor * radius),
                    (right * unit, floor * radius), (right * unit, radius)]  # fmt: skip
    shoulder, wide, tail = unit, 1.25 * radius, 1.6 * unit
    outline += [(shoulder, radius), (shoulder, wide), (1.25 * unit, wide),
                (1.25 * unit, 0.8 * radius), (tail, 0.8 * radius)]  # fmt: skip
    outer, inner = contour(outline), contour([(0.0, bore), (tail, bore)])
    parts = [
        cut_half(outer, inner), outside_half(outer), *rings,
        axis(-0.15 * unit, tail + 0.1 * unit), break_line(tail, 0.8 * radius, -0.8 * radius),
    ]  # fmt: skip
    title = f"{end.title}, plug"
    words = (f"Half section of {title}: nose to the left, hose to the right.", told)
    at = 0.45 * unit
    measures = [
        Measure(Feature.PLUG_OD, (at, -radius), (at, radius), Side.LEFT,
                size_words(end, Feature.PLUG_OD),
                "Caliper the plain part, clear of the grooves."),
        Measure(Feature.O_RING, (0.29 * unit, 0.95 * radius), None, Side.TOP,
                end.o_ring_size or "", always=end.sealing == "spigot"),
        Measure(Feature.SEAT_SHAPE, (0.0, 0.8 * radius), None, Side.TOP, seat_words(end),
                always=False),
        Measure(Feature.MARKING, (1.12 * unit, -0.8 * wide), None, Side.BOTTOM, always=False),
    ]  # fmt: skip
    return annotate(replace(joined(*parts), title=title, words=words), measures, ask, value)


def banjo_sheet(end: EndConnection, ask: Feature | None, value: str = "") -> Sheet:
    """Return the eye of a banjo from the front, its hose tail to the right."""
    bore = (end.sizes.get(Feature.EYE_BORE) or 1.6 * (end.hose_dn or 8.0)) / 2
    rim, neck = 1.65 * bore, 0.6 * bore
    tail = 4.2 * bore
    angle = 21.0  # where the neck leaves the rim: sin(21 deg) * 1.65 = 0.6
    lines = [
        Line(Kind.OUTLINE, circle((0.0, 0.0), bore, 40)),
        Line(Kind.OUTLINE, arc((0.0, 0.0), rim, angle, 360 - angle, 40)),
        Line(Kind.HATCH, circle((0.0, 0.0), 1.45 * bore, 40)),
    ]
    start = rim * 0.934
    lines += [
        Line(Kind.OUTLINE, ((start, side * neck), (2.6 * bore, side * neck),
                            (2.6 * bore, side * 0.8 * bore), (tail, side * 0.8 * bore)))
        for side in (1, -1)
    ]  # fmt: skip
    lines += [
        Line(Kind.OUTLINE, ((2.6 * bore, 0.8 * bore), (2.6 * bore, -0.8 * bore))),
        Line(Kind.CENTRE, ((0.0, -1.2 * rim), (0.0, 1.2 * rim))),
    ]
    parts = [
        Sheet("", tuple(lines)), axis(-1.2 * rim, tail + 0.2 * bore),
        break_line(tail, 0.8 * bore, -0.8 * bore),
    ]  # fmt: skip
    title = f"{end.title}, banjo eye"
    words = (
        f"Front view of {title}: a hollow bolt goes through the eye, the hose is to the right.",
        "A sealing washer lies on each of the two flat faces.",
    )
    measures = [
        Measure(Feature.EYE_BORE, (0.0, -bore), (0.0, bore), Side.LEFT,
                size_words(end, Feature.EYE_BORE),
                "Caliper the bore of the eye, without the bolt."),
        Measure(Feature.SEAT_SHAPE, (-1.25 * bore * 0.7, 1.25 * bore * 0.7), None, Side.TOP,
                seat_words(end), always=False),
    ]  # fmt: skip
    return annotate(replace(joined(*parts), title=title, words=words), measures, ask, value)


def washer_sheet(end: EndConnection, ask: Feature | None, value: str = "") -> Sheet:
    """Return a sealing washer: its face, and beside it the section across it."""
    outer = (end.sizes.get(Feature.RING_OD) or 1.5 * (end.sizes.get(Feature.RING_ID) or 10.0)) / 2
    inner = (end.sizes.get(Feature.RING_ID) or 0.66 * 2 * outer) / 2
    thick = end.sizes.get(Feature.RING_THICKNESS) or 0.1 * outer
    lip = 0.18 * (outer - inner)
    at = 1.5 * outer  # left side of the section
    bar = [(at, inner + lip), (at, outer), (at + thick, outer), (at + thick, inner + lip)]
    half = Sheet(
        "",
        (Line(Kind.OUTLINE, (*bar, bar[0])),),
        (
            Region(Fill.CUT, tuple(bar)),
            Region(
                Fill.SEAL, ((at, inner + lip), (at + thick, inner + lip), (at + thick / 2, inner))
            ),
        ),
    )
    face = Sheet("", tuple(
        Line(Kind.OUTLINE if radius != inner + lip else Kind.HATCH, circle((0.0, 0.0), radius, 48))
        for radius in (outer, inner + lip, inner)
    ))  # fmt: skip
    right = at + thick + 0.15 * outer
    upright = Sheet("", (Line(Kind.CENTRE, ((0.0, -1.12 * outer), (0.0, 1.12 * outer))),))
    title = f"{end.title}, sealing washer"
    words = (f"{title}: seen on its face, and beside it cut across.", f"Seal: {end.seal}.")
    bare = joined(face, half, mirrored(half), axis(-1.12 * outer, right), upright)
    measures = [
        Measure(Feature.RING_ID, (0.0, -inner), (0.0, inner), Side.LEFT,
                size_words(end, Feature.RING_ID),
                "Caliper inside the metal ring or lip as it lies."),
        Measure(Feature.RING_OD, (at, -outer), (at, outer), Side.RIGHT,
                size_words(end, Feature.RING_OD), "Caliper over the metal ring."),
        Measure(Feature.RING_THICKNESS, (at, -outer), (at + thick, -outer), Side.BOTTOM,
                size_words(end, Feature.RING_THICKNESS), "Caliper the metal ring, not the rubber."),
    ]  # fmt: skip
    return annotate(replace(bare, title=title, words=words), measures, ask, value)
