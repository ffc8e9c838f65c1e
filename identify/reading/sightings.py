"""Where a word may stand on a damaged line, and how much likelier the line is if it was printed.

A word that was printed is read character by character: for itself, for one that looks like it, for
any other, or not at all ("?"). Against that stands a line that says something else there. The two
chances divided are the weight of a sighting: far above 1 for a word that is legible, near 1 where
nothing of it is left.

Source: noisy-channel reading of worn text (textbook method); the chances are data of the project.
"""

from collections.abc import Iterator
from functools import cache

from identify.frozen import NamedTuple
from identify.model.hose_habits import LineHabits
from identify.reading.hose_line import LOST, is_separator

MOST_GAP = 2  # separators between the parts of one word: "EN / 853"
LEAST = 1.5  # a sighting that weighs less is none


class Sighting(NamedTuple):
    """A word found from `start` to `end` (exclusive), and its weight against chance."""

    start: int
    end: int
    weight: float


class Reader:
    """Looks for words on one text, each once."""

    def __init__(
        self, text: str, habits: LineHabits, *, cut_left: bool = False, cut_right: bool = False
    ) -> None:
        self.text, self.habits = text, habits
        self.cut_left, self.cut_right = cut_left, cut_right
        self._groups = [frozenset(group) for group in habits.alike]
        self._found: dict[str, tuple[Sighting, ...]] = {}
        self._weigh = cache(self._character)

    def sightings(self, word: str) -> tuple[Sighting, ...]:
        """Return where `word` may stand, the likeliest first.

        A blank in `word` lets separators stand there, or none; so does any change from letters to
        digits within it.
        """
        if word not in self._found:
            every = [*self._whole(word), *self._cut(word)]
            self._found[word] = tuple(sorted(every, key=lambda each: (-each.weight, each.start)))
        return self._found[word]

    def _whole(self, word: str) -> Iterator[Sighting]:
        for start in range(len(self.text)):
            if end_weight := self._match(word, start):
                end, weight = end_weight
                weight *= self._edge(start - 1, start) * self._edge(end, end - 1)
                if weight >= LEAST:
                    yield Sighting(start, end, weight)

    def _match(self, word: str, start: int) -> tuple[int, float] | None:
        """Return end and weight of a word that begins at `start`, None where it cannot."""
        at, weight, before = start, 1.0, ""
        for character in word:
            if character == " ":
                before = " "
                continue
            if at > start and (before == " " or _changes(before, character)):
                gap, implied = at, before != " "
                while gap < len(self.text) and gap - at < MOST_GAP and self._parts(gap, character):
                    gap += 1
                weight *= self.habits.spaced if implied and gap > at else 1.0
                at = gap
            if at >= len(self.text):
                return None
            weight *= self._weigh(character, self.text[at])
            if weight < self.habits.other:
                return None
            before, at = character, at + 1
        return at, weight

    def _parts(self, at: int, wanted: str) -> bool:
        return is_separator(self.text[at]) and self.text[at] != wanted and self.text[at] != "|"

    def _character(self, printed: str, seen: str) -> float:
        """Return how much likelier `seen` is where `printed` was printed than elsewhere."""
        habits = self.habits
        if seen == LOST:
            return 1.0
        usual = habits.digit if seen.isdigit() else habits.letter
        if printed == '"':
            return habits.right / habits.letter if seen == printed else 0.0
        if is_separator(printed):
            same = seen == printed or {seen, printed} == {".", ","}
            return habits.right / habits.mark if same else 0.0
        if is_separator(seen):
            return 0.0
        if seen == printed:
            return habits.right / usual
        if any({seen, printed} <= group for group in self._groups):
            return habits.confused / usual
        return habits.other / usual

    def stands_alone(self, seen: Sighting) -> bool:
        """Tell whether a sighting has a separator or an end of the line on both sides."""
        sides = (self.text[seen.start - 1 : seen.start], self.text[seen.end : seen.end + 1])
        return all(not side or is_separator(side) for side in sides)

    def _edge(self, outer: int, inner: int) -> float:
        """Return what the neighbour of a word's first or last character weighs."""
        if not 0 <= outer < len(self.text):
            cut = self.cut_left if outer < 0 else self.cut_right
            return self.habits.cut if cut else 1.0
        if is_separator(beside := self.text[outer]):
            return 1.0
        mine = self.text[inner]
        if beside == LOST or mine == LOST:
            return self.habits.glued
        if is_separator(mine):
            return 1.0
        if beside.isdigit() and mine.isdigit():
            return self.habits.glued_digit
        return self.habits.glued_letter if beside.isdigit() == mine.isdigit() else self.habits.glued

    def _cut(self, word: str) -> Iterator[Sighting]:
        """Yield a word of which the line holds only the end, or only the beginning."""
        plain = word.replace(" ", "")
        for kept in range(2, len(plain)):
            if self.cut_left and self.text.startswith(plain[-kept:]):
                yield from self._part(plain[-kept:], 0, kept)
            if self.cut_right and self.text.endswith(plain[:kept]):
                yield from self._part(plain[:kept], len(self.text) - kept, len(self.text))

    def _part(self, part: str, start: int, end: int) -> Iterator[Sighting]:
        weight = self.habits.cut
        for character in part:
            weight *= self._weigh(character, character)
        weight *= self._edge(end, end - 1) if start == 0 else self._edge(start - 1, start)
        if weight >= LEAST:
            yield Sighting(start, end, weight)


def _changes(before: str, character: str) -> bool:
    return before.isalnum() and character.isalnum() and before.isdigit() != character.isdigit()
