"""Ends without a thread of their own: coupling plugs and spigots, banjo eyes, sealing washers."""

from identify.drawing.measures import Drawn, Measure, size_words
from identify.drawing.outline import Kind, Line, Side
from identify.drawing.part import Body, Name, Part, contour, named_outside
from identify.drawing.proportions import ring_section_mm
from identify.drawing.revolved import arc, circle, ring_section
from identify.drawing.seat_words import seat_words
from identify.drawing.valves import valve_in
from identify.model.connection import EndConnection
from identify.model.feature import Feature


def plug_part(end: EndConnection) -> Drawn:
    """Return a plain plug or spigot, its nose to the left."""
    radius = (end.sizes.get(Feature.PLUG_OD) or 1.6 * (end.hose_dn or 10.0)) / 2
    bore = min((end.hose_dn or 1.1 * radius) / 2, 0.6 * radius)
    unit = 2 * radius
    grooves: list[tuple[float, float, float]]  # left, right, radius of the floor
    seals = []
    if end.sealing == "spigot":
        grooves = [(0.22, 0.36, 0.84), (0.6, 0.76, 0.86)]
        found = ring_section_mm(end)
        thick = min(found[1] / 2 if found else 0.06 * unit, 0.07 * unit)
        centre = (0.29 * unit, 0.84 * radius + thick)
        seals = [ring_section(centre, max(thick, 0.045 * unit))]
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
    mouth = [(0.0, bore), (tail, bore)]
    metal = Body(contour(outline), contour(mouth))
    last = grooves[-1]
    names = [
        named_outside("nose", (0.0, 0.94 * radius)),
        named_outside("shoulder", (shoulder, 0.9 * wide)),
        named_outside("groove", ((last[0] + last[1]) / 2 * unit, last[2] * radius)),
    ]
    if seals:
        names.append(Name("O-ring", centre))
    valve, valve_names = valve_in(end, mouth, unit)
    part = Part((metal, *valve), tuple(seals), names=(*names, *valve_names))
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
    return Drawn(part, f"{end.title}, plug", "nose to the left, hose to the right", measures,
                 (told,))  # fmt: skip


def socket_part(end: EndConnection) -> Drawn:
    """Return a socket that takes a plain plug or spigot, its mouth to the left."""
    bore = (end.sizes.get(Feature.SOCKET_BORE) or 1.6 * (end.hose_dn or 10.0)) / 2
    unit, hose = 2 * bore, min((end.hose_dn or bore) / 2, 0.6 * bore)
    step, right = 0.9 * unit, 1.7 * unit
    mouth = [(0.0, 1.06 * bore), (0.05 * unit, bore), (step, bore), (step, hose), (right, hose)]
    names = [Name("socket", (0.5 * unit, bore))]
    beside, front = [], []
    if end.sealing == "spigot":  # two slots across it take the staple
        wall, at = 1.45 * bore, (0.6 * unit, 0.72 * unit)
        outline = [(0.0, wall), (step + 0.2 * unit, wall)]
        slot = [(at[0], 0.55), (at[1], 0.55), (at[1], 0.95), (at[0], 0.95), (at[0], 0.55)]
        beside = [Line(Kind.OUTLINE, tuple((x, side * y * wall) for x, y in slot))
                  for side in (1, -1)]  # fmt: skip
        told = "The staple goes through the two slots."
        names.append(Name("slot for the staple", (at[0], 0.75 * wall)))
    else:
        wall = 1.4 * bore
        sleeve = 1.6 * bore
        outline = [(0.0, wall), (0.12 * unit, wall), (0.12 * unit, sleeve), (0.85 * unit, sleeve),
                   (0.85 * unit, wall), (step + 0.25 * unit, wall)]  # fmt: skip
        beside = [Line(Kind.HATCH, ((x * unit, -sleeve), (x * unit, sleeve)))
                  for x in (0.3, 0.36, 0.42, 0.48)]  # fmt: skip
        told = "The sleeve slides back and lets the balls go."
        names.append(named_outside("sleeve", (0.4 * unit, sleeve)))
        if "ball" in end.form:
            spots = arc((0.0, 0.0), 0.97 * bore, 0.0, 315.0, 7)
            front = [Line(Kind.OUTLINE, circle(at_ball, 0.09 * bore, 10)) for at_ball in spots]
    outline += [(outline[-1][0], 0.9 * bore), (right, 0.9 * bore)]
    metal = Body(contour(outline), contour(mouth))
    valve, valve_names = valve_in(end, mouth[1:], unit)
    part = Part((metal, *valve), (), (), tuple(front), tuple(beside),
                names=(*names, *valve_names))  # fmt: skip
    measures = [
        Measure(Feature.SOCKET_BORE, (0.3 * unit, -bore), (0.3 * unit, bore), Side.LEFT,
                size_words(end, Feature.SOCKET_BORE), "Caliper inside the plain bore."),
        Measure(Feature.SEAT_SHAPE, (step, 0.8 * bore), None, Side.TOP, seat_words(end),
                always=False),
    ]  # fmt: skip
    return Drawn(part, f"{end.title}, socket", "mouth to the left, hose to the right", measures,
                 (told,))  # fmt: skip


