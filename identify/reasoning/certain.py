"""What is known level by level: the thread may be certain where the family is open."""

from collections import defaultdict
from collections.abc import Iterable

from identify.model.verdict import Certain, Level
from identify.reasoning.posterior import Posterior

STANDS_OUT = 0.5  # of the probability that no row fits, what other sizes of families must have


def unlisted_size(state: Posterior) -> str:
    """Return the family that an end in no table most likely is, in another size; empty if none.

    Families with the same seat look alike in a size that nobody lists: the commonest is named.
    """
    space = state.space
    totals: dict[str, float] = defaultdict(float)
    unlisted = slice(space.listed, None)
    for family, weight in zip(space.other_sizes[unlisted], state.weights[unlisted], strict=True):
        if family:
            totals[family] += weight
    best = max(totals, key=totals.__getitem__, default="")
    return best if sum(totals.values()) > STANDS_OUT * state.none_of_these else ""


def certain(state: Posterior) -> tuple[Certain, ...]:
    """Return the most probable thread, family, size and form, each with its probability.

    A thread may be that of an end in no table. A size is one of a family; its value is written
    "family:size", that of a form is the id of a row. Levels of which nothing is known are left out.
    """
    space = state.space
    threads = (pair for pair in zip(space.threads, state.weights, strict=True) if pair[0])
    ids = space.catalogue.ids
    levels: list[tuple[Level, Iterable[tuple[str, float]]]] = [
        (Level.THREAD, threads),
        (Level.FAMILY, zip(space.families, state.rows, strict=True)),
        (Level.SIZE, zip((name.rpartition(":")[0] for name in ids), state.rows, strict=True)),
        (Level.FORM, zip(ids, state.rows, strict=True)),
    ]
    return tuple(found for level, shares in levels if (found := _most(level, shares)))


def _most(level: Level, shares: Iterable[tuple[str, float]]) -> Certain | None:
    totals: dict[str, float] = defaultdict(float)
    for value, share in shares:
        totals[value] += share
    if not totals:
        return None
    value = min(totals, key=lambda each: (-totals[each], each))
    return Certain(level, value, totals[value])
