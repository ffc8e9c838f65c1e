"""An exercise and what is told after its answer, as blocks for every face."""

from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Length, Reading, Slope
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook
from identify.pages.blocks import BLANK, Block, Picture, Rows, Tone
from identify.pages.interview import tool_names
from identify.pages.pair import by_words
from identify.pages.words import (
    minutes_words,
    said,
    tool_words,
)
from identify.practice.exercise import TITLES, Kind, Option
from identify.practice.room import HARDEST
from identify.practice.schedule import RISE
from identify.practice.sitting import Sitting
from identify.practice.whole_part import Taken, lacking, menu
from identify.reasoning.differences import Difference
from identify.reasoning.engine import ALL_TOOLS
from identify.reasoning.weigh_pitch import GAUGES

Practice = list[Block | Picture | Rows]
READ, ANSWER, NEED, GO_ON = "read ", "answer ", "need ", "go-on"
"""What the picks of these pages begin with."""
WHAT_IT_IS = (
    "Each exercise is an end that people take for another. After your answer you read at once "
    "whether it was right, what each reading said, and what the other end would do on a machine.",
    "A pair that you got right comes again later, one that you got wrong comes again soon. "
    f"After {RISE} right answers in a row without a hint, that kind of exercise becomes harder: "
    "parts are worn, readings are wrong now and then, tools are missing.",
)
_KEYS = (
    ("1-9", "choose an answer, or read what has this number; Enter then judges the answer"),
    ("b", "take the chosen answer back; on every other page: back"),
    ("r", "list what can be read of a whole part, with the minutes it costs"),
    ("t", "type the name of a whole part in your own words"),
    ("s", "choose the pair that you want to practise"),
    ("h", "a hint: what the two differ in; a right answer then counts for less"),
    ("Space p", "next page, page before"),
    ("Enter", "after an answer: the next exercise"),
    ("l", "after an answer: the lesson on the pair"),
    ("g", "progress: what you tell apart, what you do not, what comes next"),
    ("i", "words and lessons"),
    ("c", "other colours"),
    ("q", "stop; the open exercise is put again next time"),
)
_LOW = (Kind.LEAF, Kind.ANGLE)  # pictures that need the room
_PICTURE_ROWS, _STRIP_ROWS = 12, 4


def exercise_heading(sitting: Sitting) -> str:
    """Return the title of the open exercise."""
    made = sitting.made
    level = f"level {made.level + 1} of {HARDEST + 1}"
    return f"{sitting.number}. {TITLES[made.pair.kind]} ({level})"


def exercise_blocks(sitting: Sitting, chosen: str = "", hint: str = "") -> Practice:
    """Return what is shown of the open exercise, and what may be answered or read.

    Args:
        sitting: Where the exercise is open.
        chosen: The pick of the answer that is chosen and not yet judged.
        hint: What was told as a hint; displays are lower then, to leave room for it.
    """
    made, book = sitting.made, sitting.room.book
    blocks: Practice = [
        Picture(sheet, _rows_of(label) if label else _PICTURE_ROWS, label)
        for label, sheet in made.pictures
    ]
    readings = [each for each in made.shown if each.feature is not Feature.GENDER]
    if readings:
        blocks += displays(readings, book, low=bool(hint) or made.pair.kind in _LOW)
    if sitting.whole:
        missing = tool_names(ALL_TOOLS - made.tools) if ALL_TOOLS - made.tools else ""
        here = f" Not on the bench: {missing}." if missing else ""
        blocks.append(Block(f"{made.question}{here}", Tone.HEAD))
    else:
        blocks += [*([] if hint else [BLANK]), Block(made.question, Tone.HEAD)]
    if hint:
        blocks.append(Block(hint))
    return [*blocks, *(_answer_block(each, chosen) for each in made.options)]


def _answer_block(option: Option, chosen: str) -> Block:
    pick = f"{ANSWER}{option.key}"
    if pick == chosen:
        return Block(f"{option.words}  <- your answer", Tone.HEAD, pick)
    return Block(option.words, pick=pick)


def _rows_of(label: str) -> int:
    return 2 if label.startswith("rule") else _STRIP_ROWS


