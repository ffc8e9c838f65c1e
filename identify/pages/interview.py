"""The interview around its questions: tools, access, answers, where it stands, what is new."""

from __future__ import annotations

from identify.errors import quoted
from identify.frozen import TYPE_CHECKING
from identify.interview.session import (
    ASKED,
    Claimed,
    Equipped,
    Event,
    Reached,
    Unclaimed,
    feature_of,
    replay,
)
from identify.interview.snapshot import Snapshot
from identify.light import Iterable
from identify.model.feature import FEATURES, SEEN, Feature, applies
from identify.model.rule import Access, Moment, QuestionText, Tool
from identify.model.rulebook import RuleBook
from identify.model.verdict import Effect, Lack, Verdict, VerdictKind, Warning, percent
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.ending import nothing_left
from identify.pages.words import (
    ACCESS,
    CARE,
    HAZARDS,
    IN_SHORT,
    TOOL_NOTES,
    TOOLS,
    care_words,
    end_words,
    said,
    sentence,
    suspect_words,
)
from identify.reading.consistency import READ_ONCE

if TYPE_CHECKING:
    from identify.jobs.journal import Saved

SHOWN = 3  # candidates in the line that says where things stand
MOST_WARNINGS = 3  # told after one answer; the others wait, or stand in the verdict
FEW = 0.1  # below this the leader is only the first of many
MAY_STOP = "You may stop here with q, or check further."

WHO = "who"  # what is picked to say who measures
_NOBODY = "nobody"

# ---- tools, who measures, access


def tool_items(care: str, chosen: frozenset[Tool] | None = None) -> list[Block]:
    """Return the tools to choose from, with a tick or none before each if some are `chosen`.

    Under them, who measures with them.
    """
    blocks = []
    for tool in ASKED:
        tick = "" if chosen is None else "[x] " if tool in chosen else "[ ] "
        note = f" ({TOOL_NOTES[tool]})" if tool in TOOL_NOTES else ""
        blocks.append(Block(f"{tick}{TOOLS[tool]}{note}", pick=tool))
    who = Block(f"Who measures? {sentence(care_words(care))}", pick=WHO)
    return [*blocks, who, Block("0  Nothing: eye and hand only.")]


def care_blocks() -> list[Block]:
    """Return the kinds of people who may measure, and what telling it does."""
    return [
        Block("Who takes the readings?", Tone.HEAD),
        BLANK,
        *care_items(),
        BLANK,
        Block(
            "It tells how far a reading is believed, and is kept with the tools. In doubt leave it "
            "at: not told. A slip of somebody called careful is believed too easily."
        ),
    ]


def care_items() -> list[Block]:
    """Return the kinds of people who may measure."""
    return [Block(sentence(care_words(each)), pick=each or _NOBODY) for each in CARE]


def care_picked(pick: str) -> str:
    """Return who measures from what was picked of `care_items`."""
    return "" if pick == _NOBODY else pick


def tool_blocks(chosen: frozenset[Tool], care: str) -> list[Block]:
    """Return the tools to tick; a tick is a word, not a colour."""
    return [
        Block("What have you to hand? A digit ticks or unticks.", Tone.HEAD),
        BLANK,
        *tool_items(care, chosen),
        BLANK,
        Block("Enter goes on. t changes this at any time.", Tone.HEAD),
        BLANK,
        Block("A caliper alone is enough for most ends. New here? g shows an example."),
        Block(f"o: all readings on one line, such as {IN_SHORT}."),
    ]


def tool_names(tools: frozenset[Tool]) -> str:
    """Return the tools at hand as a list."""
    return ", ".join(TOOLS[tool] for tool in ASKED if tool in tools) or "eye and hand"


def access_items() -> list[Block]:
    """Return the three states of the joint."""
    return [Block(f"{ACCESS[each][0]}: {ACCESS[each][1]}", pick=each) for each in Access]


def access_blocks(book: RuleBook) -> list[Block]:
    """Return the three states of the joint, and what to mind before touching it."""
    cautions = [Block(each, Tone.WARN, mark="! ") for each in book.cautions_at(Moment.BEFORE)]
    return [Block("How is the end now?", Tone.HEAD), BLANK, *access_items(), BLANK, *cautions]


