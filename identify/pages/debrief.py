"""What is told at once after an answer of practice, as blocks for every face."""

from identify.drawing.ends import named_section
from identify.model.feature import FEATURES, Feature
from identify.model.rulebook import RuleBook
from identify.model.verdict import Hazard, percent
from identify.pages.blocks import BLANK, Block, Picture, Tone, dashed, labelled
from identify.pages.exercise import GO_ON, Practice
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
    twins_words,
)
from identify.practice.exercise import Kind
from identify.practice.judging import Debrief, Mark, Told
from identify.practice.sitting import Sitting

MARKS = {
    Mark.RIGHT: "Right.",
    Mark.GUESSED: "Right, but a guess: what you read leaves other ends open.",
    Mark.EARLY: "Too early: it can be told.",
    Mark.ASIDE: "Right, it cannot be told yet. But the reading you ask for would not tell it.",
    Mark.WRONG: "Wrong.",
    Mark.DANGEROUS: "WRONG, and on a machine it can injure.",
}
_PICTURED = (Kind.LEAF, Kind.ANGLE)  # what is read stands on a picture
_CUT = (Kind.CONE, Kind.ANGLE, Kind.PART)  # told with the end cut open
_TWINS = 2  # named
_CUT_ROWS = 14  # so that what goes wrong stands on one page with it


def debrief_blocks(sitting: Sitting, told: Debrief) -> Practice:
    """Return what is told at once: right or wrong, each reading, the quickest way, the machine."""
    book, made = sitting.room.book, sitting.made
    bad = told.mark in (Mark.WRONG, Mark.DANGEROUS)
    blocks: Practice = [
        Block(MARKS[told.mark], Tone.WARN if bad else Tone.HEAD),
        labelled("It is", f"{end_words(told.truth)}, {told.truth.form}"),
        labelled("Answer", told.right.words),
    ]
    if told.said != told.right:
        blocks.append(labelled("You said", told.said.words))
    label = "Taken for" if bad else "Lookalike"
    blocks.append(labelled(label, f"{end_words(told.taken)}, {told.taken.form}"))
    if sitting.taken:
        left = "; ".join(f"{end_short(end)} {percent(share)}" for end, share in told.left)
        blocks.append(labelled("Readings", f"leave: {left or 'nothing in the tables'}"))
    if told.twins:
        blocks.append(labelled("Beside", sentence(twins_words(told.twins, _TWINS))))
    if made.pair.kind in _PICTURED:
        blocks += [BLANK, Block("What the picture says", Tone.HEAD)]
        blocks += [dashed(sheet.described) for _, sheet in made.pictures]
    if told.told:
        blocks += [BLANK, Block("What each reading says", Tone.HEAD)]
        blocks += [_told_block(each, sitting, label.lower()) for each in told.told]
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
        blocks += [BLANK, Block("Cut open", Tone.HEAD)]
        blocks.append(Picture(named_section(told.truth, thread), _CUT_ROWS))
    blocks += [BLANK, Block("Next exercise", pick=GO_ON)]
    lesson = pair_pick(told.truth.id, told.taken.id)
    return [*blocks, Block("Lesson on this pair", pick=lesson)]


def _told_block(each: Told, sitting: Sitting, other: str) -> Block:
    text = sitting.room.book.question(each.reading.feature)
    title = FEATURES[each.reading.feature].title
    slip = " MISREAD or worn: it does not fit what lies there." if each.misread else ""
    shown = sitting.made.pair.kind is Kind.ANGLE  # a protractor, and no leaf with a name
    words = f"{title}: {each.reading.entered if shown else said(each.reading, text)}.{slip}"
    here, there = evidence_words(each.truth), evidence_words(each.taken)
    under = [f"the end: {here}", f"{other}: {there}"] if here != there else [f"both: {here}"]
    return Block(words, mark="- ", under=tuple(under))


def _path_blocks(sitting: Sitting, told: Debrief, book: RuleBook) -> Practice:
    own = several(len(sitting.taken), "reading")
    cost = sum(each.minutes for each in told.path)
    heading = (
        f"The engine's way: {several(len(told.path), 'reading')}, {minutes_words(cost)}; "
        f"you: {own}, {minutes_words(sitting.minutes) if sitting.taken else 'no time'}"
    )
    blocks: Practice = [BLANK, Block(heading, Tone.HEAD)]
    by_feature: dict[Feature, list[str]] = {}
    for each in told.path:
        words = said(each.reading, book.question(each.feature)) if each.reading else "cannot tell"
        by_feature.setdefault(each.feature, []).append(words)
    for feature, read in by_feature.items():
        times = f" (read {len(read)} times)" if len(read) > 1 else ""
        told_once = ", ".join(dict.fromkeys(read))
        blocks.append(dashed(f"{FEATURES[feature].title}: {told_once}{times}"))
    return blocks
