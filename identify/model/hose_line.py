"""A printed line as it was read: what stands on it, before any hose is thought of."""

from identify.frozen import StrEnum, dataclass


class PressureKind(StrEnum):
    """What a pressure on a line is."""

    WORKING = "working"  # with its unit, or with a word for working pressure
    BARE = "bare"  # a number alone, which may be a pressure
    BURST = "burst"  # never a working pressure


@dataclass(frozen=True, slots=True)
class PrintedPressure:
    """A pressure as printed: `bars` [bar] are all its readings, one where the unit is legible."""

    entered: str
    bars: tuple[float, ...]
    kind: PressureKind


@dataclass(frozen=True, slots=True)
class PrintedDate:
    """A date as printed; `readings` are what it may say ("2016 Q2", "2016-06", "2019-04-19").

    `doubt` says why it is not sure, empty where it is; without any reading the year is lost.
    """

    entered: str
    readings: tuple[str, ...]
    doubt: str = ""

    @property
    def years(self) -> tuple[int, ...]:
        """The years it may mean, oldest first."""
        return tuple(sorted({int(text[:4]) for text in self.readings}))


@dataclass(frozen=True, slots=True)
class HoseLine:
    """What was read of a line.

    `text` is the line in capitals with what was understood as pressure or date blanked by "|" (so
    every place is kept), `?` for a lost character. `cut_left` and `cut_right` tell that the line
    goes on where it cannot be read. `entered` is the line as it was typed.
    """

    entered: str
    text: str
    pressures: tuple[PrintedPressure, ...]
    dates: tuple[PrintedDate, ...]
    cut_left: bool
    cut_right: bool
