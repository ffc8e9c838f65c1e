"""Seat angles, half or included: what is typed, and how often exactly that is typed."""

import math
import random
from collections.abc import Sequence
from functools import cache

from identify.model.feature import Feature, Kind
from identify.model.reading import Angle, Basis, How
from identify.simulation.blueprint import Cone, Figure, options
from identify.simulation.people import SAID_BY, Person
from identify.simulation.spread import phi

EYE_STEP_DEG = 5
ANY_HALF = (5.0, 85.0)  # a half angle said without any cone to it [deg]
NARROW_MM, DEEP_MM = 10.0, 3.0  # the smaller diameter of a cone, and how far the two are apart
DIAMETER_STEP_MM = 0.1
_PARTS = 20  # into which an even spread is cut to be summed over
Edge = tuple[float, float]  # reach of two even spreads about a nominal angle [deg]


def say_angle(rng: random.Random, truth: Cone | None, person: Person, how: How) -> str | None:
    """Return the text that is typed for a seat angle, None for "cannot tell".

    Now and then an angle is said although there is no cone.
    """
    model = person.book.observation
    if truth is None and rng.random() < model.no_cone_angled:
        truth = Cone(rng.uniform(*ANY_HALF), chamfer=False)
    if truth is None or rng.random() >= person.answers(Feature.SEAT_ANGLE):
        return None
    if truth.chamfer and rng.random() >= model.chamfer_angled:
        return None
    half = rng.gauss(truth.half_deg, _sigma(truth.half_deg, person, how))
    gross = rng.random() < person.gross(Kind.ANGLE, how)
    if how in (How.GAUGE, How.COMBS):
        leaves = model.seat_leaves_deg
        best = min(range(len(leaves)), key=lambda i: abs(leaves[i] - half))
        if gross:
            best = rng.randrange(len(leaves))
        elif abs(leaves[best] - half) > model.seat_fits_deg:
            return None
        elif rng.random() < person.observer.neighbour_leaf:
            best = _slip_to(leaves, best, rng.choice((-1, 1)), model.seat_slip_deg)
        half = leaves[best]
    elif gross:
        half = rng.uniform(*ANY_HALF)
    if how is How.CALIPER:
        return _two_diameters(half)
    by = " by protractor" if how is How.PROTRACTOR else SAID_BY.get(how, "")
    return _words(rng, half, person, _step_deg(how)) + by


def _sigma(half: float, person: Person, how: How) -> float:
    """Return the spread of a reading of a cone [deg]; of a caliper that of its two points."""
    sigma = person.sigma(Kind.ANGLE, how)
    if how is not How.CALIPER:
        return sigma
    return math.degrees(sigma * math.cos(math.radians(half)) / DEEP_MM)


def _two_diameters(half: float) -> str:
    """Return what a caliper gives of a cone: two diameters, and how far apart."""
    wide = NARROW_MM + 2 * DEEP_MM * math.tan(math.radians(min(max(half, 5.0), 80.0)))
    wide = round(wide / DIAMETER_STEP_MM) * DIAMETER_STEP_MM
    return f"{NARROW_MM:g} and {wide:.1f} mm, {DEEP_MM:g} mm apart"


def chance_of_angle(
    value: Angle, how: How, figure: Figure | None, person: Person
) -> tuple[float, float]:
    """Return how often an angle is typed of a new and of a worn seat; None is one without cone."""
    answers, model = person.answers(Feature.SEAT_ANGLE), person.book.observation
    if figure is None:  # summed over any cone, degree by degree
        low, high = ANY_HALF
        cells = round(high - low)
        said = sum(_said(value, low + i + 0.5, (0.5, 0.0), person, how) for i in range(cells))
        return (answers * model.no_cone_angled * said / cells,) * 2
    people = person.book.people
    new = old = 0.0
    for cone, share in options(figure, Cone):
        seen = answers * share * (model.chamfer_angled if cone.chamfer else 1.0)
        made = people.seat_tolerance_deg
        new += seen * _said(value, cone.half_deg, (made, 0.0), person, how)
        old += seen * _said(value, cone.half_deg, (made, people.seat_wear_deg), person, how)
    return new, old


def silence_about_angle(figure: Figure | None, person: Person) -> float:
    """Return how often nothing is typed of a seat with this figure, None one without cone."""
    answers, model = person.answers(Feature.SEAT_ANGLE), person.book.observation
    if figure is None:
        return 1 - answers * model.no_cone_angled
    return sum(
        share * (1 - answers * (model.chamfer_angled if cone.chamfer else 1))
        for cone, share in options(figure, Cone)
    )


def _words(rng: random.Random, half: float, person: Person, step: int) -> str:
    """Return an angle as number and word; either may be the half or the included angle."""
    as_half = rng.random() < 0.5
    number = round((half if as_half else 2 * half) / step) * step
    draw = rng.random()
    if draw < person.observer.unsaid:
        return f"{number} deg"
    if rng.random() < person.observer.mix_up:
        as_half = not as_half
    return f"{number} deg {'half' if as_half else 'included'}"


