"""A sheet asked line by line: what is missing, one question after the other."""

from functools import partial

from identify.errors import WhichendError
from identify.pages.blocks import Block
from identify.pages.sheet import opening_words
from identify.pages.sheet_checks import finding_block
from identify.pages.sheet_desk import entry_blocks
from identify.plain.console import Console, Stopped
from identify.plain.words import word_told
from identify.sheets.asking import to_ask
from identify.sheets.desk import Desk
from identify.sheets.entries import Entry

KEYS = (
    "Enter leaves a question blank, ? shows an example, ? WORD says what a word means, b goes back "
    "to the last answer, q ends the questions and shows the sheet. Each answer is kept as it is "
    "given."
)


def ask_sheet(desk: Desk, console: Console) -> None:
    """Ask for what a sheet lacks; what was entered before is not asked again.

    Args:
        desk: The sheet at work.
        console: Speaks and listens.
    """
    known = desk.known
    console.finders.append(partial(word_told, known.catalogue, known.book, ""))
    for text in opening_words(KEYS):
        console.say(text)
    given: list[str] = []  # paths answered or left blank here, in order
    while entry := _next(desk, given):
        console.say()
        console.show(entry_blocks(entry, "", desk.draft)[: None if entry.choices else 1])
        try:
            answer = console.hear()
        except Stopped:
            return
        if answer == "q":
            return
        if answer == "?":
            console.say(f"Such as: {entry.example}")
        elif answer == "b":
            if given:
                desk.tell(given.pop(), "")
        elif not answer:
            given.append(entry.path)
        else:
            _answer(desk, entry, answer, given, console)


def _next(desk: Desk, given: list[str]) -> Entry | None:
    open_ones = to_ask(desk.draft.filled.sheet, desk.known)
    return next((each for each in open_ones if each.path not in given), None)


def _answer(desk: Desk, entry: Entry, answer: str, given: list[str], console: Console) -> None:
    number = int(answer) if answer.isascii() and answer.isdecimal() and len(answer) < 3 else 0
    if 1 <= number <= len(entry.choices):
        answer = entry.choices[number - 1]
    trouble = desk.trouble
    try:
        fresh = desk.tell(entry.path, answer)
    except WhichendError as error:
        console.say(str(error))
        return
    given.append(entry.path)
    said = [finding_block(each) for each in fresh]
    console.show([*said, *([Block(desk.trouble)] if desk.trouble not in ("", trouble) else [])])
