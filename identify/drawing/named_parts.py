"""Names of the places of a part, as labels on its section."""

from identify.drawing.outline import Note, Side
from identify.drawing.part import Part


def named_parts(part: Part) -> tuple[Note, ...]:
    """Return a label for every name.

    What is also seen from outside is labelled on the lower half, all else on the cut upper one; in
    a hole, cut on both sides, names go above and below by turns.
    """
    notes = []
    for turn, name in enumerate(part.names):
        at, side = name.at, Side.TOP
        if name.below is not None:
            at, side = name.below, Side.BOTTOM
        elif part.block and turn % 2:
            at, side = (at[0], -at[1]), Side.BOTTOM
        notes.append(Note(at, side, name.term))
    return tuple(notes)
