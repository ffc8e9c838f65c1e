"""An exercise and what is told after its answer, as blocks for every face."""

from identify.drawing.ends import named_section
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Length, Reading, Slope
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook
from identify.model.verdict import Hazard, percent
from identify.pages.blocks import BLANK, Block, Picture, Rows, Tone, labelled
from identify.pages.interview import tool_names
from identify.pages.lessons import pair_pick
from identify.pages.pair import CALCULATED, difference_words
from identify.pages.reasons import evidence_words
from identify.pages.words import (
    HAZARDS,
    end_short,
    end_words,
    minutes_words,
    said,
    sentence,
    several,
    tool_words,
    twins_words,
)
from identify.practice.exercise import TITLES, Kind
from identify.practice.judging import Debrief, Mark, Told
from identify.practice.room import HARDEST
from identify.practice.sitting import Sitting
from identify.practice.whole_part import Taken, lacking, menu
from identify.reasoning.differences import Difference
from identify.reasoning.engine import ALL_TOOLS
from identify.reasoning.weigh_pitch import GAUGES

Practice = list[Block | Picture | Rows]
READ, ANSWER, NEED, GO_ON = "read ", "answer ", "need ", "go-on"
"""What the picks of these pages begin with."""
_KEYS = (
    ("1-9", "answer, or read what has this number"),
    ("r", "list what can be read of a whole part, with the minutes it costs"),
    ("h", "a hint: what the two differ in; a right answer then counts for less"),
    ("n p", "next page, page before"),
    ("Enter", "after an answer: the next exercise"),
    ("l", "after an answer: the lesson on the pair"),
    ("g", "progress: what you tell apart, what you do not, what comes next"),
    ("i", "words and lessons"),
    ("c", "other colours"),
    ("b", "back"),
    ("q", "stop; the open exercise is put again next time"),
)
MARKS = {
    Mark.RIGHT: "Right.",
    Mark.GUESSED: "Right, but a guess: what you read leaves other ends open.",
    Mark.EARLY: "Too early: more can be told of it.",
    Mark.ASIDE: "It cannot be told, but what you ask for would not tell it.",
    Mark.WRONG: "Wrong.",
    Mark.DANGEROUS: "WRONG, and it can injure.",
}
_CUT = (Kind.CONE, Kind.ANGLE, Kind.PART)  # told with the end cut open
_LOW = (Kind.LEAF, Kind.ANGLE)  # pictures that need the room
_TWINS = 2  # named
_PICTURE_ROWS, _STRIP_ROWS = 12, 4


def exercise_heading(sitting: Sitting) -> str:
    """Return the title of the open exercise."""
    made = sitting.made
    level = f"level {made.level + 1} of {HARDEST + 1}"
    return f"{sitting.number}. {TITLES[made.pair.kind]} ({level})"


def exercise_blocks(sitting: Sitting) -> Practice:
    """Return what is shown of the open exercise, and what may be answered or read."""
    made, book = sitting.made, sitting.room.book
    blocks: Practice = [
        Picture(sheet, _rows_of(label) if label else _PICTURE_ROWS, label)
        for label, sheet in made.pictures
    ]
    readings = [each for each in made.shown if each.feature is not Feature.GENDER]
    if readings:
        blocks += displays(readings, book, low=made.pair.kind in _LOW)
    if sitting.whole:
        missing = tool_names(ALL_TOOLS - made.tools) if ALL_TOOLS - made.tools else ""
        here = f" Not on the bench: {missing}." if missing else ""
        blocks.append(Block(f"{made.question}{here}", Tone.HEAD))
    else:
        blocks += [BLANK, Block(made.question, Tone.HEAD)]
    blocks += [Block(each.words, pick=f"{ANSWER}{each.key}") for each in made.options]
    return blocks


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
    """Return what the keys of practice do."""
    return [Block(f"{key}  {does}") for key, does in _KEYS]


