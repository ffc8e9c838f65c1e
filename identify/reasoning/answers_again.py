"""Which answers to expect when something is read once more, given what was read before.

Worked out from the very weighing of several readings: the chance of an answer is the weight of all
readings with it over the weight of those before it.
"""

import math
from collections.abc import Collection, Iterator, Sequence
from functools import partial

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import ObservationModel
from identify.model.reading import Choice, How, Length, Reading
from identify.model.rule import Tool
from identify.reasoning.answers import Answers, answers_of
from identify.reasoning.likelihood import weigh
from identify.reasoning.repeated import copied
from identify.reasoning.traits import Interval, Missing, Trait
from identify.reasoning.weigh_angle import angle_said, angles_said
from identify.reasoning.weigh_length import WIDE, shape, step_mm, weigh_lengths
from identify.reasoning.weigh_pitch import STEP_MM, counted_said, leaves_at_hand
from identify.reasoning.weigh_taper import STEP, growth_said
from identify.reasoning.weight import Joint, instrument_of

Cell = tuple[int, Reading, float]  # number, the reading in its middle, what it stands for


def answers_again(
    feature: Feature,
    trait: Trait,
    how: How,
    model: ObservationModel,
    gauges: Collection[Tool],
    before: Sequence[Reading],
) -> Answers | None:
    """Return the answers expected of one trait when it is read again, None if nothing is known.

    Answers are numbered as those of the first reading; what lies further off than a sound reading
    would is left out, as silence.

    Args:
        feature: What is read again: no origin, mark or trial.
        trait: What is there.
        how: In which way it is read this time.
        model: Errors and habits.
        gauges: The pitch gauges in the bag.
        before: The readings of the feature so far.
    """
    if isinstance(trait, Missing):
        return None
    together = partial(_together, trait=trait, model=model)
    known = together(tuple(before)).likelihood
    found = {
        number: wide * together((*before, reading)).likelihood / known
        for number, reading, wide in _cells(feature, trait, how, model, gauges, before)
    }
    if not found:
        return None
    first, last = min(found), max(found)
    chances = [found.get(number, 0.0) for number in range(first, last + 1)]
    whole = max(1.0, sum(chances))
    chances = [chance / whole for chance in chances]
    return answers_of(first, chances, silent=max(0.0, 1 - sum(chances)))


def _together(readings: tuple[Reading, ...], trait: Trait, model: ObservationModel) -> Joint:
    if all(isinstance(each.value, Length) for each in readings):
        return weigh_lengths(readings, trait, model)
    return copied(readings, [weigh(each, trait, model) for each in readings], model)


def _cells(
    feature: Feature,
    trait: Trait,
    how: How,
    model: ObservationModel,
    gauges: Collection[Tool],
    before: Sequence[Reading],
) -> Iterator[Cell]:
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        yield from _lengths(feature, trait, how, model, before)
    elif kind is Kind.PITCH and how in (How.GAUGE, How.COMBS):
        for number, leaf in enumerate(leaves_at_hand(model, gauges)):
            yield number, Reading(feature, leaf, how, ""), 1.0
    elif kind is Kind.PITCH:
        low, high = FEATURES[feature].low, FEATURES[feature].high
        for number in range(math.floor(low / STEP_MM), math.ceil(high / STEP_MM)):
            yield number, Reading(feature, counted_said(number), how, ""), STEP_MM
    elif kind is Kind.ANGLE:
        for number, (deg, wide) in enumerate(angles_said(how, model)):
            yield number, Reading(feature, angle_said(deg, how), how, ""), wide
    elif kind is Kind.TAPER and how is not How.EYE:
        half = round(model.growth_span / STEP / 2)
        for number in range(-half, 2 * half):
            yield number, Reading(feature, growth_said(number), how, ""), STEP
    else:
        for number, word in enumerate(FEATURES[feature].choices):
            yield number, Reading(feature, Choice(word), how, ""), 1.0


def _lengths(
    feature: Feature, trait: Trait, how: How, model: ObservationModel, before: Sequence[Reading]
) -> Iterator[Cell]:
    """Yield the cells near what was read before and near what is there."""
    step = step_mm(feature, how)
    tool = instrument_of(Kind.LENGTH, how, model)
    numbers: set[int] = set()
    for reading in before:
        if isinstance(reading.value, Length):
            old = instrument_of(Kind.LENGTH, reading.how, model)
            mm = reading.value.mm
            wide = WIDE * math.hypot(tool.sigma, old.sigma, (tool.share + old.share) * mm)
            numbers.update(
                range(max(0, math.floor((mm - wide) / step)), math.ceil((mm + wide) / step))
            )
    if isinstance(trait, Interval):
        middle, parts = shape(feature, trait, model)
        wide = WIDE * math.hypot(tool.sigma, tool.share * middle)
        for part in parts:
            numbers.update(part.cells(step, wide))
    for number in sorted(numbers):
        yield number, Reading(feature, Length((number + 0.5) * step), how, ""), step
