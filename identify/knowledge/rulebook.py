"""Read `rules/` (and a user's own rules beside their tables) into one rule book."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from identify.errors import TableError
from identify.knowledge.fields import Faults
from identify.knowledge.observation_tables import (
    read_limits,
    read_observation,
    read_observers,
    read_priors,
)
from identify.knowledge.rule_tables import (
    read_cautions,
    read_expert_rules,
    read_lookalikes,
    read_questions,
)
from identify.knowledge.source_tables import check_citations, read_sources
from identify.knowledge.table_files import text_of
from identify.model.catalogue import Catalogue
from identify.model.rule import ExpertRule
from identify.model.rulebook import RuleBook
from identify.model.source import Source

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable


def build_rulebook(folders: "Sequence[Traversable]", catalogue: Catalogue) -> RuleBook:
    """Return the rule book of the shipped `rules/` and of folders that add to it.

    Args:
        folders: `rules/` first, complete; later ones may hold sources.yaml, expert.yaml and
            lookalikes.yaml.
        catalogue: The tables that rules speak of.

    Raises:
        TableError: With every fault found in every file.
    """
    faults = Faults()
    shipped = folders[0]

    def text(name: str) -> str:
        return text_of(shipped.joinpath(name), f"rules/{name}")

    sources: dict[str, Source] = {}
    for file, body in _files(folders, "sources.yaml"):
        sources |= read_sources(body, file, faults)
    rules: dict[str, ExpertRule] = {}
    for file, body in _files(folders, "expert.yaml"):
        for rule in read_expert_rules(body, file, faults, catalogue):
            if rule.key in rules:
                faults.add(file, 1, f'rule "{rule.key}" exists already; give yours another key.')
            rules[rule.key] = rule
    book = RuleBook(
        observation=read_observation(text("instruments.yaml"), text("observation.yaml"), faults),
        priors=read_priors(text("priors.yaml"), faults),
        limits=read_limits(text("limits.yaml"), faults),
        questions=read_questions(text("questions.yaml"), "rules/questions.yaml", faults),
        rules=tuple(rules.values()),
        lookalikes=tuple(
            note
            for file, body in _files(folders, "lookalikes.yaml")
            for note in read_lookalikes(body, file, faults, catalogue)
        ),
        cautions=read_cautions(text("cautions.yaml"), "rules/cautions.yaml", faults),
        people=read_observers(text("observers.yaml"), faults),
        sources=tuple(sources.values()),
    )
    check_citations(faults, {**catalogue.sources, **sources})
    if faults.found:
        raise TableError(*faults.found)
    return book


def _files(folders: "Sequence[Traversable]", name: str) -> list[tuple[str, str]]:
    """Return name for messages and text of a rule file in every folder that has it."""
    found = []
    for folder in folders:
        file = folder.joinpath(name)
        shown = f"{'rules' if folder is folders[0] else folder}/{name}"
        if folder.is_dir() and any(each.name == name for each in folder.iterdir()):
            found.append((shown, text_of(file, shown)))
    return found
