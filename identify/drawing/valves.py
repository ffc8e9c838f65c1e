"""What closes the bore of a coupling half: a poppet, a flat valve, a pin."""

from identify.drawing.outline import Fill, Point
from identify.drawing.part import Body, Name, contour
from identify.model.connection import EndConnection

Valve = tuple[tuple[Body, ...], tuple[Name, ...]]


def valve_in(end: EndConnection, bore: list[Point], unit: float) -> Valve:
    """Return the valve that is seen in the mouth of a coupling half, and its name.

    Nothing for other ends. The form in the tables says which: flush with the face, a pin, else a
    poppet with a round tip.
    """
    if end.sealing != "coupling":
        return (), ()
    mouth = bore[0][1]
    if "flush" in end.form or "flat-faced" in end.form:
        name, tip, right = "valve", [(0.0, 0.97 * mouth)], 0.3 * unit
    elif "pin" in end.form:
        name, right = "pin", 0.6 * unit
        tip = [(0.02 * unit, 0.2 * mouth), (0.06 * unit, 0.3 * mouth)]
    else:
        name, right = "poppet", 0.5 * unit
        tip = [(0.1 * unit, 0.3 * mouth), (0.16 * unit, 0.6 * mouth), (0.26 * unit, 0.75 * mouth)]
    return (_turned(tip, right),), (Name(name, tip[0]),)


def _turned(nose: list[Point], right: float) -> Body:
    outer = contour([*nose, (right, nose[-1][1])])
    return Body(
        outer, contour([(nose[0][0], 0.0), (right, 0.0)]), fill=Fill.CUT_OTHER, broken=False
    )
