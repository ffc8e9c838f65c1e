"""Lookalikes found over the whole catalogue, and what it costs to take the one for the other.

Two ends of one gender are lookalikes if a first measurement does not separate them: on a thread a
caliper across the crests and a pitch gauge; on a plug, an eye, a washer or a flange a rule on one
of its sizes. Ends that are meant to mate are of different genders and so never lookalikes.

Taking A for B means that somebody fits a B where an A was: the hazard is that of B on the mates of
A. Where the tables hold no mate of A, a part that mirrors it stands in.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.observation import ObservationModel
from identify.model.thread import Thread
from identify.model.verdict import Hazard
from identify.reasoning.apart import rivals_of
from identify.reasoning.differences import Difference, differences
from identify.reasoning.joint import Mating
from identify.reasoning.mating import mate
from identify.reasoning.thread_fit import ThreadVerdict
from identify.reasoning.threaded_joint import NIBBLED_TURNS, Fits, thread_fit

Pairs = dict[tuple[str, str], Hazard]


@dataclass(frozen=True, slots=True)
class Lookalike:
    """Two ends that a first measurement does not separate.

    `alike` says which measurement that is. `tell` is the one observation that tells them apart,
    None where no measurement of the end does. `hazard` is that of taking `end` for `rival`: a
    `rival` fitted where `end` was.
    """

    end: EndConnection
    rival: EndConnection
    alike: str
    tell: Difference | None
    hazard: Hazard


def lookalikes_of(
    catalogue: Catalogue,
    end: EndConnection,
    model: ObservationModel,
    hazards: Pairs | None = None,
) -> tuple[Lookalike, ...]:
    """Return the lookalikes of one end, the most dangerous first.

    Args:
        catalogue: The tables.
        end: The end in question.
        model: What instruments resolve.
        hazards: What `hazard_pairs` returned, if at hand; else they are worked out here.
    """
    fits: Fits = {}
    found = []
    for rival, same in rivals_of(catalogue, end, model):
        hazard = (
            worst_mating(catalogue, end, rival, fits).hazard
            if hazards is None
            else hazards.get((end.id, rival.id), Hazard.LOW)
        )
        tells = differences(catalogue, end, rival, model)
        tell = tells[0] if tells and tells[0].resolved else None
        found.append(Lookalike(end, rival, same, tell, hazard))
    return tuple(sorted(found, key=lambda one: (-one.hazard.rank, one.rival.id)))


def worst_mating(
    catalogue: Catalogue, truth: EndConnection, taken: EndConnection, fits: Fits | None = None
) -> Mating:
    """Return what happens where a `taken` is fitted in place of a `truth`: the worst mate's."""
    fits = {} if fits is None else fits
    met = [mate(catalogue, taken, other, fits) for other in _partners(catalogue, truth)]
    return max(met, key=lambda one: one.hazard.rank)


def hazard_pairs(catalogue: Catalogue) -> Pairs:
    """Return the hazard of taking one end for another, over the whole catalogue.

    Key is (what it is, what it is taken for), by id. Pairs of LOW hazard are left out, so that a
    missing pair is a harmless one. Meant to be worked out when the tables are compiled; keys and
    values are texts.
    """
    fits: Fits = {}
    by_kind: dict[tuple[str, str], list[EndConnection]] = defaultdict(list)
    for end in catalogue.ends:
        by_kind[end.gender, end.thread or ""].append(end)
    pairs: Pairs = {}
    for truth in catalogue.ends:
        for partner in _partners(catalogue, truth):
            for taken in _joinable(catalogue, truth, partner, by_kind, fits):
                hazard = mate(catalogue, taken, partner, fits).hazard
                key = truth.id, taken.id
                if taken.id != truth.id and hazard.rank > pairs.get(key, Hazard.LOW).rank:
                    pairs[key] = hazard
    return pairs


def _joinable(
    catalogue: Catalogue,
    truth: EndConnection,
    partner: EndConnection,
    by_kind: dict[tuple[str, str], list[EndConnection]],
    fits: Fits,
) -> Iterator[EndConnection]:
    """Yield the ends of `truth`'s gender whose thread could go on `partner` at all."""
    inside = truth.gender != "female"
    threads = [
        thread
        for seat in partner.seats
        if (thread := catalogue.thread_of(partner, seat.thread)) is not None
    ]
    for (gender, name), ends in by_kind.items():
        if gender != truth.gender:
            continue
        if gender == "none" or partner.is_washer or not name or not threads:
            yield from ends
            continue
        variants = {name, *(seat.thread for end in ends for seat in end.seats if seat.thread)}
        if any(
            _engages(catalogue.threads[variant], thread, inside, fits)
            for variant in variants
            for thread in threads
        ):
            yield from ends


def _engages(one: Thread, other: Thread, inside: bool, fits: Fits) -> bool:
    male, female = (one, other) if inside else (other, one)
    if male.external is None or female.internal is None:
        return False
    run = thread_fit(male, female, fits)
    return run.verdict is not ThreadVerdict.NO_CATCH and run.turns.loosest >= NIBBLED_TURNS


def _partners(catalogue: Catalogue, end: EndConnection) -> tuple[EndConnection, ...]:
    """Return what this end is fitted to; a part that mirrors it where the tables hold none."""
    return catalogue.mates_of(end) or (mirror(end),)


_MIRRORED = {
    Shape.CONVEX: Shape.CONCAVE,
    Shape.CONCAVE: Shape.CONVEX,
    Shape.BALL: Shape.CONCAVE,
    Shape.CHAMFER: Shape.NONE,
}


def mirror(end: EndConnection) -> EndConnection:
    """Return a part made to take this end: other gender, seat turned inside out.

    It is no row of any table and is used only to judge what else would go where the end goes.
    """
    gender = {"male": "female", "female": "male"}.get(end.gender, end.gender)
    seats = tuple(_mirrored(end, seat) for seat in end.seats)
    return replace(end, id=f"{end.id} (its mate)", gender=gender, seats=seats, mates=())


def _mirrored(end: EndConnection, seat: Seat) -> Seat:
    boss = end.sealing == "o_ring_boss"
    shape = _MIRRORED.get(seat.shape, seat.shape)
    if boss and seat.shape is not Shape.CHAMFER:
        shape = Shape.CHAMFER
    ring = "none" if seat.o_ring != "none" else "boss" if boss else "none"
    if end.sealing == "o_ring_face" and seat.o_ring == "none":
        ring = "face"
    return replace(seat, shape=shape, o_ring=ring)
