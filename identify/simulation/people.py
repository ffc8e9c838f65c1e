"""Simulated people: what they type when they measure a part, right or wrong."""

import math
import random
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from identify.errors import ReadingError
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.observation import Instrument
from identify.model.observer import Observer
from identify.model.reading import How, Reading
from identify.model.rule import QuestionText, Tool
from identify.model.rulebook import RuleBook
from identify.reading.parse import reading_from
from identify.simulation.blueprint import LONGEST_MM, Cone
from identify.simulation.parts import Part

TOOL_HOW = {
    Tool.CALIPER: How.CALIPER,
    Tool.RULE: How.RULE,
    Tool.METRIC_GAUGE: How.GAUGE,
    Tool.INCH_GAUGE: How.GAUGE,
    Tool.SEAT_GAUGE: How.GAUGE,
    Tool.PROTRACTOR: How.PROTRACTOR,
    Tool.COMBS: How.COMBS,
    Tool.NONE: How.EYE,
}
_WORDS = {How.RULE: " by rule", How.COMBS: " by comb page", How.EYE: " by eye"}
COARSE_MM = {How.RULE: 0.5, How.COMBS: 1.0, How.EYE: 1.0}
OVER_MM = 8.0  # two crest diameters are measured this far apart, as the question asks
OVER_ERROR_MM = 0.5
GROSS_COUNT = 0.2  # a length over ten pitches that is plainly wrong is out by up to this share
GROSS_RISE_MM = 1.6
EYE_STEP_DEG = 5
ANY_HALF = (5.0, 85.0)  # a half angle said without any cone to it [deg]
NOT_SIMULATED = frozenset({Feature.ORIGIN, Feature.MARKING, Feature.TRIAL_FIT})
"""Nobody in the simulation knows the machine, finds a mark or has a known end to try it on."""


@dataclass(frozen=True)
class Person:
    """An observer with the book of instruments and habits."""

    observer: Observer
    book: RuleBook

    def tool(self, kind: Kind, how: How) -> Instrument:
        """Return the error that the rules give a way of measuring, before the observer's factor."""
        table = self.book.observation.instruments[kind]
        return table.get(how, table["eye"])

    def gross(self, kind: Kind, how: How) -> float:
        """Return the chance of a plain mistake."""
        return min(0.5, self.tool(kind, how).gross * self.observer.gross)

    def sigma(self, kind: Kind, how: How) -> float:
        """Return the spread of a reading [mm, deg]."""
        return self.tool(kind, how).sigma * self.observer.errors

    def step_mm(self, how: How) -> float:
        """Return the step in which a length is read [mm]."""
        return COARSE_MM.get(how, self.observer.resolution_mm)

    def answers(self, feature: Feature) -> float:
        """Return the chance of an answer where there is something to see."""
        if feature is Feature.GENDER:
            return 1.0  # nothing can be asked before it
        usual = self.book.observation.answered.get(feature, 1.0)
        return usual * (1 - self.observer.missing)

    def leaves(self) -> list[tuple[float, str]]:
        """Return pitch [mm] and name of every gauge leaf in the bag, gauge by gauge, by pitch."""
        model, tools = self.book.observation, self.observer.tools
        metric = [(mm, f"{mm:g} mm") for mm in sorted(model.leaves_mm)]
        inch = [(25.4 / tpi, f"{tpi:g} tpi") for tpi in sorted(model.leaves_tpi, reverse=True)]
        both = Tool.COMBS in tools
        return (metric if both or Tool.METRIC_GAUGE in tools else []) + (
            inch if both or Tool.INCH_GAUGE in tools else []
        )

    def report(self, feature: Feature, truth: str) -> dict[str, float]:
        """Return what this person says when `truth` is there: word -> chance.

        Rare answers of the usual table are mistakes, made as often more as the observer's eye is
        worse; the other answers share what is left.
        """
        usual = self.book.observation.reports[feature][truth]
        rare = {
            word: share
            for word, share in usual.items()
            if share <= self.book.observation.rare_report
        }
        wrong = sum(rare.values())
        factor = min(self.observer.eye, 0.6 / wrong) if wrong else 1.0
        scale = (1 - wrong * factor) / (1 - wrong)
        return {word: share * (factor if word in rare else scale) for word, share in usual.items()}


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
        genders = FEATURES[text.feature].genders
        tool = sharpest(text, person.observer.tools)
        if (
            tool is not None
            and text.feature not in NOT_SIMULATED
            and (not genders or part.gender in genders)
        ):
            found.append((text.feature, tool))
    return found