def access_words(access: Access) -> str:
    """Return how the end is, as part of a sentence."""
    return ACCESS[access][0].lower()


# ---- answers


def answers_blocks(snapshot: Snapshot, book: RuleBook) -> list[Block]:
    """Return what was answered, set aside, given up and left open; each can be chosen."""
    state = snapshot.state
    suspects = {each.reading.feature: suspect_words(each) for each in snapshot.verdict.suspects}
    blocks = [Block("Answered", Tone.HEAD)]
    if state.readings:
        from identify.reading.short import short_line

        blocks.append(Block(f"In short: {short_line(state.readings)}"))
    for feature in dict.fromkeys(each.feature for each in state.readings):
        mark = "! " if feature in suspects else ""
        first, *more = (said(each, book.question(feature)) for each in state.given(feature))
        under = [f"and once more: {words}" for words in more]
        if feature in suspects:
            under.append(suspects[feature])
        text = f"{mark}{FEATURES[feature].title}: {first}"
        blocks.append(Block(text, pick=feature, under=tuple(under)))
    if not state.readings:
        blocks.append(Block("Nothing yet."))
    on = SEEN[state.gender].words if state.gender else ""
    for reading in state.set_aside:
        text = f"{FEATURES[reading.feature].title}: {said(reading, book.question(reading.feature))}"
        why = f"(kept, not counted: no such part on {on})"
        blocks.append(Block(f"{text} {why}", pick=reading.feature))
    if state.given_up:
        blocks += [BLANK, Block("Cannot tell", Tone.HEAD)]
        blocks += [
            Block(FEATURES[feature].title, pick=feature)
            for feature in FEATURES
            if feature in state.given_up
        ]
    blocks += [BLANK, Block("Open: any may be answered now", Tone.HEAD)]
    return blocks + [
        Block(_open_words(each, snapshot), pick=each.feature)
        for each in book.questions
        if not answered(snapshot, each.feature) and applies(each.feature, state.gender)
    ]


def answered(snapshot: Snapshot, feature: Feature) -> bool:
    """Tell whether a feature has an answer that can be withdrawn."""
    return snapshot.state.answer(feature) is not None or feature in snapshot.state.given_up


def _open_words(text: QuestionText, snapshot: Snapshot) -> str:
    offered = snapshot.verdict.question
    if offered and offered.feature is text.feature:
        return f"{text.title} (asked now)"
    if snapshot.state.access not in text.access:
        return f"{text.title} (not while the end is as it is)"
    return text.title


def change_blocks(snapshot: Snapshot, book: RuleBook, feature: Feature) -> list[Block]:
    """Return what may be done with one answer."""
    given = snapshot.state.given(feature)
    words = "; ".join(said(each, book.question(feature)) for each in given) or "cannot tell"
    deeds = [Block("Read it anew: it was a slip, and the new reading replaces it", pick="anew")]
    if not given:
        deeds = [Block("Answer it after all", pick="anew")]
    elif feature not in READ_ONCE:
        deeds += [
            Block("Read it once more, with this or another tool: both count", pick="once_more"),
            Block("Let somebody else read it too: both count", pick="other_person"),
        ]
    them = "them all" if len(given) > 1 else "it"
    deeds.append(Block(f"Withdraw {them}, as if never given", pick="withdraw"))
    if given:
        deeds.append(Block("Change it to: cannot tell", pick="give_up"))
    return [Block(f"{FEATURES[feature].title}: {words}", Tone.HEAD), BLANK, *deeds]


def event_words(event: Event) -> str:
    """Return what an event was about, as part of a sentence."""
    if isinstance(event, Equipped):
        return "the tools to hand"
    if isinstance(event, Reached):
        return "how the end is"
    if isinstance(event, Claimed | Unclaimed):
        return f"what was said of {quoted(event.words)}"
    return f"the last answer to {FEATURES[feature_of(event)].title.lower()}"


# ---- an interview that was broken off


