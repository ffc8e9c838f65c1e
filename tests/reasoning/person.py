"""A person who answers as the model expects: draws answers, and makes readings of them."""

import math
import random

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import (
    Choice,
    How,
    Length,
    Outcome,
    Reading,
    Trial,
    Value,
)
from identify.model.rule import Tool
from identify.reasoning.answers import Answers
from identify.reasoning.weigh_angle import angle_said, angles_said
from identify.reasoning.weigh_length import step_mm
from identify.reasoning.weigh_pitch import GAUGES, counted_said, leaves_at_hand
from identify.reasoning.weigh_pitch import STEP_MM as PITCH_STEP_MM
from identify.reasoning.weigh_taper import growth_said
from tests.shipped import knowledge

MODEL = knowledge().book.observation


def draw(answers: Answers, rng: random.Random, highest: int) -> int | None:
    """Return an answer, None for silence; a mistake may land on any cell up to `highest`."""
    chance = rng.random()
    for number, each in enumerate(answers.chances, answers.first):
        chance -= each
        if chance < 0:
            return number
    if answers.anywhere is None or chance < answers.silent:
        return None
    return int(highest * math.exp(-answers.anywhere.span * rng.random()))


def highest_cell(feature: Feature, how: How) -> int:
    """Return the number of the last cell of a grid of answers."""
    step = PITCH_STEP_MM if feature is Feature.PITCH else step_mm(feature, how)
    return int(FEATURES[feature].high / step)


def said(
    feature: Feature,
    how: How,
    answer: int,
    within: float = 0.5,
    gauges: frozenset[Tool] = GAUGES,
) -> Reading:
    """Return the reading that an answer stands for; `within` is the place in a cell [0..1]."""
    return Reading(feature, _value(feature, how, answer, within, gauges), how, "")


def trial_said(known: str, answer: int) -> Trial:
    """Return the trial that an answer stands for."""
    return Trial(known, tuple(Outcome)[answer])


def _value(
    feature: Feature, how: How, answer: int, within: float, gauges: frozenset[Tool]
) -> Value:
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return Length((answer + within) * step_mm(feature, how))
    if kind is Kind.PITCH and how in (How.GAUGE, How.COMBS):
        return leaves_at_hand(MODEL, gauges)[answer]
    if kind is Kind.PITCH:
        return counted_said(answer)
    if kind is Kind.ANGLE:
        return angle_said(angles_said(how, MODEL)[answer][0], how)
    if kind is Kind.TAPER and how is not How.EYE:
        return growth_said(answer)
    return Choice(FEATURES[feature].choices[answer])
