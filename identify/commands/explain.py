"""`whichend explain WORD`: what a word of the trade means, and lessons on families and traps."""

from __future__ import annotations

from identify.commands.options import add_tables_option, terminal_style
from identify.commands.output import print_json
from identify.drawing.style import STYLES
from identify.frozen import TYPE_CHECKING
from identify.knowledge.glossary_tables import load_glossary
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.glossary import Glossary
from identify.pages.explain import explained, meant
from identify.pages.glossary import term_json
from identify.pages.lessons import lesson_json
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
    glossary, said = load_glossary(), " ".join(args.words)
    if args.json:
        print_json(_plain(known, glossary, said))
        return 0
    style = (args.drawing or terminal_style()).removeprefix("none")
    page = explained(known.catalogue, known.book, glossary, said)
    print(text_of(page, style=style), end="")
    return 0


def _plain(known: Knowledge, glossary: Glossary, said: str) -> dict[str, Any]:
    if not said:
        return {"terms": [term_json(term) for term in glossary.terms]}
    if found := meant(known.catalogue, glossary, said):
        return term_json(found)
    return {"lesson": lesson_json(explained(known.catalogue, known.book, glossary, said))}
