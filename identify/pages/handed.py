"""A job as it is handed over: what stands on slip, label and report of each of its ends."""

from collections.abc import Iterator
from pathlib import Path

from identify.frozen import dataclass, replace
from identify.interview.session import replay
from identify.jobs.concluding import verdict_that_holds
from identify.jobs.facts import Concluded, Named, Place
from identify.jobs.job import End, Hose, Job
from identify.model.connection import EndConnection, Shape
from identify.model.feature import FEATURES, Feature, Kind, applies
from identify.model.source import Support
from identify.model.verdict import VerdictKind, percent
from identify.pages.words import said, seat_words
from identify.reasoning.engine import Engine
from identify.reasoning.subject import Subject, trait
from identify.reasoning.traits import ABSENT, UNKNOWN

LINE = "________"  # to be filled in by hand
LOOK_UP = f"look up: {LINE}"
SHOWN_FROM = 0.05  # chance from which an end is named where none was identified
STANDS_FROM = 0.95  # chance from which all ends that stand must share what is called theirs
SHOWN = 2  # ends, threads or seats that are named where it is open
MEASURED = tuple(
    each for each, info in FEATURES.items()
    if not info.clue and info.kind is not Kind.TRIAL and each not in (
        Feature.MOUNT, Feature.FLANK_ANGLE, Feature.HAND, Feature.PORT_RIDGE, Feature.TUBE_OD,
    )
)  # fmt: skip
FIRST_MEASURED = (
    Feature.GENDER, Feature.THREAD_OD, Feature.THREAD_ID, Feature.PITCH, Feature.SEAT_SHAPE,
    Feature.SEAT_ANGLE,
)  # fmt: skip
"""What decides, of any end, and what is left blank of an end nothing is known of."""


@dataclass(frozen=True, slots=True)
class HandedEnd:
    """What is said of one end.

    `line` is the verdict in one line, `thread` and `seat` what stands of them or that they are
    open, `pressure` a value of the tables or a blank, `read` the name and words of each reading
    that counts, `missing` what was not measured of what such an end has. `row` leads the verdict in
    the tables of today, None where no end does. `verdict` is the one that was kept, or reckoned
    now where answers came after it.
    """

    name: str
    end: End
    line: str
    thread: str
    seat: str
    pressure: str
    read: tuple[tuple[Feature, str], ...]
    missing: tuple[Feature, ...]
    verdict: Concluded | None = None
    row: EndConnection | None = None

    @property
    def identified(self) -> bool:
        """Whether the end has its name."""
        return self.verdict is not None and self.verdict.kind is VerdictKind.IDENTIFIED

    @property
    def missing_words(self) -> str:
        """What was not measured, as a list; "" if all was."""
        return ", ".join(FEATURES[each].label for each in self.missing)


@dataclass(frozen=True, slots=True)
class HandedHose:
    """A hose with its number, from 1, and its ends; B too where nothing is known of it."""

    number: int
    hose: Hose
    ends: tuple[HandedEnd, HandedEnd]


@dataclass(frozen=True, slots=True)
class Handed:
    """A job with its hoses."""

    job: Job
    hoses: tuple[HandedHose, ...]

    @property
    def measured(self) -> tuple[HandedEnd, ...]:
        """The ends of which something was measured."""
        return tuple(each for hose in self.hoses for each in hose.ends if each.end.answered)


def handed(job: Job, engine: Engine, tables: Path | None, at: str) -> Handed:
    """Return a job as it is handed over.

    Args:
        job: As it is kept.
        engine: Tables and rules of today.
        tables: The user's own folder of tables, that `engine` has too.
        at: Now, in UTC.

    Raises:
        ReadingError: An answer that came after the verdict cannot be weighed with these tables.
    """
    made = {place: _handed_end(job, place, end, engine, tables, at) for place, end in job.ends}
    return Handed(
        job,
        tuple(
            HandedHose(number, hose, (made[Place(number, "A")], made[Place(number, "B")]))
            for number, hose in enumerate(job.hoses, 1)
        ),
    )


def _handed_end(
    job: Job, place: Place, end: End, engine: Engine, tables: Path | None, at: str
) -> HandedEnd:
    state = replay(end.events)
    name = place.side if len(job.hoses) == 1 else str(place)
    verdict = verdict_that_holds(end, engine, tables, at)
    read = tuple((r.feature, said(r, engine.book.question(r.feature))) for r in state.readings)
    row = _row(verdict, engine)
    missing = _missing(state.gender, row, engine, {feature for feature, _ in read})
    if verdict is None:
        return HandedEnd(name, end, "not measured", LINE, LINE, LOOK_UP, read, missing)
    return HandedEnd(
        name, end, _line(verdict, engine), _thread(verdict), _seat(verdict, engine),
        _pressure(verdict, row), read, missing, verdict, row,
    )  # fmt: skip


