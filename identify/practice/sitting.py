"""One trainee at work: which exercise is open, what was read of it, what is told of the answer."""

from collections.abc import Callable
from datetime import UTC, datetime

from identify.frozen import replace
from identify.model.feature import Feature
from identify.practice.exercise import Exercise, Kind, Pair
from identify.practice.judging import Debrief, debrief, tells
from identify.practice.making import PracticeError, make
from identify.practice.naming import named
from identify.practice.record import Done, Logbook, Put
from identify.practice.room import Room
from identify.practice.schedule import level_of, next_pair
from identify.practice.whole_part import Taken, concluded, take
from identify.reasoning.differences import Difference


def utc_now() -> datetime:
    """Return the present moment."""
    return datetime.now(UTC)


class Sitting:
    """Puts exercises, takes answers, keeps both.

    Args:
        room: Makes and judges.
        logbook: Of the trainee; an exercise that was open when it ended is put again.
        now: The clock.
        only: Practise this kind alone, whatever is due.
    """

    def __init__(
        self,
        room: Room,
        logbook: Logbook,
        now: Callable[[], datetime] = utc_now,
        only: Kind | None = None,
    ) -> None:
        self.room, self.logbook, self.now, self.only = room, logbook, now, only
        self.told: Debrief | None = None
        self.taken: tuple[Taken, ...] = ()
        self.begun = now()
        self.made = self._resumed() or self._fresh()

    @property
    def number(self) -> int:
        """The number of the open exercise, from 1."""
        return len(self.logbook.history.done) + (self.told is None)

    @property
    def minutes(self) -> float:
        """What the readings of a whole part cost so far."""
        return sum(each.minutes for each in self.taken)

    def go_on(self) -> Exercise:
        """Put the next exercise."""
        self.told, self.taken = None, ()
        self.made = self._fresh()
        return self.made

    def read(self, feature: Feature) -> Taken:
        """Take a reading of a whole part."""
        found = take(self.room, self.made, self.taken, feature)
        self.taken = (*self.taken, found)
        self.logbook.add(feature)
        return found

    def hint(self) -> Difference | None:
        """Return what tells the end from the one it is taken for, None where nothing does."""
        self.logbook.add(None)
        found = tells(self.room, self.made.pair.kind, self.made.truth, self.made.confused)
        ask = concluded(self.room, self.made, self.taken).question if self.whole else None
        asked = [each for each in found if ask and each.feature is ask.feature]
        return next(iter(asked or found), None)

    def name(self, words: str) -> str:
        """Return the answer that a name in own words is, offered from now on.

        Raises:
            WhichendError: The words mean no such end, or several.
        """
        option = named(self.room, self.made, words)
        if option not in self.made.options:
            self.made = replace(self.made, options=(*self.made.options, option))
        return option.key

    def choose(self, key: str) -> None:
        """Put an exercise on the pair that the trainee wants; the open one counts as not put.

        Raises:
            PracticeError: These tables give none; the open one stays then.
        """
        if self.told is None and key == self.made.pair.key:
            return
        self.made = self._put(self.room.by_key[key])
        self.told, self.taken = None, ()

    @property
    def whole(self) -> bool:
        """Whether a whole part lies there."""
        return self.made.pair.kind is Kind.PART

    def answer(self, said: str, need: Feature | None = None) -> Debrief:
        """Judge an answer and keep it."""
        told = debrief(self.room, self.made, said, self.taken, need)
        now, put = self.now(), Put(self.made.pair.key, self.made.seed, self.made.level)
        seconds = max(0.0, (now - self.begun).total_seconds())
        ids, hints = (told.truth.id, told.taken.id), self.logbook.history.hints
        self.logbook.add(Done(put, said, told.mark, *ids, seconds, hints, self.minutes, now))
        self.told = told
        return told

    def _resumed(self) -> Exercise | None:
        history = self.logbook.history
        put = history.put
        pair = self.room.by_key.get(put.pair) if put else None
        if put is None or pair is None or (self.only and pair.kind is not self.only):
            return None
        try:
            made = make(self.room, pair, put.seed, put.level)
            for feature in history.taken:
                self.taken = (*self.taken, take(self.room, made, self.taken, feature))
        except (PracticeError, StopIteration):  # the tables are others now
            self.taken = ()
            return None
        return made

    def _fresh(self) -> Exercise:
        pairs = [pair for pair in self.room.pairs if self.only in (None, pair.kind)]
        while pairs:
            pair = next_pair(pairs, self.logbook.history, self.now())
            try:
                return self._put(pair)
            except PracticeError:
                pairs.remove(pair)
        raise PracticeError("These tables give no exercise.")

    def _put(self, pair: Pair) -> Exercise:
        history = self.logbook.history
        level, seed = level_of(history, pair.kind), f"{history.name} {len(history.done)}"
        made = make(self.room, pair, seed, level)
        self.logbook.add(Put(pair.key, seed, level))
        self.begun = self.now()
        return made
