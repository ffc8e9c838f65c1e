"""An exercise and what is told after its answer, as blocks for every face."""

from identify.model.feature import FEATURES, Feature
from identify.model.reading import Angle, Length, Reading, Slope
from identify.model.rulebook import RuleBook
from identify.model.verdict import Hazard
from identify.pages.blocks import BLANK, Block, Picture, Rows, Tone, labelled
from identify.pages.lessons import trap_pick
from identify.pages.pair import CALCULATED, difference_words
from identify.pages.reasons import evidence_words
from identify.pages.words import HAZARDS, end_words, minutes_words, said, several, tool_words
from identify.practice.exercise import TITLES, Kind
from identify.practice.judging import Debrief, Mark, Told
from identify.practice.room import HARDEST
from identify.practice.sitting import Sitting
from identify.practice.whole_part import Taken, lacking, menu
from identify.reasoning.differences import Difference

Practice = list[Block | Picture | Rows]
READ, ANSWER, NEED, GO_ON = "read ", "answer ", "need ", "go-on"
"""What the picks of these pages begin with."""
SCREEN_WIDTH = 74
MARKS = {
    Mark.RIGHT: "Right.",
    Mark.GUESSED: "Right, but a guess: what you read leaves other ends open.",
    Mark.EARLY: "Too early: more can be told of it.",
    Mark.WRONG: "Wrong.",
    Mark.DANGEROUS: "WRONG, and it can injure.",
}
_PICTURE_ROWS = {Kind.LEAF: 15, Kind.ANGLE: 12}


def exercise_heading(sitting: Sitting) -> str:
    """Return the title of the open exercise."""
    made = sitting.made
    level = f"level {made.level + 1} of {HARDEST + 1}"
    return f"{sitting.number}. {TITLES[made.pair.kind]} ({level})"


def exercise_blocks(sitting: Sitting) -> Practice:
    """Return what is shown of the open exercise, and what may be answered or read."""
    made, book = sitting.made, sitting.room.book
    blocks: Practice = [Picture(sheet, _PICTURE_ROWS.get(made.pair.kind, 12))
                        for sheet in made.pictures]  # fmt: skip
    readings = [each for each in made.shown if each.feature is not Feature.GENDER]
    if readings:
        blocks += displays(readings, book)
    blocks += [BLANK, Block(made.question, Tone.HEAD)]
    blocks += [Block(each.words, pick=f"{ANSWER}{each.key}") for each in made.options]
    return blocks


def bench_blocks(sitting: Sitting) -> Practice:
    """Return what can be read of a whole part, with its minutes, and what was read."""
    made, book = sitting.made, sitting.room.book
    tried = {each.feature: each for each in sitting.taken}
    blocks: Practice = [Block("What do you read?", Tone.HEAD)]
    for text, tool, minutes in menu(sitting.room, made):
        again = " again" if text.feature in tried else ""
        words = f"{text.title}{again}, {tool_words(tool)}: {minutes_words(minutes)}"
        blocks.append(Block(words, pick=f"{READ}{text.feature}"))
    return [*taken_blocks(sitting.taken, book, sitting.minutes), *blocks]


def taken_blocks(taken: tuple[Taken, ...], book: RuleBook, minutes: float) -> Practice:
    """Return what was read of a whole part so far, and what it cost."""
    if not taken:
        return []
    blocks: Practice = [Block(f"Read so far, {minutes_words(minutes)}", Tone.HEAD)]
    for each in taken:
        words = said(each.reading, book.question(each.feature)) if each.reading else "cannot tell"
        blocks.append(Block(f"{FEATURES[each.feature].title}: {words}", mark="- "))
    return [*blocks, BLANK]


def need_blocks(sitting: Sitting) -> Practice:
    """Return what may be asked for by who cannot tell: what no tool here reads, and the rest."""
    room, made = sitting.room, sitting.made
    blocks: Practice = [Block("Cannot tell. What do you need?", Tone.HEAD)]
    texts = [*lacking(room, made), *(text for text, _, _ in menu(room, made))]
    return [*blocks, *(Block(text.title, pick=f"{NEED}{text.feature}") for text in texts)]


def displays(readings: list[Reading], book: RuleBook) -> Practice:
    """Return readings on the displays of their instruments, words beside those that are words."""
    boxes = [each for each in readings if isinstance(each.value, Length | Angle | Slope)]
    others = [each for each in readings if each not in boxes]
    blocks: Practice = []
    if boxes:
        cells = [(each.entered.split(" by ")[0], FEATURES[each.feature].label) for each in boxes]
        wide = [max(len(value) + 4, len(label) + 2) for value, label in cells]
        tops = "  ".join("┌" + "─" * (width - 2) + "┐" for width in wide)
        middle = "  ".join(f"│{value:^{width - 2}}│" for (value, _), width in
                           zip(cells, wide, strict=True))  # fmt: skip
        under = "  ".join("└" + "─" * (width - 2) + "┘" for width in wide)
        labels = "  ".join(f"{label:^{width}}" for (_, label), width in
                           zip(cells, wide, strict=True))  # fmt: skip
        blocks.append(Rows((tops, middle, under, labels.rstrip())))
    for each in others:
        words = said(each, book.question(each.feature))
        blocks.append(Block(f"{FEATURES[each.feature].title}: {words}"))
    return blocks


def hint_words(found: Difference | None) -> str:
    """Return a hint: what parts the two that are confused, not which of them it is."""
    if found is None:
        return "Hint: no measurement of the end parts this from what it is taken for."
    title = FEATURES[found.feature].title.lower()
    return f"Hint: the two differ in this: {title} ({found.tool})."


def debrief_blocks(sitting: Sitting, told: Debrief) -> Practice:
    """Return what is told at once: right or wrong, each reading, the quickest way, the machine."""
    book = sitting.room.book
    bad = told.mark in (Mark.WRONG, Mark.DANGEROUS)
    blocks: Practice = [
        Block(MARKS[told.mark], Tone.WARN if bad else Tone.HEAD),
        labelled("It is", f"{end_words(told.truth)}, {told.truth.form}"),
        labelled("Answer", told.right.words),
    ]
    blocks.append(labelled("Taken for", f"{end_words(told.taken)}, {told.taken.form}"))
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
    blocks += [BLANK, Block("Next exercise", pick=GO_ON)]
    if told.note:
        blocks.append(Block("Lesson on this pair", pick=trap_pick(told.note)))
    return blocks


def _told_block(each: Told, told: Debrief, book: RuleBook) -> Block:
    text = book.question(each.reading.feature)
    title = FEATURES[each.reading.feature].title
    slip = " MISREAD or worn: it does not fit what lies there." if each.misread else ""
    words = f"{title}: {said(each.reading, text)}.{slip}"
    under = [f"what lies there: {evidence_words(each.truth)}"]
    if each.taken:
        under.append(f"what it is taken for: {evidence_words(each.taken)}")
    return Block(words, mark="- ", under=tuple(under))


def _path_blocks(sitting: Sitting, told: Debrief, book: RuleBook) -> Practice:
    own = several(len(sitting.taken), "reading")
    cost = sum(each.minutes for each in told.path)
    heading = (
        f"A short way: {several(len(told.path), 'reading')}, {minutes_words(cost)}; "
        f"you: {own}, {minutes_words(sitting.minutes) if sitting.taken else 'no time'}"
    )
    blocks: Practice = [BLANK, Block(heading, Tone.HEAD)]
    for each in told.path:
        words = said(each.reading, book.question(each.feature)) if each.reading else "cannot tell"
        blocks.append(Block(f"{FEATURES[each.feature].title}: {words}", mark="- "))
    return blocks
