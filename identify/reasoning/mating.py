"""What happens when any two ends of the catalogue are brought together, and what goes on an end.

Threads come first (`thread_fit`), then seats (`seat_fit`) or flanges (`flange_fit`). Calculated
from table values, never tested on parts. `joint` tells what the hazards mean.
"""

from identify.frozen import dataclass, replace
from identify.light import Iterator, Sequence
from identify.model.catalogue import Catalogue, mate_id
from identify.model.connection import EndConnection
from identify.model.rulebook import RuleBook
from identify.model.verdict import Hazard
from identify.reasoning.bolted_joint import flanged, washered
from identify.reasoning.hypotheses import row_weights
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.threaded_joint import NIBBLED_TURNS, Fits, engages, miss, threaded


@dataclass(frozen=True, slots=True)
class Mates:
    """What one end meets.

    `meant`: what the tables name. `fits_too`: what seals by geometry though no row names it.
    `dangers`: what screws or bolts on and must not be used, first what does most harm.
    """

    meant: tuple[Mating, ...]
    fits_too: tuple[Mating, ...]
    dangers: tuple[Mating, ...]


def mate(
    catalogue: Catalogue, a: EndConnection, b: EndConnection, fits: Fits | None = None
) -> Mating:
    """Work out what happens when two ends are brought together.

    Order does not matter, but for two flanges: then the head of `a` goes on the pad of `b`.

    Args:
        catalogue: The tables, for threads and for what is meant to meet.
        a: One end.
        b: The other.
        fits: Thread fits already worked out, by designations of male and female; added to.
    """
    meant = _meant(a, b)
    genders = {a.gender, b.gender}
    if a.gender == b.gender == "flange":
        found = flanged(a, b, meant)
    elif a.is_washer or b.is_washer:
        washer, other = (a, b) if a.is_washer else (b, a)
        found = washered(catalogue, washer, other, meant)
    elif "female" in genders and genders & {"male", "none"}:
        male, female = (b, a) if a.gender == "female" else (a, b)
        found = threaded(catalogue, male, female, meant, {} if fits is None else fits)
    else:
        found = _apart(a, b)
    if (found.a, found.b, found.meant) != (a.id, b.id, meant):
        found = replace(found, a=a.id, b=b.id, meant=meant)
    refused = [end for end in (a, b) if end.refuse]
    if refused and _goes_on(found) and not meant:
        reason = f"{found.reason} Not a hydraulic end: {refused[0].family_name}."
        return replace(found, hazard=Hazard.HIGH, reason=reason, guarded=True)
    return found


def _goes_on(found: Mating) -> bool:
    """Tell whether two ends get hold of each other: of threads, for a turn at least."""
    if found.fit is not None and found.fit.turns.loosest < NIBBLED_TURNS:
        return False
    return found.outcome not in (Outcome.APART, Outcome.NO_CATCH, Outcome.NO_START)


def mates_of(catalogue: Catalogue, end: EndConnection, book: RuleBook) -> Mates:
    """Return what an end is meant to meet and what else of the tables goes on it.

    What must not be used stands in the order of danger times how common it is.
    """
    fits: Fits = {}
    weights = row_weights(catalogue, book.priors)
    common = dict(zip(catalogue.ids, weights, strict=True))
    harm = {Hazard.HIGH: 1.0, Hazard.MEDIUM: book.limits.medium_risk, Hazard.LOW: 0.0}
    found = [mate(catalogue, end, other, fits) for other in opposite(catalogue, end, fits)]
    dangers = [one for one in found if not one.meant and one.hazard is not Hazard.LOW]
    return Mates(
        meant=tuple(one for one in found if one.meant),
        fits_too=tuple(
            one
            for one in found
            if one.outcome is Outcome.SEALS and not one.meant and one.hazard is Hazard.LOW
        ),
        dangers=tuple(sorted(dangers, key=lambda one: (-harm[one.hazard] * common[one.b], one.b))),
    )


def opposite(catalogue: Catalogue, end: EndConnection, fits: Fits) -> Iterator[EndConnection]:
    """Yield in table order the ends that may join an end, but not those whose threads cannot."""
    meant = {each.id for each in catalogue.mates_of(end)}
    rows: list[int] = []
    for (gender, _, threads), several in catalogue.kinds.items():
        pair = {end.gender, gender}
        if len(pair) == 2 or pair == {"flange"}:
            joins = (
                _may_join(catalogue, end, threads, fits)
                if pair == {"male", "female"}
                else pair == {"flange"} or "flange" not in pair  # which takes nothing else
            )
            rows += [row for row in several if joins or catalogue.ids[row] in meant]
    for row in sorted(rows):
        yield catalogue.ends[row]


def _may_join(catalogue: Catalogue, end: EndConnection, threads: Sequence[str], fits: Fits) -> bool:
    """Tell whether any thread of an end engages any of these; what has none may always join."""
    known, reach, inside = catalogue.threads, catalogue.reaches_mm, end.gender == "male"
    return not (end.threads and threads) or any(
        engages(known[ours], known[theirs], fits, inside=inside)
        for ours in end.threads
        for theirs in threads
        if not miss(*((reach[ours], reach[theirs]) if inside else (reach[theirs], reach[ours])))
    )


def _meant(a: EndConnection, b: EndConnection) -> bool:
    return any(mate_id(name, a) == b.id for name in a.mates) or any(
        mate_id(name, b) == a.id for name in b.mates
    )


def _apart(a: EndConnection, b: EndConnection) -> Mating:
    if a.gender != b.gender:
        reason = "The two have nothing to join by."
    else:
        reason = f"Both are {a.gender}." if a.gender != "none" else "Neither has a thread."
    return Mating(a.id, b.id, Outcome.APART, Hazard.LOW, reason)
