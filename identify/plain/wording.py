"""What the line dialogue says, as paragraphs; pure, so that every sentence can be tested."""

from collections.abc import Collection, Iterable

from identify.interview.ask import Ask
from identify.interview.session import Equipped, Event, Observed, Reached, SessionState
from identify.interview.snapshot import Reference
from identify.interview.tools import ASKED
from identify.model.feature import FEATURES, Feature, Kind, applies
from identify.model.reading import Choice, Marking, Reading, Trial
from identify.model.rule import Access, QuestionText, Tool
from identify.model.verdict import Effect, Verdict, VerdictKind, Warning
from identify.model.words import percent
from identify.pages.words import ACCESS, HAZARDS, TOOLS, end_words
from identify.reading.choices import how_words

SHOWN = 3  # candidates in the line that says where things stand
MOST_WARNINGS = 3  # told after one answer; the others wait, or stand in the verdict
FEW = 0.1  # below this the leader is only the first of many
KEYS = "b back, ? help, a answers, t tools, v verdict, w write, q stop"
MAY_STOP = "You may stop here with q, or check further."


def question(ask: Ask, number: int) -> list[str]:
    """Return the question with its reasons: why now, what it separates, with what."""
    head = "Asked again" if ask.given else f"Question {number}"
    lines = [f"{head}: {ask.text.title}.", ask.words]
    if ask.given:
        lines.append(f"Your answer stands: {said(ask.given, ask.text)}. A new one replaces it.")
    lines.append(f"Why now: {ask.reasons[0]}")
    lines += ask.reasons[1:]
    tool = ask.tools[0] if ask.tools else Tool.NONE
    if tool is not Tool.NONE or not ask.choices:
        lines.append(f"With: {TOOLS[tool]}, {duration(ask.text.minutes.get(tool, 1.0))}.")
    return lines


def answers(ask: Ask) -> list[str]:
    """Return how the question may be answered."""
    lines = [
        f"{place}  {choice.label}: {choice.line}." for place, choice in enumerate(ask.choices, 1)
    ]
    example = f"{ask.known}: binds after 3 turns" if ask.known else ask.text.example
    if not ask.choices or FEATURES[ask.text.feature].kind is not Kind.CHOICE:
        lines.append(f"{'Or type' if ask.choices else 'Type'} it, such as: {example}")
    return lines


def keys(ask: Ask | None, suspects: Collection[Feature], answered: bool) -> str:
    """Return the letters that may be typed now."""
    if ask is None:
        first = ["Enter stop"]
    else:
        first = ["0 cannot tell"]
        if answered:
            first.append("x withdraw it")
    if suspects:
        first.append("r retake the suspect reading")
    return ", ".join([*first, KEYS if ask else KEYS.replace("? help, ", "")]) + "."


def duration(minutes: float) -> str:
    """Return how long a measurement takes, in words."""
    if minutes < 0.9:
        return f"about {round(minutes * 60, -1):.0f} seconds"
    return "about 1 minute" if minutes < 1.1 else f"about {minutes:g} minutes"


def how_to(ask: Ask, picture: str) -> list[str]:
    """Return how the question is measured, the usual mistake, and the picture in words."""
    lines = [f"How to measure it: {ask.text.title.lower()}."]
    lines += [f"Step {place}. {step}" for place, step in enumerate(ask.text.how_to, 1)]
    lines.append(f"Usual mistake: {ask.text.usual_mistake}")
    others = [TOOLS[tool] for tool in ask.text.tools if tool is not Tool.NONE]
    if others:
        lines.append(f"It can be taken with: {', '.join(others)}.")
    if Tool.COMBS in ask.text.tools:
        lines.append('No gauge? "whichend gauges" writes a page of gauges to print.')
    if picture:
        lines.append(f"The picture of the leading end, in words: {picture}")
    return lines


def said(reading: Reading, text: QuestionText | None) -> str:
    """Return an answer as it was given: a choice by its label, a value with how it was taken."""
    value = reading.value
    if isinstance(value, Choice):
        label = next((c.label for c in text.choices if c.word == value.word), "") if text else ""
        return f"{label} ({value.word})" if label and label.lower() != value.word else value.word
    how = how_words(reading.how)
    measured = not isinstance(value, Marking | Trial)
    return (
        f"{reading.entered}, {how}" if measured and how not in reading.entered else reading.entered
    )


def event(event: Event, reference: Reference) -> str:
    """Return what an event was about, as part of a sentence."""
    if isinstance(event, Equipped):
        return "the tools to hand"
    if isinstance(event, Reached):
        return "how the end is"
    feature = event.reading.feature if isinstance(event, Observed) else event.feature
    return f"the last answer to {FEATURES[feature].title.lower()}"