def _row(verdict: Concluded | None, engine: Engine) -> EndConnection | None:
    """Return the end that leads, where one can be called leading and today's tables hold it."""
    if verdict is None or not verdict.ends or verdict.kind is VerdictKind.ABSTAIN:
        return None
    return engine.catalogue.by_id.get(verdict.ends[0].id)


def _standing(verdict: Concluded) -> tuple[Named, ...]:
    """Return the ends that the verdict leaves: the one named, or all that are not unlikely."""
    if verdict.kind is VerdictKind.IDENTIFIED:
        return verdict.ends[:1]
    if verdict.kind is VerdictKind.ABSTAIN:
        return ()
    return tuple(each for each in verdict.ends if each.probability >= SHOWN_FROM)


def _line(verdict: Concluded, engine: Engine) -> str:
    ends = _standing(verdict)
    if verdict.kind is VerdictKind.IDENTIFIED and ends:
        return _name(ends[0], engine)
    if not ends:
        return "not identified"
    names = [f"{_name(each, engine)} ({percent(each.probability)})" for each in ends]
    return f"not decided: {_either(names)}"


def _name(named: Named, engine: Engine) -> str:
    """Return an end as the trade mostly calls it, as it was kept where the tables lack it."""
    row = engine.catalogue.by_id.get(named.id)
    if row is None:
        return named.title
    gender = f" {row.gender}" if row.gender in ("male", "female") else ""
    return f"{row.usual_name or row.family_name} {row.size}{gender}"


def _thread(verdict: Concluded) -> str:
    return _shared(verdict, {each.id: (each.thread or "none",) for each in verdict.ends})


def _seat(verdict: Concluded, engine: Engine) -> str:
    open_yet = verdict.kind is not VerdictKind.IDENTIFIED
    seats = {}
    for each in verdict.ends:
        row = engine.catalogue.by_id.get(each.id)
        made = [replace(seat, part="") for seat in row.seats] if row else []
        words = (
            seat_words(seat, short=open_yet) if seat.shape is not Shape.NONE else "no seat"
            for seat in made
        )  # fmt: skip
        seats[each.id] = tuple(dict.fromkeys(words)) or (LOOK_UP,)
    return _shared(verdict, seats)


def _shared(verdict: Concluded, found: dict[str, tuple[str, ...]]) -> str:
    """Return what the end that was identified has, or nearly all that stand; else what is open.

    Args:
        verdict: Of the end.
        found: By the id of an end every way in which it is made.
    """
    standing = _standing(verdict)
    if not standing:
        return f"open: {LINE}"
    if verdict.kind is VerdictKind.IDENTIFIED:
        return " or ".join(found[standing[0].id])
    for each in standing:
        same = (other for other in verdict.ends if found[other.id] == found[each.id])
        if sum(other.probability for other in same) >= STANDS_FROM:
            return " or ".join(found[each.id])
    ways = dict.fromkeys(way for each in standing for way in found[each.id])
    return f"open: {_either(list(ways))}"


def _either(words: list[str]) -> str:
    more = " or another" if len(words) != SHOWN else ""
    return " or ".join(words[:SHOWN]) + more


def _pressure(verdict: Concluded, row: EndConnection | None) -> str:
    """Return a pressure that somebody can be held to; one from memory is to be looked up."""
    if row is None or verdict.kind is not VerdictKind.IDENTIFIED or row.refuse:
        return LOOK_UP
    bar, basis = row.rating.bar, row.rating.basis
    if bar is None or basis in (None, Support.FROM_MEMORY):
        return LOOK_UP
    return f"{bar:g} bar at most ({basis})"


def _missing(
    gender: str | None, row: EndConnection | None, engine: Engine, read: set[Feature]
) -> tuple[Feature, ...]:
    if row is None:
        return tuple(f for f in FIRST_MEASURED if f not in read and applies(f, gender))
    catalogue, model = engine.catalogue, engine.book.observation
    subjects = [
        Subject(row.gender, catalogue.threads[seat.thread] if seat.thread else
                catalogue.thread_of(row), row, seat)
        for seat in row.seats
    ]  # fmt: skip
    return tuple(
        feature
        for feature in MEASURED
        if feature not in read
        and applies(feature, row.seen_as)
        and (feature is not Feature.SEAT_ANGLE or any(seat.half_angle_deg for seat in row.seats))
        and any(trait(feature, each, model) not in (ABSENT, UNKNOWN) for each in subjects)
    )


def day_of(end: HandedEnd) -> str:
    """Return the day of the verdict (UTC), "" where there is none."""
    return end.verdict.at[:10] if end.verdict else ""


def hose_facts(hose: HandedHose) -> Iterator[tuple[str, str]]:
    """Yield what is known of a hose: a name and words, "" where it is not known."""
    yield "Pieces", hose.hose.quantity
    yield "Printed on it", hose.hose.printed
