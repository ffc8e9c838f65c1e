"""Ten samples of a morning at the counter, all invented, and what a practised hand types of each.

The hand has a caliper, both pitch gauges and a seat gauge. What it sees is what the tables say of
the end, at the middle of its limits and to a tenth of a millimetre; what they do not say it cannot
tell.
"""

from dataclasses import dataclass
from functools import cached_property

from identify.interview.snapshot import Ask
from identify.model.feature import Feature
from identify.model.reading import Angle, Choice, Length, Pitch, Value
from identify.model.rule import Tool
from tests.ideal import ideal_readings
from tests.shipped import end_of, knowledge

TOOLS = frozenset({Tool.CALIPER, Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE})
TAPER_MM = 8.0  # over which a taper is measured


@dataclass(frozen=True)
class Sample:
    """An end on the counter.

    `end` is its row in the tables, `seat` which of the ways to make it, `inches` that the caliper
    of this hand reads inches.
    """

    end: str
    seat: int = 0
    inches: bool = False

    @cached_property
    def truth(self) -> dict[Feature, Value]:
        """What the end is, by feature."""
        row = end_of(self.end)
        seat = row.seats[self.seat]
        thread = knowledge().catalogue.thread_of(row, seat.thread)
        return {each.feature: each.value for each in ideal_readings(row, seat, thread)}

    def keys(self, ask: Ask) -> str:
        """Return what is typed in answer to a question, "\\n" for Enter; "" for "cannot tell"."""
        if ask.text.feature not in self.truth:
            return ""
        value = self.truth[ask.text.feature]
        if ask.by_value:
            return f"{_leaf(value)}\n" if _leaf(value) else ""
        if isinstance(value, Choice) and ask.choices:
            words = [each.word for each in ask.choices]
            return str(words.index(value.word) + 1) if value.word in words else ""
        if ask.text.feature is Feature.TAPER:
            return self._taper(value)
        return f"{self._length(value.mm)}\n" if isinstance(value, Length) else ""

    def _length(self, mm: float) -> str:
        if self.inches:
            return f"{mm / 25.4:.3f}".removeprefix("0")
        return f"{mm:.1f}".removesuffix(".0")

    def _taper(self, value: Value) -> str:
        """Return thickness by caliper at two places."""
        grows = TAPER_MM / 16 if value == Choice("tapered") else 0.0
        return f"{self._length(grows)} {self._length(TAPER_MM)}\n"


def _leaf(value: Value) -> str:
    if isinstance(value, Pitch):
        return f"{25.4 / value.mm:g}" if value.inch else f"{value.mm:g}"
    if isinstance(value, Angle):
        return f"{value.deg:g}"
    return value.word if isinstance(value, Choice) else ""


SAMPLES = (
    Sample("bspp60:G1/2:male"),
    Sample("cone24_L:12L:female-o-ring-nose"),
    Sample("flare37:-8:female"),
    Sample("flange61:1-in:flange"),
    Sample("npt:1/4-NPT:male"),
    Sample("orfs:-8:female"),
    Sample("cone24_L:15L:male"),
    Sample("jis30_g:G3/8:female"),
    Sample("flare37:-10:female", inches=True),
    Sample("npt:1/2-NPT:male"),
)
