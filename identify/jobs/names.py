"""Jobs without the people they speak of."""

from collections.abc import Iterable

from identify.frozen import replace
from identify.interview.session import Claimed
from identify.jobs.facts import Corrected, Field, Noted, Settled, Step
from identify.jobs.job import Entry

OF_CUSTOMER = frozenset({Field.CUSTOMER, Field.MACHINE, Field.NOTE})
OF_SHOP = frozenset({Field.MEASURED_BY, Field.CHECKED_BY})
"""Facts that name a person, or tell who it is."""


def without_names(entries: Iterable[Entry], *, shop: bool = True) -> tuple[Entry, ...]:
    """Return steps without the people they speak of; what was measured and concluded stays.

    Customer, machine, notes, who made a claim, and every reason in free words are left out, since
    they may tell who it was.

    Args:
        entries: Of one job.
        shop: Leave out those who measured, checked and corrected too.
    """
    gone = OF_CUSTOMER | OF_SHOP if shop else OF_CUSTOMER
    return tuple(
        (place, _nameless(step, shop=shop))
        for place, step in entries
        if not (isinstance(step, Noted) and step.field in gone)
    )


def _nameless(step: Step, *, shop: bool) -> Step:
    if isinstance(step, Claimed):
        return replace(step, by="", anyway="")
    if isinstance(step, Settled):
        return replace(step, why="")
    if isinstance(step, Corrected):
        told = step.what in OF_CUSTOMER | OF_SHOP
        step = replace(step, before="", after="") if told else step
        return replace(step, why="", by="" if shop else step.by)
    return step
