"""What the words on a screen mean."""

from functools import cached_property

from identify.frozen import dataclass
from identify.model.source import Support


@dataclass(frozen=True, slots=True)
class Term:
    """One word of the trade in plain words.

    `name` is what our screens call it, `also` are other names for the same thing, `see` names of
    entries beside it. `end` is the id of an end whose picture helps and `view` how it is drawn,
    both empty where none does. `source` says who uses the word so, `basis` how far that was seen.
    """

    name: str
    meaning: str
    source: str
    basis: Support
    also: tuple[str, ...] = ()
    see: tuple[str, ...] = ()
    end: str = ""
    view: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """All its names."""
        return (self.name, *self.also)


@dataclass(frozen=True)
class Glossary:
    """All terms, in the order of the file: from the whole end to its parts, sizes and tools."""

    terms: tuple[Term, ...]

    @cached_property
    def by_name(self) -> dict[str, Term]:
        """Terms by each of their names, in small letters."""
        return {name.lower(): term for term in self.terms for name in term.names}

    def named(self, word: str) -> Term | None:
        """Return the term of a name, whatever its capitals, None if there is none."""
        wanted = " ".join(word.lower().split())
        return self.by_name.get(wanted) or self.by_name.get(wanted.removesuffix("s"))
