"""The shipped tables and rules and one engine over them, built once for all tests of a run."""

from functools import cache

from identify.knowledge.loading import Knowledge, build_knowledge
from identify.model.connection import UNASKED, EndConnection
from identify.model.feature import OF_FIELD, SHARES, Feature
from identify.reasoning.engine import Engine


@cache
def knowledge() -> Knowledge:
    """Return tables and rules read from their files, never from a user's cache."""
    return build_knowledge()


@cache
def shipped_engine() -> Engine:
    """Return the engine of the commands, with the usual prevalence."""
    return Engine(knowledge().catalogue, knowledge().book, knowledge().hazards)


@cache
def array_engine() -> Engine:
    """Return the engine of a batch, where numpy is installed."""
    return Engine(knowledge().catalogue, knowledge().book, knowledge().hazards, arrays=True)


def end_of(name: str) -> EndConnection:
    """Return a shipped end by its id."""
    return knowledge().catalogue.by_id[name]


def figure_of(end: EndConnection, field: str) -> object:
    """Return what a row holds in a field of the end tables, None where it is absent."""
    if field in OF_FIELD:
        return end.sizes.get(OF_FIELD[field])
    if field in SHARES:
        return end.shares.get(Feature(field))
    return getattr(end, f"{field}_mm" if field in UNASKED else field)
