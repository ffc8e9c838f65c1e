"""Right or wrong, in the engine's judgement, and what is told of it at once."""

from collections.abc import Iterable, Sequence

from identify.frozen import NamedTuple, StrEnum
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.model.rule import LookalikeNote, QuestionText, Tool
from identify.model.verdict import PROBABLY_MISTAKEN, Evidence, Hazard
from identify.practice.exercise import ABOUT, CANNOT_TELL, STOP, Exercise, Kind, Option
from identify.practice.room import Room
from identify.practice.whole_part import Taken, concluded, engine_path, guarded, readings_of
from identify.reasoning.differences import Difference, differences
from identify.reasoning.hazards import worst_mating
from identify.reasoning.joint import Mating
from identify.reasoning.posterior import evidence

_NAMED = {
    "eye": (Tool.NONE,),
    "thread form gauge": (Tool.NONE,),
    "pitch gauge": (Tool.METRIC_GAUGE, Tool.INCH_GAUGE),
    "seat gauge": (Tool.SEAT_GAUGE,),
    "caliper": (Tool.CALIPER,),
    "rule": (Tool.RULE,),
}
"""What takes the measurement, by how the tool of a difference begins."""
ENOUGH = 0.9  # of all that may lie there: what is named with less is a guess
MOST_LEFT, LEAST_LEFT = 3, 0.01  # of what stands: less is not named


class Mark(StrEnum):
    """How an answer stands."""

    RIGHT = "right"
    GUESSED = "guessed"  # the part is named, but what was read left more than that
    EARLY = "early"  # "cannot tell" where it can be told
    ASIDE = "aside"  # "cannot tell", and so it is, but what is asked for would not tell it
    WRONG = "wrong"
    DANGEROUS = "dangerous"  # wrong, and the part named would be a high hazard there


class Told(NamedTuple):
    """What one reading says of the end that lies there and of the one it was taken for."""

    reading: Reading
    truth: Evidence
    taken: Evidence

    @property
    def misread(self) -> bool:
        """Tell whether it can only be a mistake, now that the end is known."""
        return self.truth.mistaken >= PROBABLY_MISTAKEN


class Tell(NamedTuple):
    """A measurement that parts the two, and the least time it takes [min]."""

    difference: Difference
    minutes: float


class Debrief(NamedTuple):
    """All that is said after an answer.

    `right` is the option that was right, `taken` the end that the part was taken for, or is
    mostly taken for. `needs` are the measurements of which "I need" is right. `machine` is what
    happens where `taken` is fitted in place of the truth, `twins` are ends of other names that no
    measurement of a whole part tells from it, `left` are the answers that the readings leave, with
    their probability. `said` is what was answered.
    """

    mark: Mark
    said: Option
    right: Option
    truth: EndConnection
    taken: EndConnection
    told: tuple[Told, ...]
    cheapest: Tell | None
    machine: Mating
    note: LookalikeNote | None
    path: tuple[Taken, ...]
    twins: tuple[EndConnection, ...] = ()
    left: tuple[tuple[EndConnection, float], ...] = ()


def debrief(
    room: Room, made: Exercise, said: str, taken: Sequence[Taken] = (), need: Feature | None = None
) -> Debrief:
    """Return what is to be told of an answer.

    Args:
        room: Judges.
        made: The exercise.
        said: The key of an option.
        taken: What was read of a whole part.
        need: What was said to be needed, of "cannot tell" to a whole part.
    """
    whole = made.pair.kind is Kind.PART
    right = right_answer(room, made, taken)
    mark = _mark(room, made, said, right, taken, need)
    other = taken_for(room, made, said)
    readings = readings_of(made, taken) if whole else made.judged
    state = room.engine.posterior(readings)
    rows = room.catalogue.row_of
    here, there = (evidence(state, rows[end.id]) for end in (made.truth, other))
    by_feature = {each.feature: each for each in there}
    said_of = {each.feature: each for each in here}
    by_key = {option.key: option for option in made.options}
    return Debrief(
        mark,
        by_key[said],
        by_key[right],
        made.truth,
        other,
        tuple(Told(each, said_of[each.feature], by_feature[each.feature]) for each in readings
              if each.feature in ABOUT[made.pair.kind] and each.feature is not Feature.GENDER),
        cheapest(room, made.pair.kind, made.truth, other),
        worst_mating(room.catalogue, made.truth, other),
        next(room.book.notes_on(made.truth, other), None),
        engine_path(room, made) if whole else (),
        _twins(room, made.truth) if whole else (),
        tuple(
            (room.catalogue.ends[head], share)
            for head, share, _ in room.engine.groups(state, MOST_LEFT)
            if share >= LEAST_LEFT
        ),
    )  # fmt: skip


