"""Whether a flange head goes on another flange's pad: bolts, clamp halves, ring.

Two ways are tried, because both are met on machines: the head with its own clamp halves on the
other pad, and the head under the other's clamp halves left in place. Calculated, never tested.
"""

from identify.frozen import dataclass
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.ratio import Ratio

# Through holes of the medium series by bolt diameter [mm]. Source: ISO 273.
CLEARANCE_HOLES = {
    6: 6.6, 8: 9.0, 10: 11.0, 12: 13.5, 14: 15.5, 16: 17.5, 18: 20.0, 20: 22.0, 22: 24.0,
    24: 26.0, 27: 30.0, 30: 33.0, 33: 36.0, 36: 39.0,
}  # fmt: skip
PLAIN_CLEARANCE_MM = 1.0  # taken where a bolt has no hole in the table: the least of M8 to M16
HEAD_PLAY_MM = 0.8  # what a clamp half leaves round its own head; common practice
GRIP_MM = 0.5  # a head thinner than its clamp was made for by more is not gripped; common practice
FILED_MM = 5.0  # holes this near have been filed until they met: a published safety notice


@dataclass(frozen=True, slots=True)
class FlangeFit:
    """Head of one flange on the pad of another.

    `bolts_off_mm` is the larger of the two differences of bolt spacing, `bolts_may_mm` what the
    holes allow (negative: the bolt does not pass). `head_over_mm` is how much wider the head is
    than the one the other's clamp was made for, `head_thicker_mm` how much thicker. None where
    the tables lack the figure. `bolts` and `head` are None where that cannot be said.
    """

    bolts_off_mm: float | None
    bolts_may_mm: float
    head_over_mm: float | None
    head_thicker_mm: float | None

    @property
    def bolts(self) -> bool | None:
        """Tell whether the bolts go in with the head's own clamp halves."""
        return None if self.bolts_off_mm is None else self.bolts_off_mm <= self.bolts_may_mm

    @property
    def enters(self) -> bool | None:
        """Tell whether the head goes into the other's clamp halves and they close over it."""
        return None if self.head_over_mm is None else self.head_over_mm <= HEAD_PLAY_MM

    @property
    def held(self) -> bool | None:
        """Tell whether the other's clamp halves hold the head as their own."""
        if self.head_over_mm is None or self.head_thicker_mm is None:
            return None
        return abs(self.head_over_mm) <= HEAD_PLAY_MM and abs(self.head_thicker_mm) <= GRIP_MM

    @property
    def nearly(self) -> bool:
        """Tell whether the bolts miss by so little that holes get filed."""
        return (
            self.bolts is False
            and self.bolts_off_mm is not None
            and (self.bolts_off_mm <= FILED_MM)
        )


def flange_fit(head: EndConnection, pad: EndConnection) -> FlangeFit:
    """Compare `head` (with its clamp halves) with `pad` (with the clamp halves made for it)."""
    return FlangeFit(
        bolts_off_mm=_bolts_off(head, pad),
        bolts_may_mm=_bolts_may(head, pad),
        head_over_mm=_difference(
            head.sizes.get(Feature.FLANGE_HEAD_OD), pad.sizes.get(Feature.FLANGE_HEAD_OD)
        ),
        head_thicker_mm=_difference(
            head.sizes.get(Feature.FLANGE_HEAD_THICKNESS),
            pad.sizes.get(Feature.FLANGE_HEAD_THICKNESS),
        ),
    )


def _difference(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else one - other


def _bolts_off(head: EndConnection, pad: EndConnection) -> float | None:
    long = _difference(
        head.sizes.get(Feature.BOLT_SPACING_LONG), pad.sizes.get(Feature.BOLT_SPACING_LONG)
    )
    short = _difference(
        head.sizes.get(Feature.BOLT_SPACING_SHORT), pad.sizes.get(Feature.BOLT_SPACING_SHORT)
    )
    return None if long is None or short is None else max(abs(long), abs(short))


def _bolts_may(head: EndConnection, pad: EndConnection) -> float:
    """Return how far two bolts may be off in total [mm]: hole of the clamp less bolt of the pad."""
    hole_for, bolt = _bolt_mm(head), _bolt_mm(pad)
    if hole_for is None or bolt is None:
        return PLAIN_CLEARANCE_MM
    return CLEARANCE_HOLES.get(round(hole_for), hole_for + PLAIN_CLEARANCE_MM) - bolt


def _bolt_mm(end: EndConnection) -> float | None:
    """Return the bolt's diameter [mm], of the metric bolt where both are known."""
    if end.bolt_metric:
        return float(end.bolt_metric.split("x")[0].lstrip("M"))
    if end.bolt_inch:
        size = end.bolt_inch.split("-")[0]
        return float(sum(Ratio(*map(int, part.split("/"))) for part in size.split())) * 25.4
    return None