def fill_sheet(rng: random.Random, part: Part, person: Person) -> list[Reading]:
    """Return what a person says who is asked for everything, with the sharpest tools in the bag."""
    said = (observe(rng, part, feature, person, tool) for feature, tool in asked_of(part, person))
    return [reading for reading in said if reading]


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
    kind, how = FEATURES[feature].kind, TOOL_HOW[tool]
    truth = part.truth.get(feature)
    if (
        kind is Kind.ANGLE
        and truth is None
        and rng.random() < person.book.observation.no_cone_angled
    ):
        truth = Cone(rng.uniform(*ANY_HALF), chamfer=False)
    if kind is Kind.LENGTH:
        return _length(rng, truth, feature, person, how)
    if truth is None or rng.random() >= person.answers(feature):
        return None
    if kind is Kind.PITCH:
        assert isinstance(truth, float)
        return _pitch(rng, truth, person, tool)
    if kind is Kind.ANGLE:
        assert isinstance(truth, Cone)
        return _angle(rng, truth, person, how)
    if kind is Kind.TAPER and how is How.CALIPER:
        assert isinstance(truth, float)
        return _slope(rng, truth, person)
    if kind in (Kind.CHOICE, Kind.TAPER) and feature not in NOT_SIMULATED:
        if kind is Kind.TAPER:
            truth = "tapered" if truth else "parallel"
        said = person.report(feature, str(truth))
        return rng.choices(list(said), list(said.values()))[0]
    return None


def _length(
    rng: random.Random, truth: object, feature: Feature, person: Person, how: How
) -> str | None:
    gross = person.gross(Kind.LENGTH, how)
    if rng.random() >= (gross if truth is None else person.answers(feature)):
        return None
    reach = person.book.observation.near_reach
    if truth is None:
        value = _anywhere(rng, feature)
    else:
        assert isinstance(truth, float)
        if rng.random() >= gross:
            value = rng.gauss(truth, person.sigma(Kind.LENGTH, how))
        elif rng.random() < person.book.observation.near_gross:
            value = truth * math.exp(rng.uniform(-reach, reach))
        else:
            value = _anywhere(rng, feature)
    if how is How.CALIPER and rng.random() < person.observer.inches:
        return f"{value / 25.4:.3f} in"
    step = person.step_mm(how)
    number = f"{round(value / step) * step:.2f}".rstrip("0").rstrip(".")
    return f"{number} mm{_WORDS.get(how, '')}"


def _anywhere(rng: random.Random, feature: Feature) -> float:
    low, high = span_mm(feature)
    return low * float((high / low) ** rng.random())


def span_mm(feature: Feature) -> tuple[float, float]:
    """Return the span in which something measured by mistake lies [mm]."""
    info = FEATURES[feature]
    return info.low, min(info.high, LONGEST_MM)


def _pitch(rng: random.Random, truth: float, person: Person, tool: Tool) -> str | None:
    leaves = [] if tool in (Tool.CALIPER, Tool.RULE) else person.leaves()
    words = _WORDS.get(TOOL_HOW[tool], "")
    if leaves:
        if rng.random() < person.gross(Kind.PITCH, TOOL_HOW[tool]):
            return rng.choice(leaves)[1] + words
        seen = truth * math.exp(rng.gauss(0.0, person.observer.leaf_error))
        best = min(range(len(leaves)), key=lambda i: abs(math.log(leaves[i][0] / seen)))
        if abs(math.log(leaves[best][0] / seen)) < person.book.people.pitch_fits:
            if rng.random() < person.observer.neighbour_leaf:
                best = beside(leaves, best, rng.choice((-1, 1)))
            return leaves[best][1] + words
    return _counted(rng, truth, person, How.RULE if tool is Tool.RULE else How.COUNTED)


