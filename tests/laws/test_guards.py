"""Laws of guard rows: ends that are in the tables only to be recognised and left alone.

A guard and its other half, perfectly measured, are never named as a hydraulic end, and the
person is warned of the guard by name.
"""

from collections.abc import Iterator
from functools import cache

import pytest

from identify.model.connection import EndConnection, Seat
from identify.model.rule import Condition
from identify.model.verdict import Effect, Verdict, VerdictKind
from identify.reasoning.conditions import matches
from tests.ideal import ideal_readings
from tests.shipped import knowledge, shipped_engine

GUARDS = [end for end in knowledge().catalogue.ends if end.refuse]
FAMILIES = sorted({end.family for end in GUARDS})
BY_MARK_ONLY = {"aerospace_inch"}
"""An aircraft end is the industrial end with other papers: no measurement parts the two, so to name
neither would leave every 37 degree flare without a name. Here the guard is named beside it."""
ALONE = {"aerospace_inch", "grease_nipple"}
"""The halves of aircraft ends are those of the industrial families; a nipple goes into any hole."""


def cases(family: str) -> Iterator[tuple[EndConnection, Seat]]:
    """Yield every way to make each guard of a family, and each of its mates."""
    tables = knowledge().catalogue
    for end in GUARDS:
        if end.family == family:
            for one in (end, *tables.mates_of(end)):
                yield from ((one, seat) for seat in one.seats)


@cache
def answer(end: EndConnection, seat: Seat) -> Verdict:
    """Return the verdict on an end perfectly measured."""
    thread = knowledge().catalogue.thread_of(end, seat.thread)
    return shipped_engine().conclude(ideal_readings(end, seat, thread), limit=60)


def names(condition: Condition, guard: EndConnection) -> bool:
    """Tell whether a condition speaks of the family of a guard, by its name."""
    return any(
        guard.family in pattern.families and matches(pattern, guard) for pattern in condition.ends
    ) or any(names(part, guard) for part in condition.parts)


def warnings_of(guard: EndConnection) -> set[str]:
    """Return the rules that warn of a guard or refuse it, by name."""
    return {
        rule.key
        for rule in knowledge().book.rules
        if rule.effect in (Effect.REFUSE, Effect.WARN) and names(rule.when, guard)
    }


@pytest.mark.parametrize("family", FAMILIES)
def test_a_guard_is_never_named_as_a_hydraulic_end(family: str) -> None:
    wrong = []
    for end, seat in cases(family):
        verdict = answer(end, seat)
        lead = verdict.ranking[0] if verdict.ranking else None
        if verdict.kind is not VerdictKind.IDENTIFIED or lead is None or lead.end.refuse:
            continue
        beside = {twin.family for twin in lead.twins}
        if family not in BY_MARK_ONLY & beside:
            wrong.append(f"{end.id} ({seat.shape}): {lead.end.id}")
    assert wrong == []


@pytest.mark.parametrize("family", FAMILIES)
def test_a_guard_is_warned_of_by_name(family: str) -> None:
    silent = []
    for end, seat in cases(family):
        said = {warning.rule for warning in answer(end, seat).warnings}
        if not said & warnings_of(end):
            silent.append(f"{end.id} ({seat.shape}): {sorted(said)}")
    assert silent == []


@pytest.mark.parametrize("family", FAMILIES)
def test_a_guard_is_refused_where_it_leads(family: str) -> None:
    """Whoever is told of a guard first is told in the same breath to leave it alone."""
    for end, seat in cases(family):
        verdict = answer(end, seat)
        if verdict.ranking and verdict.ranking[0].end.family == family:
            refusals = {w.rule for w in verdict.warnings if w.effect is Effect.REFUSE}
            assert refusals & warnings_of(end), f"{end.id}: {sorted(refusals)}"


@pytest.mark.parametrize("family", sorted(set(FAMILIES) - ALONE))
def test_a_guard_has_its_other_half(family: str) -> None:
    halves: dict[str, set[str]] = {}
    for end in GUARDS:
        if end.family == family:
            halves.setdefault(end.size, set()).add(end.gender)
    halves = {size: found for size, found in halves.items() if found != {"none"}}  # an eye has none
    assert {size: found for size, found in halves.items() if found != {"male", "female"}} == {}
