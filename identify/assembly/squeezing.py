"""Squeezing a ferrule: which die, what on the dial, is the result within its limits.

No diameter is proposed here. Target, tolerance, dies and scale are entered from the data of the
hose, its ends and the machine; this is the arithmetic only.
"""

from collections.abc import Iterable, Sequence

from identify.errors import AssemblyError
from identify.frozen import StrEnum, dataclass

LEAST_MEASURED = 3
_ROUNDING_MM = 1e-9  # a limit belongs to what is within, however its sum was rounded
RULE = (
    "Take the largest die that is not above the target: a larger one is shut before the target is "
    "reached, a much smaller one presses out of round. What the target is above the die is added "
    "on the dial; where the dial cannot add so much, a die is missing. This is arithmetic with "
    "what was entered, no chart: the data of hose and end come first."
)


class Squeezed(StrEnum):
    """How a squeezed ferrule lies to its limits."""

    WITHIN = "within"
    TOO_LARGE = "too large"  # may be squeezed again, smaller only, if the data allow it
    TOO_SMALL = "too small"  # scrap: it cannot be made larger
    UNEVEN = "uneven"  # the mean is within, single diameters are not


@dataclass(frozen=True, slots=True)
class Target:
    """The diameter to squeeze to [mm] and its tolerance, entered from the data of the end."""

    mm: float
    plus_mm: float
    minus_mm: float
    source: str

    def __post_init__(self) -> None:
        if not (self.mm > 0 and self.plus_mm >= 0 and self.minus_mm >= 0):
            raise AssemblyError(f"{self.mm:g} mm is no target; enter it from the data of the end.")
        if not self.source.strip():
            raise AssemblyError("A target without its source; name the data it was taken from.")


@dataclass(frozen=True, slots=True)
class Setting:
    """A die [mm] and what is added to it: in mm, and in divisions of the dial."""

    die_mm: float
    over_mm: float
    divisions: float


@dataclass(frozen=True, slots=True)
class Judged:
    """What was measured: mean and ovality (largest less smallest) [mm], and the judgement."""

    mean_mm: float
    ovality_mm: float
    result: Squeezed


def die_setting(target: Target, dies_mm: Iterable[float], mm_a_division: float = 1.0) -> Setting:
    """Return die and dial for a target; `RULE` says why.

    Args:
        target: The diameter to squeeze to.
        dies_mm: Diameters of the dies at hand [mm].
        mm_a_division: What one division of the dial stands for [mm]; the machine's own.

    Raises:
        AssemblyError: No die is small enough, or the scale is not above 0.
    """
    if not mm_a_division > 0:
        raise AssemblyError("A division of the dial stands for more than 0 mm; see the machine.")
    fitting = [die for die in dies_mm if die <= target.mm]
    if not fitting:
        raise AssemblyError(
            f"No die is at or below the target of {target.mm:g} mm; none of those entered can be "
            "used."
        )
    die = max(fitting)
    over = target.mm - die
    return Setting(die, over, over / mm_a_division)


def judge_diameters(measured_mm: Sequence[float], target: Target) -> Judged:
    """Judge diameters measured across opposite flats, at the middle of the squeezed length [mm].

    Raises:
        AssemblyError: Fewer than three, or one that is not above 0.
    """
    if len(measured_mm) < LEAST_MEASURED or min(measured_mm) <= 0:
        raise AssemblyError(
            f"{len(measured_mm)} diameters do not show whether a ferrule is round; turn it and "
            f"measure {LEAST_MEASURED} or more, each above 0."
        )
    mean = sum(measured_mm) / len(measured_mm)
    low = target.mm - target.minus_mm - _ROUNDING_MM
    high = target.mm + target.plus_mm + _ROUNDING_MM
    if mean < low:
        result = Squeezed.TOO_SMALL
    elif mean > high:
        result = Squeezed.TOO_LARGE
    elif all(low <= each <= high for each in measured_mm):
        result = Squeezed.WITHIN
    else:
        result = Squeezed.UNEVEN
    return Judged(mean, max(measured_mm) - min(measured_mm), result)
