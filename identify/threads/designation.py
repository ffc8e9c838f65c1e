"""Read a thread designation back to the numbers in it."""

import re
from fractions import Fraction

from identify.frozen import dataclass
from identify.threads.profile import mixed_number

_METRIC = re.compile(r"M(?P<size>\d+(?:\.\d+)?)x(?P<pitch>\d+(?:\.\d+)?)(?P<taper> keg)?")
_WHITWORTH = re.compile(r"(?P<letter>G|Rc|Rp|R) (?P<size>[\d /]+)")
_INCH = re.compile(r"(?P<size>[\d /]+)-(?P<tpi>\d+(?:\.\d+)?) (?P<series>[A-Z]+)")
_SERIES = ("UN", "UNC", "UNF", "UNEF", "UNS", "NPT", "NPTF", "NPSM", "NH")


@dataclass(frozen=True, slots=True)
class Designation:
    """What a designation says.

    `letters` are the letters of the standard ("M", "UNF", "Rc"), `system` the thread system.
    `size` is millimetres for metric threads and inches for all others; only metric and Unified
    sizes are a diameter of the thread. `tpi` is None for metric threads, `pitch_mm` for inch
    threads; G, R, Rc and Rp say neither.
    """

    system: str
    letters: str
    size: Fraction
    tpi: float | None = None
    pitch_mm: float | None = None


def parse(text: str) -> Designation:
    """Return the numbers of a designation.

    Raises:
        ValueError: Not written as the standard of any of our systems writes it.
    """
    if found := _METRIC.fullmatch(text):
        system = "M-TAPER" if found["taper"] else "M"
        return Designation(system, "M", Fraction(found["size"]), pitch_mm=float(found["pitch"]))
    if found := _WHITWORTH.fullmatch(text):
        letter = found["letter"]
        return Designation("G" if letter == "G" else "ISO7", letter, mixed_number(found["size"]))
    if (found := _INCH.fullmatch(text)) and found["series"] in _SERIES:
        series = found["series"]
        system = "UN" if series.startswith("UN") else series
        return Designation(system, series, mixed_number(found["size"]), tpi=float(found["tpi"]))
    raise ValueError(
        f'"{text}" is not a thread designation; write it like M12x1.5, M12x1.5 keg, 7/16-20 UNF, '
        "G 1/4, R 1/4, Rc 1/4, Rp 1/4, 1/4-18 NPT, 1/4-18 NPTF, 1/4-18 NPSM or 3/4-11.5 NH"
    )