def _said(value: Angle, nominal: float, edge: Edge, person: Person, how: How) -> float:
    """Sum over what was measured (half or included) and what word was put to it."""
    if how is How.CALIPER:
        return _two_said(value, nominal, edge, person)
    unsaid, mixed = person.observer.unsaid, person.observer.mix_up
    total = 0.0
    for as_half in (True, False):
        if value.basis is None:
            word = unsaid
        else:
            right = (value.basis is Basis.HALF) == as_half
            word = (1 - unsaid) * (1 - mixed if right else mixed)
        number = _leaf if how in (How.GAUGE, How.COMBS) else _number
        total += 0.5 * word * number(value.deg, as_half, nominal, edge, person, how)
    return total


def _two_said(value: Angle, nominal: float, edge: Edge, person: Person) -> float:
    """Return how often two diameters are typed that give this half angle."""
    wide = NARROW_MM + 2 * DEEP_MM * math.tan(math.radians(value.deg))
    low, high = (
        math.degrees(math.atan2((wide + side * DIAMETER_STEP_MM / 2 - NARROW_MM) / 2, DEEP_MM))
        for side in (-1, 1)
    )
    gross, sigma = person.gross(Kind.ANGLE, How.CALIPER), _sigma(nominal, person, How.CALIPER)
    good = _cone_cdf(high, nominal, sigma, edge) - _cone_cdf(low, nominal, sigma, edge)
    least, most = ANY_HALF
    inside = max(0.0, min(high, most) - max(low, least)) / (most - least)
    return (1 - gross) * good + gross * inside


def _leaf(deg: float, as_half: bool, nominal: float, edge: Edge, person: Person, how: How) -> float:
    """Return how often the leaf that bears a number is called."""
    model, next_to = person.book.observation, person.observer.neighbour_leaf
    gross, sigma = person.gross(Kind.ANGLE, how), person.sigma(Kind.ANGLE, how)
    leaves = model.seat_leaves_deg
    said = [i for i, leaf in enumerate(leaves) if leaf * (1 if as_half else 2) == deg]
    if not said:
        return 0.0
    chances = _leaf_chances(leaves, model.seat_fits_deg, nominal, sigma, edge)
    called = (1 - next_to) * chances[said[0]]
    for place, chance in enumerate(chances):
        for step in (-1, 1):
            if _slip_to(leaves, place, step, model.seat_slip_deg) == said[0]:
                called += next_to / 2 * chance
    return (1 - gross) * called + gross / len(leaves)


def _number(
    deg: float, as_half: bool, nominal: float, edge: Edge, person: Person, how: How
) -> float:
    """Return how often a number is read off a protractor, or guessed."""
    gross, sigma = person.gross(Kind.ANGLE, how), person.sigma(Kind.ANGLE, how)
    step, scale = _step_deg(how), 1 if as_half else 2
    low, high = (deg - step / 2) / scale, (deg + step / 2) / scale
    good = _cone_cdf(high, nominal, sigma, edge) - _cone_cdf(low, nominal, sigma, edge)
    least, most = ANY_HALF
    inside = max(0.0, min(high, most) - max(low, least)) / (most - least)
    return (1 - gross) * good + gross * inside


def _step_deg(how: How) -> int:
    return EYE_STEP_DEG if how is How.EYE else 1


def _slip_to(leaves: Sequence[float], place: int, step: int, reach_deg: float) -> int:
    """Return the next leaf of a seat gauge, the leaf itself where there is none so near."""
    there = min(max(place + step, 0), len(leaves) - 1)
    return there if abs(leaves[there] - leaves[place]) <= reach_deg else place


@cache
def _leaf_chances(
    leaves: tuple[float, ...], reach: float, nominal: float, sigma: float, edge: Edge
) -> tuple[float, ...]:
    """Return how often each leaf is the best and fits; the rest of 1 is that none fits."""
    out = []
    for place, leaf in enumerate(leaves):
        low, high = leaf - reach, leaf + reach
        if place:
            low = max(low, (leaves[place - 1] + leaf) / 2)
        if place + 1 < len(leaves):
            high = min(high, (leaves[place + 1] + leaf) / 2)
        out.append(_cone_cdf(high, nominal, sigma, edge) - _cone_cdf(low, nominal, sigma, edge))
    return tuple(out)


@cache
def _cone_cdf(deg: float, nominal: float, sigma: float, edge: Edge) -> float:
    """Return how often a seat reads below `deg`: two even spreads, averaged, and a normal error."""
    first, second = (
        [reach * ((2 * i + 1) / _PARTS - 1) for i in range(_PARTS)] if reach else [0.0]
        for reach in edge
    )
    total = sum(phi((deg - nominal - one - other) / sigma) for one in first for other in second)
    return total / len(first) / len(second)
