"""Several readings of one feature: each has its own error, but a mistake repeats.

Who reads the same thing again in the same way tends to make the same mistake again. With which
share stands in `rules/`: less with another tool, least if somebody else looks. Each reading leans
on that earlier one from which it most likely repeats.
"""

from __future__ import annotations

import math
from itertools import product

from identify.frozen import NamedTuple
from identify.light import Callable, Iterable, Iterator, Sequence
from identify.model.observation import ObservationModel
from identify.model.reading import Angle, Choice, How, Length, Pitch, Reading, Slope, Trial
from identify.reasoning.density import normal_pdf
from identify.reasoning.weight import Joint, Weight, instrument, sigma_of, spread_deg


def chained(
    leans: Sequence[Lean],
    slips: Sequence[float],
    gross: Sequence[float],
    sound: Callable[[Sequence[int]], float],
) -> Joint:
    """Weigh readings that share one true size and of which some are mistakes.

    Args:
        leans: Of each reading, as `leans_of` returns them.
        slips: Density of each reading as a mistake, its share in it.
        gross: Share of mistakes of each.
        sound: Returns the joint density of those readings, by place, that are no mistakes.
    """
    return _summed(len(leans), mistakes(leans, slips, gross), sound)


def mistakes(
    leans: Sequence[Lean], slips: Sequence[float], gross: Sequence[float]
) -> Iterator[tuple[tuple[bool, ...], float]]:
    """Yield which readings of one size may be mistakes, and the weight of that; see `chained`."""

    def step(place: int, wrong: tuple[bool, ...]) -> float:
        lean = leans[place]
        repeated = lean.before is not None and wrong[lean.before]
        return sound_or_slip(lean, repeated, gross[place], slips[place])[wrong[place]]

    return _ways(len(leans), step)


def copied(leans: Sequence[Lean], singles: Sequence[Weight]) -> Joint:
    """Weigh readings of which a later one may only say again what an earlier one said.

    Args:
        leans: Of each reading, answers or leaves of which the truth is not spread.
        singles: The weight of each by itself.
    """

    def step(place: int, wrong: tuple[bool, ...]) -> float:
        before, share, near = leans[place]
        one = singles[place]
        own = one.mistake if wrong[place] else one.likelihood - one.mistake
        if before is None:
            return own
        return (share * near if wrong[place] == wrong[before] else 0.0) + (1 - share) * own

    return _summed(len(leans), _ways(len(leans), step), lambda _: 1.0)


def repeats(one: Reading, other: Reading, model: ObservationModel) -> float:
    """Return how often a later reading repeats the mistake of an earlier one [0..1]."""
    if one.other_person != other.other_person:
        return model.repeats_other_person
    if one.how is not other.how:
        return model.repeats_other_tool
    return model.repeats_eye if one.how is How.EYE else model.repeats_tool


def said_again(one: Reading, other: Reading, model: ObservationModel) -> float:
    """Return how likely `other` is if it only repeats what `one` said; 0 if it cannot.

    A density in the unit of the value where that is a number on a scale, else a probability.
    """
    match one.value, other.value:
        case (Choice(), Choice()) | (Trial(), Trial()):
            return float(one.value == other.value)
        case Length() as first, Length() as second:
            spread = math.hypot(
                sigma_of(first, instrument(one, model)), sigma_of(second, instrument(other, model))
            )
            return normal_pdf((second.mm - first.mm) / spread) / spread
        case Pitch() as first, Pitch() as second:
            if bool(first.pitches) != bool(second.pitches) or first.inch != second.inch:
                return 0.0
            if not first.pitches:
                return float(math.isclose(first.mm, second.mm, rel_tol=0.01))
            spread = math.sqrt(2) * instrument(one, model).sigma / first.pitches
            return normal_pdf((second.mm - first.mm) / spread) / spread
        case Angle() as first, Angle() as second:
            if first.basis is not second.basis:
                return 0.0
            spread = math.hypot(
                spread_deg(second, first.deg, instrument(other, model)), model.seat_worn_deg
            )
            if How.GAUGE in (one.how, other.how):
                return normal_pdf(0) / spread if first.deg == second.deg else 0.0
            return normal_pdf((second.deg - first.deg) / spread) / spread
        case Slope() as first, Slope() as second:
            spread = (
                model.growth_spread
                + math.sqrt(2) * model.instruments["length"]["caliper"].sigma / second.over_mm
            )
            off = second.rise_mm / second.over_mm - first.rise_mm / first.over_mm
            return normal_pdf(off / spread) / spread
    return 0.0


class Lean(NamedTuple):
    """From which earlier reading one repeats, how often [0..1], and how likely it then is.

    `before` is its place, None where there is none to repeat from.
    """

    before: int | None
    share: float
    near: float


def leans_of(readings: Sequence[Reading], model: ObservationModel) -> list[Lean]:
    """Return on which earlier reading each leans, whatever is there."""
    return [lean_of(place, readings, model) for place in range(len(readings))]


def lean_of(place: int, readings: Sequence[Reading], model: ObservationModel) -> Lean:
    """Return on which of the readings before it one leans, whatever is there."""
    before, share = leans_on(readings[:place], readings[place], model)
    if before is None:
        return Lean(None, 0.0, 0.0)
    return Lean(before, share, said_again(readings[before], readings[place], model))


def leans_on(
    earlier: Sequence[Reading], reading: Reading, model: ObservationModel
) -> tuple[int | None, float]:
    """Return the place of the earlier reading from which one repeats, and how often [0..1]."""
    best: tuple[int | None, float] = (None, 0.0)
    for before, each in enumerate(earlier):
        share = repeats(each, reading, model)
        if share >= best[1] and comparable(each, reading):
            best = before, share
    return best


def sound_or_slip(lean: Lean, repeated: bool, gross: float, slip: float) -> tuple[float, float]:
    """Return the weight of a reading of a size as a sound one, and as a mistake.

    Args:
        lean: On what it leans.
        repeated: Whether that is a mistake.
        gross: Share of mistakes.
        slip: Density of the reading as a mistake, that share in it.
    """
    if lean.before is None:
        return 1 - gross, slip
    again = lean.share if repeated else 0.0
    # The shares of sound readings make up what those of the mistakes leave.
    sound = (1 - lean.share) * (1 - gross) + (0.0 if repeated else lean.share)
    return sound, again * lean.near + (1 - lean.share) * slip


def comparable(one: Reading, other: Reading) -> bool:
    """Tell whether a reading could repeat another at all: the same kind of value."""
    if type(one.value) is not type(other.value):
        return False
    match one.value, other.value:
        case Pitch() as first, Pitch() as second:
            return bool(first.pitches) == bool(second.pitches)
        case Trial() as first, Trial() as second:
            return first.known == second.known
    return True


def _summed(
    number: int,
    ways: Iterable[tuple[tuple[bool, ...], float]],
    sound: Callable[[Sequence[int]], float],
) -> Joint:
    """Sum over which of the readings are mistakes."""
    total, every, each = 0.0, 0.0, [0.0] * number
    for wrong, chance in ways:
        chosen = [place for place in range(number) if not wrong[place]]
        term = chance * sound(chosen) if chosen else chance
        total += term
        if not chosen:
            every = term
        for place in range(number):
            if wrong[place]:
                each[place] += term
    return Joint(total, every, tuple(each))


def _ways(
    number: int, step: Callable[[int, tuple[bool, ...]], float]
) -> Iterator[tuple[tuple[bool, ...], float]]:
    for wrong in product((False, True), repeat=number):
        chance = math.prod(step(place, wrong) for place in range(number))
        if chance > 0:
            yield wrong, chance
