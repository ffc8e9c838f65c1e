"""What is known level by level: the thread may be certain where the family is open."""

from identify.light import Sequence
from identify.model.verdict import Certain, Level
from identify.reasoning.posterior import ROUNDING, Posterior

STANDS_OUT = 0.5  # of the probability that no row fits, what other sizes of families must have


def certain(state: Posterior) -> tuple[Certain, ...]:
    """Return the most probable thread, family, size and form, each with its probability.

    A thread may be that of an end in no table. A size is one of a family; its value is written
    "family:size", that of a form is the id of a row. Levels of which nothing is known are left
    out.
    """
    space = state.space
    levels = (
        (Level.THREAD, space.threads), (Level.FAMILY, space.families), (Level.SIZE, space.sizes)
    )  # fmt: skip
    found = [_most(level, kinds.names, state.totals(kinds)) for level, kinds in levels]
    ids = space.catalogue.ids
    rows = [row for row, _ in state.standing] or range(len(ids))
    forms = [ids[row] for row in rows], [state.rows[row] for row in rows]
    return tuple(filter(None, (*found, _most(Level.FORM, *forms))))


def unlisted_size(state: Posterior) -> str:
    """Return the family an end in no table most likely is, in another size; empty if none.

    Families with the same seat look alike in a size that nobody lists: the commonest is named.
    """
    kinds = state.space.other_sizes
    totals = state.totals(kinds)[1:]
    if sum(totals) <= STANDS_OUT * state.none_of_these:
        return ""
    return kinds.names[1 + totals.index(max(totals))]


def _most(level: Level, names: Sequence[str], totals: Sequence[float]) -> Certain | None:
    """Return the name with the greatest share; of several the first in the alphabet."""
    first = int(not names[0]) if names else 0  # the place of what is of no kind
    shares = totals[first:]
    if not shares:
        return None
    most = max(shares)
    near = most / ROUNDING  # the last digit does not choose between two
    found = [place for place, share in enumerate(shares, first) if share >= near]
    return Certain(level, min([names[place] for place in found]), most)
