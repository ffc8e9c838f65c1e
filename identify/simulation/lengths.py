"""Lengths: what a person types, and how often a person types exactly that."""

import math
import random

from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import How, Length
from identify.simulation.blueprint import LONGEST_MM, Figure, Span
from identify.simulation.people import COARSE_MM, SAID_BY, Person
from identify.simulation.spread import GRID_MM, Grid, rounded_to

INCH_STEP_MM = 0.0254  # inches are typed to the thousandth


def say_length(
    rng: random.Random, truth: float | None, feature: Feature, person: Person, how: How
) -> str | None:
    """Return the text that is typed for a length [mm], None for "cannot tell".

    Where there is nothing to measure, something else is measured by mistake.
    """
    gross, model = person.gross(Kind.LENGTH, how), person.book.observation
    if rng.random() >= (gross if truth is None else person.answers(feature)):
        return None
    if truth is None:
        value = _anywhere(rng, feature)
    elif rng.random() >= gross:
        value = rng.gauss(truth, person.sigma(Kind.LENGTH, how))
    elif rng.random() < model.near_gross:
        value = truth * math.exp(rng.uniform(-model.near_reach, model.near_reach))
    else:
        value = _anywhere(rng, feature)
    if how is How.CALIPER and rng.random() < person.observer.inches:
        return f"{value / 25.4:.3f} in"
    step = step_mm(person, how)
    number = f"{round(value / step) * step:.2f}".rstrip("0").rstrip(".")
    return f"{number} mm{SAID_BY.get(how, '')}"


def chance_of_length(
    value: Length,
    how: How,
    inch: bool,
    feature: Feature,
    figure: Figure | None,
    person: Person,
    grid: Grid,
) -> float:
    """Return how often a length is typed.

    Args:
        value: What is typed.
        how: How it was measured.
        inch: Whether it is typed in inches.
        feature: What it is a length of.
        figure: What the part has of the feature, None if nothing.
        person: Who types.
        grid: Where the true length lies, if there is any.
    """
    model = person.book.observation
    gross, sigma = person.gross(Kind.LENGTH, how), person.sigma(Kind.LENGTH, how)
    step = INCH_STEP_MM if inch else step_mm(person, how)
    unit = 1.0
    if how is How.CALIPER:
        unit = person.observer.inches if inch else 1 - person.observer.inches
    low, high = _span_mm(feature)
    least, most = max(low, value.mm - step / 2), min(high, value.mm + step / 2)
    broad = max(0.0, math.log(most / least) / math.log(high / low))
    there = figure.chance if isinstance(figure, Span) else float(figure is not None)
    good = _read(value.mm, step, sigma, grid)
    slip = _near(value.mm, step, model.near_reach, grid)
    wrong = model.near_gross * slip + (1 - model.near_gross) * broad
    seen = person.answers(feature) * ((1 - gross) * good + gross * wrong)
    return unit * (there * seen + (1 - there) * gross * broad)


def step_mm(person: Person, how: How) -> float:
    """Return the step in which a person reads a length [mm]."""
    return COARSE_MM.get(how, person.observer.resolution_mm)


def _span_mm(feature: Feature) -> tuple[float, float]:
    """Return the span in which something measured by mistake lies [mm]."""
    info = FEATURES[feature]
    return info.low, min(info.high, LONGEST_MM)


def _anywhere(rng: random.Random, feature: Feature) -> float:
    low, high = _span_mm(feature)
    return low * float((high / low) ** rng.random())


def _read(value: float, step: float, sigma: float, grid: Grid) -> float:
    """Return how often a length spread over a grid is read as `value`."""
    first, shares = grid.first_mm, grid.shares
    reach = 6 * sigma + step
    low = max(0, math.floor((value - reach - first) / GRID_MM))
    high = min(len(shares), math.ceil((value + reach - first) / GRID_MM) + 1)
    return sum(
        shares[i] * rounded_to(value, step, first + i * GRID_MM, sigma) for i in range(low, high)
    )


def _near(value: float, step: float, reach: float, grid: Grid) -> float:
    """Return how often a slip that stays near the truth lands on `value`."""
    inside = grid.between(value * math.exp(-reach), value * math.exp(reach))
    return inside * step / (2 * reach * value)
