"""Bends: how much hose they take, how tight they may be, what a moving hose needs."""

import math

from identify.errors import AssemblyError
from identify.frozen import dataclass
from identify.model.assembly import AssemblyRules
from identify.model.hose import Hose
from identify.model.source import Support

_LEAST_SAMPLE_STRAIGHT_MM = 25.4
_SMALL_SAMPLE_OD_MM = 22.0


@dataclass(frozen=True, slots=True)
class BendCheck:
    """A routed bend against the least radius of the hose [mm], to the inside of the bend.

    `enough` is None where no source has the least radius. `basis` is what that rests on.
    """

    radius_mm: float
    least_mm: float | None
    enough: bool | None
    basis: Support | None


def bend_length(angle_deg: float, inside_radius_mm: float, outside_mm: float) -> float:
    """Return the hose that a bend takes along its centre line [mm].

    Args:
        angle_deg: How far the hose turns [deg], 0 to 360.
        inside_radius_mm: Radius to the inside of the bend [mm], as standards give it.
        outside_mm: Outside diameter of the hose [mm].

    Raises:
        AssemblyError: A size below 0, or an angle that no bend has.

    Source:
        Geometry; that the radius is to the inside: EN 853, 6.2.
    """
    if not (0 <= angle_deg <= 360 and inside_radius_mm >= 0 and outside_mm > 0):
        raise AssemblyError(
            f"No bend turns {angle_deg:g} degrees about {inside_radius_mm:g} mm with a hose of "
            f"{outside_mm:g} mm; check what was entered."
        )
    return math.pi * angle_deg / 180 * (inside_radius_mm + outside_mm / 2)


def routed_length(bend_mm: float, straight_mm: float) -> float:
    """Return a bend with the straight parts at both its ends [mm]."""
    return bend_mm + 2 * straight_mm


def least_straight(outside_mm: float, rules: AssemblyRules) -> float:
    """Return the straight part between an end and a bend [mm].

    Source:
        DGUV Regel 113-020, figure 9: 1.5 times the outside diameter.
    """
    return rules.straight.times * outside_mm


def with_shortening(length_mm: float, rules: AssemblyRules) -> float:
    """Return a length so that it is still there when the hose shortens under pressure [mm].

    Source:
        That it shortens by up to 4 %: EN 853, 6.1.2. To cut so much longer is our own calculation.
    """
    return length_mm / (1 - rules.shortening.times)


def moving_allowance(travel_mm: float) -> float:
    """Return what a hose with one moving end needs in addition [mm]: half the travel."""
    return travel_mm / 2


def check_bend(radius_mm: float, hose: Hose) -> BendCheck:
    """Hold a routed bend against the least radius of a hose, both to the inside [mm]."""
    least = hose.bend_radius_mm
    enough = None if least is None else radius_mm >= least
    return BendCheck(radius_mm, least, enough, hose.bend_basis)


def impulse_sample(inside_radius_mm: float, outside_mm: float) -> float:
    """Return the free length of a sample for the impulse test [mm]; no rule for routing.

    To an outside of 22 mm the sample is bent by 180 degrees, above by 90. In the straight parts the
    diameter counts as at least 25.4 mm.

    Source:
        SAE J343, as its 2016 rationale gives the formula.
    """
    share = 1.0 if outside_mm <= _SMALL_SAMPLE_OD_MM else 0.5
    straight = 2 * max(outside_mm, _LEAST_SAMPLE_STRAIGHT_MM)
    return share * math.pi * (inside_radius_mm + outside_mm / 2) + straight
