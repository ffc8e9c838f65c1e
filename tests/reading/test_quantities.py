"""Pressures, flows, viscosities: against pint, which shares no table with them."""

from collections.abc import Callable
from contextlib import suppress

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.errors import ReadingError
from identify.reading.quantities import parse_bar, parse_density, parse_flow, parse_viscosity

UNITS = pint.UnitRegistry()
CASES = [
    (parse_bar, "bar", "bar", "bar"), (parse_bar, "MPa", "MPa", "bar"),
    (parse_bar, "kPa", "kPa", "bar"), (parse_bar, "psi", "psi", "bar"),
    (parse_bar, "atm", "atm", "bar"), (parse_flow, "l/min", "liter/minute", "liter/minute"),
    (parse_flow, "US gpm", "gallon/minute", "liter/minute"),
    (parse_flow, "gal/min", "gallon/minute", "liter/minute"),
    (parse_flow, "m3/h", "m**3/hour", "liter/minute"),
    (parse_flow, "l/s", "liter/s", "liter/minute"),
    (parse_viscosity, "cSt", "centistokes", "mm**2/s"),
    (parse_viscosity, "mm2/s", "mm**2/s", "mm**2/s"),
    (parse_viscosity, "m2/s", "m**2/s", "mm**2/s"),
    (parse_density, "kg/m3", "kg/m**3", "kg/m**3"), (parse_density, "g/cm3", "g/cm**3", "kg/m**3"),
]  # fmt: skip


@pytest.mark.parametrize(("parse", "typed", "unit", "into"), CASES, ids=[case[1] for case in CASES])
@settings(deadline=None)  # pint is imported by the first
@given(value=st.integers(1, 99_999))
def test_units_are_those_of_pint(
    parse: Callable[[str], float], typed: str, unit: str, into: str, value: int
) -> None:
    expected = UNITS.Quantity(value / 100, unit).to(into).magnitude
    assert parse(f"{value / 100:.2f} {typed}") == pytest.approx(expected, rel=1e-9)
    assert parse(f"{value / 100:.2f} {typed}".replace(".", ",")) == pytest.approx(
        expected, rel=1e-9
    )


@pytest.mark.parametrize(
    ("parse", "text", "said"),
    [
        (parse_bar, "210", '"210" has no unit; write it as 210 bar'),
        (parse_bar, "", "is empty"),
        (parse_bar, "much bar", "is not a pressure"),
        (parse_bar, "210 mm", '"mm" is no unit of it'),
        (parse_bar, "0 bar", "it must be above 0"),
        (parse_bar, "3,000 psi", "can be read in two ways"),
        (parse_flow, "60 bar", '"bar" is no unit of it'),
        (parse_viscosity, "46 cats", '"cats" is no unit of it'),
        (parse_density, "-870 kg/m3", "is not a density"),
    ],
)
def test_what_cannot_be_read_is_refused_with_the_remedy(
    parse: Callable[[str], float], text: str, said: str
) -> None:
    with pytest.raises(ReadingError) as error:
        parse(text)
    assert said in str(error.value)


@settings(deadline=None)
@given(st.text(max_size=40))
def test_garbage_raises_nothing_else(text: str) -> None:
    for parse in (parse_bar, parse_flow, parse_viscosity, parse_density):
        with suppress(ReadingError):
            assert parse(text) > 0