def bench_blocks(sitting: Sitting) -> Practice:
    """Return what can be read of a whole part, with its minutes, and what was read."""
    made, book = sitting.made, sitting.room.book
    tried = {each.feature: each for each in sitting.taken}
    blocks: Practice = [Block("What do you read?", Tone.HEAD)]
    for text, tool, minutes in menu(sitting.room, made):
        again = " again" if text.feature in tried else ""
        words = f"{text.title}{again}, {_with(tool, made.tools)}: {minutes_words(minutes)}"
        blocks.append(Block(words, pick=f"{READ}{text.feature}"))
    taken = so_far_blocks(sitting.taken, book, sitting.minutes)
    return [*taken, *([BLANK] if taken else []), *blocks]


def _with(tool: Tool, tools: frozenset[Tool]) -> str:
    """Return with what a reading is taken; a pitch with both gauges, if both are there."""
    return "with pitch gauges" if tool in GAUGES and tools >= GAUGES else tool_words(tool)


def so_far_blocks(taken: tuple[Taken, ...], book: RuleBook, minutes: float) -> Practice:
    """Return what was read of a whole part so far, and what it cost."""
    if not taken:
        return []
    blocks: Practice = [Block(f"Read so far, {minutes_words(minutes)}", Tone.HEAD)]
    for each in taken:
        words = said(each.reading, book.question(each.feature)) if each.reading else "cannot tell"
        blocks.append(Block(f"{FEATURES[each.feature].title}: {words}", mark="- "))
    return blocks


def need_blocks(sitting: Sitting) -> Practice:
    """Return what may be asked for by who cannot tell: what no tool here reads, and the rest."""
    room, made = sitting.room, sitting.made
    blocks: Practice = [Block("Cannot tell. What do you need?", Tone.HEAD)]
    texts = [*lacking(room, made), *(text for text, _, _ in menu(room, made))]
    return [*blocks, *(Block(text.title, pick=f"{NEED}{text.feature}") for text in texts)]


def displays(readings: list[Reading], book: RuleBook, *, low: bool = False) -> Practice:
    """Return readings on the displays of their instruments, words beside those that are words.

    With `low` a display takes one row, where pictures need the room.
    """
    boxes = [each for each in readings if isinstance(each.value, Length | Angle | Slope)]
    cells = [(_on_display(each), FEATURES[each.feature].label) for each in boxes]
    blocks: Practice = []
    if cells and low:
        blocks.append(Rows(("   ".join(f"{label} [ {value} ]" for value, label in cells),)))
    elif cells:
        wide = [max(len(value) + 4, len(label) + 2) for value, label in cells]
        every = list(zip(cells, wide, strict=True))
        rows = (
            ["┌" + "─" * (width - 2) + "┐" for width in wide],
            [f"│{value:^{width - 2}}│" for (value, _), width in every],
            ["└" + "─" * (width - 2) + "┘" for width in wide],
            [f"{label:^{width}}" for (_, label), width in every],
        )
        blocks.append(Rows(tuple("  ".join(row).rstrip() for row in rows)))
    for each in readings:
        if each not in boxes:
            words = said(each, book.question(each.feature))
            blocks.append(Block(f"{FEATURES[each.feature].title}: {words}"))
    return blocks


def _on_display(reading: Reading) -> str:
    """Return what a display shows: of an angle the number alone, however it was laid."""
    if isinstance(reading.value, Angle):
        return f"{reading.value.deg:g}°"
    return reading.entered.split(" by ")[0]


def practice_keys() -> list[Block]:
    """Return what practice is, and what its keys do."""
    keys = [Block(does, mark=key.ljust(7)) for key, does in _KEYS]
    return [*map(Block, WHAT_IT_IS), BLANK, *keys]


def hint_words(found: Difference | None, book: RuleBook) -> str:
    """Return a hint: what parts an end from its lookalike and how it is seen, not which it is."""
    if found is None:
        return "Hint: no measurement tells this end from its lookalike."
    title, text = FEATURES[found.feature].title.lower(), book.question(found.feature)
    how = f" {text.how_to[0]}" if text else ""
    return f"Hint: it differs from its lookalike in this: {title} ({by_words(found)}).{how}"
