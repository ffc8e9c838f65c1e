"""What bare numbers mean on the entry line: the units in which an answer may be typed."""

from collections.abc import Collection
from contextlib import suppress

from identify.errors import ReadingError
from identify.frozen import dataclass
from identify.interview.snapshot import Ask, Snapshot
from identify.light import re
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How
from identify.model.rule import Tool

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?(?:/[0-9]+)?|[.,][0-9]+"
_COUNT_WITHOUT_UNIT = rf"(?:{_NUMBER}) ?(?:gap|pitch|thread).*[^0-9.,/](?:{_NUMBER})"


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit offered beside the entry line.

    `forms` make the text of a reading from bare numbers, by how many they are: {} stands for each.
    `example` is what may be typed.
    """

    label: str
    forms: tuple[str, ...]
    example: str = ""


_MM, _INCH = Unit("mm", ("{} mm",)), Unit("in", ("{} in",))
_METRIC, _TPI = Unit("mm", ("{} mm",)), Unit("threads per inch", ("{} tpi",))
_EITHER = Unit("mm or threads per inch", (*_METRIC.forms, *_TPI.forms))
_GAPS_MM = Unit("gaps, then mm over them", ("{} gaps over {} mm",), "6 9.05")
_GAPS_INCH = Unit("gaps, then inches over them", ("{} gaps over {} in",), "6 0.356")
_PER_INCH = Unit("threads, counted on one inch", ("{} tpi counted",), "14")
_TWO_MM = Unit(
    "mm: two diameters, then how far apart", ("{} and {} mm, {} mm apart", "{} mm over {} mm"),
    "20.45 20.95 8",
)  # fmt: skip
_TWO_INCH = Unit(
    "in: two diameters, then how far apart", ("{} and {} in, {} in apart", "{} in over {} in"),
    "0.805 0.825 0.315",
)  # fmt: skip
_CONE_MM = Unit("mm: two diameters, then how far apart", _TWO_MM.forms[:1], "10.2 14.7 3")
_CONE_INCH = Unit("in: two diameters, then how far apart", _TWO_INCH.forms[:1], "0.4 0.58 0.12")
_UNSAID = Unit("deg, half or included not known", ("{} deg",))
_HALF = Unit("deg half (middle line to side)", ("{} deg half",))
_INCLUDED = Unit("deg included (side to side)", ("{} deg included",))
_SEAT_LEAF = Unit("deg, half or included", ("{} deg",))
_GAUGES = {Tool.METRIC_GAUGE: _METRIC, Tool.INCH_GAUGE: _TPI}


def units(ask: Ask, *, inch: bool, tools: Collection[Tool] = ()) -> tuple[Unit, ...]:
    """Return the units in which an answer may be typed, that of the tool first; none for words.

    The leaves of the gauges at hand have one unit: no number is a leaf of two of them.
    """
    kind = FEATURES[ask.text.feature].kind
    if ask.by_value and kind is Kind.PITCH:
        bag = [unit for tool, unit in _GAUGES.items() if tool is ask.tool or tool in tools]
        return (_EITHER,) if len(bag) > 1 else tuple(bag)
    if kind is Kind.LENGTH:
        return (_INCH, _MM) if inch else (_MM, _INCH)
    if kind is Kind.TAPER:
        return (_TWO_INCH, _TWO_MM) if inch else (_TWO_MM, _TWO_INCH)
    if kind is Kind.PITCH:
        return _pitch_units(ask, inch=inch)
    if kind is Kind.ANGLE and ask.tool is Tool.CALIPER:
        return (_CONE_INCH, _CONE_MM) if inch else (_CONE_MM, _CONE_INCH)
    if kind is Kind.ANGLE and ask.by_value:
        return (_SEAT_LEAF,)
    if kind is Kind.ANGLE:
        return (_INCLUDED, _HALF) if ask.tool is Tool.PROTRACTOR else (_UNSAID, _HALF, _INCLUDED)
    return ()


def unit_of(snapshot: Snapshot, ask: Ask) -> Unit | None:
    """Return the unit that a bare number takes now, None where answers are words."""
    offered = units(ask, inch=snapshot.inch, tools=snapshot.state.tools)
    return offered[snapshot.unit % len(offered)] if offered else None


def whole_leaf(ask: Ask, typed: str, tools: Collection[Tool] = ()) -> bool:
    """Tell whether a leaf stands there whole: of two figures or more, and none longer begins so.

    Args:
        ask: The question.
        typed: What stands on the entry line.
        tools: What is to hand: the leaves of both pitch gauges count where both are.
    """
    if not ask.by_value or len(typed) < 2:
        return False
    bag = {ask.tool, *(tool for tool in _GAUGES if tool in tools and ask.tool in _GAUGES)}
    words = {
        each.word
        for wording in ask.text.wordings
        if not bag.isdisjoint(wording.tools)
        for each in wording.choices
    }
    leaves = {word.split()[0] for word in words or {each.word for each in ask.choices}}
    if ask.text.feature is Feature.SEAT_ANGLE:  # named by the half angle or by the whole one
        leaves |= {f"{2 * float(each):g}" for each in leaves}
    plain = typed.replace(",", ".")
    return plain in leaves and not any(each != plain and each.startswith(plain) for each in leaves)


def _pitch_units(ask: Ask, *, inch: bool) -> tuple[Unit, ...]:
    if ask.how is How.COUNTED:
        spans = (_GAPS_INCH, _GAPS_MM) if inch else (_GAPS_MM, _GAPS_INCH)
        return (*spans, _PER_INCH)
    tpi_first = ask.tool is Tool.INCH_GAUGE or (inch and ask.tool is not Tool.METRIC_GAUGE)
    return (_TPI, _METRIC) if tpi_first else (_METRIC, _TPI)


def typed_text(typed: str, unit: Unit | None, kind: Kind) -> str:
    """Return the text of a reading from what stands on the entry line.

    Text with a unit of its own is left as it is; a count of gaps that lacks only the unit of its
    length gets it. A fraction is no millimetres.

    Raises:
        ReadingError: There are more or fewer numbers than the unit takes.
    """
    plain = typed.strip()
    if unit is None or not plain:
        return plain
    if kind is Kind.PITCH and re.fullmatch(_COUNT_WITHOUT_UNIT, plain.lower()):
        return f"{plain} {'in' if unit is _GAPS_INCH else 'mm'}"
    if any(letter.isalpha() or letter in "\"'°%±" for letter in plain):
        return plain
    if unit is _MM and "/" in plain:
        return plain  # a trade size, as likely as an inch: the reader asks
    if plain[0] not in "0123456789.,":
        return plain
    if unit is _EITHER:
        return _leaf(plain)
    if unit.forms[0].count("{}") == 1:
        return unit.forms[0].format(plain)
    numbers = [number.strip(",;") for number in re.split(r"[ =]+", plain)]
    for form in unit.forms:
        if form.count("{}") == len(numbers):
            return form.format(*numbers)
    wanted = " or ".join(str(form.count("{}")) for form in unit.forms)
    raise ReadingError(
        f'"{plain[:40]}" is {len(numbers)} of the {wanted} numbers asked for. Type {unit.label}, '
        f"such as {unit.example}."
    )


def _leaf(number: str) -> str:
    """Return a number with the unit in which it can be a pitch; a law says that it is one only."""
    from identify.reading.units import parse_pitch

    info = FEATURES[Feature.PITCH]
    for form in _EITHER.forms:
        with suppress(ReadingError):
            if info.low <= parse_pitch(form.format(number)).mm <= info.high:
                return form.format(number)
    return number