def standing(verdict: Verdict) -> str:
    """Return where things stand, in a line: leading candidates with their per cent."""
    if not verdict.readings:
        return "Where it stands: nothing measured yet."
    if not verdict.ranking:
        return f"Where it stands: none of these {percent(verdict.none_of_these)}."
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
    parts.append(f"{percent(verdict.none_of_these)} none of these")
    if verdict.kind is VerdictKind.ABSTAIN:
        parts.insert(0, parts.pop())
    return f"Where it stands: {'; '.join(parts)}."


def beware(warning: Warning) -> str:
    """Return a warning in one line."""
    head = "Do not handle it" if warning.effect is Effect.REFUSE else "Beware"
    return f"{head} ({HAZARDS[warning.hazard][1]}): {warning.sentence}"


def broken_off(begun: str, state: SessionState) -> list[str]:
    """Return when an interview began that was broken off, and what was answered."""
    lines = [f"The interview begun {_moment(begun)} was not finished. Its answers:"]
    lines += [f"- {each.feature.replace('_', ' ')}: {said(each, None)}" for each in state.answers]
    return lines if state.answers else [f"{lines[0]} none yet."]


def kept(begun: str) -> str:
    """Return that an interview was broken off, in one line for a script."""
    return (
        f"The interview begun {_moment(begun)} was not finished and is kept; "
        '"whichend ask --resume" goes on with it. This one is new.'
    )


def _moment(begun: str) -> str:
    return begun.replace("T", " at ")


def tools_asked(tools: frozenset[Tool]) -> list[str]:
    """Return the question for the tools."""
    lines = ["What have you to hand? Type the numbers, such as 1 3."]
    lines += [f"{place}  {TOOLS[tool].capitalize()}." for place, tool in enumerate(ASKED, 1)]
    lines.append("0  Nothing: eye and hand only.")
    lines.append(f"Enter alone keeps: {tool_names(tools)}.")
    return lines


def tool_names(tools: frozenset[Tool]) -> str:
    """Return the tools at hand as a list."""
    return ", ".join(TOOLS[tool] for tool in ASKED if tool in tools) or "eye and hand"


def access_asked(access: Access) -> list[str]:
    """Return the question for the access."""
    lines = ["How is the end now?"]
    for place, each in enumerate(Access, 1):
        label, line = ACCESS[each]
        lines.append(f"{place}  {label}: {line}.")
    lines.append(f"Enter alone keeps: {reached(access)}.")
    return lines


def reached(access: Access) -> str:
    """Return how the end is, as part of a sentence."""
    return ACCESS[access][0].lower()


def answer_list(
    state: SessionState, suspects: Collection[Feature], reference: Reference
) -> tuple[list[str], list[Feature]]:
    """Return every answer, given or open, by number, and the features the numbers stand for."""
    lines: list[str] = []
    features: list[Feature] = []

    def add(feature: Feature, words: str = "") -> None:
        features.append(feature)
        lines.append(f"{len(features)}  {FEATURES[feature].title}{words}.")

    lines.append("Your answers:" if state.answers else "Nothing is answered yet.")
    for reading in state.readings:
        mark = " (suspect)" if reading.feature in suspects else ""
        add(reading.feature, f": {said(reading, reference.question(reading.feature))}{mark}")
    for reading in state.set_aside:
        words = said(reading, reference.question(reading.feature))
        add(reading.feature, f": {words} (kept, not counted; see the gender)")
    for feature in FEATURES:
        if feature in state.given_up:
            add(feature, ": cannot tell")
    lines.append("Not answered, and may be at any time:")
    known = set(features)
    for text in reference.book.questions:
        if text.feature not in known and applies(text.feature, state.gender):
            add(text.feature)
    lines.append("Type a number to answer it, change it or withdraw it. Enter goes back.")
    return lines, features


def nothing_left(verdict: Verdict, state: SessionState) -> list[str]:
    """Return that no question is left, and what might open one."""
    if verdict.kind is VerdictKind.IDENTIFIED:
        return ["No question is left: nothing more would tell much."]
    lines = ["No question is left: nothing more can be learnt with these tools."]
    more = ["t: other tools or better access may open more questions."]
    if state.given_up:
        more.append('a: what you answered with "cannot tell" can be tried again.')
    return lines + more


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
    return (
        "1 more warning stands; v shows it."
        if count == 1
        else (f"{count} more warnings stand; v shows them.")
    )
