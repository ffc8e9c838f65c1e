"""Read the glossary; every fault with file and line."""

from identify.drawing.style import View
from identify.errors import TableError
from identify.knowledge.compiled import load_section
from identify.knowledge.fields import Faults, Fields, known
from identify.knowledge.loading import load_knowledge
from identify.knowledge.source_tables import SUPPORTS, check_citations, cite, open_table
from identify.knowledge.table_files import data_dir, text_of
from identify.model.catalogue import Catalogue
from identify.model.glossary import Glossary, Term
from identify.model.source import Support

FILE = "glossary.yaml"


def load_glossary() -> Glossary:
    """Return the shipped glossary; its pictures are of ends of the shipped tables.

    Raises:
        TableError: With every fault, if the file must be read anew and has any.
    """
    return load_section("glossary", Glossary, _build)


def read_glossary(text: str, file: str, faults: Faults, catalogue: Catalogue) -> Glossary:
    """Return the terms of a `glossary_table/1` file in file order.

    A name means one thing only, and what is seen beside a term is a term.
    """
    top = open_table(text, file, faults, "glossary_table/1")
    entries = list(top.keyed("terms"))
    terms = []
    taken: dict[str, str] = {}
    for name, entry in entries:
        term = _term(name, entry, catalogue)
        known(entry, "see", term.see, tuple(each for each, _ in entries), "term")
        for word in term.names:
            if (before := taken.get(word.lower())) is not None:
                entry.fault("", f'has the name "{word}" of "{before}"; a name means one thing')
            taken[word.lower()] = name
        terms.append(term)
        entry.close()
    top.close()
    return Glossary(tuple(terms))


def _term(name: str, entry: Fields, catalogue: Catalogue) -> Term:
    end = view = ""
    if entry.has("picture"):
        picture = entry.section("picture")
        end, view = picture.text("end"), picture.choice("view", tuple(View))
        known(picture, "end", (end,), tuple(catalogue.by_id), "end")
        picture.close()
    return Term(
        name=name,
        meaning=entry.text("meaning"),
        source=cite(entry, "source"),
        basis=Support(entry.choice("basis", SUPPORTS)),
        also=entry.texts("also"),
        see=entry.texts("see"),
        end=end,
        view=view,
    )


def _build() -> Glossary:
    faults, catalogue = Faults(), load_knowledge().catalogue
    body = text_of(data_dir("rules").joinpath(FILE), f"rules/{FILE}")
    glossary = read_glossary(body, f"rules/{FILE}", faults, catalogue)
    check_citations(faults, {**catalogue.sources})
    if faults.found:
        raise TableError(*faults.found)
    return glossary
