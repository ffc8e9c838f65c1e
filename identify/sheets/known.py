"""What a sheet is worked out with."""

from identify.frozen import NamedTuple, dataclass
from identify.model.assembly import AssemblyRules
from identify.model.catalogue import Catalogue
from identify.model.rulebook import RuleBook
from identify.reasoning.hose_knowledge import HoseKnowledge


class MadeWith(NamedTuple):
    """By what a sheet can be traced: digests of the tables of ends and of hoses, and of the rules.

    `program` is the version of this program. "" stands for what was not asked for.
    """

    ends: str = ""
    hoses: str = ""
    rules: str = ""
    program: str = ""


@dataclass(frozen=True, slots=True)
class SheetKnowledge:
    """Ends, hoses, the rules of made-up hoses, and by what all this can be traced."""

    catalogue: Catalogue
    book: RuleBook
    hoses: HoseKnowledge
    rules: AssemblyRules
    made_with: MadeWith = MadeWith()

    def title_of(self, source: str) -> str:
        """Return the title of a source of tables or rules."""
        if source in self.catalogue.sources:
            return self.catalogue.sources[source].title
        return next((each.title for each in self.book.sources if each.key == source), source)
