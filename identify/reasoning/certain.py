"""What is known level by level: the thread may be certain where the family is open."""

from identify.light import Sequence
from identify.model.verdict import Certain, Level
from identify.reasoning.posterior import DIGITS, ROUNDING, Posterior, likeliest_of

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
    found = [
        _named(level, kinds.names, *state.most(kinds)) for level, kinds in levels if kinds.names
    ]
    found.append(_form(state))
    return tuple(filter(None, found))


def unlisted_size(state: Posterior) -> str:
    """Return the family an end in no table most likely is, in another size; empty if none.

    Families with the same seat look alike in a size that nobody lists: the commonest is named.
    """
    kinds = state.space.other_sizes
    totals = state.totals(kinds)[1:]
    if sum(totals) <= STANDS_OUT * state.none_of_these:
        return ""
    return kinds.names[1 + totals.index(max(totals))]


def _form(state: Posterior) -> Certain | None:
    """Return the most probable row; those that stand fall but for rounding."""
    shares = state.standing or list(enumerate(state.rows))
    if state.standing:
        least = shares[0][1] / ROUNDING - 2 * 10**-DIGITS
        first = next((n for n, (_, share) in enumerate(shares) if share < least), len(shares))
        shares = shares[:first]
    most, places = likeliest_of([share for _, share in shares])
    ids = state.space.catalogue.ids
    return _named(Level.FORM, ids, most, [shares[place][0] for place in places])


def _named(level: Level, names: Sequence[str], most: float, places: list[int]) -> Certain | None:
    """Return the name with the greatest share; of several the first in the alphabet."""
    return Certain(level, min([names[place] for place in places]), most) if places else None
