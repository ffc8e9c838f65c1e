"""Velocity and pressure drop in a hose, the drop by the `fluids` library where that is installed.

Near the turn to turbulence both values are given: the library turns at a Reynolds number of 2040,
textbooks at 2300, and oil in a hose does as it likes.
"""

import math
from functools import cache
from typing import TYPE_CHECKING, Any

from identify.errors import AssemblyError
from identify.frozen import dataclass
from identify.model.assembly import AssemblyRules, VelocityRange

if TYPE_CHECKING:
    from collections.abc import Sequence

TURNS = (2000.0, 4000.0)  # Reynolds numbers between which both values are given
_M3_S = 1 / 60_000  # l/min
_PA_BAR = 1e5


@dataclass(frozen=True, slots=True)
class Flow:
    """What flows: l/min, through a bore [mm] over a length [m].

    `viscosity_mm2_s` (cSt) is that at the temperature of the oil, never a guess; `density_kg_m3`
    its density; `roughness_mm` that of the wall, 0 for smooth.
    """

    flow_l_min: float
    bore_mm: float
    length_m: float
    viscosity_mm2_s: float
    density_kg_m3: float
    roughness_mm: float = 0.0

    def __post_init__(self) -> None:
        known = (
            ("flow", self.flow_l_min), ("bore", self.bore_mm), ("length", self.length_m),
            ("viscosity", self.viscosity_mm2_s), ("density", self.density_kg_m3),
        )  # fmt: skip
        for name, value in known:
            if not 0 < value < 1e7:
                raise AssemblyError(f"A {name} of {value:g} is none; it must be above 0.")
        if not 0 <= self.roughness_mm < self.bore_mm / 10:
            raise AssemblyError(f"A roughness of {self.roughness_mm:g} mm does not fit the bore.")


@dataclass(frozen=True, slots=True)
class Drop:
    """Pressure drop over a hose, without its ends [bar].

    `bars` holds one value, or the laminar and the turbulent one where nobody can tell which it is;
    `laminar` says of one value whether it is the laminar one.
    """

    velocity_m_s: float
    reynolds: float
    bars: tuple[float, ...]
    laminar: bool | None


def velocity(flow_l_min: float, bore_mm: float) -> float:
    """Return the mean velocity [m/s] of a flow [l/min] through a bore [mm].

    Take the smaller of the bores of hose and ends.
    """
    if not (flow_l_min > 0 and bore_mm > 0):
        raise AssemblyError(
            f"A flow of {flow_l_min:g} l/min through {bore_mm:g} mm is none; both are above 0."
        )
    return flow_l_min * _M3_S / (math.pi / 4 * (bore_mm / 1000) ** 2)


def reynolds(flow: Flow) -> float:
    """Return the Reynolds number of a flow."""
    speed = velocity(flow.flow_l_min, flow.bore_mm)
    return speed * (flow.bore_mm / 1000) / (flow.viscosity_mm2_s * 1e-6)


def pressure_drop(flow: Flow) -> Drop:
    """Return the pressure drop over a hose.

    Raises:
        AssemblyError: The `fluids` library is not installed.

    Source:
        Darcy and Weisbach, with 64/Re below the turn and Colebrook above it.
    """
    library = _library()
    number = reynolds(flow)
    rough = flow.roughness_mm / flow.bore_mm
    speed = velocity(flow.flow_l_min, flow.bore_mm)
    head = flow.length_m / (flow.bore_mm / 1000) * flow.density_kg_m3 * speed**2 / 2 / _PA_BAR

    def laminar() -> float:
        return float(library.friction_laminar(number)) * head

    def turbulent() -> float:
        return float(library.Colebrook(number, rough)) * head

    if number < TURNS[0]:
        return Drop(speed, number, (laminar(),), True)
    if number > TURNS[1]:
        return Drop(speed, number, (turbulent(),), False)
    return Drop(speed, number, (laminar(), turbulent()), None)


def usual_velocity(rules: AssemblyRules, line: str, speed_m_s: float) -> tuple[VelocityRange, int]:
    """Return the velocities usual in a line, and where a speed lies: below -1, in 0, above 1.

    Guidance only: no standard gives a figure.
    """
    found: Sequence[VelocityRange] = [each for each in rules.velocities if each.line == line]
    if not found:
        known = ", ".join(each.line for each in rules.velocities)
        raise AssemblyError(f'"{line}" is no line; write one of {known}.')
    (usual,) = found
    return usual, (speed_m_s > usual.high_m_s) - (speed_m_s < usual.low_m_s)


@cache
def _library() -> Any:
    try:
        from fluids import friction  # 150 MB with what it needs, so it is an extra
    except ImportError:
        raise AssemblyError(
            'The pressure drop needs the library "fluids"; install it with pip install '
            '"whichend[flow]".'
        ) from None
    return friction