def broken_off(saved: Saved, book: RuleBook) -> list[Block]:
    """Return when an interview began that was broken off, and what was answered."""
    answers = replay(saved.events).answers
    head = f"The interview begun {_moment(saved)} was not finished. Its answers:"
    told = [
        f"{FEATURES[each.feature].title}: {said(each, book.question(each.feature))}"
        for each in answers
    ]
    return [Block(head if told else f"{head} none yet.", Tone.HEAD), *map(dashed, told)]


def resume_blocks(saved: Saved, book: RuleBook) -> list[Block]:
    """Return the same, and the choice to go on or to begin another."""
    return [
        *broken_off(saved, book),
        BLANK,
        Block("Go on where it stopped.", pick="on"),
        Block("Begin a new one; the old one is kept.", pick="new"),
        Block("Discard it: it is not offered again, and its file stays.", pick="discard"),
    ]


def kept(saved: Saved) -> str:
    """Return that an interview was broken off, in one line for a script."""
    return (
        f"The interview begun {_moment(saved)} was not finished and is kept; "
        '"whichend ask --resume" goes on with it. This one is new.'
    )


def _moment(saved: Saved) -> str:
    return saved.begun.replace("T", " at ")


# ---- where it stands


def standing(verdict: Verdict) -> str:
    """Return where things stand, in a line: leading candidates with their per cent."""
    if not verdict.readings:
        return "Where it stands: nothing measured yet."
    none = f"{percent(verdict.none_of_these)} none of these"
    if not verdict.ranking:
        return f"Where it stands: {none}."
    lead = verdict.ranking[0]
    if lead.probability < FEW and verdict.kind is not VerdictKind.ABSTAIN:
        return (
            f"Where it stands: many ends fit. First of them, with {percent(lead.probability)}, "
            f"is {end_words(lead.end)}."
        )
    shown = [e for e in verdict.ranking[:SHOWN] if e is lead or e.probability >= 0.01]
    names = [end_words(each.end) for each in shown]
    parts = []
    for each, name in zip(shown, names, strict=True):
        form = f", {each.end.form}" if names.count(name) > 1 else ""
        alike = f" (or {len(each.twins)} that cannot be told from it)" if each.twins else ""
        parts.append(f"{percent(each.probability)} {name}{form}{alike}")
    parts = [none, *parts] if verdict.kind is VerdictKind.ABSTAIN else [*parts, none]
    return f"Where it stands: {'; '.join(parts)}."


def nothing_left_blocks(snapshot: Snapshot) -> list[Block]:
    """Return that no question is left, what would still tell, and the key that opens it."""
    verdict = snapshot.verdict
    blocks = [Block(nothing_left(verdict), Tone.HEAD)]
    if verdict.beyond:
        if verdict.beyond.lack in _OPENS:
            blocks.append(Block(_OPENS[verdict.beyond.lack]))
        if verdict.beyond.question.feature in snapshot.state.given_up:
            blocks.append(Block(_TRY_AGAIN))
    return blocks


_OPENS = {
    Lack.TOOL: "t: tick it if you can get one.",
    Lack.ACCESS: "t: say so when the end is undone.",
}
_TRY_AGAIN = "a: lists what could not be told; it can be tried again."


def beware(warning: Warning) -> str:
    """Return a warning in one line."""
    head = "Do not handle it" if warning.effect is Effect.REFUSE else "Beware"
    return f"{head} ({HAZARDS[warning.hazard][1]}): {warning.sentence}"


def new_warnings(verdict: Verdict, told: Iterable[str]) -> tuple[list[Warning], int]:
    """Return warnings to tell now, gravest first, and how many more wait.

    What a rule asks first is not among them: it is the reason of the next question.
    """
    known = set(told)
    fresh = [
        each
        for each in verdict.warnings
        if each.rule not in known and each.effect is not Effect.ASK_FIRST
    ]
    return fresh[:MOST_WARNINGS], max(0, len(fresh) - MOST_WARNINGS)


def more_warnings(count: int) -> str:
    """Return that some warnings were not told yet."""
    if count == 1:
        return "1 more warning stands; v shows it."
    return f"{count} more warnings stand; v shows them."
