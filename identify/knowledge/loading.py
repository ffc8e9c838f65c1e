"""All that the engine needs, loaded from the cache in one step."""

from identify.frozen import TYPE_CHECKING, dataclass, replace
from identify.knowledge.compiled import compiled, load_section
from identify.knowledge.table_files import data_dir
from identify.light import Mapping, Sequence, cached_property
from identify.model.catalogue import Catalogue
from identify.model.connection import Family
from identify.model.rulebook import RuleBook
from identify.reasoning.hazards import Hazards

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path


@dataclass(frozen=True)
class Knowledge:
    """Tables and rules, and what follows from them before anything is measured."""

    catalogue: Catalogue
    book: RuleBook
    layout: Mapping[str, Sequence[bytes]]

    @cached_property
    def hazards(self) -> Hazards:
        """Of taking one end for another."""
        return Hazards(self.catalogue)


def load_knowledge(extra: "Path | None" = None) -> Knowledge:
    """Return the shipped tables and rules together with a user's own folder.

    Args:
        extra: Folder with `threads/`, `ends/`, `sources.yaml` and `rules/`, all optional.

    Raises:
        TableError: With every fault, if the files must be read anew and have any.
    """
    return load_section("knowledge", Knowledge, lambda: build_knowledge(extra), extra)


def compiled_knowledge() -> bytes:
    """Return the shipped tables and rules as a cache file, for a wheel to bring along."""
    return compiled(Knowledge, build_knowledge())


def build_knowledge(extra: "Path | None" = None) -> Knowledge:
    """Read every YAML file anew; see `load_knowledge`."""
    from identify.knowledge.build import build_catalogue  # yaml only where it is needed
    from identify.knowledge.rulebook import build_rulebook
    from identify.reasoning.layout import lay_out

    tables: list[Traversable] = [data_dir("thread_tables"), *([extra] if extra else [])]
    rules: list[Traversable] = [data_dir("rules"), *([extra / "rules"] if extra else [])]
    catalogue = build_catalogue(tables)
    book = build_rulebook(rules, catalogue)
    return Knowledge(common_first(catalogue, book), book, lay_out(catalogue, book))


def common_first(catalogue: Catalogue, book: RuleBook) -> Catalogue:
    """Return the tables with their families in the order of how common they are.

    Those that must be left alone come last, whatever their prevalence.
    """
    common = book.priors.families
    other = common.get("other", 1.0)

    def rank(family: Family) -> tuple[bool, float, str]:
        return bool(family.refuse), -common.get(family.key, other), family.key

    families = {family.key: family for family in sorted(catalogue.families.values(), key=rank)}
    return replace(catalogue, families=families)
