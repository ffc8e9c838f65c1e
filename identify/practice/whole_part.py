"""A whole part on the bench: what can be read, what it costs, and what may be said of the part."""

import random
from collections.abc import Sequence

from identify.frozen import NamedTuple, replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature, applies
from identify.model.reading import Reading
from identify.model.rule import QuestionText, Tool
from identify.model.verdict import Verdict, VerdictKind
from identify.practice.exercise import CANNOT_TELL, STOP, Exercise, Option, Pair
from identify.practice.room import Room
from identify.reading.parse import reading_from
from identify.reasoning.apart import nears_of, rivals_of
from identify.reasoning.engine import Situation
from identify.simulation.measuring import NOT_SIMULATED, attempt, sharpest
from identify.simulation.people import Person

MOST_OPTIONS = 5  # ends that are offered by name
_MAY_LACK = (Tool.CALIPER, Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE)
_LONGEST = 20  # readings of the engine's own way, which ends by itself far before
LACKS = 2  # from this level on a tool is not there
GUARD = 0.5  # of what stands: if so much must be left alone, "stop" is right


class Taken(NamedTuple):
    """One attempt at a reading: with what, what it cost [min], None where nothing could be read."""

    feature: Feature
    tool: Tool
    minutes: float
    reading: Reading | None


def make_whole(
    room: Room, pair: Pair, rng: random.Random, seed: str, level: int
) -> Exercise | None:
    """Return a whole part of a pair, with the names it may be given."""
    rows = rng.choice(pair.examples)
    rows = rows[::-1] if rng.random() < 0.5 else rows
    truth, confused = (room.catalogue.ends[row] for row in rows)
    part = room.part(rng, rows[0], level)
    tools = set(room.person(level).observer.tools)
    if level >= LACKS:
        tools.discard(rng.choice(_MAY_LACK))
    row_of, same = room.catalogue.row_of, room.engine.one_answer.same
    if same(*sorted(rows)):  # no measurement tells the two apart, or none needs to
        return None
    names = [truth, confused]
    for end, _ in rivals_of(room.catalogue, truth, nears_of(room.book.observation)):
        if same(*sorted((rows[0], row_of[end.id]))):
            continue
        if all((end.family, end.size) != (each.family, each.size) for each in names):
            names.append(end)
    names = names[:2] + rng.sample(names[2:], min(len(names) - 2, MOST_OPTIONS - 2))
    named = [named_option(room, end) for end in names if not end.refuse]
    options = (
        *sorted(named, key=lambda option: option.words),
        Option(CANNOT_TELL, "cannot tell; I need another reading"),
        Option(STOP, "stop: not a hydraulic end, leave it alone"),
    )
    made = Exercise(
        pair, seed, level, truth, confused, part, "What is it?", options,
        (reading_from(Feature.GENDER, part.seen_as),), room.whole(rng, part),
        (room.picture(truth, part),), frozenset(tools),
    )  # fmt: skip
    return replace(made, left_open=_left_open(room, made))


def _left_open(room: Room, made: Exercise) -> bool:
    """Tell whether the readings that the engine asks for leave open what it is."""
    if made.truth.refuse:
        return False
    readings = readings_of(made, engine_path(room, made))
    return room.told(made.options, readings) != room.right(made)


def named_option(room: Room, end: EndConnection) -> Option:
    """Return the answer that names the family and size of an end, whatever its gender."""
    rows = {row for row, each in enumerate(room.catalogue.ends)
            if (each.family, each.size) == (end.family, end.size)}  # fmt: skip
    return Option(f"{end.family}:{end.size}", f"{end.family_name}, {end.size}", frozenset(rows))


def sound_whole(room: Room, made: Exercise) -> bool:
    """Tell whether a whole measurement leads the engine to the end that lies there.

    A part is left open only where a tool is not there.
    """
    if made.left_open and made.level < LACKS:
        return False
    state = room.engine.posterior(made.whole)
    row = room.catalogue.row_of[made.truth.id]
    groups = room.engine.groups(state, 1)
    return bool(groups) and row in (groups[0][0], *groups[0][2])


def fitter(room: Room, made: Exercise) -> Person:
    """Return who takes the readings, with the tools that are there."""
    person = room.person(made.level)
    return replace(person, observer=replace(person.observer, tools=made.tools))


def menu(room: Room, made: Exercise) -> list[tuple[QuestionText, Tool, float]]:
    """Return what can be read of the part with the tools that are there, and its minutes."""
    found = []
    for text in room.book.questions:
        tool = sharpest(text, made.tools)
        free = text.feature in (*NOT_SIMULATED, Feature.GENDER)
        if tool is not None and not free and applies(text.feature, made.part.seen_as):
            found.append((text, tool, text.minutes[tool]))
    return found


def lacking(room: Room, made: Exercise) -> list[QuestionText]:
    """Return what cannot be read because the tool is not there."""
    here = {text.feature for text, _, _ in menu(room, made)}
    return [
        text
        for text in room.book.questions
        if text.feature not in (*here, *NOT_SIMULATED, Feature.GENDER)
        and applies(text.feature, made.part.seen_as)
    ]


def take(room: Room, made: Exercise, taken: Sequence[Taken], feature: Feature) -> Taken:
    """Return the next attempt at a feature: the same whenever the same was taken before."""
    tool, minutes = next((tool, cost) for text, tool, cost in menu(room, made)
                         if text.feature is feature)  # fmt: skip
    person, slips = fitter(room, made), list[str]()
    seed = f"{made.seed} {made.part.condition}"  # another part is measured with other slips
    before: Tool | None = None
    for _ in [each for each in taken if each.feature is feature]:
        attempt(seed, made.part, person, feature, tool, before, slips)
        before = tool
    reading = attempt(seed, made.part, person, feature, tool, before, slips)
    return Taken(feature, tool, minutes, reading)


def readings_of(made: Exercise, taken: Sequence[Taken]) -> tuple[Reading, ...]:
    """Return all that was read."""
    return (*made.shown, *(each.reading for each in taken if each.reading))


def concluded(room: Room, made: Exercise, taken: Sequence[Taken]) -> Verdict:
    """Return what the engine makes of what was taken, with these tools."""
    tried = {each.feature for each in taken if each.reading is None}
    given_up = frozenset({*NOT_SIMULATED, *tried})
    return room.engine.conclude(readings_of(made, taken), Situation(made.tools, given_up=given_up))


def guarded(verdict: Verdict) -> bool:
    """Tell whether most of what stands must not be handled as a hydraulic end."""
    standing = [each for each in verdict.ranking if each.end.refuse]
    return sum(each.probability for each in standing) > GUARD


def engine_path(room: Room, made: Exercise) -> tuple[Taken, ...]:
    """Return the readings that the engine asks for, as the same person would take them."""
    taken: list[Taken] = []
    open_to = {text.feature for text, _, _ in menu(room, made)}
    while len(taken) < _LONGEST:
        verdict = concluded(room, made, taken)
        ask = verdict.question
        if verdict.kind is VerdictKind.IDENTIFIED or ask is None or ask.feature not in open_to:
            break
        taken.append(take(room, made, taken, ask.feature))
    return tuple(taken)
