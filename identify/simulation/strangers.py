"""Simulated strangers: ends that stand in no table, so that "none of these" can be right."""

from collections.abc import Collection

from identify.model.catalogue import Catalogue
from identify.model.connection import Seat
from identify.model.feature import FEATURES, SEEN, SHARES, SIZES, Feature, applies, gender_told
from identify.model.rulebook import RuleBook
from identify.model.thread import Thread
from identify.reasoning.hypotheses import NONE
from identify.simulation.blueprint import (
    ANY_HOSE,
    Blueprint,
    Cone,
    Figure,
    Hexagons,
    Options,
    anywhere,
    certain,
    options,
    seat_figures,
    thread_figures,
)
from identify.simulation.parts import Make

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
_ANY_SIZE = (Feature.GENDER, Feature.MOUNT, Feature.SEAT_SHAPE, Feature.SEAT_ANGLE, Feature.O_RING)


def strangers(catalogue: Catalogue, book: RuleBook, mass: float, listed: list[Make]) -> list[Make]:
    """Return known threads with a seat nobody lists, and ends unlike any in the tables.

    Args:
        catalogue: The tables.
        book: How common each kind of stranger is.
        mass: What they weigh together.
        listed: The makes of the rows, with their weights.
    """
    known: dict[tuple[str, str], tuple[Thread, set[Seat]]] = {}
    for end in catalogue.ends:
        for seat in end.seats:
            thread = catalogue.thread_of(end, seat.thread)
            if thread and end.gender in ("male", "female"):
                key = (end.gender, thread.designation)
                known.setdefault(key, (thread, set()))[1].add(seat)
    out = []
    share = mass * book.priors.unlisted_seat / len(known)
    for (gender, _), (thread, listed_seats) in known.items():
        own = thread_figures(gender, thread, book) | _common(gender)
        own[Feature.HEX] = Hexagons((), thread.major_mm)
        seats = _stranger_seats(listed_seats)
        out += [Make(NONE, Blueprint(gender, own | seat), share / len(seats)) for seat in seats]
    out += _other_sizes(catalogue, mass * book.priors.unlisted_size, listed)
    seats = _stranger_seats(())
    rest = 1 - book.priors.unlisted_seat - book.priors.unlisted_size
    share = mass * rest / len(seats)
    for word in SEEN:
        part = sum(make.weight for make in listed if make.blueprint.seen_as == word)
        part /= sum(make.weight for make in listed)
        own = _unlike(word) | _common(word)
        out += [Make(NONE, Blueprint(word, own | seat), share * part) for seat in seats if part]
    return out


def _other_sizes(catalogue: Catalogue, mass: float, listed: list[Make]) -> list[Make]:
    """Return families with thread and cone in sizes that no table holds."""
    ends = catalogue.ends
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
