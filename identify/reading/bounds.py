"""Whether a value that comes from a file can be that of its feature."""

from math import isfinite

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Angle, Choice, Length, Marking, Pitch, Slope, Trial, Value
from identify.reading.choices import MOST_TURNS
from identify.reading.numbers import MAX_CHARS
from identify.reading.units import STEEPEST_TAPER

ROUNDING = 1e-9  # of a bound, for figures that went through text

_KINDS: dict[Kind, tuple[type[Value], ...]] = {
    Kind.LENGTH: (Length,),
    Kind.PITCH: (Pitch,),
    Kind.ANGLE: (Angle,),
    Kind.TAPER: (Choice, Slope),
    Kind.CHOICE: (Choice,),
    Kind.TEXT: (Marking,),
    Kind.TRIAL: (Trial,),
}


def possible(feature: Feature, value: Value) -> bool:
    """Tell whether a feature can have a value: kind, words, bounds, every figure finite.

    Values made by the readers always are; those from a file of another hand need not be.
    """
    if not isinstance(value, _KINDS[FEATURES[feature].kind]):
        return False
    match value:
        case Length(mm, spread) | Pitch(mm, _, spread):
            counted = value.pitches if isinstance(value, Pitch) else 0.0
            return (
                _number(mm, spread, counted) and _within(feature, mm) and spread <= mm
            ) and counted <= 1000
        case Angle(deg):
            return _number(deg) and _within(feature, deg)
        case Choice(word):
            return word in FEATURES[feature].choices
        case Slope(rise, over):
            return _number(rise, over) and 0 <= rise <= over * float(STEEPEST_TAPER) * (
                1 + ROUNDING
            )
        case Marking(text):
            return isinstance(text, str) and len(text) <= MAX_CHARS
        case Trial(known, _, turns):
            named = isinstance(known, str) and 0 < len(known) <= MAX_CHARS
            return named and (turns is None or (_number(turns) and 0 < turns <= MOST_TURNS))
    return False


def _number(*values: object) -> bool:
    return all(type(each) in (int, float) and isfinite(each) for each in values)  # type: ignore[arg-type]


def _within(feature: Feature, size: float) -> bool:
    info = FEATURES[feature]
    return info.low * (1 - ROUNDING) <= size <= info.high * (1 + ROUNDING)
