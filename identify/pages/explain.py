"""The page on whatever is asked for: a word, the parts of an end, a lesson on one family or two."""

from identify.errors import WhichendError
from identify.model.catalogue import Catalogue
from identify.model.connection import Family
from identify.model.glossary import Glossary, Term
from identify.model.rulebook import RuleBook
from identify.pages.glossary import (
    FAMILY,
    PARTS,
    TERM,
    Page,
    list_blocks,
    parts_blocks,
    term_blocks,
    term_of,
)
from identify.pages.lessons import family_lesson, pair_lesson
from identify.pages.tables import family_of
from identify.reading.names import understand

OR = " or "  # between two families, as the lessons themselves write it


def meant(catalogue: Catalogue, glossary: Glossary, said: str) -> Term | None:
    """Return the term that is asked for, None where a family or two are meant.

    The key of a family means the lesson on it, even where it is a word too.
    """
    return None if said in catalogue.families else glossary.named(said)


def explained(catalogue: Catalogue, book: RuleBook, glossary: Glossary, said: str) -> Page:
    """Return the page on what a person asks for; without a word all that can be asked for.

    Args:
        catalogue: The tables.
        book: The rules.
        glossary: The words.
        said: A word, "parts", a family, or two families; a family by its key, by a name, or by the
            name of an end of it.

    Raises:
        WhichendError: Nothing is called so; names the nearest.
    """
    if not said:
        return [*list_blocks(catalogue, glossary, "")]
    if said == PARTS:
        return parts_blocks(catalogue, glossary)
    if term := meant(catalogue, glossary, said):
        return term_blocks(catalogue, term)
    if both := _two(catalogue, said):
        return pair_lesson(catalogue, book, both[0].key, both[1].key)
    try:
        family = family_of(catalogue, said)
    except WhichendError:
        if (only := _family_of_end(catalogue, said)) is None:
            return term_blocks(catalogue, term_of(glossary, said))
        family = only
    return family_lesson(catalogue, book, family)


def picked_page(catalogue: Catalogue, book: RuleBook, glossary: Glossary, pick: str) -> Page:
    """Return the page that a pick of a list or of another page stands for."""
    if pick == PARTS:
        return parts_blocks(catalogue, glossary)
    what, name = pick.split(" ", 1)
    if what == TERM:
        return term_blocks(catalogue, term_of(glossary, name))
    if what == FAMILY:
        return family_lesson(catalogue, book, catalogue.families[name])
    return pair_lesson(catalogue, book, *name.split(" ", 1))


def _family_of_end(catalogue: Catalogue, said: str) -> Family | None:
    """Return the family of the ends that words name, None if they name none or several."""
    try:
        keys = understand(catalogue, said).families
    except WhichendError:
        return None
    return catalogue.families[keys[0]] if len(keys) == 1 else None


def _two(catalogue: Catalogue, said: str) -> tuple[Family, Family] | None:
    """Return the two families that a text names: "flare37 flare45", "JIC or SAE 45"."""
    first, parted, second = said.partition(OR)
    if parted:
        return family_of(catalogue, first.strip()), family_of(catalogue, second.strip())
    words = said.split()
    if len(words) == 2 and all(each in catalogue.families for each in words):
        return catalogue.families[words[0]], catalogue.families[words[1]]
    return None