def eye_part(end: EndConnection) -> Drawn:
    """Return the ring eye of a banjo, its axis the one of its hollow bolt, its hose upwards."""
    bore = (end.sizes.get(Feature.EYE_BORE) or 1.6 * (end.hose_dn or 8.0)) / 2
    rim, neck, tail, thick = 1.65 * bore, 0.6 * bore, 3.4 * bore, 1.5 * bore
    metal = Body(
        contour([(0.0, 1.45 * bore), (0.06 * bore, rim), (thick - 0.06 * bore, rim),
                 (thick, 1.45 * bore)]),
        contour([(0.0, bore), (thick, bore)]), broken=False,
    )  # fmt: skip
    left = thick / 2 - neck
    pipe = [Line(Kind.OUTLINE, ((left + side * 2 * neck, rim), (left + side * 2 * neck, tail)))
            for side in (0, 1)]  # fmt: skip
    spread = (rim**2 - neck**2) ** 0.5
    stem = [Line(Kind.OUTLINE, ((side * neck, spread), (side * neck, tail))) for side in (-1, 1)]
    names = (Name("eye", (0.0, bore)), Name("face", (0.0, 1.25 * bore)))
    part = Part((metal,), (), (), tuple(stem), tuple(pipe), seat=(0.0, 1.25 * bore), names=names)
    measures = [
        Measure(Feature.EYE_BORE, (0.0, -bore), (0.0, bore), Side.LEFT,
                size_words(end, Feature.EYE_BORE),
                "Caliper the bore of the eye, without the bolt."),
        Measure(Feature.SEAT_SHAPE, (0.0, 1.25 * bore), None, Side.TOP, seat_words(end),
                always=False),
    ]  # fmt: skip
    return Drawn(part, f"{end.title}, banjo eye", "its edge towards you, hose upwards", measures,
                 ("A hollow bolt goes through the eye.",
                  "A sealing washer lies on each of the two flat faces."))  # fmt: skip


def washer_part(end: EndConnection) -> Drawn:
    """Return a sealing washer, lying on its edge in a side view."""
    outer = (end.sizes.get(Feature.RING_OD) or 1.5 * (end.sizes.get(Feature.RING_ID) or 10.0)) / 2
    inner = (end.sizes.get(Feature.RING_ID) or 0.66 * 2 * outer) / 2
    thick = end.sizes.get(Feature.RING_THICKNESS) or 0.1 * outer
    bonded = end.sealing == "bonded_washer"
    lip = 0.18 * (outer - inner) if bonded else 0.0
    metal = Body(contour([(0.0, outer), (thick, outer)]),
                 contour([(0.0, inner + lip), (thick, inner + lip)]), broken=False)  # fmt: skip
    rubber = ((0.0, inner + lip), (thick, inner + lip), (thick / 2, inner))
    names = [Name("metal ring", (0.0, outer))]
    if bonded:
        names.append(Name("lip", (thick / 2, inner)))
    part = Part((metal,), (rubber,) if bonded else (), names=tuple(names))
    measures = [
        Measure(Feature.RING_ID, (0.0, -inner), (0.0, inner), Side.LEFT,
                size_words(end, Feature.RING_ID),
                "Caliper inside the metal ring or lip as it lies."),
        Measure(Feature.RING_OD, (thick, -outer), (thick, outer), Side.RIGHT,
                size_words(end, Feature.RING_OD), "Caliper over the metal ring."),
        Measure(Feature.RING_THICKNESS, (0.0, -outer), (thick, -outer), Side.BOTTOM,
                size_words(end, Feature.RING_THICKNESS), "Caliper the metal ring, not the rubber."),
    ]  # fmt: skip
    return Drawn(part, f"{end.title}, sealing washer", "lying on its edge", measures,
                 (f"Seal: {end.seal}.",))  # fmt: skip
