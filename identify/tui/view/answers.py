"""The answers so far, and every other question that may be asked out of turn."""

from identify.interview.snapshot import Reference, Snapshot
from identify.model.feature import FEATURES, Feature, applies
from identify.model.rule import QuestionText
from identify.pages.words import retake_words
from identify.tui.view.lines import Block, Tone


def answer_blocks(snapshot: Snapshot, reference: Reference) -> tuple[Block, ...]:
    """Return what was answered, set aside, given up and left open; each can be chosen."""
    state = snapshot.state
    suspects = {
        suspect.reading.feature: retake_words(suspect) for suspect in snapshot.verdict.suspects
    }
    blocks = [Block("Answered", Tone.HEAD)]
    for reading in state.readings:
        title = FEATURES[reading.feature].title
        mark = "! " if reading.feature in suspects else ""
        under = (suspects[reading.feature],) if reading.feature in suspects else ()
        text = f"{mark}{title}: {reading.entered} ({_how(reading.how)})"
        blocks.append(Block(text, pick=reading.feature, under=under))
    if not state.readings:
        blocks.append(Block("Nothing yet."))
    for reading in state.set_aside:
        title = FEATURES[reading.feature].title
        text = f"{title}: {reading.entered} (kept, not counted: no such part on a {state.gender})"
        blocks.append(Block(text, pick=reading.feature))
    if state.given_up:
        blocks += [Block(""), Block("Cannot tell", Tone.HEAD)]
        blocks += [
            Block(FEATURES[feature].title, pick=feature)
            for feature in FEATURES
            if feature in state.given_up
        ]
    blocks += [Block(""), Block("Open: any may be answered now", Tone.HEAD)]
    blocks += [
        Block(_open_words(each, snapshot), pick=each.feature)
        for each in reference.book.questions
        if _open(each, snapshot)
    ]
    return tuple(blocks)


def answered(snapshot: Snapshot, feature: Feature) -> bool:
    """Tell whether a feature has an answer that can be withdrawn."""
    return snapshot.state.answer(feature) is not None or feature in snapshot.state.given_up


def choice_blocks(snapshot: Snapshot, reference: Reference, feature: Feature) -> tuple[Block, ...]:
    """Return what may be done with one answer."""
    reading = snapshot.state.answer(feature)
    said = reading.entered if reading else "cannot tell"
    return (
        Block(f"{FEATURES[feature].title}: {said}", Tone.HEAD),
        Block(""),
        Block("Answer it anew", pick="anew"),
        Block("Withdraw it, as if it had never been given", pick="withdraw"),
        Block("Change it to: cannot tell", pick="give_up"),
    )


def _open(text: QuestionText, snapshot: Snapshot) -> bool:
    state = snapshot.state
    known = state.answer(text.feature) is not None or text.feature in state.given_up
    return not known and applies(text.feature, state.gender)


def _open_words(text: QuestionText, snapshot: Snapshot) -> str:
    offered = snapshot.verdict.question
    if offered and offered.feature is text.feature:
        return f"{text.title} (asked now)"
    if snapshot.state.access not in text.access:
        return f"{text.title} (not while the end is as it is)"
    return text.title


def _how(how: str) -> str:
    return {"eye": "by eye", "counted": "counted", "combs": "comb page"}.get(how, how)
