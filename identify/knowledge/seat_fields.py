"""The ways a seat is made: shape, half angle, O-ring, share, thread of the variant."""

import re
from math import isclose

from identify.errors import near_miss
from identify.knowledge.fields import Fields
from identify.model.connection import Seat, Shape
from identify.model.feature import CAPTIVE, O_RINGS
from identify.model.thread import Thread

_CONES = (Shape.CONVEX, Shape.CONCAVE)
_MAY_HAVE_ANGLE = (*_CONES, Shape.BALL, Shape.CHAMFER)
_ANGLE = re.compile(r"([0-9]+(?:\.[0-9]+)?) deg")


def read_seats(
    where: Fields, row_thread: str | None, threads: dict[str, Thread]
) -> tuple[Seat, ...]:
    """Return the variants of a seat; a fault where they are not a whole.

    Args:
        where: The entry that holds `seats`.
        row_thread: Designation of the row's own thread, None for flanges and plugs.
        threads: Every known thread by designation.
    """
    seats = tuple(_seat(entry, row_thread, threads) for entry in where.sections("seats", "seat"))
    total = sum(seat.share for seat in seats)
    if not seats:
        where.fault("seats", "is missing; a part without a seat has one of shape none")
        return (Seat(Shape.NONE),)
    if not isclose(total, 1, abs_tol=1e-6):
        where.fault("seats", f"have shares that total {total:g}; they must total 1")
    return seats


def _seat(entry: Fields, row_thread: str | None, threads: dict[str, Thread]) -> Seat:
    shape = Shape(entry.choice("shape", tuple(Shape)))
    seat = Seat(
        shape=shape,
        half_angle_deg=_half_angle(entry, shape),
        o_ring=entry.choice("o_ring", O_RINGS, "none"),
        share=entry.number("share", 1.0, low=0, high=1),
        thread=_variant(entry, row_thread, threads),
        part=entry.text("part", ""),
    )
    if seat.o_ring == CAPTIVE and shape is not Shape.FLAT:
        entry.fault(
            "o_ring", f"is captive in a {shape} seat; a captive ring sits in a flat shoulder"
        )
    entry.close()
    return seat


def _half_angle(entry: Fields, shape: Shape) -> float | None:
    if not entry.has("half_angle"):
        if shape in _CONES:
            entry.fault(
                "half_angle", f'is missing; a {shape} seat is a cone; write it like "37 deg"'
            )
        return None
    words = entry.text("half_angle")
    match = _ANGLE.fullmatch(words)
    if not isinstance(entry.data["half_angle"], str):
        return None
    if not match:
        entry.fault("half_angle", f'is "{words}", not an angle; write it like "37 deg"')
        return None
    angle = float(match[1])
    if shape not in _MAY_HAVE_ANGLE:
        entry.fault("half_angle", f"is given for the shape {shape}, which has none; leave it out")
    if not 0 < angle <= 90:
        entry.fault("half_angle", f"is {angle:g} deg; it counts from the axis, 0 to 90")
    return angle


def _variant(entry: Fields, row_thread: str | None, threads: dict[str, Thread]) -> str:
    """Return the variant's thread: a designation, or the letters that replace the row's own."""
    if not entry.has("thread"):
        return ""
    name = entry.text("thread")
    if name in threads:
        return name
    in_size = " ".join([name, *(row_thread or "").split()[1:]])
    if in_size in threads:
        return in_size
    entry.fault(
        "thread", f'is "{name}", which no thread table has{near_miss(name, tuple(threads))}'
    )
    return ""