def hint_words(found: Difference | None) -> str:
    """Return a hint: what parts the two that are confused, not which of them it is."""
    if found is None:
        return "Hint: no measurement of the end parts this from what it is taken for."
    title = FEATURES[found.feature].title.lower()
    return f"Hint: the two differ in this: {title} ({found.tool})."


def debrief_blocks(sitting: Sitting, told: Debrief) -> Practice:
    """Return what is told at once: right or wrong, each reading, the quickest way, the machine."""
    book, made = sitting.room.book, sitting.made
    bad = told.mark in (Mark.WRONG, Mark.DANGEROUS)
    blocks: Practice = [
        Block(MARKS[told.mark], Tone.WARN if bad else Tone.HEAD),
        labelled("It is", f"{end_words(told.truth)}, {told.truth.form}"),
        labelled("Answer", told.right.words),
    ]
    blocks.append(labelled("Taken for", f"{end_words(told.taken)}, {told.taken.form}"))
    if sitting.taken:
        left = "; ".join(f"{end_short(end)} {percent(share)}" for end, share in told.left)
        blocks.append(labelled("By reading", left or "nothing in the tables"))
    if told.twins:
        blocks.append(labelled("Beside", sentence(twins_words(told.twins, _TWINS))))
    if told.told:
        blocks += [BLANK, Block("What each reading says", Tone.HEAD)]
        blocks += [_told_block(each, told, book) for each in told.told]
    if sitting.whole:
        blocks += _path_blocks(sitting, told, book)
    if told.cheapest:
        words = difference_words(told.cheapest.difference)
        quick = minutes_words(told.cheapest.minutes)
        blocks += [BLANK, labelled("Quickest", f"{words} ({quick})")]
    machine = told.machine
    mark, harm = HAZARDS[machine.hazard]
    words = f"{end_words(told.taken)} fitted in its place: {machine.words}; it {harm}."
    if machine.hazard is Hazard.LOW and machine.outcome == "mates and seals":
        words = f"{end_words(told.taken)} fitted in its place: {machine.words}."
    blocks += [BLANK, labelled("Machine", f"{mark} {words} {machine.reason} {CALCULATED}")]
    if told.note:
        blocks.append(labelled("Goes wrong", told.note.what_goes_wrong))
        blocks.append(labelled("Tell apart", told.note.tell_apart))
    if made.pair.kind in _CUT:
        thread = sitting.room.catalogue.thread_of(told.truth)
        blocks += [BLANK, Block("Cut open", Tone.HEAD), Picture(named_section(told.truth, thread))]
    blocks += [BLANK, Block("Next exercise", pick=GO_ON)]
    lesson = pair_pick(told.truth.id, told.taken.id)
    return [*blocks, Block("Lesson on this pair", pick=lesson)]


def _told_block(each: Told, told: Debrief, book: RuleBook) -> Block:
    text = book.question(each.reading.feature)
    title = FEATURES[each.reading.feature].title
    slip = " MISREAD or worn: it does not fit what lies there." if each.misread else ""
    words = f"{title}: {said(each.reading, text)}.{slip}"
    here, there = evidence_words(each.truth), evidence_words(each.taken)
    under = [f"the end: {here}", f"taken for: {there}"] if here != there else [f"both: {here}"]
    return Block(words, mark="- ", under=tuple(under))


def _path_blocks(sitting: Sitting, told: Debrief, book: RuleBook) -> Practice:
    own = several(len(sitting.taken), "reading")
    cost = sum(each.minutes for each in told.path)
    heading = (
        f"The engine's way: {several(len(told.path), 'reading')}, {minutes_words(cost)}; "
        f"you: {own}, {minutes_words(sitting.minutes) if sitting.taken else 'no time'}"
    )
    blocks: Practice = [BLANK, Block(heading, Tone.HEAD)]
    for each in told.path:
        words = said(each.reading, book.question(each.feature)) if each.reading else "cannot tell"
        blocks.append(Block(f"{FEATURES[each.feature].title}: {words}", mark="- "))
    return blocks
