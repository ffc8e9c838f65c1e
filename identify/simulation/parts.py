"""Simulated parts: a row of the tables, or a stranger, with true dimensions of its own."""

import random
from collections.abc import Collection
from itertools import accumulate

from identify.frozen import dataclass
from identify.model.catalogue import Catalogue
from identify.model.connection import Seat
from identify.model.feature import FEATURES, SEEN, SHARES, SIZES, Feature, applies, gender_told
from identify.model.rulebook import RuleBook
from identify.model.thread import Thread
from identify.reasoning.hypotheses import NONE, row_weights
from identify.reasoning.weigh_length import bores_beside
from identify.simulation.blueprint import (
    ANY_HOSE,
    Blueprint,
    Cone,
    Figure,
    Hexagons,
    Options,
    Size,
    Span,
    Truth,
    anywhere,
    blueprint_of,
    certain,
    options,
    seat_figures,
    thread_figures,
)

STRANGER_SHAPES = ("convex", "concave", "flat", "ball", "none")
STRANGER_HALVES = tuple(float(deg) for deg in range(8, 61))
APART_DEG = 4.0  # nearer to a listed angle it would be that end
STRANGER_RINGS = Options(
    ("none", "face", "nose", "boss", "captive"), (0.64, 0.12, 0.12, 0.08, 0.04)
)
STRANGER_MOUNTS = {
    "male": Options(("fixed", "stud", "swivel"), (0.6, 0.25, 0.15)),
    "female": Options(("swivel", "port", "fixed"), (0.6, 0.3, 0.1)),
}
STRANGER_PITCHES = (0.907, 0.941, 1.0, 1.058, 1.27, 1.337, 1.411, 1.5, 1.588, 1.814, 2.0, 2.309)
"""Pitches of threads that are in no table; those usual on hose ends [mm]."""


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
        self.makes = listed + (self._strangers(strange, listed) if strange else [])
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

    def _strangers(self, mass: float, listed: list[Make]) -> list[Make]:
        """Return known threads with a seat nobody lists, and ends unlike any in the tables."""
        known: dict[tuple[str, str], tuple[Thread, set[Seat]]] = {}
        for end in self.catalogue.ends:
            for seat in end.seats:
                thread = self.catalogue.thread_of(end, seat.thread)
                if thread and end.gender in ("male", "female"):
                    key = (end.gender, thread.designation)
                    known.setdefault(key, (thread, set()))[1].add(seat)
        out = []
        share = mass * self.book.priors.unlisted_seat / len(known)
        for (gender, _), (thread, listed_seats) in known.items():
            own = thread_figures(gender, thread, self.book) | _common(gender)
            own[Feature.HEX] = Hexagons((), thread.major_mm)
            seats = _stranger_seats(listed_seats)
            out += [Make(NONE, Blueprint(gender, own | seat), share / len(seats)) for seat in seats]
        out += self._other_sizes(mass * self.book.priors.unlisted_size, listed)
        seats = _stranger_seats(())
        rest = 1 - self.book.priors.unlisted_seat - self.book.priors.unlisted_size
        share = mass * rest / len(seats)
        for word in SEEN:
            part = sum(make.weight for make in listed if make.blueprint.seen_as == word)
            part /= sum(make.weight for make in listed)
            own = _unlike(word) | _common(word)
            out += [Make(NONE, Blueprint(word, own | seat), share * part) for seat in seats if part]
        return out

    def _other_sizes(self, mass: float, listed: list[Make]) -> list[Make]:
        """Return families with thread and cone in sizes that no table holds."""
        ends = self.catalogue.ends
        own = [make for make in listed if _has_cone(make) and not ends[make.row].refuse]
        whole = sum(make.weight for make in own)
        out = []
        for make in own:
            seen_as = make.blueprint.seen_as
            seat = {each: make.blueprint.figures[each] for each in _ANY_SIZE}
            figures = _unlike(seen_as) | _common(seen_as) | seat
            out.append(Make(NONE, Blueprint(seen_as, figures), mass * make.weight / whole))
        return out


def _has_cone(make: Make) -> bool:
    """Tell whether a thread goes with a cone, by which a family is known in any size."""
    figures = make.blueprint.figures
    shapes = [shape for shape, _ in options(figures.get(Feature.SEAT_SHAPE), str)]
    cone = Feature.SEAT_ANGLE in figures and shapes[0] in ("convex", "concave")
    return cone and Feature.PITCH in figures


_ANY_SIZE = (Feature.GENDER, Feature.MOUNT, Feature.SEAT_SHAPE, Feature.SEAT_ANGLE, Feature.O_RING)


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


def _stranger_seats(listed: Collection[Seat]) -> list[dict[Feature, Figure]]:
    """Return seats of every shape, without those that would make it a listed end after all."""
    out = []
    for shape in STRANGER_SHAPES:
        same = [seat.half_angle_deg for seat in listed if seat.shape == shape]
        figures: dict[Feature, Figure] = dict(seat_figures(shape, None, "none"))
        figures[Feature.O_RING] = STRANGER_RINGS
        if shape in ("convex", "concave"):
            halves = [
                deg
                for deg in STRANGER_HALVES
                if all(half and abs(deg - half) > APART_DEG for half in same)
            ]
            cones = tuple(Cone(deg, False) for deg in halves)
            figures[Feature.SEAT_ANGLE] = Options(cones, (1 / len(cones),) * len(cones))
        elif same and shape != "none":  # a plain bolt or plug may have any thread
            continue
        out.append(figures)
    return out


def _common(seen_as: str) -> dict[Feature, Figure]:
    figures: dict[Feature, Figure] = {
        Feature.GENDER: certain(seen_as),
        Feature.MATERIAL: certain("steel"),
        Feature.HOSE_BORE: ANY_HOSE,
    }
    if seen_as in STRANGER_MOUNTS:
        figures[Feature.HAND] = certain("right")
        figures[Feature.MOUNT] = STRANGER_MOUNTS[seen_as]
    shares = (feature for feature in SHARES if applies(feature, seen_as))
    return figures | {feature: certain(FEATURES[feature].shown_or_not[1]) for feature in shares}


def _unlike(seen_as: str) -> dict[Feature, Figure]:
    """Return the figures of an end unlike any in the tables: sizes anywhere hoses go."""
    figures: dict[Feature, Figure] = {}
    for feature in (*SIZES, Feature.THREAD_OD, Feature.THREAD_ID):
        info = FEATURES[feature]
        if seen_as in (gender_told(feature), info.plain) and info.unstated != "oil bore":
            figures[feature] = anywhere(feature)
    if seen_as in STRANGER_MOUNTS:
        figures[Feature.HEX] = anywhere(Feature.HEX)
        share = 1 / len(STRANGER_PITCHES)
        figures[Feature.PITCH] = Options(STRANGER_PITCHES, (share,) * len(STRANGER_PITCHES))
        figures[Feature.TAPER] = Options((0.0, 1 / 16), (0.9, 0.1))
        figures[Feature.FLANK_ANGLE] = Options(("60", "55"), (0.75, 0.25))
    return figures
