"""Readings typed in the plainest way: a word of the list, or a number with its usual unit.

Nearly all are. They are read here without the grammar, which takes longer to import, and to make
the patterns of, than one verdict takes; a test holds the two against each other.
"""

from __future__ import annotations

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import USUAL, Angle, Basis, Choice, Length, Pitch, Reading

_MM = {"mm": (1, 1), "in": (254, 10)}
_DEG = {
    "": None, "deg": None, "half": Basis.HALF, "deg half": Basis.HALF,
    "included": Basis.INCLUDED, "deg included": Basis.INCLUDED,
}  # fmt: skip
_TPI = "tpi"
_SURE = 15  # digits that every reader of numbers agrees on


def plain_reading(name: str, text: str) -> Reading | None:
    """Return the reading that a text is as it stands, None where the grammar must look at it.

    Args:
        name: A feature, exactly as it is called.
        text: "male", "20.9 mm", "0.823 in", "14 tpi", "60 deg included".
    """
    if name not in FEATURES:
        return None
    feature = Feature(name)
    info = FEATURES[feature]
    if info.choices:
        said = text in info.choices
        return Reading(feature, Choice(text), USUAL[info.kind], text) if said else None
    number, _, unit = text.partition(" ")
    whole, point, tail = number.partition(".")
    digits = whole + tail
    if not (digits.isascii() and digits.isdecimal() and len(digits) < _SURE and int(digits)):
        return None
    if (whole[:1] in ("", "0") and whole != "0") or (point and not tail):
        return None
    value: Length | Pitch | Angle
    top, bottom = int(digits), 10 ** len(tail)
    if info.kind is Kind.ANGLE and unit in _DEG and top <= 90 * bottom:  # no more is a half angle
        value = Angle(size := top / bottom, _DEG[unit])
    elif info.kind in (Kind.LENGTH, Kind.PITCH) and unit in _MM:
        times, over = _MM[unit]
        size = top * times / (bottom * over)
        value = Length(size) if info.kind is Kind.LENGTH else Pitch(size)
    elif info.kind is Kind.PITCH and unit == _TPI:
        value = Pitch(size := 254 * bottom / (10 * top), inch=True)
    else:
        return None
    if not info.low <= size <= info.high:
        return None
    return Reading(feature, value, USUAL[info.kind], text)
