"""What a sheet is worked out with."""

from identify.frozen import dataclass
from identify.model.assembly import AssemblyRules
from identify.model.catalogue import Catalogue
from identify.model.rulebook import RuleBook
from identify.reasoning.hose_knowledge import HoseKnowledge


@dataclass(frozen=True, slots=True)
class SheetKnowledge:
    """Ends, hoses, and the rules of made-up hoses."""

    catalogue: Catalogue
    book: RuleBook
    hoses: HoseKnowledge
    rules: AssemblyRules

    def title_of(self, source: str) -> str:
        """Return the title of a source of tables or rules."""
        if source in self.catalogue.sources:
            return self.catalogue.sources[source].title
        return next((each.title for each in self.book.sources if each.key == source), source)
