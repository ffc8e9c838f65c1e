"""What is typed on the entry line: units, and the text a reading is made from."""

from dataclasses import dataclass

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.tui.view.lines import Line, Tone, wrap


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit offered beside the entry line.

    `form` makes the text of the reading from a bare number; {} stands for it.
    """

    label: str
    form: str


@dataclass(frozen=True, slots=True)
class Typing:
    """What stands on the entry line. `opened` tells that letters are typed too."""

    text: str = ""
    opened: bool = False
    unit: str = ""
    hint: str = ""
    problem: str = ""


_MM, _INCH = Unit("mm", "{} mm"), Unit("in", "{} in")
_LEAF = (Unit("mm", "{} mm"), Unit("threads per inch", "{} tpi"))
_COUNTED = (
    Unit("mm over 10 pitches", "10 pitches = {} mm"),
    Unit("in over 10 pitches", "10 pitches = {} in"),
    Unit("mm over 5 pitches", "5 pitches = {} mm"),
    Unit("threads per inch", "{} tpi"),
)
_ANGLE = (
    Unit("deg, half or included not known", "{} deg"),
    Unit("deg half (middle line to side)", "{} deg half"),
    Unit("deg included (side to side)", "{} deg included"),
)


def entry_lines(typing: Typing, width: int) -> list[Line]:
    """Return the entry line with its cursor and unit, and under it what was wrong, or the hint.

    The cursor is always at the end, which is all that gloved fingers can use.
    """
    cursor = "█" if typing.opened or typing.text else "_"
    room = max(width - 3, 1)
    lines = [Line(f"> {typing.text[-room:]}{cursor}", Tone.HEAD)]
    if typing.unit:
        tail = f"  {typing.unit}"
        if len(lines[0].text) + len(tail) <= width:
            lines = [Line(lines[0].text + tail, Tone.HEAD)]
        else:
            lines += wrap(typing.unit, width, indent="  ")
    if typing.problem:
        lines += wrap(typing.problem, width, Tone.WARN, "! ")
    elif typing.hint:
        lines += wrap(typing.hint, width, Tone.QUIET, indent="  ")
    return lines


def units(feature: Feature, how: How | None, *, inch: bool) -> tuple[Unit, ...]:
    """Return the units in which a feature may be typed, the likely one first; none for words."""
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return (_INCH, _MM) if inch else (_MM, _INCH)
    if kind is Kind.PITCH:
        offered = _COUNTED if how is How.COUNTED else _LEAF
        return (offered[1], offered[0], *offered[2:]) if inch else offered
    return _ANGLE if kind is Kind.ANGLE else ()


def typed_text(typed: str, unit: Unit | None, feature: Feature) -> str:
    """Return the text of a reading from what stands on the entry line.

    Text with a unit of its own is left as it is. Of a taper, two numbers are the growth of the
    crest diameter and the distance along the thread.
    """
    plain = typed.strip()
    if any(letter.isalpha() or letter in "\"'°=" for letter in plain):
        return plain
    if FEATURES[feature].kind is Kind.TAPER:
        parts = plain.split()
        return f"{parts[0]} mm over {parts[1]} mm" if len(parts) == 2 else plain
    return unit.form.format(plain) if unit else plain
