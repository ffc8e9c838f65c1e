"""Which part of a claim stands: the thread may, where the seat is open."""

from collections.abc import Iterable, Sequence
from operator import mul

from identify.model.claim import Aspect, Part, Standing
from identify.model.connection import EndConnection
from identify.model.feature import CLUES
from identify.model.observation import VerdictLimits
from identify.reasoning.posterior import DIGITS, Posterior
from identify.reasoning.subject import Subject


def parts_of(
    state: Posterior, ends: Sequence[EndConnection], limits: VerdictLimits
) -> Iterable[Part]:
    """Yield the parts of a claim: thread, seat and size; family and size where none has a thread.

    Args:
        state: What is known.
        ends: What the claim names.
        limits: Where a standing changes its name; that of a whole claim changes at the same.
    """
    threaded = any(end.thread for end in ends)
    parts = (Aspect.THREAD, Aspect.SEAT, Aspect.SIZE) if threaded else (Aspect.FAMILY, Aspect.SIZE)
    subjects, names = state.space.subjects, {end.id for end in ends}
    own = [each for each in subjects if each.end and each.end.id in names]
    likely = _likelihoods(state)
    most = max(likely, default=0.0)
    for aspect in parts:
        values = dict.fromkeys(value for each in own if (value := _value(aspect, each)))
        inside = [number for number, each in enumerate(subjects) if _value(aspect, each) in values]
        if not values:
            continue
        chance = sum(state.weights[number] for number in inside)
        standing = Standing.DOUBTFUL
        if chance >= limits.identified:
            standing = Standing.STANDS
        elif chance < limits.refuted:
            best = max(likely[number] for number in inside)
            if best <= limits.against * most:
                standing = Standing.REFUTED
        yield Part(aspect, _likeliest(aspect, values, state), chance, standing)


def _likeliest(aspect: Aspect, values: Iterable[str], state: Posterior) -> tuple[str, ...]:
    """Return values with the likeliest first."""
    total = dict.fromkeys(values, 0.0)
    for subject, weight in zip(state.space.subjects, state.weights, strict=True):
        if (value := _value(aspect, subject)) in total:
            total[value] += weight
    return tuple(sorted(total, key=lambda each: (-round(total[each], DIGITS), each)))


def _value(aspect: Aspect, subject: Subject) -> str:
    """Return what an aspect of an end is, empty where it has none or nobody knows."""
    end, seat = subject.end, subject.seat
    if aspect is Aspect.THREAD:
        return subject.thread.designation if subject.thread else ""
    if aspect is Aspect.SEAT:
        angle = f" {seat.half_angle_deg:g} deg half" if seat and seat.half_angle_deg else ""
        return f"{seat.shape}{angle}" if seat else ""
    if aspect is Aspect.FAMILY:
        return end.family if end else subject.family
    return end.size if end else ""


def _likelihoods(state: Posterior) -> list[float]:
    """Return how likely all readings but clues are, for every hypothesis."""
    out = [1.0] * len(state.weights)
    for each in state.weighed:
        if each.feature not in CLUES:
            out = list(map(mul, out, map(each.likely.__getitem__, each.of)))
    return out
