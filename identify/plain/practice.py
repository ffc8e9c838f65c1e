"""Practice as a dialogue of lines: an exercise, one line of answer, what there is to say of it."""

from collections.abc import Iterable
from contextlib import suppress
from functools import partial

from identify.errors import WhichendError
from identify.model.feature import Feature
from identify.pages.blocks import Block, Picture, Rows
from identify.pages.debrief import debrief_blocks
from identify.pages.exercise import (
    ANSWER,
    GO_ON,
    NEED,
    READ,
    WHAT_IT_IS,
    Practice,
    bench_blocks,
    exercise_blocks,
    exercise_heading,
    hint_words,
    need_blocks,
    so_far_blocks,
)
from identify.pages.lessons import pair_lesson
from identify.pages.progress import CHOOSE, pairs_blocks, progress_blocks
from identify.pages.text import text_of
from identify.plain.console import Console, Stopped
from identify.plain.words import ANY_WORD, ASKS, word_told
from identify.practice.exercise import CANNOT_TELL
from identify.practice.making import PracticeError
from identify.practice.sitting import Sitting

_LETTERS = f"h hint, s choose a pair, g progress, {ANY_WORD}, q stop"


class Trainer:
    """Holds practice on a console.

    Args:
        sitting: The trainee's.
        console: Speaks and listens.
        style: How pictures are drawn, empty to tell them in words.
    """

    def __init__(self, sitting: Sitting, console: Console, style: str) -> None:
        self.sitting, self.console, self.style = sitting, console, style
        room = sitting.room
        console.finders.append(partial(word_told, room.catalogue, room.book, style))

    def hold(self) -> None:
        """Put exercises until the trainee stops or the input ends."""
        sitting = self.sitting
        self.console.say(f"Practice of {sitting.logbook.history.name}.")
        if sitting.logbook.trouble:
            self.console.say(sitting.logbook.trouble)
        try:
            with suppress(Stopped):
                while True:
                    self._exercise()
                    self._after()
                    if sitting.told is not None:
                        sitting.go_on()
        finally:
            sitting.logbook.close()
        count = len(sitting.logbook.history.done)
        self.console.say(f"{count} answered in all. Stopped; the open exercise is kept.")

    def _exercise(self) -> None:
        sitting = self.sitting
        self.console.say()
        self.console.say(exercise_heading(sitting))
        blocks = exercise_blocks(sitting)
        self._show(blocks)
        if sitting.whole:
            self._show(so_far_blocks(sitting.taken, sitting.room.book, sitting.minutes))
        made = sitting.made.pair
        while sitting.told is None and sitting.made.pair is made:
            more = "or its name in your words, r read something of it, " if sitting.whole else ""
            prompt = f"A number answers; {more}{_LETTERS}."
            pick = self._picked(blocks, prompt, "rs" if sitting.whole else "s")
            if pick == "r":
                self._read()
            elif pick == "s":
                self._choose()
            elif pick == f"{ANSWER}{CANNOT_TELL}" and sitting.whole:
                self._need()
            else:
                sitting.answer(pick.removeprefix(ANSWER))

    def _read(self) -> None:
        blocks = bench_blocks(self.sitting)
        self._show(blocks)
        pick = self._picked(blocks, "A number reads it; Enter goes back to the answers.", "")
        if pick:
            self.sitting.read(Feature(pick.removeprefix(READ)))
            sitting = self.sitting
            self._show(so_far_blocks(sitting.taken, sitting.room.book, sitting.minutes))
        self._show(exercise_blocks(self.sitting)[len(self.sitting.made.pictures) :])

    def _need(self) -> None:
        blocks = need_blocks(self.sitting)
        self._show(blocks)
        pick = self._picked(blocks, "A number says what you need; Enter goes back.", "")
        if pick:
            self.sitting.answer(CANNOT_TELL, Feature(pick.removeprefix(NEED)))

    def _after(self) -> None:
        told = self.sitting.told
        if told is None:
            return
        self.console.say()
        blocks = debrief_blocks(self.sitting, told)
        self._show(blocks)
        prompt = f"Enter for the next exercise; s choose a pair, g progress, {ANY_WORD}, q stop."
        while (pick := self._picked(blocks, prompt, "s")) not in ("", GO_ON):
            if pick == "s":
                self._choose()
                if self.sitting.told is None:
                    return
            else:
                room = self.sitting.room
                self._show(pair_lesson(room.catalogue, room.book, *pick.split(" ")[1:]))

    def _choose(self) -> None:
        """Hear which pair is wanted, and put an exercise on it."""
        self.console.say("Which pair? Type words of it, such as 37 deg flare; Enter lists all.")
        wanted = self.console.hear()
        blocks = pairs_blocks(self.sitting.room, self.sitting.logbook.history, wanted)
        self._show(blocks)
        pick = self._picked([*blocks], "A number puts an exercise on it; Enter goes back.", "")
        if pick:
            try:
                self.sitting.choose(pick.removeprefix(CHOOSE))
            except PracticeError as error:
                self.console.say(str(error))

    def _show(self, blocks: Iterable[Block | Picture | Rows]) -> None:
        self.console.tell(text_of(blocks, numbered=True, style=self.style))

    def _picked(self, blocks: Practice, prompt: str, letters: str) -> str:
        """Return what is picked, or one of the letters; nothing for Enter alone."""
        found = [block.pick for block in blocks if isinstance(block, Block) and block.pick]
        answers = any(pick.startswith(ANSWER) for pick in found)
        self.console.say(prompt)
        while True:
            line = self.console.hear().lower()
            if line == "q":
                raise Stopped
            if line == "g":
                self._show(progress_blocks(self.sitting.room, self.sitting.logbook.history))
            elif line == ASKS:
                for sentence in WHAT_IT_IS:
                    self.console.say(sentence)
                self.console.say(prompt)
            elif line == "h" and answers:
                self.console.say(hint_words(self.sitting.hint(), self.sitting.room.book))
            elif line in tuple(letters):
                return line
            elif not line and not answers:
                return ""
            elif line.isdecimal() and 1 <= int(line) <= len(found):
                return found[int(line) - 1]
            elif answers and (named := self._named(blocks, line)):
                return named
            elif (answers and self.sitting.whole and not line.isdecimal()) or not found:
                self.console.say(prompt)
            else:
                self.console.say(f"Type a number from 1 to {len(found)}. {prompt}")

    def _named(self, blocks: Practice, line: str) -> str:
        """Return the answer that was typed in words, empty if none or several; says why."""
        found = [block.pick for block in blocks
                 if isinstance(block, Block) and block.pick.startswith(ANSWER)
                 and len(line) > 1 and line in block.text.lower()]  # fmt: skip
        if len(found) == 1 or not self.sitting.whole or line.isdecimal():
            return found[0] if len(found) == 1 else ""
        try:
            return f"{ANSWER}{self.sitting.name(line)}"
        except WhichendError as error:
            self.console.say(str(error))
            return ""
