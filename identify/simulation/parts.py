"""Simulated parts with true dimensions of their own, made as a row of the tables says."""

import random

from identify.frozen import dataclass
from identify.model.feature import Feature
from identify.model.rulebook import RuleBook
from identify.reasoning.weigh_length import bores_beside
from identify.simulation.blueprint import (
    Blueprint,
    Cone,
    Figure,
    Hexagons,
    Options,
    Size,
    Span,
    Truth,
)


@dataclass(frozen=True)
class Make:
    """One thing a lot may hold: a row (NONE for a stranger), how it is made, how common it is."""

    row: int
    blueprint: Blueprint
    weight: float


@dataclass(frozen=True)
class Part:
    """One part. `truth` holds the true figure of each feature it has; lengths in mm.

    `seen_as` is the answer of `SEEN` that is right for it.
    `condition` runs from 0 (worn wherever anything wears) to 1 (new).
    """

    row: int
    seen_as: str
    truth: dict[Feature, Truth]
    condition: float


def make_part(rng: random.Random, make: Make, book: RuleBook) -> Part:
    """Return one part of this make, with wear that grows on it as a whole."""
    condition = rng.random()
    truth = {
        feature: _true(rng, feature, figure, condition, book)
        for feature, figure in make.blueprint.figures.items()
        if not isinstance(figure, Span) or rng.random() < figure.chance
    }
    return Part(make.row, make.blueprint.seen_as, truth, condition)


def _true(
    rng: random.Random, feature: Feature, figure: Figure, condition: float, book: RuleBook
) -> Truth:
    if isinstance(figure, Options):
        value = rng.choices(figure.values, figure.shares)[0]
        if isinstance(value, Cone):
            return _worn_cone(rng, value, condition, book)
        if isinstance(value, float) and feature is Feature.HOSE_BORE:
            return _bore(rng, value, book)
        return value
    if isinstance(figure, Span):
        return figure.low * float((figure.high / figure.low) ** rng.random())
    if isinstance(figure, Hexagons):
        new = _hexagon(rng, figure, book)
        figure = Size(new, new, 0.0, 0.0)
    slack = book.observation.tolerances[feature]
    size = figure.low + (figure.high - figure.low) * (rng.random() + rng.random()) / 2
    size += rng.uniform(-figure.below, figure.above)
    if condition < slack.worn:
        wear = rng.uniform(0.0, slack.wear_mm)
        size += -wear if slack.shrinks else wear
    return size


def _worn_cone(rng: random.Random, cone: Cone, condition: float, book: RuleBook) -> Cone:
    people = book.people
    half = cone.half_deg + rng.uniform(-people.seat_tolerance_deg, people.seat_tolerance_deg)
    if condition < people.seat_worn:
        half += rng.uniform(-people.seat_wear_deg, people.seat_wear_deg)
    return Cone(half, cone.chamfer)


def _hexagon(rng: random.Random, figure: Hexagons, book: RuleBook) -> float:
    model = book.observation
    if figure.known_mm and rng.random() >= model.other_hex:
        return rng.choice(figure.known_mm) - rng.uniform(
            0.0, model.tolerances[Feature.HEX].below_mm
        )
    middle = (
        sum(figure.known_mm) / len(figure.known_mm)
        if figure.known_mm
        else figure.thread_mm * model.hex_of_thread
    )
    return middle * rng.lognormvariate(0.0, model.hex_spread)


def _bore(rng: random.Random, dn: float, book: RuleBook) -> float:
    if rng.random() < book.observation.near_bore:
        dn = rng.choice(bores_beside(dn))
    slack = book.observation.tolerances[Feature.HOSE_BORE]
    return dn + rng.uniform(-slack.below_mm, slack.above_mm)
