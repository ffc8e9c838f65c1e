"""A part before it is looked at: turned bodies, rings and hexagons about one axis [mm].

`views` draws it cut, from the side, or looking into its end; all from this one value.
"""

import math

from identify.drawing.outline import Fill, Line, Point, ThreadRun
from identify.frozen import dataclass, replace

OUTER_HALF = 0.5  # a point of a helix is half a pitch further on after half a turn


@dataclass(frozen=True, slots=True)
class Contour:
    """A contour from left to right, above the axis [mm].

    Where the contour is threaded, `points[at]` and `points[at + 1]` are the ends of the root line
    of `run`, and the run is drawn instead of that chord.
    """

    points: tuple[Point, ...]
    run: ThreadRun | None = None
    at: int = 0

    @property
    def crested(self) -> tuple[Point, ...]:
        """The contour along the crests: the envelope of its thread."""
        if self.run is None:
            return self.points
        cut = self.at + 1
        return (*self.points[:cut], self.run.start, self.run.end, *self.points[cut:])


def contour(before: list[Point], run: ThreadRun | None = None, after: list[Point] = []) -> Contour:  # noqa: B006 - never changed
    """Return a contour with a run of thread between two chains of points."""
    if run is None:
        return Contour((*before, *after))
    step = -run.depth_mm if run.male else run.depth_mm
    root = [(x, y + step) for x, y in (run.start, run.end)]
    return Contour((*before, *root, *after), run, len(before))


@dataclass(frozen=True, slots=True)
class Body:
    """One turned piece.

    `outer` and `inner` are its contours, `face` the points between them at its left end where that
    is not plain, `fill` how its metal is hatched. `broken`: it goes on to the right, no edge is
    drawn there. `edges_to`: edges round the bore are seen up to this x; beyond it another piece is.
    """

    outer: Contour
    inner: Contour
    face: tuple[Point, ...] = ()
    fill: Fill = Fill.CUT
    broken: bool = True
    edges_to: float = math.inf


@dataclass(frozen=True, slots=True)
class Hexagon:
    """Where a body is a hexagon: from `left` to `right`, `corner_mm` from axis to corner."""

    left: float
    right: float
    corner_mm: float


@dataclass(frozen=True, slots=True)
class Name:
    """What a place of the part is called in the trade.

    `at` lies above the axis, `below` under it where the place is seen from outside as well.
    """

    term: str
    at: Point
    below: Point | None = None


def named_outside(term: str, at: Point) -> Name:
    """Return the name of a place that is seen alike above and below the axis."""
    return Name(term, at, (at[0], -at[1]))


@dataclass(frozen=True, slots=True)
class Part:
    """An end as it is drawn.

    `bodies` from the outermost to the innermost. `seals` are cut sections of rings above the axis.
    `front` is what only the end view shows (bolt holes, a square outline), `beside` what only the
    side view shows, in the coordinates of the view. `turned_to` is the radius up to which the
    bodies are round; what is further out `front` shows. `block`: a hole in something larger, so
    that there is no side to see. `seat` is a point on the seat, `names` what its places are called.
    """

    bodies: tuple[Body, ...]
    seals: tuple[tuple[Point, ...], ...] = ()
    hexagons: tuple[Hexagon, ...] = ()
    front: tuple[Line, ...] = ()
    beside: tuple[Line, ...] = ()
    turned_to: float = math.inf
    block: bool = False
    seat: Point | None = None
    names: tuple[Name, ...] = ()

    @property
    def right(self) -> float:
        """Where the part ends or breaks off."""
        return max(body.outer.points[-1][0] for body in self.bodies)


def half_turn(run: ThreadRun) -> ThreadRun:
    """Return the run as it lies on the other side of the axis: half a pitch on."""
    (x1, y1), (x2, y2) = run.start, run.end
    step = run.pitch_mm * OUTER_HALF
    rise = (y2 - y1) * step / (x2 - x1) if x2 != x1 else 0.0
    return replace(run, start=(x1 + step, -y1 - rise), end=(x2 - step, rise - y2))
