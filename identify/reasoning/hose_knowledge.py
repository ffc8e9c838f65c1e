"""What a hose is weighed with: every hose by all its names, errors, prevalence, limits."""

from identify.frozen import dataclass
from identify.model.hose import HoseTables, LayerKind
from identify.model.observation import ObservationModel, VerdictLimits
from identify.model.rulebook import RuleBook
from identify.reasoning.hose_names import Name, names_of


@dataclass(frozen=True, slots=True)
class HoseKnowledge:
    """What a hose is weighed with: the tables, errors of measuring, prevalence, limits.

    `names` are all hoses by all their names, with the prior of each; these total 1 with `no_hose`.
    `type_words` are the types as printed, with their standards, `size_words` the sizes.
    """

    tables: HoseTables
    model: ObservationModel
    limits: VerdictLimits
    names: tuple[tuple[Name, float], ...]
    type_words: tuple[tuple[str, str], ...]
    size_words: tuple[str, ...]


def hose_knowledge(tables: HoseTables, book: RuleBook) -> HoseKnowledge:
    """Return the tables ready to weigh a hose with."""
    habits, bores = tables.habits, book.priors.bores
    other = bores.get("other", 1.0)
    prior = {
        hose.id: habits.types.get(hose.kind.key, habits.other_type)
        * bores.get(f"{hose.nominal_mm:g}", other)
        for hose in tables.hoses
    }
    scale = (1 - habits.no_hose) / sum(prior.values())
    names = tuple(
        (name, prior[hose.id] * scale * name.share)
        for hose in tables.hoses
        for name in names_of(hose, habits)
    )
    types = {
        (word, standard): None
        for hose in tables.hoses
        if hose.kind.layer_kind is not LayerKind.ANY
        for standard, words in hose.kind.names
        for word in words
    }
    sizes = {
        word: None
        for name, _ in names
        if name.hose.kind.dash_means == "bore"
        for field in name.fields
        if field.name in ("labelled", "inch")
        for word, _ in field.words
    }
    return HoseKnowledge(tables, book.observation, book.limits, names, tuple(types), tuple(sizes))
