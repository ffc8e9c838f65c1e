"""What can be measured on a drawing, and how it is written there."""

from dataclasses import dataclass, replace

from identify.drawing.outline import (
    NOT_TO_SCALE,
    Dimension,
    Note,
    Point,
    Sheet,
    Side,
)
from identify.model.feature import FEATURES, Feature

LONGEST_LABEL = 34  # fits the narrowest canvas

LABELS: dict[Feature, str] = {
    Feature.THREAD_OD: "thread OD",
    Feature.THREAD_ID: "thread bore",
    Feature.PITCH: "pitch",
    Feature.TAPER: "taper",
    Feature.FLANK_ANGLE: "flank angle",
    Feature.HAND: "hand of thread",
    Feature.SEAT_SHAPE: "seat",
    Feature.SEAT_ANGLE: "seat angle",
    Feature.O_RING: "O-ring",
    Feature.TUBE_OD: "tube OD",
    Feature.TUBE_BORE: "tube bore",
    Feature.PORT_RIDGE: "raised ring",
    Feature.PLUG_OD: "plug OD",
    Feature.SOCKET_BORE: "socket bore",
    Feature.FLANGE_HEAD_OD: "head OD",
    Feature.FLANGE_HEAD_THICKNESS: "head thickness",
    Feature.BOLT_SPACING_LONG: "long spacing",
    Feature.BOLT_SPACING_SHORT: "short spacing",
    Feature.EYE_BORE: "eye bore",
    Feature.RING_ID: "ring ID",
    Feature.RING_OD: "ring OD",
    Feature.RING_THICKNESS: "ring thickness",
    Feature.HEX: "across flats",
    Feature.HOSE_BORE: "hose bore",
    Feature.MARKING: "marking",
}

_SHORT: dict[Feature, str] = {Feature.SEAT_ANGLE: "seat"}

_LOOK = frozenset(
    {
        Feature.SEAT_SHAPE,
        Feature.O_RING,
        Feature.PORT_RIDGE,
        Feature.TAPER,
        Feature.HAND,
        Feature.MARKING,
    }
)


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing a person can measure or look at on a sheet.

    Between `start` and `end` for a length, at `start` for the rest (`end` None). `value` is what
    the tables say of it, empty where they say nothing. `hint` is one sentence on how to take it.
    `always` marks one that is shown with its value when nothing is asked for.
    """

    feature: Feature
    start: Point
    end: Point | None
    side: Side
    value: str = ""
    hint: str = ""
    always: bool = True


def annotate(sheet: Sheet, measures: list[Measure], ask: Feature | None, value: str = "") -> Sheet:
    """Return the sheet with labels and the words that go with them.

    Args:
        sheet: The bare drawing with its title and words.
        measures: What can be measured on it.
        ask: The feature to be measured; only it is drawn, without the tables' value. None draws
            all that the tables know, with values.
        value: A reading to show at the asked dimension.
    """
    chosen = [m for m in measures if (m.feature is ask if ask else m.always and m.value)]
    dimensions, notes, words = list(sheet.dimensions), list(sheet.notes), list(sheet.words)
    for measure in chosen:
        label = _label(measure, ask, value)
        if measure.end is None:
            notes.insert(0, Note(measure.start, measure.side, label, ask is not None))
        else:
            dimensions.append(
                Dimension(measure.start, measure.end, measure.side, label, ask is not None)
            )
        words.append(_sentence(measure, ask, value))
    if ask and not chosen:
        words.append(f"This end shows no {FEATURES[ask].words} to measure.")
    words.append(NOT_TO_SCALE)
    return replace(sheet, dimensions=tuple(dimensions), notes=tuple(notes), words=tuple(words))


def millimetres(value: float) -> str:
    """Write a length as it stands on a drawing."""
    return f"{value:.2f}".rstrip("0").rstrip(".") + " mm"


def _label(measure: Measure, ask: Feature | None, value: str) -> str:
    name = LABELS[measure.feature]
    if ask is None:
        text = f"{_SHORT.get(measure.feature, name)} {measure.value}"
    elif value:
        text = f"{name} {value}"
    else:
        text = f"{name}: {'look' if measure.feature in _LOOK else 'measure'} here"
    return text


def _sentence(measure: Measure, ask: Feature | None, value: str) -> str:
    name = LABELS[measure.feature]
    known = measure.value if ask is None else value
    start = f"{name[0].upper()}{name[1:]}"
    told = f"{start}: {known}." if known else f"{start} is to be measured."
    return f"{told} {measure.hint}".strip()
