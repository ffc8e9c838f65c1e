"""What is seen and told in a word, and the taper that a caliper finds: typed, and how often."""

import math
import random

from identify.model.feature import Feature, Kind
from identify.model.reading import Choice, How, Slope
from identify.simulation.blueprint import Figure, options
from identify.simulation.people import Person
from identify.simulation.spread import phi, rounded_to

OVER_MM = 8.0  # two crest diameters are measured this far apart, as the question asks
OVER_ERROR_MM = 0.5
GROSS_RISE_MM = 1.6


def say_word(rng: random.Random, feature: Feature, truth: str | float, person: Person) -> str:
    """Return the word that is typed for what is there; a taper is one as soon as there is any."""
    said = person.report(feature, _word(truth))
    return rng.choices(list(said), list(said.values()))[0]


def chance_of_word(value: Choice, feature: Feature, figure: Figure | None, person: Person) -> float:
    """Return how often a word is typed of a part with this figure, None if it has nothing."""
    found: list[tuple[str | float, float]] = [*options(figure, str), *options(figure, float)]
    said = sum(share * person.report(feature, _word(true))[value.word] for true, share in found)
    return said * person.answers(feature)


def _word(truth: str | float) -> str:
    if isinstance(truth, str):
        return truth
    return "tapered" if truth else "parallel"


def say_slope(rng: random.Random, truth: float, person: Person) -> str:
    """Return the text that is typed for a taper [mm of diameter per mm] taken by caliper."""
    if rng.random() < person.gross(Kind.LENGTH, How.CALIPER):
        rise = rng.uniform(0.0, GROSS_RISE_MM)
    else:
        over = rng.gauss(OVER_MM, OVER_ERROR_MM)
        rise = truth * over + rng.gauss(0.0, math.sqrt(2) * person.sigma(Kind.LENGTH, How.CALIPER))
    step = person.observer.resolution_mm
    return f"{max(0, round(rise / step)) * step:.2f} mm over {OVER_MM:g} mm"


def chance_of_slope(value: Slope, figure: Figure | None, person: Person) -> float:
    """Return how often a slope is typed of a part with this taper, None if it has no thread."""
    answers = person.answers(Feature.TAPER)
    return answers * sum(
        share * _chance_of_rise(value.rise_mm, true, person)
        for true, share in options(figure, float)
    )


def _chance_of_rise(rise_mm: float, true: float, person: Person) -> float:
    gross = person.gross(Kind.LENGTH, How.CALIPER)
    caliper = math.sqrt(2) * person.sigma(Kind.LENGTH, How.CALIPER)
    sigma = math.hypot(caliper, true * OVER_ERROR_MM)
    step = person.observer.resolution_mm
    if rise_mm < step / 2:  # whatever falls is typed as none
        good, broad = phi((step / 2 - true * OVER_MM) / sigma), step / 2 / GROSS_RISE_MM
    else:
        good = rounded_to(rise_mm, step, true * OVER_MM, sigma)
        broad = step / GROSS_RISE_MM
    return (1 - gross) * good + gross * broad