def _twins(room: Room, end: EndConnection) -> tuple[EndConnection, ...]:
    row, same = room.catalogue.row_of[end.id], room.engine.twins.same
    return tuple(
        each
        for other, each in enumerate(room.catalogue.ends)
        if (each.family, each.size) != (end.family, end.size) and same(row, other)
    )


def right_answer(room: Room, made: Exercise, taken: Sequence[Taken] = ()) -> str:
    """Return the right option: of a whole part by what was read of it, else by what is shown."""
    if made.pair.kind is not Kind.PART:
        return room.answer(made)
    if made.truth.refuse:
        return STOP
    truth = room.right(made)
    if room.told(made.options, readings_of(made, taken)) == truth:
        return truth
    verdict = concluded(room, made, taken)
    if guarded(verdict):
        return STOP
    return CANNOT_TELL if made.left_open or verdict.question is None else truth


def _mark(
    room: Room, made: Exercise, said: str, right: str, taken: Sequence[Taken], need: Feature | None
) -> Mark:
    if said == CANNOT_TELL:
        if right != CANNOT_TELL:
            return Mark.EARLY
        return Mark.RIGHT if _helps(room, made, need) else Mark.ASIDE
    if said == room.right(made) and made.pair.kind is Kind.PART:
        return Mark.RIGHT if _read(room, made, said, taken) else Mark.GUESSED
    if said == right:
        return Mark.RIGHT
    if said == room.right(made):
        return Mark.GUESSED
    if said == STOP:
        return Mark.WRONG
    grave = room.hazards.of(made.truth, taken_for(room, made, said)) is Hazard.HIGH
    return Mark.DANGEROUS if grave or made.truth.refuse else Mark.WRONG


def _read(room: Room, made: Exercise, said: str, taken: Sequence[Taken]) -> bool:
    """Tell whether what was read of a whole part leaves no more than a name.

    Neither among the answers that are offered, nor, while anything is left to ask, among all ends.
    """
    if room.told(made.options, readings_of(made, taken)) != said:
        return False
    verdict = concluded(room, made, taken)
    enough = any(
        made.truth.id in {end.id for end in (lead.end, *lead.others)}
        for lead in verdict.ranking[:1]
        if lead.probability >= ENOUGH
    )
    return enough or verdict.question is None


def _helps(room: Room, made: Exercise, need: Feature | None) -> bool:
    """Tell whether what is needed would part the end from what it is confused with."""
    if made.pair.kind is not Kind.PART:
        return True
    return any(
        need is each.feature for each in tells(room, made.pair.kind, made.truth, made.confused)
    )


def tells(room: Room, kind: Kind, one: EndConnection, other: EndConnection) -> list[Difference]:
    """Return the differences of two ends that an instrument resolves and a kind is about."""
    found = differences(room.catalogue, one, other, room.book.observation)
    return [each for each in found if each.resolved and each.feature in ABOUT[kind]]


def cheapest(room: Room, kind: Kind, one: EndConnection, other: EndConnection) -> Tell | None:
    """Return the quickest measurement of a kind that parts two ends, None if none does."""
    found = []
    for place, each in enumerate(tells(room, kind, one, other)):
        text = room.book.question(each.feature)
        if text:
            found.append((_minutes(text, each.tool), place, each))
    if not found:
        return None
    minutes, _, difference = min(found, key=lambda each: each[:2])
    return Tell(difference, minutes)


def _minutes(text: QuestionText, named: str) -> float:
    """Return what a measurement takes with the tool that a difference names [min]."""
    tools = next((each for name, each in _NAMED.items() if named.startswith(name)), ())
    costs = [text.minutes[tool] for tool in tools if tool in text.minutes]
    return min(costs or text.minutes.values())


def taken_for(room: Room, made: Exercise, said: str) -> EndConnection:
    """Return the end that an answer takes the part for; what it is mostly taken for, if none."""
    option = next(each for each in made.options if each.key == said)
    confused = room.catalogue.row_of[made.confused.id]
    if said in (CANNOT_TELL, STOP, room.right(made)) or confused in option.rows:
        return made.confused
    return nearest(room, made.truth, option.rows) or made.confused


def nearest(room: Room, truth: EndConnection, rows: Iterable[int]) -> EndConnection | None:
    """Return the end of some rows that one is most easily taken for, None of no such gender."""
    ends, crest, common = room.catalogue.ends, _major(room, truth), room.common
    found = min(
        (row for row in sorted(rows) if ends[row].gender == truth.gender),
        key=lambda row: (round(abs(_major(room, ends[row]) - crest)), -common[row]),
        default=None,
    )
    return None if found is None else ends[found]


def _major(room: Room, end: EndConnection) -> float:
    thread = room.catalogue.thread_of(end)
    return thread.major_mm if thread else 0.0
