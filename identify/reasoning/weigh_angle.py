"""Angles of seats, half or included. What a reading weighs, which to expect."""

import math

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import Angle, Basis, How, Reading
from identify.reasoning.answers import Answers, answers_called
from identify.reasoning.density import normal_pdf
from identify.reasoning.traits import UNKNOWN, Cone, Trait
from identify.reasoning.weight import Weight, instrument, instrument_of, misfit, spread_deg

_INFO = FEATURES[Feature.SEAT_ANGLE]
ANY_DEG = 1 / (_INFO.high - _INFO.low)  # density of an angle of which nothing is known [1/deg]
STEP_DEG = 2  # numbers to expect where no leaf is called
SEEN_DEG = (12.0, 30.0, 41.0)  # half angles that an eye is asked to choose from: 24, 60, 74 to 90
SEEN_WIDE_DEG = 11.0  # degrees that each of them stands for; with more a cone is named twice
OVER_MM = 3.0  # distance of the two diameters to expect
WIDEST_CONE_DEG = 85  # half angle that two diameters may give


def weigh_angle(reading: Reading, value: Angle, trait: Trait, model: ObservationModel) -> Weight:
    """Weigh an angle against a seat; densities in the degrees that were said [1/deg].

    A gauge answers with one of its leaves. Each stands for the degrees a reading spreads over, so
    that a leaf called by mistake weighs as much as it is called often.
    """
    if trait is UNKNOWN:
        return Weight(ANY_DEG, 0.0)
    if not isinstance(trait, Cone):
        raise misfit(reading.feature, trait)
    tool = instrument(reading, model)
    said_half = model.half_said
    if value.over_mm:  # it was reckoned, not said
        said_half = 1.0
    elif value.basis is not None:
        said_half = 1 - model.basis_slip if value.basis is Basis.HALF else model.basis_slip
    there_deg = value.deg if trait.half_deg is None else trait.half_deg
    sigma = math.hypot(spread_deg(value, there_deg, tool), model.seat_worn_deg)
    ways = ((said_half, value.deg, sigma), (1 - said_half, value.deg / 2, 2 * sigma))
    leaves = model.seat_leaves_deg if reading.how in (How.GAUGE, How.COMBS) else ()
    called = [
        (share * normal_pdf(0) / wide, _leaf(deg, leaves, model)) for share, deg, wide in ways
    ]
    mistake = tool.gross * (
        sum(peak for peak, leaf in called if leaf is not None) / len(leaves)
        if any(leaf is not None for _, leaf in called)
        else ANY_DEG
    )
    half = trait.half_deg
    odd = model.no_cone_angled * ANY_DEG + mistake
    if half is None:  # nothing to lay a gauge on
        return Weight(odd, odd)
    terms = [share * normal_pdf((deg - half) / sigma) / wide for share, deg, wide in ways]
    good = sum(terms)
    if trait.shape == "flat":  # nor here, but some say 90 of it
        return Weight(model.no_cone_angled * good + odd, odd)
    there = (1 - tool.gross) * (model.chamfer_angled if trait.shape == "chamfer" else 1.0)
    slip, beside = 0.0, 0.0
    if leaves:
        slip, fits = model.neighbour_leaf, _leaf(half, leaves, model)
        beside = slip / 2 * sum(
            peak for peak, leaf in called
            if leaf is not None and fits is not None and abs(leaf - fits) == 1
            and abs(leaves[leaf] - leaves[fits]) <= model.seat_slip_deg
        )  # fmt: skip
    # Half said for included, or the reverse: a mistake that is worth asking about again.
    mixed = terms[value.basis is Basis.HALF] if value.basis is not None else 0.0
    wrong = there * (beside + (1 - slip) * mixed) + mistake
    return Weight(there * ((1 - slip) * good + beside) + mistake, wrong)


def answers_angle(trait: Trait, how: How, model: ObservationModel) -> Answers | None:
    """Return the angles expected of a seat, as numbers said to be half angles.

    None where there is no cone: of a flat or a bare mouth hardly anybody says an angle.
    """
    if not isinstance(trait, Cone) or trait.half_deg is None or trait.shape == "flat":
        return None
    chances = []
    for deg, wide in angles_said(how, model):
        said = angle_said(deg, how)
        weight = weigh_angle(Reading(Feature.SEAT_ANGLE, said, how, ""), said, trait, model)
        chances.append(weight.likelihood * wide)
    return answers_called(chances)


def angles_said(how: How, model: ObservationModel) -> list[tuple[float, float]]:
    """Return the half angles that may be said of a seat, and what each stands for [deg].

    A gauge gives its leaves, each for the degrees that a reading spreads over, the eye its three
    choices; all else gives whole steps of its scale.
    """
    if how in (How.GAUGE, How.COMBS):
        tool = instrument_of(Kind.ANGLE, how, model)
        wide = math.hypot(tool.sigma, model.seat_worn_deg) / normal_pdf(0)
        return [(leaf, wide) for leaf in model.seat_leaves_deg]
    if how is How.EYE:
        return [(deg, SEEN_WIDE_DEG) for deg in SEEN_DEG]
    most = WIDEST_CONE_DEG if how is How.CALIPER else _INFO.high
    first, last = math.ceil(_INFO.low / STEP_DEG), math.floor(most / STEP_DEG)
    return [(float(n * STEP_DEG), float(STEP_DEG)) for n in range(first, last + 1)]


def angle_said(deg: float, how: How) -> Angle:
    """Return a half angle as it is read in some way."""
    return Angle(deg, Basis.HALF, OVER_MM if how is How.CALIPER else 0.0)


def _leaf(half_deg: float, leaves: tuple[float, ...], model: ObservationModel) -> int | None:
    """Return the place of the leaf that is called for a half angle, None if none fits."""
    place = min(range(len(leaves)), key=lambda i: abs(leaves[i] - half_deg), default=None)
    near = place is not None and abs(leaves[place] - half_deg) <= model.seat_fits_deg
    return place if near else None
