"""The bench view: a part from its side, and beside it what is seen looking into its end."""

from identify.drawing.measures import Drawn, Measure
from identify.drawing.outline import Sheet, Side
from identify.drawing.part import Part
from identify.drawing.revolved import joined, moved
from identify.drawing.views import end_view, seen_from_the_end, side_view
from identify.frozen import StrEnum, replace
from identify.model.feature import Feature

APART = 0.12  # of the height of the end view: what lies between the two views
_OUTSIDE = frozenset(
    {Feature.HEX, Feature.MARKING, Feature.RING_THICKNESS, Feature.FLANGE_HEAD_THICKNESS}
)
_ON_THREAD = frozenset(
    {Feature.THREAD_OD, Feature.PITCH, Feature.TAPER, Feature.FLANK_ANGLE, Feature.HAND,
     Feature.PLUG_OD, Feature.TUBE_OD}
)  # fmt: skip


class Look(StrEnum):
    """From where a part on the bench is looked at."""

    BENCH = "bench"  # from both
    SIDE = "side"
    END = "end"


def bench_sheet(drawn: Drawn, look: Look) -> Sheet:
    """Return the views of a part, nothing measured and nothing named.

    A hole in a block has no side: it is only looked into.
    """
    part = drawn.part
    look = _look(part, look)
    words = []
    if look is not Look.END:
        words.append(f"{drawn.title} from the side: {drawn.lies}.")
    if look is not Look.SIDE:
        words.append(f"{drawn.title}, seen looking into its end{_from_outside(part)}.")
    sheets = []
    if look is not Look.END:
        sheets.append(side_view(part))
    if look is not Look.SIDE:
        sheets.append(moved(end_view(part), (_centre(part, look), 0.0)))
    return replace(joined(*sheets), title=drawn.title, words=tuple(words))


def bench_measures(drawn: Drawn, look: Look) -> list[Measure]:
    """Return what can be measured on the views that `bench_sheet` draws, where it is seen there."""
    part = drawn.part
    look = _look(part, look)
    found = []
    for measure in drawn.measures:
        beside = not measure.on_face and _from_the_side(part, measure)
        if beside and look is not Look.END:
            found.append(measure)
        elif not beside and look is not Look.SIDE:
            found.append(_on_the_end(measure, _centre(part, look)))
    return found


def _look(part: Part, look: Look) -> Look:
    return Look.END if part.block else look


def _centre(part: Part, look: Look) -> float:
    """Return where along x the end view stands."""
    if look is Look.END:
        return 0.0
    left, bottom, _, top = end_view(part).bounds()
    return side_view(part).bounds()[2] - left + APART * (top - bottom)


def _from_the_side(part: Part, measure: Measure) -> bool:
    if measure.feature in _OUTSIDE:
        return True
    x = measure.start[0]
    inside = part.block or any(h.left <= x <= h.right for h in part.hexagons)
    return measure.feature in _ON_THREAD and not inside


def _on_the_end(measure: Measure, centre: float) -> Measure:
    """Return a measure as it lies in the end view: a length along y stays one."""
    x = (lambda point: point[0]) if measure.on_face else (lambda _: 0.0)
    ends = [(centre + x(point), point[1]) for point in (measure.start, measure.end) if point]
    side = Side.RIGHT if measure.side is Side.LEFT else measure.side
    return replace(measure, start=ends[0], end=ends[1] if len(ends) > 1 else None, side=side)


def _from_outside(part: Part) -> str:
    """Return the names of what is seen from the end, from the rim to the middle."""
    seen = [name for name in part.names if not name.below and seen_from_the_end(part, name.at)]
    inwards = sorted(seen, key=lambda name: -name.at[1])
    terms = [*(["hexagon"] if part.hexagons else []), *(name.term for name in inwards)]
    told = dict.fromkeys("thread" if term in ("crest", "root") else term for term in terms)
    return f"; from the rim to the middle: {', '.join(told)}" if told else ""
