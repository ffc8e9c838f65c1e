"""A person measures a part: which questions, with which tool, and the text that is typed."""

import random
from collections.abc import Collection
from typing import Self

from identify.errors import ReadingError
from identify.model.feature import FEATURES, Feature, Kind, applies
from identify.model.reading import How, Reading
from identify.model.rule import HOW_TAKEN, QuestionText, Tool
from identify.reading.parse import reading_from
from identify.simulation.angles import say_angle
from identify.simulation.blueprint import Cone
from identify.simulation.lengths import say_length
from identify.simulation.parts import Part
from identify.simulation.people import Person
from identify.simulation.pitches import say_pitch
from identify.simulation.words import say_slope, say_word

NOT_SIMULATED = frozenset({Feature.ORIGIN, Feature.MARKING, Feature.TRIAL_FIT})
"""Nobody in the simulation knows the machine, finds a mark or has a known end to try it on."""
_SHARPEST = (
    Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE, Tool.CALIPER, Tool.PROTRACTOR,
    Tool.COMBS, Tool.RULE, Tool.NONE,
)  # fmt: skip


def sharpest(text: QuestionText, tools: Collection[Tool]) -> Tool | None:
    """Return the best tool in the bag for a question, None if none will do."""
    if text.feature in (Feature.HOSE_BORE, Feature.FLANK_ANGLE):
        return Tool.NONE  # read off the hose; seen against the light
    return next((t for t in _SHARPEST if t in text.tools and (t is Tool.NONE or t in tools)), None)


def asked_of(part: Part, person: Person) -> list[tuple[Feature, Tool]]:
    """Return what a whole sheet asks of a part, each with the sharpest tool in the bag."""
    found = []
    for text in person.book.questions:
        tool = sharpest(text, person.observer.tools)
        if (
            tool is not None
            and text.feature not in NOT_SIMULATED
            and applies(text.feature, part.seen_as)
        ):
            found.append((text.feature, tool))
    return found


def fill_sheet(rng: random.Random, part: Part, person: Person) -> list[Reading]:
    """Return what a person says who is asked for everything, with the sharpest tools in the bag."""
    said = (observe(rng, part, feature, person, tool) for feature, tool in asked_of(part, person))
    return [reading for reading in said if reading]


class Attempt(random.Random):
    """What one attempt at a reading draws on: slips and habits from one seed, noise from another.

    Two attempts with the same slips make the same mistakes, and read the size anew.
    """

    def __new__(cls, slips: str, noise: str) -> Self:
        """Return an attempt; Random itself would take the first argument for its only seed."""
        return super().__new__(cls)

    def __init__(self, slips: str, noise: str) -> None:
        super().__init__(slips)
        self._noise = random.Random(noise)

    def gauss(self, mu: float = 0.0, sigma: float = 1.0) -> float:
        """Return normal noise, which no two attempts share."""
        return self._noise.gauss(mu, sigma)


def observe(
    rng: random.Random, part: Part, feature: Feature, person: Person, tool: Tool
) -> Reading | None:
    """Return what a person says of one feature of a part, None if nothing.

    Args:
        rng: Source of chance.
        part: What is in the hand.
        feature: What was asked.
        person: Who measures.
        tool: With what; must be in the bag, or `Tool.NONE`.

    Returns:
        A reading made from typed text by the same parser that people meet.
    """
    text = say(rng, part, feature, person, tool)
    if text is None:
        return None
    try:
        return reading_from(feature, text)
    except ReadingError:  # refused at the door as impossible; the person gives up
        return None


def say(rng: random.Random, part: Part, feature: Feature, person: Person, tool: Tool) -> str | None:
    """Return the text a person types, None for "cannot tell"."""
    kind, how = FEATURES[feature].kind, HOW_TAKEN[tool]
    truth = part.truth.get(feature)
    if kind is Kind.LENGTH:
        return say_length(rng, truth if isinstance(truth, float) else None, feature, person, how)
    if kind is Kind.ANGLE:
        return say_angle(rng, truth if isinstance(truth, Cone) else None, person, how)
    if not isinstance(truth, str | float) or rng.random() >= person.answers(feature):
        return None
    if isinstance(truth, float) and kind is Kind.PITCH:
        return say_pitch(rng, truth, person, how)
    if isinstance(truth, float) and how is How.CALIPER:
        return say_slope(rng, truth, person)
    return say_word(rng, feature, truth, person)


def attempt(
    seed: str,
    part: Part,
    person: Person,
    feature: Feature,
    tool: Tool,
    before: Tool | None,
    slips: list[str],
) -> Reading | None:
    """Return what a person says who may make the mistake of the last attempt again.

    Args:
        seed: Names the part.
        part: What is in the hand.
        person: Who measures.
        feature: What is measured.
        tool: With what.
        before: With what it was measured the last time, None if this is the first.
        slips: What the attempts before drew on, added to.
    """
    own = f"{seed} {feature} {tool} {len(slips)}"
    model = person.book.observation
    if before:
        same = model.repeats_eye if tool is Tool.NONE else model.repeats_tool
        share = same if before is tool else model.repeats_other_tool
        if random.Random(f"{own} repeats").random() < share:
            slips.append(slips[-1])
            return observe(Attempt(slips[-1], own), part, feature, person, tool)
    slips.append(own)
    return observe(Attempt(own, own), part, feature, person, tool)
