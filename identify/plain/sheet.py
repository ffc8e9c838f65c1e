"""A sheet asked line by line: what is missing, one question after the other."""

from functools import partial

from identify.errors import WhichendError
from identify.model.sheet import HoseSheet
from identify.pages.sheet import opening_words
from identify.plain.console import Console, Stopped
from identify.plain.words import word_told
from identify.sheets.asking import to_ask
from identify.sheets.filling import fill, read_entry
from identify.sheets.known import SheetKnowledge

KEYS = (
    "Enter leaves a question blank, ? shows an example, ? WORD says what a word means, b goes back "
    "to the last answer, q ends the questions and shows the sheet."
)


def ask_sheet(sheet: HoseSheet, known: SheetKnowledge, console: Console) -> HoseSheet:
    """Ask for what a sheet lacks and return what it is then.

    Args:
        sheet: What was entered before; it is not asked again.
        known: Tables and rules.
        console: Speaks and listens.
    """
    console.finders.append(partial(word_told, known.catalogue, known.book, ""))
    for text in opening_words(KEYS):
        console.say(text)
    texts = dict(sheet.entered)
    given: list[str] = []  # paths answered or left blank here, in order
    while True:
        sheet = fill(texts, known).sheet
        entry = next((each for each in to_ask(sheet, known) if each.path not in given), None)
        if entry is None:
            return sheet
        console.say()
        console.say(entry.ask + ("" if entry.needed else " (may stay blank)"))
        try:
            answer = console.hear()
        except Stopped:
            return sheet
        if answer == "q":
            return sheet
        if answer == "?":
            console.say(f"Such as: {entry.example}")
        elif answer == "b":
            if given:
                texts.pop(given.pop(), None)
        elif not answer:
            given.append(entry.path)
        else:
            try:
                read_entry(entry.path, answer, known)
            except WhichendError as error:
                console.say(str(error))
            else:
                texts[entry.path] = answer
                given.append(entry.path)


def ask_where_to_keep(console: Console) -> str:
    """Ask for the file in which the answers are kept; "" where they are not to be."""
    console.say()
    console.say("Keep the answers in a new file? Write its name, or press Enter not to.")
    try:
        return console.hear()
    except Stopped:
        return ""
