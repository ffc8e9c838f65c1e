"""Makes exercises by the thousand and holds each against the engine and against the ceiling.

The ceiling inverts the simulation itself (`simulation.ceiling`): what it puts first with a whole
measurement is right by the way the part was made, whatever the engine thinks.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache

from identify.practice.exercise import CANNOT_TELL, Exercise, Kind
from identify.practice.judging import right_answer
from identify.practice.making import make
from identify.practice.room import HARDEST, Room
from identify.practice.whole_part import LACKS, engine_path
from identify.simulation.ceiling import Ceiling
from identify.simulation.lots import Lot
from identify.simulation.people import Person
from tests.shipped import knowledge, shipped_engine


@cache
def room() -> Room:
    return Room(shipped_engine(), knowledge().hazards)


@cache
def ceiling() -> Ceiling:
    known = knowledge()
    lot = Lot(known.catalogue, known.book)
    careful = Person(known.book.people.observers["careful"], known.book)
    return Ceiling(lot, careful, len(known.catalogue.ends))


@dataclass
class Counts:
    """How many of each kind were made, how many leave open what it is, and every fault found."""

    made: Counter[Kind] = field(default_factory=Counter)
    left_open: Counter[Kind] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)


def drawn(count: int, seed: int, wanted: Sequence[Kind]) -> Iterator[Exercise]:
    """Yield exercises: the kinds by turns, in each kind the pairs by turns, at every level."""
    by_kind = {kind: [pair for pair in room().pairs if pair.kind is kind] for kind in wanted}
    kinds = list(by_kind)
    for number in range(count):
        turn, place = divmod(number, len(kinds))
        pairs = by_kind[kinds[place]]
        level = (turn + turn // len(pairs)) % (HARDEST + 1)
        yield make(room(), pairs[turn % len(pairs)], f"{seed} {number}", level)


def faults_of(made: Exercise, told: str) -> list[str]:
    """Return what is wrong with an exercise: nothing, if all that is promised of it holds.

    `told` is the answer that is called right; of a whole part after the engine's own readings.
    """
    truth = room().catalogue.row_of[made.truth.id]
    said = " ".join(sheet.described + sheet.title for _, sheet in made.pictures)
    if made.truth.family_name in said or made.truth.title in said:
        return ["the words of its picture name it"]
    rows, _ = ceiling().posterior(made.whole)
    if made.pair.kind is Kind.PART:
        return _faults_of_part(made, told, truth, rows)
    right = room().right(made)
    found = []
    if room().told(made.options, made.whole) != right:
        found.append("the engine does not find it by a whole measurement")
    shares = {each.key: sum(rows[row] for row in each.rows) for each in made.options if each.rows}
    if max(shares, key=lambda key: shares[key]) != right:
        found.append("it is not the ceiling's first")
    if told != right and told != CANNOT_TELL:
        found.append(f"what is shown gives {told}")
    if told == CANNOT_TELL and (made.level == 0 or made.pair.kind is not Kind.PIPE):
        found.append("what is shown leaves it open, and is not meant to")
    return found


def _faults_of_part(made: Exercise, told: str, truth: int, rows: list[float]) -> list[str]:
    engine = room().engine
    found = []
    head, _, joined = engine.groups(engine.posterior(made.whole), 1)[0]
    if truth not in (head, *joined):
        found.append("the engine does not find it by a whole measurement")
    first = max(range(len(rows)), key=lambda row: rows[row])
    if not engine.one_answer.same(min(first, truth), max(first, truth)):
        found.append("it is not the ceiling's first")
    if told == CANNOT_TELL and made.level < LACKS:
        found.append("the engine's own way leaves it open, and is not meant to")
    if (told == room().right(made)) == made.left_open and not made.truth.refuse:
        found.append("it is called open, or closed, and is not")
    return found


def run(count: int, seed: int, again: int = 50, wanted: Sequence[Kind] = tuple(Kind)) -> Counts:
    """Make so many exercises and return what was found; every `again`th is made once more."""
    counts = Counts()
    for number, made in enumerate(drawn(count, seed, wanted)):
        counts.made[made.pair.kind] += 1
        path = engine_path(room(), made) if made.pair.kind is Kind.PART else ()
        told = right_answer(room(), made, path)
        counts.left_open[made.pair.kind] += told == CANNOT_TELL
        faults = faults_of(made, told)
        if number % again == 0 and make(room(), made.pair, made.seed, made.level) != made:
            faults.append("made again it is another")
        counts.faults += [f"{made.pair.key} {made.seed!r} {made.level}: {each}" for each in faults]
    return counts
