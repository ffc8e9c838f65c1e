"""Pressures, flows, viscosities and angles as a person writes them -> one unit each, exact.

Factors of usual units stand here; any other unit is pint's to know. Numbers are read as lengths
are: decimal point or comma, fractions, and nothing that can be read in two ways.
"""

from functools import cache

from identify.errors import ReadingError, quoted
from identify.light import re
from identify.ratio import Ratio
from identify.reading.numbers import clean, quantity
from identify.reading.units import INCH_MM, unit_library

_POUND_N = Ratio(44482216152605, 10**13)  # pound-force, exact by its definition
_INCH_M = INCH_MM / 1000
_PSI_BAR = _POUND_N / (_INCH_M * _INCH_M) / 100_000
_INCH_DM = INCH_MM / 100
_GALLON_L = _INCH_DM * _INCH_DM * _INCH_DM * 231  # US gallon: 231 cubic inches
_TABLES: dict[str, dict[str, Ratio]] = {
    "pressure": {
        "bar": Ratio(1), "mpa": Ratio(10), "kpa": Ratio(1, 100), "psi": _PSI_BAR,
        "pa": Ratio(1, 100_000),
    },
    "flow": {
        "l/min": Ratio(1), "lpm": Ratio(1), "gpm": _GALLON_L, "gal/min": _GALLON_L,
        "us gpm": _GALLON_L, "l/s": Ratio(60), "m3/h": Ratio(1000, 60),
    },
    "kinematic viscosity": {
        "cst": Ratio(1), "mm2/s": Ratio(1), "m2/s": Ratio(1_000_000), "st": Ratio(100),
    },
    "density": {"kg/m3": Ratio(1), "g/cm3": Ratio(1000), "kg/l": Ratio(1000)},
}  # fmt: skip
_INTO = {"pressure": "bar", "flow": "liter/minute", "kinematic viscosity": "mm**2/s",
         "density": "kg/m**3"}  # fmt: skip
_FORMS = {
    "pressure": "210 bar, 21 MPa or 3000 psi",
    "flow": "60 l/min or 12 US gpm",
    "kinematic viscosity": "46 cSt at the temperature of the oil",
    "density": "870 kg/m3",
}
BAR_IN = {unit: float(factor) for unit, factor in _TABLES["pressure"].items()}
"""Bar in one of each usual unit of pressure."""


def parse_bar(text: str) -> float:
    """Read a pressure [bar]: "210 bar", "21,0 MPa", "3000 psi".

    Raises:
        ReadingError: No pressure, no unit, or not above 0.
    """
    return _read(text, "pressure")


def parse_flow(text: str) -> float:
    """Read a flow [l/min]: "60 l/min", "12 US gpm".

    Raises:
        ReadingError: No flow, no unit, or not above 0.
    """
    return _read(text, "flow")


def parse_viscosity(text: str) -> float:
    """Read a kinematic viscosity [mm2/s], which is the centistoke: "46 cSt".

    Raises:
        ReadingError: No viscosity, no unit, or not above 0.
    """
    return _read(text, "kinematic viscosity")


def parse_density(text: str) -> float:
    """Read a density [kg/m3]: "870 kg/m3".

    Raises:
        ReadingError: No density, no unit, or not above 0.
    """
    return _read(text, "density")


def _read(text: str, what: str) -> float:
    plain = clean(text).lower().replace("\u00b2", "2").replace("\u00b3", "3").replace("^", "")
    found = re.fullmatch(r"([0-9][0-9.,/ -]*?) ?([a-z][a-z0-9/* ]*)?", plain)
    side = quantity(found[1]) if found else None
    if not found or side is None:
        raise ReadingError(f"{quoted(text)} is not a {what}; write it as {_FORMS[what]}.")
    if not found[2]:
        raise ReadingError(f"{quoted(text)} has no unit; write it as {_FORMS[what]}.")
    factor = _TABLES[what].get(found[2]) or _other_factor(found[2], what)
    if factor is None:
        raise ReadingError(
            f"{quoted(text)} is not a {what}: {quoted(found[2])} is no unit of it; write it as "
            f"{_FORMS[what]}."
        )
    if not side[0] > 0:
        raise ReadingError(f"{quoted(text)} is not a {what}: it must be above 0.")
    return float(side[0] * factor)


@cache
def _other_factor(unit: str, what: str) -> Ratio | None:
    """Return the factor of a unit that only pint knows, None where it is no unit of this."""
    units = unit_library()
    try:
        exact = units(unit).to(_INTO[what]).magnitude
        return Ratio(exact.numerator, exact.denominator)
    except Exception:  # pint raises of many kinds for a word that is no unit
        return None
