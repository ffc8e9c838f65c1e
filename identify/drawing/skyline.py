"""What of several contours is seen from one side: the uppermost, and the edges where it turns."""

import math
from itertools import pairwise

from identify.drawing.outline import Point
from identify.frozen import dataclass
from identify.light import Iterable, Sequence

Chain = tuple[Point, ...]
EDGE_DEG = 15.0  # a turn of less is part of a round, not an edge
_NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Piece:
    """A straight piece that is seen, from left to right, and which chain it belongs to."""

    start: Point
    end: Point
    owner: int

    @property
    def slope_deg(self) -> float:
        """Its angle against the x axis [deg]."""
        (x1, y1), (x2, y2) = self.start, self.end
        return math.degrees(math.atan2(y2 - y1, x2 - x1))


def skyline(chains: Sequence[Chain]) -> tuple[Piece, ...]:
    """Return what is seen of the chains from above (y towards plus infinity), left to right.

    Chains may touch but not cross between their corners.
    """
    places = sorted({x for chain in chains for x, _ in chain})
    kept = [places[0]] if places else []
    for place in places:
        if place - kept[-1] > _NEAR:
            kept.append(place)
    pieces = []
    for left, right in pairwise(kept):
        middle = (left + right) / 2
        found = [
            (_height(one, other, middle), owner, one, other)
            for owner, chain in enumerate(chains)
            for one, other in pairwise(chain)
            if min(one[0], other[0]) < middle < max(one[0], other[0])
        ]
        if found:
            _, owner, one, other = max(found)
            ends = [(x, _height(one, other, x)) for x in (left, right)]
            pieces.append(Piece(ends[0], ends[1], owner))
    return tuple(pieces)


def edges(pieces: Iterable[Piece]) -> tuple[Point, ...]:
    """Return where what is seen steps, turns sharply or ends: place and the greater height."""
    found: list[Point] = []
    before: Piece | None = None
    for piece in (*pieces, None):
        apart = before is None or piece is None or piece.start[0] - before.end[0] > _NEAR
        if before is not None and apart:
            found.append(before.end)
        if piece is not None and apart:
            found.append(piece.start)
        elif before is not None and piece is not None:
            turn = abs(piece.slope_deg - before.slope_deg)
            if abs(piece.start[1] - before.end[1]) > _NEAR or turn > EDGE_DEG:
                found.append((piece.start[0], max(piece.start[1], before.end[1])))
        before = piece
    return tuple(found)


def _height(one: Point, other: Point, x: float) -> float:
    (x1, y1), (x2, y2) = one, other
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1)