def beside(leaves: list[tuple[float, str]], place: int, step: int) -> int:
    """Return the next leaf of the same gauge, the leaf itself at the gauge's end."""
    there = place + step
    if not 0 <= there < len(leaves) or (leaves[there][0] > leaves[place][0]) != (step > 0):
        return place
    return there if leaves[there][1][-2:] == leaves[place][1][-2:] else place


def _counted(rng: random.Random, truth: float, person: Person, how: How) -> str | None:
    count = person.book.people.pitches
    if rng.random() < person.gross(Kind.PITCH, how):
        total = truth * count * math.exp(rng.uniform(-GROSS_COUNT, GROSS_COUNT))
    else:
        slip = rng.choice((-1, 1)) if rng.random() < 2 * person.observer.miscount else 0
        total = rng.gauss(truth * (count + slip), person.sigma(Kind.PITCH, how))
    step = max(0.1, COARSE_MM.get(how, 0.1))
    return f"{count} pitches = {round(total / step) * step:.1f} mm"


def _slope(rng: random.Random, truth: float, person: Person) -> str:
    if rng.random() < person.gross(Kind.LENGTH, How.CALIPER):
        rise = rng.uniform(0.0, GROSS_RISE_MM)
    else:
        over = rng.gauss(OVER_MM, OVER_ERROR_MM)
        rise = truth * over + rng.gauss(0.0, math.sqrt(2) * person.sigma(Kind.LENGTH, How.CALIPER))
    step = person.observer.resolution_mm
    return f"{max(0, round(rise / step)) * step:.2f} mm over {OVER_MM:g} mm"


def _angle(rng: random.Random, truth: Cone, person: Person, how: How) -> str | None:
    model = person.book.observation
    if truth.chamfer and rng.random() >= model.chamfer_angled:
        return None
    half = rng.gauss(truth.half_deg, person.sigma(Kind.ANGLE, how))
    gross = rng.random() < person.gross(Kind.ANGLE, how)
    if how in (How.GAUGE, How.COMBS):
        leaves = model.seat_leaves_deg
        best = min(range(len(leaves)), key=lambda i: abs(leaves[i] - half))
        if gross:
            best = rng.randrange(len(leaves))
        elif abs(leaves[best] - half) > model.seat_fits_deg:
            return None
        elif rng.random() < person.observer.neighbour_leaf:
            best = slip_to(leaves, best, rng.choice((-1, 1)), model.seat_slip_deg)
        half = leaves[best]
    elif gross:
        half = rng.uniform(*ANY_HALF)
    return _said(rng, half, person, EYE_STEP_DEG if how is How.EYE else 1) + _WORDS.get(
        how, " by protractor" if how is How.PROTRACTOR else ""
    )


def slip_to(leaves: Sequence[float], place: int, step: int, reach_deg: float) -> int:
    """Return the next leaf of a seat gauge, the leaf itself where there is none so near."""
    there = min(max(place + step, 0), len(leaves) - 1)
    return there if abs(leaves[there] - leaves[place]) <= reach_deg else place


def _said(rng: random.Random, half: float, person: Person, step: int) -> str:
    """Return an angle as number and word; either may be the half or the included angle."""
    as_half = rng.random() < 0.5
    number = round((half if as_half else 2 * half) / step) * step
    draw = rng.random()
    if draw < person.observer.unsaid:
        return f"{number} deg"
    if rng.random() < person.observer.mix_up:
        as_half = not as_half
    return f"{number} deg {'half' if as_half else 'included'}"
