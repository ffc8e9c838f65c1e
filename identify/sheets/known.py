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
