"""What a word means, asked at any prompt of a dialogue: "? crest"."""

from identify.errors import WhichendError
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.rulebook import RuleBook
from identify.pages.text import HELD, text_of

ASKS = "?"
ANY_WORD = "? WORD what it means"


def lesson_words(end: EndConnection) -> str:
    """Return how the lesson on an end is asked for, and on what it is confused with."""
    return f"Lesson on {end.family_name} and what it is confused with: {ASKS}{HELD}{end.family}"


def word_told(catalogue: Catalogue, book: RuleBook, style: str, line: str) -> str:
    """Return the page on a word that is asked for; "" for a line that asks for none.

    Args:
        catalogue: The tables.
        book: The rules.
        style: How pictures are drawn, empty to tell them in words.
        line: As it was typed.
    """
    wanted = " ".join(line.removeprefix(ASKS).split())
    if not line.startswith(ASKS) or not wanted:
        return ""
    from identify.knowledge.glossary_tables import load_glossary  # seldom asked for
    from identify.pages.explain import explained

    try:
        page = explained(catalogue, book, load_glossary(), wanted)
    except WhichendError as error:
        return f"{error}\n"
    return text_of(page, style=style)
