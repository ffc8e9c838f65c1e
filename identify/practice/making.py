"""Makes an exercise on a pair and lets none out that is not what it says."""

import random

from identify.errors import WhichendError
from identify.practice.exercise import CANNOT_TELL, Exercise, Kind, Pair
from identify.practice.room import Room
from identify.practice.short import make_short
from identify.practice.whole_part import make_whole, sound_whole

TIMES = 200  # so often other parts are tried


class PracticeError(WhichendError):
    """No exercise can be made, or a name means no trainee."""


def make(room: Room, pair: Pair, seed: str, level: int) -> Exercise:
    """Return the exercise of a pair, seed and level: the same whenever it is asked for.

    Raises:
        PracticeError: These tables give none.
    """
    rng = random.Random(f"{seed} {pair.key} {level}")
    kinds = make_whole if pair.kind is Kind.PART else make_short
    for _ in range(TIMES):
        made = kinds(room, pair, rng, seed, level)
        if made and sound(room, made):
            return made
    raise PracticeError(f"These tables give no exercise on {pair.words}.")


def sound(room: Room, made: Exercise) -> bool:
    """Tell whether the engine finds the truth by a whole measurement, and nothing else by less.

    What is shown may leave the answer open only where that may be answered.
    """
    if made.pair.kind is Kind.PART:
        return sound_whole(room, made)
    right = room.right(made)
    if not right or room.told(made.options, made.whole) != right:
        return False
    told = room.answer(made)
    return told == right or (
        told == CANNOT_TELL and any(each.key == CANNOT_TELL for each in made.options)
    )
