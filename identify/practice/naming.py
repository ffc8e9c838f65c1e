"""The name that a trainee gives a part in own words, as an answer that can be judged."""

from identify.practice.exercise import Exercise, Option
from identify.practice.making import PracticeError
from identify.practice.room import Room
from identify.practice.whole_part import named_option
from identify.reading.names import understand

_LISTED = 4  # of the names that the words may mean


def named(room: Room, made: Exercise, words: str) -> Option:
    """Return the answer that words mean: a family and its size.

    What no measurement tells from the end that lies there is that end. An answer that is offered
    already is returned as it stands.

    Args:
        room: For tables and engine.
        made: A whole part; only ends of its kind (male, flange, ...) are meant.
        words: Such as "JIC 8".

    Raises:
        UnknownEndError: They name no end.
        ReadingError: They are empty, overlong or cannot be printed.
        PracticeError: They name several, or none of this kind of end.
    """
    ends = [end for end in understand(room.catalogue, words).ends
            if end.gender == made.truth.gender]  # fmt: skip
    if not ends:
        raise PracticeError(f'"{words}" is not the kind of end that lies here.')
    row_of, same = room.catalogue.row_of, room.engine.one_answer.same
    truth, rows = row_of[made.truth.id], [row_of[end.id] for end in ends]
    offered = {option.key: option for option in made.options}
    right = offered.get(room.right(made))
    if right and all(row == truth or same(min(row, truth), max(row, truth)) for row in rows):
        return right
    meant = list({(end.family, end.size): end for end in ends}.values())
    if len(meant) > 1:
        names = " or ".join(f"{end.family_name}, {end.size}" for end in meant[:_LISTED])
        more = f" or {len(meant) - _LISTED} more" if len(meant) > _LISTED else ""
        raise PracticeError(f'"{words}" may be {names}{more}. Add a word, or the size.')
    option = named_option(room, meant[0])
    return offered.get(option.key, option)
