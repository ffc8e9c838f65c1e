"""How far a trainee is: of every pair how often it was told, and what it was taken for."""

from collections.abc import Sequence
from datetime import datetime

from identify.frozen import NamedTuple
from identify.practice.exercise import Kind, Pair
from identify.practice.judging import Mark
from identify.practice.real import family_pair
from identify.practice.record import Done, History
from identify.practice.room import Room
from identify.practice.schedule import cards_of

RECENT = 20  # answers over which the present hit rate is taken


class PairProgress(NamedTuple):
    """Counts of one pair: what was answered where the one lay there, and where the other did.

    `cells[side]` are right, taken for the other, and all else (cannot tell, stop, a third), for
    the one and for the other. `dangerous` of the wrong answers could have injured; `due` is when it
    comes again, None if no exercise is about it, or none any more.
    """

    key: str
    pair: Pair | None
    cells: tuple[tuple[int, int, int], tuple[int, int, int]]
    dangerous: int
    minutes: float
    due: datetime | None

    @property
    def tries(self) -> int:
        """How often it was put."""
        return sum(map(sum, self.cells))

    @property
    def right(self) -> int:
        """How often it was told."""
        return sum(each[0] for each in self.cells)

    @property
    def words(self) -> str:
        """Both in words; the key where the tables hold the pair no more."""
        return self.pair.words if self.pair else self.key


def hit(done: Done) -> bool:
    """Tell whether an answer counts as told: right, and not by a guess."""
    return done.mark is Mark.RIGHT


def share_right(done: Sequence[Done]) -> float:
    """Return the share of answers that were right [0..1], 0 of none."""
    return sum(map(hit, done)) / len(done) if done else 0.0


def progress_of(room: Room, history: History) -> tuple[PairProgress, ...]:
    """Return the progress on every pair that was met, the one least often told first."""
    by_key: dict[str, list[Done]] = {}
    for done in history.answers:
        by_key.setdefault(done.put.pair, []).append(done)
    cards = cards_of(history)
    found = []
    for key, several in by_key.items():
        pair = room.by_key.get(key) or _of_job(room, key)
        cells = [[0, 0, 0], [0, 0, 0]]
        for done in several:
            cells[_side(room, pair, done)][_column(done)] += 1
        (a, b, c), (d, e, f) = cells
        grave = sum(done.mark is Mark.DANGEROUS for done in several)
        minutes = sum(done.seconds / 60 for done in several)
        due = cards[key].due if key in room.by_key else None
        found.append(PairProgress(key, pair, ((a, b, c), (d, e, f)), grave, minutes, due))
    return tuple(sorted(found, key=lambda each: (each.right / each.tries, -each.tries, each.key)))


def _side(room: Room, pair: Pair | None, done: Done) -> int:
    """Return 0 where the one of the pair lay there, 1 where the other did."""
    if pair and not pair.examples:
        return int(done.truth.split(":")[0] != pair.one)
    row = room.catalogue.row_of.get(done.truth)
    return int(pair is not None and all(row != one for one, _ in pair.examples))


def _of_job(room: Room, key: str) -> Pair | None:
    """Return the pair of families that a guess of a real job is about, None if it is none."""
    kind, *both = key.split("/")
    known = all(each in room.catalogue.families for each in both if each)
    return family_pair(room, *both) if kind == Kind.PART and len(both) == 2 and known else None


def _column(done: Done) -> int:
    if hit(done):
        return 0
    return 1 if done.mark in (Mark.WRONG, Mark.DANGEROUS) else 2
