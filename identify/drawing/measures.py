"""What can be measured on a drawing, and how it is written there."""

from identify.drawing.outline import (
    NOT_TO_SCALE,
    Dimension,
    Note,
    Point,
    Sheet,
    Side,
)
from identify.drawing.part import Part
from identify.frozen import dataclass, replace
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature, Kind

_SHORT: dict[Feature, str] = {Feature.SEAT_ANGLE: "seat"}

_LOOK = frozenset(
    feature
    for feature, info in FEATURES.items()
    if info.kind in (Kind.CHOICE, Kind.TAPER, Kind.TEXT) and feature is not Feature.FLANK_ANGLE
)  # a thread form is told by a gauge


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing a person can measure or look at on a sheet.

    Between `start` and `end` for a length, at `start` for the rest (`end` None). `value` is what
    the tables say of it, empty where they say nothing. `hint` is one sentence on how to take it.
    `always` marks one that is shown with its value when nothing is asked for. `on_face` tells that
    its points lie on the face, about its centre; else they lie in the section.
    """

    feature: Feature
    start: Point
    end: Point | None
    side: Side
    value: str = ""
    hint: str = ""
    always: bool = True
    on_face: bool = False


@dataclass(frozen=True, slots=True)
class Drawn:
    """A part with its title, how it lies in a section or side view, and what can be measured."""

    part: Part
    title: str
    lies: str
    measures: list[Measure]
    told: tuple[str, ...] = ()


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


def size_words(end: EndConnection, feature: Feature) -> str:
    """Write a size of an end as it stands on a drawing; empty where the tables do not know it."""
    size = end.sizes.get(feature)
    return millimetres(size) if size is not None else ""


def _label(measure: Measure, ask: Feature | None, value: str) -> str:
    name = FEATURES[measure.feature].label
    if ask is None:
        text = f"{_SHORT.get(measure.feature, name)} {measure.value}"
    elif value:
        text = f"{name} {value}"
    else:
        text = f"{name}: {'look' if measure.feature in _LOOK else 'measure'} here"
    return text


def _sentence(measure: Measure, ask: Feature | None, value: str) -> str:
    name = FEATURES[measure.feature].label
    known = measure.value if ask is None else value
    start = f"{name[0].upper()}{name[1:]}"
    told = f"{start}: {known}." if known else f"{start} is to be measured."
    return f"{told} {measure.hint}".strip()
