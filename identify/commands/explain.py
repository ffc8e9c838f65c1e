"""`whichend explain WORD`: what a word of the trade means, and lessons on families and traps."""

from __future__ import annotations

from identify.commands.options import STYLES, add_tables_option, terminal_style
from identify.commands.output import print_json
from identify.errors import WhichendError
from identify.frozen import TYPE_CHECKING
from identify.knowledge.glossary_tables import load_glossary
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.glossary import Glossary
from identify.pages.glossary import (
    PARTS,
    Page,
    list_blocks,
    parts_blocks,
    term_blocks,
    term_json,
    term_of,
)
from identify.pages.lessons import family_lesson, lesson_json, trap_lesson, trap_named
from identify.pages.tables import family_of
from identify.pages.text import text_of

if TYPE_CHECKING:
    import argparse
    from typing import Any


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    parser.description = (
        "Say a word (explain swivel, explain half angle), a family for a lesson on it (explain "
        "flare37), two families that are confused (explain flare37 flare45), or parts for the "
        "parts of an end. Without a word it lists what there is."
    )
    parser.add_argument("words", nargs="*", metavar="WORD", help="a word, or a family, or two")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--drawing",
        choices=(*STYLES, "none"),
        help="how to draw; braille where the terminal can, else ascii; none tells it in words",
    )
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print what is known of a word."""
    known = load_knowledge(args.tables)
    glossary = load_glossary()
    if args.json:
        print_json(_plain(known, glossary, args.words))
        return 0
    style = args.drawing or terminal_style()
    print(text_of(_page(known, glossary, args.words), style=style.removeprefix("none")), end="")
    return 0


def _page(known: Knowledge, glossary: Glossary, words: list[str]) -> Page:
    catalogue = known.catalogue
    if not words:
        return [*list_blocks(catalogue, glossary, "")]
    if words == [PARTS]:
        return parts_blocks(catalogue, glossary)
    found = glossary.named(" ".join(words))
    if found and words[0] not in catalogue.families:
        return term_blocks(catalogue, found)
    return _lesson(known, glossary, words)


def _lesson(known: Knowledge, glossary: Glossary, words: list[str]) -> Page:
    catalogue, book = known.catalogue, known.book
    if len(words) == 2 and all(each.split(":")[0] in catalogue.families for each in words):
        return trap_lesson(catalogue, book, trap_named(book, *words))
    try:
        family = family_of(catalogue, " ".join(words))
    except WhichendError:
        return term_blocks(catalogue, term_of(glossary, " ".join(words)))
    return family_lesson(catalogue, book, family)


def _plain(known: Knowledge, glossary: Glossary, words: list[str]) -> dict[str, Any]:
    if not words:
        return {"terms": [term_json(term) for term in glossary.terms]}
    found = glossary.named(" ".join(words))
    if found and words[0] not in known.catalogue.families:
        return term_json(found)
    return {"lesson": lesson_json(_page(known, glossary, words))}
