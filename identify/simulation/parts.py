"""Simulated parts with true dimensions of their own, and the lot that they are drawn from."""

import random
from collections.abc import Collection
from itertools import accumulate

from identify.frozen import dataclass
from identify.model.catalogue import Catalogue
from identify.model.feature import Feature
from identify.model.rulebook import RuleBook
from identify.reasoning.hypotheses import row_weights
from identify.reasoning.weigh_length import bores_beside
from identify.simulation.blueprint import (
    Cone,
    Figure,
    Hexagons,
    Make,
    Options,
    Size,
    Span,
    Truth,
    blueprint_of,
)
from identify.simulation.strangers import strangers


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


class Lot:
    """What parts are drawn from: the tables by a prior, and strangers.

    Args:
        catalogue: The tables.
        book: Prevalence, tolerances, wear.
        even: Every row as common as any other.
        region: Multiply by the prevalence of this origin.
        families: Only these families, no strangers.

    `makes` weigh 1 together.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        book: RuleBook,
        *,
        even: bool = False,
        region: str = "",
        families: Collection[str] = (),
    ) -> None:
        self.catalogue, self.book = catalogue, book
        weights = [1.0] * len(catalogue.ends) if even else row_weights(catalogue, book.priors)
        more = book.priors.regions[region] if region else {}
        weights = [
            weight * more.get(end.family, 1.0) if not families or end.family in families else 0.0
            for end, weight in zip(catalogue.ends, weights, strict=True)
        ]
        strange = 0.0 if families else book.priors.none_of_these
        listed = self._listed([(1 - strange) * weight / sum(weights) for weight in weights])
        self.makes = listed + (strangers(catalogue, book, strange, listed) if strange else [])
        self._sums = list(accumulate(make.weight for make in self.makes))

    def draw(self, rng: random.Random) -> Part:
        """Return the next part."""
        make = rng.choices(self.makes, cum_weights=self._sums)[0]
        return make_part(rng, make, self.book)

    def _listed(self, weights: list[float]) -> list[Make]:
        return [
            Make(row, blueprint_of(end, seat, self.catalogue, self.book), weight * seat.share)
            for row, (end, weight) in enumerate(zip(self.catalogue.ends, weights, strict=True))
            for seat in end.seats
            if weight > 0
        ]


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
