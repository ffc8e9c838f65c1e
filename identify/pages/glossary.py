"""What a word means, which words there are, and the parts of an end: for all faces."""

from collections.abc import Iterable, Mapping
from typing import Any

from identify.drawing.ends import named_section, picture
from identify.drawing.style import View
from identify.errors import WhichendError, near_misses
from identify.light import re
from identify.model.catalogue import Catalogue
from identify.model.connection import Family
from identify.model.glossary import Glossary, Term
from identify.model.source import Source
from identify.pages.blocks import BLANK, Block, Picture, Tone, labelled

Page = list[Block | Picture]
PARTS_OF = (
    "flare37:-8:male",
    "cone24_L:12L:male",
    "cone24_L:12L:female-o-ring-nose",
    "orfs:-8:male",
    "port_g_flat:G1/2:male",
    "orb_un:-8:female",
    "flange61:3/4-in:flange",
    "staple:DN-13:male",
    "qc7241a:12.5:female",
)
"""Ends that between them show every place our drawings name."""
BESIDE_TEXT = 16  # rows of a picture that shares a page of 24 rows with what it shows
PARTS = "parts"
TERM, FAMILY, TRAP = "term", "family", "trap"
"""What a pick of the list stands for; what it is about follows after a blank."""


def term_of(glossary: Glossary, word: str) -> Term:
    """Return the term that a word names.

    Raises:
        WhichendError: There is none; names the nearest.
    """
    if found := glossary.named(word):
        return found
    near = near_misses(word.lower(), glossary.by_name, 3, 0.6)
    hint = f" Nearest: {', '.join(near)}." if near else ' "whichend explain" lists them.'
    raise WhichendError(f'"{word[:60]}" is not in the glossary.{hint}')


def term_blocks(catalogue: Catalogue, term: Term) -> Page:
    """Return one term: what it means, other names, a picture, what stands beside it, who says so.

    What stands beside it can be picked.
    """
    blocks: Page = [Block(term.name, Tone.HEAD), Block(term.meaning)]
    if term.also:
        blocks.append(labelled("Also", ", ".join(term.also)))
    if (end := catalogue.by_id.get(term.end)) is not None:
        sheet = picture(end, catalogue.thread_of(end), View(term.view))
        blocks += [Picture(sheet, BESIDE_TEXT), Block(f"Shown on: {end.named}.", Tone.QUIET)]
    beside = [Block(name, pick=f"{TERM} {name}") for name in term.see]
    if end is not None:
        family = catalogue.families[end.family]
        beside.append(_lesson(family)._replace(text=f"Lesson: {family.title}"))
    if beside:
        blocks += [BLANK, Block("See also", Tone.HEAD), *beside]
    return [
        *blocks,
        BLANK,
        labelled("Source", source_words(catalogue.sources, term.source, term.basis)),
    ]


def source_words(sources: Mapping[str, Source], source: str, basis: str) -> str:
    """Return a source as it stands at the foot of a page."""
    return f"{sources[source].title} ({basis})"


def list_blocks(
    catalogue: Catalogue,
    glossary: Glossary,
    wanted: str,
    first: Iterable[Term] = (),
    leading: Iterable[Family] = (),
) -> list[Block]:
    """Return what a search of the words finds: terms, then lessons on families.

    Args:
        catalogue: The tables.
        glossary: All terms.
        wanted: What was typed; empty for all.
        first: Terms of the question that is open, listed before the rest.
        leading: Families that lead; the lessons on them are listed first of all.
    """
    low = wanted.lower().strip()
    near, lead = ((), ()) if low else (tuple(first), tuple(leading))
    terms = [term for term in glossary.terms if _found(low, term.names) and term not in near]
    families = [
        each
        for each in catalogue.families.values()
        if each not in lead
        and _found(low, (each.key, each.name, each.usual_name, *each.also_called))
    ]
    blocks = [] if low else [Block("The parts of an end, in pictures", pick=PARTS)]
    for heading, found in (
        ("Lessons on what leads", [_lesson(each) for each in lead]),
        ("Words of the open question", [_entry(each) for each in near]),
        ("Words", [_entry(each) for each in terms]),
        ("Lessons: families, and what each is confused with", [_lesson(e) for e in families]),
    ):
        blocks += [Block(heading, Tone.HEAD), *found] if found else []
    return blocks or [Block("No word and no family here is called so.")]


def _lesson(family: Family) -> Block:
    return Block(family.title, pick=f"{FAMILY} {family.key}")


def _found(low: str, names: Iterable[str]) -> bool:
    return any(low in name.lower() for name in names)


def _entry(term: Term) -> Block:
    return Block(f"{term.name}: {term.meaning}", pick=f"{TERM} {term.name}")


def terms_in(glossary: Glossary, text: str) -> tuple[Term, ...]:
    """Return the terms that a text uses, in the order of the glossary.

    A longer name goes before a shorter one within it: "flange head" is no "head".
    """
    low, found = text.lower(), set()
    for name in sorted(glossary.by_name, key=len, reverse=True):
        pattern = rf"(?<![\w-]){re.escape(name)}s?(?![\w-])"
        if re.search(pattern, low):
            low = re.sub(pattern, " ", low)
            found.add(glossary.by_name[name].name)
    return tuple(term for term in glossary.terms if term.name in found)


def parts_blocks(catalogue: Catalogue, glossary: Glossary) -> Page:
    """Return the parts of an end: cut ends with their places named, and what each name means."""
    blocks: Page = [Block("The parts of an end", Tone.HEAD),
                    Block("Each end is cut open; its places are named as the trade names them."),
                    BLANK]  # fmt: skip
    told: set[str] = set()
    for end in (catalogue.by_id[name] for name in PARTS_OF if name in catalogue.by_id):
        sheet = named_section(end, catalogue.thread_of(end))
        blocks += [Block(end.named, Tone.HEAD), Picture(sheet)]
        for note in sheet.notes:
            term = glossary.named(note.label)
            if term and term.name not in told:
                told.add(term.name)
                blocks.append(Block(f"{term.name}: {term.meaning}", pick=f"{TERM} {term.name}"))
        blocks.append(BLANK)
    return blocks


def term_json(term: Term) -> dict[str, Any]:
    """Return a term as plain values, ready for `json.dumps`."""
    return {
        "term": term.name,
        "meaning": term.meaning,
        "also": list(term.also),
        "see": list(term.see),
        "picture": {"end": term.end, "view": term.view} if term.end else None,
        "source": term.source,
        "basis": str(term.basis),
    }
