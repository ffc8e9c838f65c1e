"""What a counter needs beside the questions: a line in short, what somebody says, the next end.

Each hears what it needs and returns the interview as it then stands; the same where nothing came of
it.
"""

from identify.errors import ReadingError, UnknownEndError
from identify.interview.session import Unclaimed
from identify.interview.snapshot import Snapshot
from identify.jobs.course import YOU, Course, onward
from identify.pages.claim import claims_blocks
from identify.pages.onward import onward_blocks, place_words
from identify.pages.short import forms_blocks, taken_blocks
from identify.pages.words import IN_SHORT
from identify.plain.console import Console
from identify.plain.opening import picks

GUESS = "What do you think it is? Say it in words, such as JIC 8. Enter or q passes."


def hear_line(console: Console, course: Course, snapshot: Snapshot) -> Snapshot:
    """Hear readings in short until a line is taken, or left with Enter; tell each token."""
    console.say(f"Readings in short, such as {IN_SHORT}. ? lists all. Enter alone goes back.")
    while line := console.hear():
        if line == "?":
            console.show(forms_blocks())
            continue
        try:
            after, taken = course.enter(snapshot, line)
        except ReadingError as error:
            console.say(error.problem)
            continue
        console.show(taken_blocks(taken, course.engine.book))
        return after
    return snapshot


def hear_claims(console: Console, course: Course, snapshot: Snapshot) -> Snapshot:
    """Hear what somebody says it is, or which claim is taken back; tell how each stands."""
    while True:
        blocks = claims_blocks(course.engine, snapshot.state, snapshot.verdict, picks=True)
        if blocks:
            console.show(blocks)
        back = "Type a number to take it back, or say" if blocks else "Say"
        console.say(f"{back} what somebody calls it, such as JIC 8 by the driver. Enter goes back.")
        line, found = console.hear(), picks(blocks)
        if not line:
            return snapshot
        if line in found:
            snapshot = course.happen(snapshot, Unclaimed(found[line]))
        else:
            snapshot = claimed(console, course, snapshot, line)


def hear_guess(console: Console, course: Course, snapshot: Snapshot) -> Snapshot:
    """Hear what the person who measures thinks it is, before anything is told."""
    console.say(GUESS)
    while (line := console.hear()) and line.lower() != "q":
        after = claimed(console, course, snapshot, line, by=YOU)
        if after is not snapshot:
            console.show(claims_blocks(course.engine, after.state, after.verdict))
            return after
    return course.pass_by(snapshot)


def hear_next(console: Console, course: Course, snapshot: Snapshot) -> Snapshot:
    """Hear which end or job comes next, and with which answers."""
    kept = course.autosave
    places = kept.place, kept.next_place(), kept.next_place(hose=True)
    blocks = onward_blocks(len(snapshot.state.answers), *places)
    console.show(blocks)
    found = picks(blocks)
    while (line := console.hear()) not in found:
        if not line:
            return snapshot
        console.say(f"Type a number from 1 to {len(found)}, or Enter to stay with this end.")
    after = onward(course, snapshot, found[line])
    if after is not snapshot:
        console.say(f"Job {kept.reference}, {place_words(kept.place)}.")
    return after


def claimed(
    console: Console, course: Course, snapshot: Snapshot, line: str, by: str = ""
) -> Snapshot:
    """Return the interview with a claim, or say why it is none."""
    try:
        return course.claim(snapshot, line, by)
    except (ReadingError, UnknownEndError) as error:
        console.say(str(error))
        return snapshot
